using Trimwright.Core.Design;
using Trimwright.Core.Ledger;

namespace Trimwright.Core.Doubt;

/// <summary>What no single key can say of a log: numbers that a kind needs, scales that are not listed or not that strong.</summary>
internal static class LogSoundness
{
    public static void Check(TubLog log, Findings findings)
    {
        void Day(string key, string? text)
        {
            if (text is not null && HandFile.DayOf(text) is null) findings.Add("range", key, $"\"{JsonTree.Shorten(text)}\"", "a day like 2026-05-30", "Write year, month and day.");
        }
        Day("begun", log.Begun);
        Day("finished", log.Finished);
        if (HandFile.DayOf(log.Begun) > HandFile.DayOf(log.Finished))
            findings.Add("range", "finished", log.Finished!, $"not before it was begun, {log.Begun}", "Correct one of the two days.");
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach ((int i, LogScale scale) in log.Scales.Index())
            if (!ids.Add(scale.Id)) findings.Add("reference", $"scales[{i}].id", $"\"{JsonTree.Shorten(scale.Id)}\" again", "an id of its own", "Rename one of the two.");
        foreach ((int i, LogReading reading) in log.Readings.Index())
        {
            string path = $"readings[{i}]";
            if (reading.Scale is { } id && !ids.Contains(id))
                findings.Add("reference", path + ".scale", $"\"{JsonTree.Shorten(id)}\"", log.Scales.IsEmpty ? "a scale that \"scales\" lists" : string.Join(", ", log.Scales.Select(s => JsonTree.Shorten(s.Id))), "Add the scale to \"scales\", or correct its id.");
            Numbers(reading, path, findings);
            Capacity(log, reading, path, findings);
        }
    }

    private static void Numbers(LogReading reading, string path, Findings findings)
    {
        ReadingKind kind = reading.Kind;
        var check = new ReadingCheck(reading, path, findings);
        foreach (string key in kind.Needs) check.Need(LogReading.Number(key).Of(reading) is not null, key, "a number");
        foreach (NumberOrNone<LogReading> number in LogReading.Numbers)
            if (number.Of(reading) is not null && !kind.Needs.Contains(number.Name) && !kind.May.Contains(number.Name))
                findings.Warn($"{path}.{number.Name}", $"a reading of the kind \"{kind.Word}\" has no use for it");
        kind.Check(check);
        if (reading.Rig != Rig.Bare && reading.Stage == Stage.Blank)
            findings.Add("range", $"{path}.rig", reading.Rig == Rig.Rigged ? "rigged" : "standins", "bare", "A blank has nothing to hang hooks on; name the stage.");
    }

    private static void Capacity(TubLog log, LogReading reading, string path, Findings findings)
    {
        LogScale scale = log.ScaleOf(reading);
        if (reading.Scale is null) return;
        foreach (NumberOrNone<LogReading> number in LogReading.Numbers)
            if (number.Name.EndsWith("_g", StringComparison.Ordinal) && number.Of(reading) is { } value && value > scale.CapacityG)
                findings.Add("range", $"{path}.{number.Name}", Sized.Number(number.Name, value), $"at most {Sized.G(scale.CapacityG)}, where the scale \"{JsonTree.Shorten(scale.Id)}\" stops", "Name the scale that you used, or correct the number.");
    }
}
