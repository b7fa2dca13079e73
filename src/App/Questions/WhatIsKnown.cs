using System.Collections.Immutable;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Questions;

/// <summary>What do the readings of a build say, and how sure is it with them?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Log">What was read; one without a reading: nothing yet.</param>
/// <param name="Hand">The maker's own habits, or <see cref="Hand.Unknown"/>.</param>
/// <param name="Where">What is asked of: stage, rig and water.</param>
internal sealed record WhatIsKnown(LureDesign Design, TubLog Log, Hand Hand, Circumstances Where) : IQuestion<Reply<ReadingsAnswer>>
{
    public bool IsWide => true;

    /// <summary>What is wrong with a log of that lure; null when it will do.</summary>
    public static Flaw? FlawIn(LureDesign design, TubLog log) => Parts.Fault(design, log) is { } fault ? new Flaw(nameof(Log), fault) : null;

    public Reply<ReadingsAnswer> Answer(Pace pace)
    {
        if (FlawIn(Design, Log) is { } flaw) return flaw;
        Knowing knowing = Know(pace.Part(0, 0.9));
        return new ReadingsAnswer(Design, knowing, Candidates.Ladder(knowing.Build, knowing.Log, knowing.Where, pace.Part(0.9, 1)), knowing.Drawn());
    }

    internal Knowing Know(Pace pace)
    {
        // What finished later, and the lure itself, teach nothing of it.
        Priors priors = Hand.On(HandFile.DayOf(Log.Begun ?? Log.Finished), but: Design.Name).Priors;
        return Knowing.Of(new BuildModel(Design, priors), Log, Where, pace: pace);
    }
}

/// <param name="Design">As asked about.</param>
/// <param name="Knowing">What is known with the readings, and what was without.</param>
/// <param name="Ladder">Give or take as more is measured.</param>
/// <param name="Drawn">What is predicted of it as drawn: the middle of what is known before any reading; null where the maker's hand is known.</param>
internal sealed record ReadingsAnswer(LureDesign Design, Knowing Knowing, ImmutableArray<Rung> Ladder, Prediction? Drawn)
{
    /// <summary>The same, where nothing but the drawing is known.</summary>
    public Prediction? OnlyDrawn => Knowing.Log.Readings.IsEmpty ? Drawn : null;
}

/// <summary>What is most worth measuring next?</summary>
/// <param name="Known">What is known, and of what.</param>
/// <param name="At">The stage at which to measure; null: the latest that the log has come to.</param>
/// <param name="Box">Whose scales and instruments; null: all of a kitchen's.</param>
internal sealed record WhatToMeasureNext(WhatIsKnown Known, Stage? At, MakersBox? Box) : IQuestion<Reply<NextAnswer>>
{
    public bool IsWide => true;

    public Reply<NextAnswer> Answer(Pace pace)
    {
        if (WhatIsKnown.FlawIn(Known.Design, Known.Log) is { } flaw) return flaw;
        Knowing knowing = (Known with { Design = Box?.Cut(Known.Design) ?? Known.Design }).Know(pace.Part(0, 0.9));
        Stage stage = Parts.StageOf(knowing.Log, At);
        return new NextAnswer(Known.Design, knowing, stage, Candidates.Of(knowing, stage, Box, pace.Part(0.9, 1)), Candidates.Lacking(knowing, stage, Box),
            knowing.Log.Readings.IsEmpty ? knowing.Drawn() : null);
    }
}

/// <param name="Design">As asked about.</param>
/// <param name="Knowing">What is known now.</param>
/// <param name="Stage">At which to measure.</param>
/// <param name="Candidates">What could be read, most worth first.</param>
/// <param name="Lacking">What the box has no instrument for.</param>
/// <param name="OnlyDrawn">What is predicted of it as drawn, where nothing else is known; else null.</param>
internal sealed record NextAnswer(
    LureDesign Design, Knowing Knowing, Stage Stage, ImmutableArray<Candidate> Candidates, ImmutableArray<Lacking> Lacking, Prediction? OnlyDrawn);
