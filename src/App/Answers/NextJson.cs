using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Box;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What is most worth measuring next.</summary>
/// <param name="Stage">Whose give or take is to shrink: the finished lure's.</param>
/// <param name="Rig">What hangs on it then.</param>
/// <param name="Water">In which water.</param>
/// <param name="Readings">How many were read so far.</param>
/// <param name="At">The stage at which to measure.</param>
/// <param name="Candidates">What could be read, most worth first.</param>
/// <param name="Lacking">What the box has no instrument for.</param>
/// <param name="Warnings">Of the files.</param>
[Answer("next")]
internal sealed record NextJson(
    Stage Stage, Rig Rig, AskedWaterJson Water, int Readings, Stage At,
    ImmutableArray<CandidateJson> Candidates, ImmutableArray<LackingJson> Lacking, ImmutableArray<WarningJson> Warnings)
{
    public static NextJson Of(NextAnswer answer, IReadOnlyList<Warning> warnings)
    {
        Knowing k = answer.Knowing;
        return new(
            k.Where.Stage, k.Where.Rig, AskedWaterJson.Of(k.Where.Water), k.Log.Readings.Length,
            answer.Stage, [.. answer.Candidates.Select(CandidateJson.Of)], [.. answer.Lacking.Select(LackingJson.Of)],
            WarningJson.Of(warnings));
    }
}

/// <summary>A reading that could be taken next.</summary>
/// <param name="Kind">Of the log file.</param>
/// <param name="Measure">What to do, in words.</param>
/// <param name="Minutes">About how long it takes.</param>
/// <param name="Instruments">What it takes beside the scale.</param>
/// <param name="Scale">Id of the scale to use; null where none is needed.</param>
/// <param name="SpareBuoyancySdG">Give or take of the grams to spare after it, one standard deviation, g.</param>
/// <param name="DropG">How much less that is than now, g.</param>
/// <param name="TrimSdDeg">Give or take of the trim after it, one standard deviation, degrees.</param>
/// <param name="DropDeg">How much less that is than now, degrees.</param>
/// <param name="ChanceBefore">That weights set by what is known now come out as wanted, 0 to 1.</param>
/// <param name="ChanceAfter">The same after it.</param>
internal sealed record CandidateJson(
    ReadingKind Kind, string Measure, AsGiven Minutes, ImmutableArray<Instrument> Instruments, string? Scale,
    Sampled SpareBuoyancySdG, Sampled DropG, Sampled TrimSdDeg, Sampled DropDeg, Sampled ChanceBefore, Sampled ChanceAfter)
{
    public static CandidateJson Of(Candidate c) => new(
        c.Reading.Kind, DoubtWords.Of(c.Reading), c.Minutes, c.Instruments, c.Scale?.Id,
        c.GramsAfter, c.GramsBefore - c.GramsAfter, c.DegreesAfter, c.DegreesBefore - c.DegreesAfter, c.ChanceBefore, c.ChanceAfter);
}

/// <summary>A reading that the box has no instrument for.</summary>
/// <param name="Kind">Of the log file.</param>
/// <param name="Measure">What it is, in words.</param>
/// <param name="Says">What it wants.</param>
internal sealed record LackingJson(ReadingKind Kind, string Measure, string Says)
{
    public static LackingJson Of(Lacking lacking) => new(lacking.Reading.Kind, DoubtWords.Of(lacking.Reading), DoubtWords.Of(lacking, Notation.Metric));
}
