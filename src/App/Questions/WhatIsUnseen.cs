using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.App.Questions;

/// <summary>What weights are in a lure that can't be opened, and how is the like to be made?</summary>
/// <param name="Design">Its outlines, wood, wire, coats and hardware, without the weights that nobody sees.</param>
/// <param name="Log">What was read of it, once at least.</param>
/// <param name="Where">What is asked of what it does.</param>
/// <param name="Box">To plan weights from; null: none.</param>
internal sealed record WhatIsUnseen(LureDesign Design, TubLog Log, Circumstances Where, MakersBox? Box) : IQuestion<Reply<CopyMade>>
{
    // Enough for ranges; a walk among builds of which so little is known takes its time.
    private const int Samples = 1000;

    public bool IsWide => true;

    /// <summary>What is wrong with a log of such a lure; null when it will do.</summary>
    public static Flaw? FlawIn(LureDesign design, TubLog log)
    {
        if (log.Readings.IsEmpty)
            return new Flaw(nameof(Log), new Fault("range", "readings", "none", "at least one", "Weigh the lure as it is, in air and under water, and say how it sits."));
        return Parts.Fault(design, log) is { } fault ? new Flaw(nameof(Log), fault) : null;
    }

    public Reply<CopyMade> Answer(Pace pace)
    {
        if (FlawIn(Design, Log) is { } flaw) return flaw;
        Unseen unseen = Unseen.Of(Box?.Cut(Design) ?? Design, Log, Where, Samples, pace: pace);
        LureDesign copied = Sound(unseen.Copied);
        Prediction prediction = Prediction.Of(copied, Where);
        PlanAnswer? plan = Box is null ? null : Planner.Of(copied with { Ballast = copied.Ballast[..^1] }, Box, AsItIs(prediction), PlanLimits.Usual, pace);
        var made = new CopyMade(Design, unseen, copied, prediction, unseen.MostTelling(Box, pace), plan);
        return plan is { Plans.IsEmpty: true } ? new Reply<CopyMade>.Cannot(WhichWeights.NoPlan, made) : made;
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
        Verdict.Floats => Want.Floating(p.Posture.Trim, p.SpareBuoyancy),
        Verdict.Suspends => Want.Suspending(p.Posture.Trim),
        Verdict.SinksSlowly or Verdict.Sinks or Verdict.SinksFast => p.Descent?.First is { } fall ? Want.Falling(1 / fall.Rate, fall.Trim) : Want.Floating(p.Posture.Trim, p.SpareBuoyancy),
    }) with { Circumstances = p.Circumstances };
}

/// <param name="Design">As asked about.</param>
/// <param name="Unseen">What is made of it.</param>
/// <param name="Copied">The lure as it is now believed to be, the unseen weight a ball of lead.</param>
/// <param name="Prediction">Of that.</param>
/// <param name="Best">The reading that would tell most about the unseen weight; null when nothing is left.</param>
/// <param name="Plan">From the box; null without one.</param>
internal sealed record CopyMade(LureDesign Design, Unseen Unseen, LureDesign Copied, Prediction Prediction, LogReading? Best, PlanAnswer? Plan);
