using System.Globalization;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>plan</c>: which weights, where, so that it does what is wanted.</summary>
/// <param name="File">The lure.</param>
/// <param name="Want">In words, or a <c>*.want.json</c>.</param>
/// <param name="Box">The box; null: the catalogue's starter.</param>
/// <param name="Keep">Names of weights that stay where they are.</param>
/// <param name="Pockets">At most so many.</param>
/// <param name="Wall">Of sound wood, mm; null: as usual.</param>
/// <param name="Water">Null: the sea.</param>
/// <param name="Take">The number of the plan to write into <paramref name="Out"/>.</param>
/// <param name="Out">Where to write the lure with that plan.</param>
/// <param name="Force">Overwrite it.</param>
/// <param name="TrimHole">Tell what a hole that stays reachable after gluing could do to that plan.</param>
/// <param name="Log">Its readings: plan for the lure as they have it, with odds; null: for the drawing.</param>
/// <param name="At">How far it is; null: as far as the log has come.</param>
internal sealed record PlanRequest(
    string File, string? Want, string? Box, IReadOnlyList<string> Keep, int Pockets, double? Wall, string? Water, int Take, string? Out, bool Force, bool TrimHole = false, string? Log = null, string? At = null);

/// <param name="Design">As read.</param>
/// <param name="Box">What was planned from.</param>
/// <param name="Left">The design's own weights that the plans leave out.</param>
/// <param name="Answer">Plans or why there are none.</param>
/// <param name="TrimHole">Of the plan that is taken: what each plug does in one hole that can be drilled after gluing; empty when not asked, or there is no sound spot.</param>
/// <param name="Now">By the readings, with odds; null without a log.</param>
/// <param name="Warnings">Of the file.</param>
internal sealed record PlanMade(
    LureDesign Design, MakersBox Box, IReadOnlyList<BallastPiece> Left, PlanAnswer Answer, IReadOnlyList<RemedyEffect> TrimHole, Now? Now, IReadOnlyList<Warning> Warnings);

internal static class Plan
{
    private const int MostPockets = 8;
    private const double ThinnestWall = 0.5;
    private const double ThickestWall = 10;

    public static PlanMade Run(PlanRequest request, Pace pace)
    {
        Want want = WantOf(request.Want);
        if (request.Water is { } water) want = want with { Circumstances = want.Circumstances with { Water = Predict.ParseWater(water) } };
        PlanLimits limits = Limits(request);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        (MakersBox box, IReadOnlyList<Warning> told) = request.Box is { } file ? Files.LoadBox(file) : (Catalogue.Starter, []);
        int[] keep = Kept(design, request.Keep);
        Knowing? knowing = null;
        LureDesign lure = design;
        Stage stage = Stage.Blank;
        if (request.Log is { } log)
        {
            (knowing, lure, stage, IReadOnlyList<Warning> ofLog) = Replan.Believe(design, log, request.At, want, pace);
            told = [.. told, .. ofLog];
            if (stage >= Stage.Glued)
                return new PlanMade(design, box, [], new PlanAnswer(want, null, [], false, 0, 0, 0, null), [], Replan.Remedies(knowing, lure, stage, box, want, pace), [.. warnings, .. told]);
        }
        LureDesign bare = lure with { Ballast = [.. keep.Select(i => lure.Ballast[i])] };
        PlanAnswer answer = Planner.Of(bare, box, want, limits, pace);
        CheckTake(answer, request.Take);
        if (request.Out is { } output && !answer.Plans.IsEmpty) Files.Save(output, LureFile.Write(answer.Plans[request.Take - 1].Design), request.Force);
        IReadOnlyList<RemedyEffect> hole = request.TrimHole && !answer.Plans.IsEmpty ? TrimHole(answer.Plans[request.Take - 1], box, want, pace) : [];
        return new PlanMade(design, box, [.. design.Ballast.Where((_, i) => !keep.Contains(i))], answer, hole,
            knowing is null ? null : Replan.Plans(knowing, bare, stage, answer, keep, pace), [.. warnings, .. told]);
    }

    /// <summary>The places in the file of the weights that are to stay, in its order; refuses a name that none has, or several.</summary>
    private static int[] Kept(LureDesign design, IReadOnlyList<string> names)
    {
        var kept = new SortedSet<int>();
        foreach (string name in names)
        {
            int[] meant = [.. design.Ballast.Index().Where(p => p.Item.Name == name).Select(p => p.Index)];
            if (meant.Length == 0)
                throw new Refusal(Exit.CommandLineWrong, "command-line", "--keep", $"\"{name}\"",
                    design.Ballast.IsEmpty ? "nothing: the lure has no weights" : string.Join(", ", design.Ballast.Select(p => $"\"{p.Name}\"")), "Name a weight of the lure.");
            if (meant.Length > 1) throw Readings.Twins("--keep", name, meant.Select(i => new Thing(ThingKind.Weight, i)));
            kept.Add(meant[0]);
        }
        return [.. kept];
    }

    /// <summary>Refuses the number of a plan that there is not.</summary>
    public static void CheckTake(PlanAnswer answer, int take)
    {
        if (!answer.Plans.IsEmpty && (take < 1 || take > answer.Plans.Length))
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--take", $"{take}", $"1 to {answer.Plans.Length}, the plans there are", "Take one of the plans.");
    }

    /// <summary>The spot under the belly that changes the weight most and the trim least for it, with every plug that goes there.</summary>
    private static IReadOnlyList<RemedyEffect> TrimHole(BallastPlan plan, MakersBox box, Want want, Pace pace)
    {
        var lure = new GluedLure(plan.Design);
        Remedy[] holes = [.. new Remedies(plan.Design, box, pace).Holes().Where(r => r.Spot!.From == DrilledFrom.Belly)];
        if (holes.Length == 0) return [];
        double balance = plan.Prediction.Ledger.Cg.X;
        double at = holes.MinBy(r => Math.Abs(r.Spot!.Mouth.X - balance))!.Spot!.Mouth.X;
        Core.Prediction before = lure.Predict(plan.Design, want.Circumstances.Water);
        return [.. holes.Where(r => Math.Abs(r.Spot!.Mouth.X - at) < 0.5).Select(r => lure.Predict(r.Design, want.Circumstances.Water) is var after ? new RemedyEffect(r, after, SwapEffect.Of(before, after)) : null!)];
    }

    private static PlanLimits Limits(PlanRequest request)
    {
        if (request.Pockets is < 1 or > MostPockets)
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--pockets", $"{request.Pockets}", $"1 to {MostPockets}", "Allow fewer pockets, or more.");
        SoundWood sound = SoundWood.Usual;
        if (request.Wall is { } wall)
        {
            if (wall is < ThinnestWall or > ThickestWall || double.IsNaN(wall))
                throw new Refusal(Exit.CommandLineWrong, "command-line", "--wall", wall.ToString(CultureInfo.InvariantCulture),
                    $"{ThinnestWall.ToString(CultureInfo.InvariantCulture)} to {ThickestWall} mm", "Write for example --wall 2.5.");
            sound = sound with { Wall = wall };
        }
        return PlanLimits.Usual with { MostPockets = request.Pockets, Sound = sound };
    }

    /// <summary>From words, or from a file that ends as wants do.</summary>
    private static Want WantOf(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--want", "nothing", WantWords.Understood, "Say how it is to sit or fall.");
        if (text.EndsWith(".json", StringComparison.OrdinalIgnoreCase)) return Files.LoadWant(text);
        (Want? want, string unknown) = WantWords.Parse(text);
        return want ?? throw new Refusal(Exit.CommandLineWrong, "command-line", "--want", $"\"{unknown}\"", WantWords.Understood, "Say one manner, one trim, and numbers with a dot and their unit.");
    }
}
