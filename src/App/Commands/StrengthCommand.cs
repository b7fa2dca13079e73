using System.ComponentModel;
using System.Globalization;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Strength;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class StrengthCommand : Command<StrengthCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--drag <KGF>")]
        [Description("The reel's strike drag, kgf, to hold each link against.")]
        public string? Drag { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("Your box, NAME.box.json: what its hooks, rings and leaders hold, where the lure says nothing.")]
        public string? Box { get; init; }

        [CommandOption("--why")]
        [Description("The formula and the source beside each figure.")]
        public bool Why { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        (string, Func<Fault, Refusal>) drag = (nameof(WhatHolds.DragKgf), Asked.By("--drag", $"\"{settings.Drag}\"",
            string.Create(CultureInfo.InvariantCulture, $"a number of kgf with a dot, {WhatHolds.LeastDrag} to {WhatHolds.MostDrag}"), "Write for example --drag 10."));
        double? kgf = settings.Drag is { } text ? Options.Number(text) ?? double.NaN : null;
        Asked.Sound(WhatHolds.FlawIn(kgf), drag);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        (MakersBox? box, IReadOnlyList<Warning> ofBox) = settings.Box is { } path ? Files.LoadBox(path) : (null, (IReadOnlyList<Warning>)[]);
        warnings = [.. warnings, .. ofBox];
        StrengthAnswer answer;
        using (var work = new AtWork(cancellation)) (answer, _) = Asked.Of(new WhatHolds(design, kgf) { Box = box }.Answer(work.Pace), null, drag);
        if (settings.Json)
        {
            Paper.Print(StrengthJson.Of(answer, warnings));
            return (int)Exit.Done;
        }
        int width = Paper.Width;
        foreach (string line in Lines(answer, settings.Why, settings.Notation, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }

    /// <summary>What lets go first, then drag and leader beside it, then each path link by link, then how far hooks come.</summary>
    internal static IEnumerable<string> Lines(StrengthAnswer answer, bool why, Notation notation, int width)
    {
        LureStrength strength = answer.Strength;
        Figures? told = why ? [] : null;
        foreach (string line in Said($"{answer.Design.Name}: what holds a fish", width)) yield return line;
        yield return "";
        foreach (string line in Said(First(strength, notation), width)) yield return line;
        foreach (string line in Beside(answer, told, notation, width)) yield return line;
        foreach (LoadPath path in strength.Paths)
        {
            yield return "";
            foreach (string line in Along(path, answer.Drag, told, notation, width)) yield return line;
        }
        yield return "";
        yield return "How far the hooks come";
        foreach (string sentence in StrengthWords.Of(strength.Reach, notation))
            foreach (string line in Said(sentence, width, "  ")) yield return line;
        yield return "";
        foreach (string line in Said($"The wire is {notation.Length(strength.WireLength)} along its bends: cut {notation.Length(strength.CutLength)}.", width)) yield return line;
        yield return "";
        if (!why)
            foreach (string line in Said("Figures that the lure or the box does not state are worked out from typical ones; --why shows formula and source of each.", width)) yield return line;
        foreach (string line in Said(StrengthWords.Caution, width)) yield return line;
    }

    // Figures whose formula was told already; null where none is to be told.
    private sealed class Figures : HashSet<Figure>;

    private static IEnumerable<string> Said(string text, int width, string indent = "") =>
        Paper.Said(text, width, indent, hang: indent.Length > 0 ? "  " : "");

    private static string First(LureStrength strength, Notation notation)
    {
        if (strength.Weakest is not { } weakest) return "Of no link is it known what it holds.";
        string unknown = weakest.Path.Links.Any(l => l.LetsGo is null) ? " of what is known" : "";
        return $"With {StrengthWords.Of(weakest.Path)}, the {StrengthWords.Of(weakest.Link)} lets go first{unknown}, at {notation.Force(weakest.Link.LetsGo!.Newtons)}.";
    }

    private static IEnumerable<string> Beside(StrengthAnswer answer, Figures? told, Notation notation, int width)
    {
        if (answer.Drag is { } drag)
            foreach (string line in Paper.Row("Drag as set", width, (notation.Force(drag), Column))) yield return line;
        if (answer.Design.Leader is not null)
        {
            foreach (string line in Paper.Row("The leader breaks at", width, (Load(answer.Strength.Leader, notation), Column))) yield return line;
            if (answer.Strength.Leader is { } leader && told?.Add(leader) == true)
                foreach (string line in Said($"{StrengthWords.Why(leader)}; knots take some of it", width, "    ")) yield return line;
        }
        if (answer.Drag is { } set)
            foreach (string line in Said($"Wanted of every link: {notation.Number(StrengthWords.TimesTheDrag, 0)} times the strike drag, {notation.Force(StrengthWords.TimesTheDrag * set)} (common practice, from memory).", width)) yield return line;
        if (answer.Strength.Wire is null) yield return "There are no figures for this wire.";
        else if (StrengthWords.Of(answer.Strength.Wire.Grade) is { } taken)
            foreach (string line in Said(taken, width)) yield return line;
    }

    private const int Column = 10;
    private const int Times = 7;

    private static string Load(Figure? figure, Notation notation) => figure is null ? "unknown" : notation.Force(figure.Newtons);

    private static IEnumerable<string> Along(LoadPath path, double? drag, Figures? told, Notation notation, int width)
    {
        string of = StrengthWords.Of(path);
        (string, int)[] heads = drag is null ? [("lets go", Column)] : [("lets go", Column), ("drag", Times)];
        foreach (string line in Paper.Row(Paper.Plain(char.ToUpperInvariant(of[0]) + of[1..]), width, heads)) yield return line;
        foreach (Link link in path.WeakestFirst)
            foreach (string line in OfLink(link, drag, told, notation, width)) yield return line;
        foreach (WoodBearing wood in path.Wood)
            foreach (string line in Said($"Pulled square, the wire cuts into the wood at the {StrengthWords.Place(wood.Place)} from {Explained(wood.Figure, told, notation)}.", width, "  "))
                yield return line;
    }

    private static IEnumerable<string> OfLink(Link link, double? drag, Figures? told, Notation notation, int width)
    {
        var values = new List<(string, int)> { (Load(link.LetsGo, notation), Column) };
        if (drag is { } set) values.Add((link.LetsGo is null ? "" : "× " + notation.Number(link.LetsGo.Newtons / set, 1), Times));
        foreach (string line in Paper.Row("  " + Paper.Plain(StrengthWords.Of(link)), width, [.. values])) yield return line;
        if (link.LetsGo is { } lets && told?.Add(lets) == true)
            foreach (string line in Said(StrengthWords.Why(lets), width, "    ")) yield return line;
        if (link.OutOfShape is { } bends)
            foreach (string line in Said($"out of shape from {Explained(bends, told, notation)}", width, "    ")) yield return line;
        if (link.Otherwise is { } other)
            foreach (string line in Said($"{StrengthWords.Of(other.Condition)} {Explained(other.Figure, told, notation)}", width, "    ")) yield return line;
    }

    // A formula stands beside the first figure that it gave; the same figure again needs only its number.
    private static string Explained(Figure figure, Figures? told, Notation notation) =>
        told?.Add(figure) == true ? $"{notation.Force(figure.Newtons)}: {StrengthWords.Why(figure)}" : notation.Force(figure.Newtons);
}
