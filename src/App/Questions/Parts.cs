using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;

namespace Trimwright.App.Questions;

/// <summary>What a log says of a lure: the parts that it weighs by name, and how far the build has come.</summary>
internal static class Parts
{
    /// <summary>What is wrong with a log that weighs parts which the lure doesn't have, or by a name that several of them share.</summary>
    public static Fault? Fault(LureDesign design, TubLog log)
    {
        foreach ((int i, LogReading reading) in log.Readings.Index())
        {
            if (reading.Part is not { } part) continue;
            ImmutableArray<Thing> meant = Thing.Named(design, part);
            if (meant.IsEmpty)
                return new Fault("reference", $"readings[{i}].part", $"\"{part}\"", string.Join(", ", Thing.Names(design).Select(n => n.Name).Distinct()),
                    "Write the part's name as the lure file has it.");
            if (meant.Length > 1) return Twins($"readings[{i}].part", part, meant);
        }
        return null;
    }

    /// <summary>What is wrong with a name that several things of a lure share.</summary>
    public static Fault Twins(string path, string name, IEnumerable<Thing> meant) => new("reference", path,
        $"\"{name}\", which is {string.Join(" and ", meant.Select(t => t.Said))}", "a name that one thing has", "Give each a name of its own in the lure file.");

    /// <summary>How far a build is: as said, else as far as its log has come.</summary>
    public static Stage StageOf(TubLog log, Stage? said) => said ?? (log.Readings.IsEmpty ? Stage.Blank : log.Readings.Max(r => r.Stage));
}
