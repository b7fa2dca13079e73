using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>One thing that is wrong with an input: what, where, got, allowed, and what to do next.</summary>
/// <param name="Kind">A short fixed word for programs: <c>syntax</c>, <c>missing</c>, <c>range</c> …</param>
/// <param name="Path">Where: <c>body.back.points_mm[2]</c>; empty for the file as a whole.</param>
/// <param name="Got">What stood there.</param>
/// <param name="Allowed">What may stand there.</param>
/// <param name="Next">What to do.</param>
public sealed record Fault(string Kind, string Path, string Got, string Allowed, string Next)
{
    public override string ToString() =>
        $"{(Path.Length == 0 ? "the file" : Path)}: got {Got}; allowed: {Allowed}. {Next}";
}

/// <summary>Something that is allowed but is probably not meant.</summary>
public sealed record Warning(string Path, string Text)
{
    public override string ToString() => $"{Path}: {Text}";
}

/// <summary>What reading a file gave: a sound value, or every fault found; warnings either way.</summary>
public sealed record Reading<T>(T? Value, ImmutableArray<Fault> Faults, ImmutableArray<Warning> Warnings)
    where T : class
{
    /// <summary>True when <see cref="Value"/> is there and sound.</summary>
    public bool IsSound => Value is not null;
}
