using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>copy</c>: what weights are in a lure that can't be opened, and how to make the like.</summary>
/// <param name="File">Its outlines, wood, wire, coats and hardware, without the weights that nobody sees.</param>
/// <param name="Log">Its readings.</param>
/// <param name="Water">Null: the sea.</param>
/// <param name="Box">To plan weights from; null: none.</param>
/// <param name="Take">Which plan to write.</param>
/// <param name="Out">Where to write the lure with its weights.</param>
/// <param name="Force">Overwrite it.</param>
internal sealed record CopyRequest(string File, string? Log, string? Water, string? Box, int Take, string? Out, bool Force);

/// <param name="Design">As read.</param>
/// <param name="Unseen">What is made of it.</param>
/// <param name="Copied">The lure as it is now believed to be, the unseen weight a ball of lead.</param>
/// <param name="Prediction">Of that.</param>
/// <param name="Best">The reading that would tell most about the unseen weight; null when nothing is left.</param>
/// <param name="Plan">From the box; null without one.</param>
/// <param name="Warnings">Of the files.</param>
internal sealed record CopyMade(
    LureDesign Design, Unseen Unseen, LureDesign Copied, Prediction Prediction, LogReading? Best, PlanAnswer? Plan, IReadOnlyList<Warning> Warnings);

internal static class Copy
{
    // Enough for ranges; a walk among builds of which so little is known takes its time.
    private const int Samples = 1000;

    public static CopyMade Run(CopyRequest request, Pace pace)
    {
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        if (request.Log is not { } path)
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--log", "nothing", "a NAME.log.json with at least one reading", "Weigh the lure, write it down, and name the file.");
        (TubLog log, IReadOnlyList<Warning> more) = Files.LoadLog(path);
        if (log.Readings.IsEmpty)
            throw new Refusal(Exit.InputWrong, "range", "readings", "none", "at least one", "Weigh the lure as it is, in air and under water, and say how it sits.");
        Readings.CheckParts(design, log);
        (MakersBox? box, IReadOnlyList<Warning> told) = request.Box is { } file ? Files.LoadBox(file) : (null, []);
        Circumstances where = Circumstances.InTheSea;
        if (request.Water is { } water) where = where with { Water = Predict.ParseWater(water) };

        Unseen unseen = Unseen.Of(design, log, where, Samples, pace: pace);
        LureDesign copied = Sound(unseen.Copied);
        Prediction prediction = Prediction.Of(copied, where);
        PlanAnswer? plan = box is null ? null : Planner.Of(copied with { Ballast = copied.Ballast[..^1] }, box, AsItIs(prediction), PlanLimits.Usual, pace);
        if (plan is not null) Plan.CheckTake(plan, request.Take);
        if (request.Out is { } output)
            Files.Save(output, LureFile.Write(plan is { Plans.IsEmpty: false } ? plan.Plans[request.Take - 1].Design : copied), request.Force);
        return new CopyMade(design, unseen, copied, prediction, unseen.MostTelling(box, pace), plan, [.. warnings, .. more, .. told]);
    }

    // A ball that is too big for the wood there is not what is in it; then it stays a point.
    private static LureDesign Sound(LureDesign withBall)
    {
        if (LureFile.Read(LureFile.Write(withBall)).IsSound) return withBall;
        BallastPiece ball = withBall.Ballast[^1];
        double net = Bookkeeper.NetOf(withBall, [ball], Stage.Finished)[0];
        return withBall with { Ballast = withBall.Ballast.SetItem(withBall.Ballast.Length - 1, Unseen.Point(net, ball.Middle)) };
    }

    /// <summary>To do what a lure does.</summary>
    private static Want AsItIs(Prediction p) => (p.Verdict switch
    {
        Core.Sinking.Verdict.Floats => Want.Floating(p.Posture.Trim, p.SpareBuoyancy),
        Core.Sinking.Verdict.Suspends => Want.Suspending(p.Posture.Trim),
        _ when p.Descent?.First is { } fall => Want.Falling(1 / fall.Rate, fall.Trim),
        _ => Want.Floating(p.Posture.Trim, p.SpareBuoyancy),
    }) with { Circumstances = p.Circumstances };
}
