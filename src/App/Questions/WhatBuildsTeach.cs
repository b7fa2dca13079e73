using System.Collections.Immutable;
using Trimwright.App.Scheduling;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Questions;

/// <summary>What do finished builds say of their maker's hand?</summary>
/// <param name="Before">What was known of it.</param>
/// <param name="Builds">In the order in which they are to teach.</param>
/// <param name="Until">Builds that finished on this day or later don't count in what is told; null: all do.</param>
internal sealed record WhatBuildsTeach(Hand Before, ImmutableArray<FinishedBuild> Builds, DateOnly? Until = null) : IQuestion<Reply<Learned>>
{
    public bool IsWide => true;

    public Reply<Learned> Answer(Pace pace)
    {
        Hand hand = Before;
        var taught = new List<string>();
        var untaught = new List<Untaught>();
        foreach ((int i, (LureDesign design, TubLog? log)) in Builds.Index())
        {
            if (log is not null && Parts.Fault(design, log) is { } fault) return new Flaw(nameof(Builds), fault);
            (Taught? build, string why) = Teaches(design, log, pace);
            pace.Come((i + 1.0) / Builds.Length);
            if (build is null) untaught.Add(new Untaught(design.Name, why));
            else
            {
                // What is known already is no new lesson.
                if (hand.Builds.Any(b => b.Name == build.Name && b.Finished == build.Finished && b.Lessons.SequenceEqual(build.Lessons))) continue;
                hand = hand.With(build);
                taught.Add(design.Name);
            }
        }
        return new Learned(hand, hand.On(Until), taught, untaught);
    }

    private static (Taught? Build, string Why) Teaches(LureDesign design, TubLog? log, Pace pace)
    {
        if (log is null) return (null, "it has no log");
        if (HandFile.DayOf(log.Finished) is not { } day) return (null, "its log has no \"finished\" day");
        if (!log.Readings.Any(r => r.Stage >= Stage.Glued)) return (null, "nothing was read of it after gluing");
        return (new Taught(design.Name, day, Hand.Of(design, log, pace)), "");
    }
}

/// <summary>A build that was finished, with what was read of it; null: nothing was written down.</summary>
internal sealed record FinishedBuild(LureDesign Design, TubLog? Log);

/// <summary>A build that could not teach, and why.</summary>
internal sealed record Untaught(string Name, string Why);

/// <param name="Hand">With all that was learned, to be kept.</param>
/// <param name="Told">As it was known by the day asked for.</param>
/// <param name="New">Builds that taught this time.</param>
/// <param name="Untaught">Builds that did not.</param>
internal sealed record Learned(Hand Hand, Hand Told, IReadOnlyList<string> New, IReadOnlyList<Untaught> Untaught);
