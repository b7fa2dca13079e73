using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>readings</c> and <c>next</c>: what do my readings say, and what should I read next?</summary>
/// <param name="Hand">The maker's own habits, NAME.hand.json; null: the usual ones.</param>
internal sealed record ReadingsRequest(string File, string? Log, string Stage, string Rig, string Water, string? Hand = null);

internal sealed record ReadingsAnswer(LureDesign Design, Knowing Knowing, ImmutableArray<Rung> Ladder, IReadOnlyList<Warning> Warnings);

internal sealed record NextAnswer(LureDesign Design, Knowing Knowing, Stage Stage, ImmutableArray<Candidate> Candidates, ImmutableArray<Lacking> Lacking, IReadOnlyList<Warning> Warnings);

internal static class Readings
{
    private static readonly TubLog Empty = new() { Name = "" };

    public static ReadingsAnswer Run(ReadingsRequest request, Pace pace)
    {
        (LureDesign design, Knowing knowing, IReadOnlyList<Warning> warnings) = Know(request, pace);
        return new ReadingsAnswer(design, knowing, Candidates.Ladder(knowing.Build, knowing.Log, knowing.Where, pace), warnings);
    }

    /// <summary>Ranks what could be read at the latest stage that the log has come to, or at a given one, with what a box holds.</summary>
    public static NextAnswer Next(ReadingsRequest request, string? at, string? box, Pace pace)
    {
        (MakersBox? own, IReadOnlyList<Warning> ofBox) = box is { } path ? Files.LoadBox(path) : (null, []);
        (LureDesign design, Knowing knowing, IReadOnlyList<Warning> warnings) = Know(request, pace);
        Stage stage = StageOf(knowing.Log, at);
        return new NextAnswer(design, knowing, stage, Candidates.Of(knowing, stage, own, pace), Candidates.Lacking(knowing, stage, own), [.. warnings, .. ofBox]);
    }

    private static (LureDesign, Knowing, IReadOnlyList<Warning>) Know(ReadingsRequest request, Pace pace)
    {
        Circumstances where = Predict.Where(request.Stage, request.Rig, request.Water);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        (TubLog log, IReadOnlyList<Warning> more) = request.Log is { } path ? Files.LoadLog(path) : (Empty, []);
        if (log != Empty && log.Name != design.Name)
            more = [.. more, new Warning(request.Log!, $"this log says that it is of \"{log.Name}\", not of \"{design.Name}\"")];
        CheckParts(design, log);
        (Hand hand, IReadOnlyList<Warning> ofHand) = request.Hand is { } file ? Files.LoadHand(file) : (Hand.Unknown, []);
        // What finished later, and the lure itself, teach nothing of it.
        Priors priors = hand.On(HandFile.DayOf(log.Begun ?? log.Finished), but: design.Name).Priors;
        return (design, Knowing.Of(new BuildModel(design, priors), log, where, pace: pace), [.. warnings, .. more, .. ofHand]);
    }

    /// <summary>How far a build is: as said, else as far as its log has come.</summary>
    public static Stage StageOf(TubLog log, string? at) => at is { } word ? Predict.Where(word, "bare", "tap").Stage
        : log.Readings.IsEmpty ? Stage.Blank : log.Readings.Max(r => r.Stage);

    /// <summary>Refuses a log that weighs parts which the lure doesn't have, or by a name that several of them share.</summary>
    public static void CheckParts(LureDesign design, TubLog log)
    {
        foreach ((int i, LogReading reading) in log.Readings.Index())
        {
            if (reading.Part is not { } part) continue;
            ImmutableArray<Thing> meant = Thing.Named(design, part);
            if (meant.IsEmpty)
                throw new Refusal(Exit.InputWrong, "reference", $"readings[{i}].part", $"\"{part}\"", string.Join(", ", Thing.Names(design).Select(n => n.Name).Distinct()),
                    "Write the part's name as the lure file has it.");
            if (meant.Length > 1) throw Twins($"readings[{i}].part", part, meant);
        }
    }

    /// <summary>The refusal of a name that several things of a lure share.</summary>
    public static Refusal Twins(string path, string name, IEnumerable<Thing> meant) => new(Exit.InputWrong, "reference", path,
        $"\"{name}\", which is {string.Join(" and ", meant.Select(t => t.Said))}", "a name that one thing has", "Give each a name of its own in the lure file.");
}
