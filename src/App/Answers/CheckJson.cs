using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;

namespace Trimwright.App.Answers;

/// <summary>Whether a file is sound.</summary>
/// <param name="Sound">It is.</param>
/// <param name="Fault">The first fault; only when it is not sound.</param>
/// <param name="Faults">Every fault.</param>
/// <param name="Warnings">What is allowed but probably not meant.</param>
[Answer("check")]
internal sealed record CheckJson(
    bool Sound, [property: LeftOut] FaultJson? Fault, ImmutableArray<FaultJson> Faults,
    ImmutableArray<WarningJson> Warnings)
{
    public static CheckJson Of(Checked reading) => new(
        reading.IsSound, reading.IsSound ? null : FaultJson.Of(reading.Faults[0]), [.. reading.Faults.Select(FaultJson.Of)], WarningJson.Of(reading.Warnings));
}

/// <summary>One thing that is wrong with an input.</summary>
/// <param name="Kind">A short fixed word: syntax, missing, range …</param>
/// <param name="Path">Where: a key in the file, a file, an option; empty for the file as a whole.</param>
/// <param name="Got">What stood there.</param>
/// <param name="Allowed">What may stand there.</param>
/// <param name="Next">What to do.</param>
internal sealed record FaultJson(string Kind, string Path, string Got, string Allowed, string Next)
{
    public static FaultJson Of(Fault fault) => new(fault.Kind, fault.Path, fault.Got, fault.Allowed, fault.Next);
}

/// <summary>What any command prints instead of its answer when it ends with a reason: its exit status is not 0 then.</summary>
/// <param name="Fault">The reason.</param>
[Answer("fault")]
internal sealed record RefusalJson(FaultJson Fault)
{
    public static RefusalJson Of(Fault fault) => new(FaultJson.Of(fault));
}
