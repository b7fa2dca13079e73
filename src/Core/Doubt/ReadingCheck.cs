using Trimwright.Core.Design;

namespace Trimwright.Core.Doubt;

/// <summary>One reading while it is looked through for what no single key can say.</summary>
/// <param name="Reading">It.</param>
/// <param name="Path">Where it stands in the file.</param>
/// <param name="Findings">Takes the faults.</param>
internal sealed record ReadingCheck(LogReading Reading, string Path, Findings Findings)
{
    /// <summary>Notes a key that its kind can't do without.</summary>
    public void Need(bool isThere, string key, Remark what)
    {
        if (!isThere) Findings.Add("missing", $"{Path}.{key}", "nothing", what, $"A reading of the kind \"{Reading.Kind.Word}\" needs it.");
    }

    /// <summary>Notes a reading that has none of the numbers that its kind may have.</summary>
    public void NeedOne(bool orElse = false)
    {
        var may = Reading.Kind.May;
        Need(orElse || may.Any(k => LogReading.Number(k).Of(Reading) is not null), may[0], $"{Remark.Keys(may, ", ")}: at least one");
    }

    /// <summary>Notes a number that can't be, in the light of another one.</summary>
    public void Refuse(string key, double value, Remark allowed, Remark hint) =>
        Findings.Add("range", $"{Path}.{key}", Sized.Number(key, value), allowed, hint);
}
