using System.ComponentModel;
using System.Runtime.InteropServices;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class PlanCommand : Command<PlanCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--want <WANT>")]
        [Description("How it is to sit or fall: \"sinks slowly, level\", \"stands at 70 deg, 30 mm of nose out\" …, or a NAME.want.json.")]
        public string? Want { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("Your box, NAME.box.json; without it, a starter's catalogue.")]
        public string? Box { get; init; }

        [CommandOption("--wood <ID>")]
        [Description("Which wood of the box it is cut from, by its id; left out, the one that the lure names.")]
        public string? Wood { get; init; }

        [CommandOption("--keep <NAME>")]
        [Description("A weight of the lure that stays where it is; may be said several times.")]
        public string[] Keep { get; init; } = [];

        [CommandOption("--pockets <N>")]
        [Description("At most so many pockets, 1 to 8.")]
        [DefaultValue(4)]
        public int Pockets { get; init; }

        [CommandOption("--wall <MM>")]
        [Description("Sound wood to leave outside a pocket.")]
        public double? Wall { get; init; }

        [CommandOption("--water <WATER>")]
        [Description("tap, lake, brackish, ocean, reef, or S,T (salinity, °C).")]
        public string? Water { get; init; }

        [CommandOption("--log <FILE>")]
        [Description("Its readings, NAME.log.json: plan for the lure as they have it, with odds; once it is glued, what is left to do.")]
        public string? Log { get; init; }

        [CommandOption("--at <STAGE>")]
        [Description("How far it is: blank, dry-fit, glued, sealed or finished; without it, as far as the log has come. At dry-fit the smallest change comes first.")]
        public string? At { get; init; }

        [CommandOption("--take <N>")]
        [Description("Which plan --out writes.")]
        [DefaultValue(1)]
        public int Take { get; init; }

        [CommandOption("--out <FILE>")]
        [Description("Write the lure with that plan's weights.")]
        public string? Out { get; init; }

        [CommandOption("--trim-hole")]
        [Description("Tell what a hole that can be drilled after gluing would do to that plan.")]
        public bool TrimHole { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite that file if it is there.")]
        public bool Force { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        (PlanMade made, Exit exit, IReadOnlyList<Warning> warnings) = Ask(settings, cancellation);
        if (settings.Json) Paper.Print(PlanJson.Of(made, warnings));
        else
            foreach (string line in Lines(made, settings.TrimHole, settings.Notation, Paper.Width)) Console.Out.WriteLine(line);
        foreach (string line in settings.Json ? [] : Paper.Notes(warnings, Paper.Width)) Console.Error.WriteLine(line);
        return (int)exit;
    }

    private static (PlanMade Made, Exit Exit, IReadOnlyList<Warning> Warnings) Ask(Settings settings, CancellationToken cancellation)
    {
        (string, Func<Fault, Refusal>)[] options =
        [
            (nameof(WhichWeights.Want), Asked.By("--want")),
            (nameof(WhichWeights.Pockets), Asked.By("--pockets")), (nameof(WhichWeights.WallMm), Asked.By("--wall", next: "Write for example --wall 2.5.")),
            // A name that the lure has twice is the lure's fault, whatever option said it.
            (nameof(WhichWeights.Keep), fault => fault.Kind == "reference" ? new Refusal(Exit.InputWrong, [fault with { Path = "--keep" }]) : Asked.By("--keep")(fault)),
            (nameof(WhichWeights.TrimHoleOf), Asked.By("--take")),
        ];
        Want want = WantOf(settings.Want);
        if (settings.Water is { } water) want = want with { Circumstances = want.Circumstances with { Water = Options.Water(water) } };
        Asked.Sound(WhichWeights.FlawIn(settings.Pockets, settings.Wall), options);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        (MakersBox box, IReadOnlyList<Warning> ofBox) = settings.Box is { } file ? Files.LoadBox(file) : (Catalogue.Starter, []);
        (design, IReadOnlyList<Warning> ofWood) = WoodOfBox.Chosen(design, box, settings.Wood);
        WhichWeights question = new(design, box, want)
        {
            Pockets = settings.Pockets, WallMm = settings.Wall, Keep = [.. settings.Keep], TrimHoleOf = settings.TrimHole ? settings.Take : null,
        };
        Asked.Sound(question.FlawInWant() ?? question.FlawInKeep(), options);
        (TubLog? log, IReadOnlyList<Warning> ofLog) = settings.Log is { } path ? Files.LoadLog(path) : (null, (IReadOnlyList<Warning>)[]);
        if (log is not null) Asked.Sound(question.FlawInLog(log));
        question = question with { Log = log, At = settings.At is { } at ? Options.StageOf("--at", at) : null };
        using var work = new AtWork(cancellation);
        (PlanMade made, Exit exit) = Asked.Of(question.Answer(work.Pace), fault => fault with { Path = "--want", Next = "Ask for less: see readings." }, options);
        Asked.Take(made.Answer, settings.Take);
        if (settings.Out is { } output && !made.Answer.Plans.IsEmpty) Files.Save(output, LureFile.Write(made.Answer.Plans[settings.Take - 1].Design), settings.Force);
        return (made, exit, [.. warnings, .. ofBox, .. ofWood, .. ofLog]);
    }

    /// <summary>From words, or from a file that ends as wants do.</summary>
    private static Want WantOf(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) throw Options.Wrong("--want", "nothing", WantWords.Understood, "Say how it is to sit or fall.");
        if (text.EndsWith(".json", StringComparison.OrdinalIgnoreCase)) return Files.LoadWant(text);
        (Want? want, string unknown) = WantWords.Parse(text);
        return want ?? throw Options.Wrong("--want", $"\"{unknown}\"", WantWords.Understood, WantWords.Next(unknown));
    }

    internal static IEnumerable<string> Lines(PlanMade made, bool hole, Notation notation, int width)
    {
        PlanAnswer answer = made.Answer;
        foreach (string line in Paper.Said($"{made.Design.Name}: weights from {made.Box.Name}", width)) yield return line;
        yield return "";
        Circumstances c = answer.Want.Circumstances;
        string where = $"{Words.Of(c.Stage)}, {Words.Of(c.Rig)}, {Words.In(c.Water)}";
        foreach (string line in Paper.Said($"Wanted: {WantWords.Of(answer.Want, notation)}, {WantWords.Within(answer.Want, notation)} ({where}).", width)) yield return line;
        if (made.Now is { } now)
        {
            foreach (string line in Paper.Said(DoubtWords.AsItIs(now.Stage, now.Readings, now.AsItIs, notation), width)) yield return line;
            if (now.Stage >= Stage.Glued)
            {
                foreach (string line in Left(now, notation, width)) yield return line;
                yield break;
            }
        }
        if (made.Left.Count > 0)
            foreach (string line in Paper.Said($"Leaves out the lure's own {string.Join(", ", made.Left.Select(p => p.Name))}; --keep NAME keeps one.", width)) yield return line;
        if (made.IsDryFit)
        {
            yield return "";
            foreach (string line in Smallest(made, notation, width)) yield return line;
        }
        if (answer.WhyNot is { } why)
        {
            // Why all new weights can't do it is of no use to whose own do.
            if (made.Smallest is { What: ChangeOf.Nothing }) yield break;
            yield return "";
            foreach (string line in Paper.Said(PlanWords.Of(why, answer, made.Design, notation), width)) yield return line;
            yield break;
        }
        if (made.IsDryFit) yield return "";
        // To move nothing is the smallest change there is.
        if (made.Smallest is not { What: ChangeOf.Nothing } && made.Now is { } odds && !odds.Plans.IsEmpty && odds.AsItIs.Chance >= odds.Plans.Max(p => p.Chance))
            foreach (string line in Paper.Said("Leave it as it is: no plan has better odds.", width)) yield return line;
        string proof = answer.Proved ? "the first plan is proved the best of them"
            : answer.Gap < 0.05 ? "none is noticeably better than the first plan"
            : $"not all could be searched: another may be better than the first plan, by at most {notation.Number(100 * answer.Gap, 0)}\u00A0% of what one more pocket counts";
        foreach (string line in Paper.Said($"Of {answer.Seats} places for {answer.Offers} ways to make a weight, {notation.Length(1)} apart, {proof}.", width)) yield return line;
        for (int i = 0; i < answer.Plans.Length; i++)
        {
            yield return "";
            foreach (string line in PlanLines.Of(answer, i, notation, width, made.Now is { } by ? by.Plans[i] : null)) yield return line;
        }
        foreach (string line in hole ? Hole(made, notation, width) : []) yield return line;
        yield return "";
        IEnumerable<string> lead = answer.Plans[0].DryFit.Prediction.Ledger.Chains.Where(chain => chain.StandIn is not null)
            .Select(chain => $"{notation.Weight(chain.StandIn!.Value.Mass)} at the {StrengthWords.Place(chain.Place)}");
        if (lead.Any())
            foreach (string line in Paper.Said($"Stand-ins for the tub, lead on thread: {string.Join(", ", lead)}.", width)) yield return line;
        foreach (string line in Paper.Said(PlanWords.Caution, width)) yield return line;
    }

    // Its pockets are cut: what changes least comes first.
    private static IEnumerable<string> Smallest(PlanMade made, Notation notation, int width)
    {
        foreach (string line in Paper.Said(PlanWords.Of(made.Smallest, made.Design, notation), width)) yield return line;
        if (made.Smallest is not { What: not ChangeOf.Nothing } change) yield break;
        foreach (string line in Paper.Said(Sentence.Of(change.Prediction, notation), width, "   ")) yield return line;
        if (made.SmallestOdds is { } odds)
            foreach (string line in Paper.Said(DoubtWords.Of(odds, notation), width, "   ")) yield return line;
        if (change.New is { } piece)
            foreach (string line in Paper.Said(PlanWords.Pocket(piece, notation), width, "   ")) yield return line;
    }

    // It is glued: no weight can be moved any more.
    private static IEnumerable<string> Left(Now now, Notation notation, int width)
    {
        yield return "";
        string head = now.Remedies.IsEmpty ? "It is glued, and no remedy brings it nearer." : "It is glued: what is left to do, best odds first";
        foreach (string line in Paper.Said(head, width)) yield return line;
        foreach (RemedyOdds r in now.Remedies)
        {
            string seal = r.Remedy.Remedy.BreaksSeal ? "; breaks the seal" : "";
            foreach (string line in Paper.Said($"{SwapWords.Of(r.Remedy.Remedy, notation)}: {SwapWords.Change(r.Remedy.Effect, notation)}{seal}.", width, "  ", "  ")) yield return line;
            foreach (string line in Paper.Said(DoubtWords.Of(r.Odds, notation), width, "    ")) yield return line;
        }
        if (now.Remedies.Any(r => r.Remedy.Remedy.BreaksSeal))
            foreach (string line in Paper.Said(SwapWords.DrillCaution, width)) yield return line;
    }

    private static IEnumerable<string> Hole(PlanMade made, Notation notation, int width)
    {
        yield return "";
        yield return made.TrimHole.Count > 0 ? "A trim hole, to keep in mind until it is glued and tried" : "There is no sound spot for a trim hole.";
        foreach (RemedyEffect effect in made.TrimHole)
            foreach (string line in Paper.Said($"{SwapWords.Of(effect.Remedy, notation)}: {SwapWords.Change(effect.Effect, notation)}.", width, "   ")) yield return line;
        if (made.TrimHole.Count > 0)
            foreach (string line in Paper.Said(SwapWords.DrillCaution, width, "   ")) yield return line;
    }
}
