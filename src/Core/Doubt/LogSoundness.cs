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
        (_, string word, string[] needs, string[] may) = LogFile.Kinds.First(k => k.Kind == reading.Kind);
        Dictionary<string, double?> numbers = reading.Numbers.ToDictionary(n => n.Key, n => n.Value);
        void Need(bool there, string key, string what)
        {
            if (!there) findings.Add("missing", $"{path}.{key}", "nothing", what, $"A reading of the kind \"{word}\" needs it.");
        }
        foreach (string key in needs) Need(numbers[key] is not null, key, "a number");
        foreach ((string key, double? value) in numbers)
            if (value is not null && !needs.Contains(key) && !may.Contains(key))
                findings.Warn($"{path}.{key}", $"a reading of the kind \"{word}\" has no use for it");
        if (reading.Kind == ReadingKind.Boards) Need(reading.SizeMm is not null, "size_mm", "[length, width, thickness of all boards laid on one another]");
        if (reading.Kind == ReadingKind.Part) Need(reading.Part is not null, "part", "the name of a part of the lure");
        if (reading.Kind == ReadingKind.UnderWater && reading.Way == UnderWaterWay.Sinker)
        {
            Need(reading.SinkerG is not null, "sinker_g", "the sinker alone, hung in the water, g");
            Need(reading.WithLureG is not null, "with_lure_g", "the sinker with the lure, hung in the water, g");
        }
        if (reading.Kind == ReadingKind.UnderWater && reading.Way == UnderWaterWay.Jar)
            Need(reading.ReadingG is not null, "reading_g", "what the tared jar gained with the lure pushed fully under, g");
        if (reading.Kind == ReadingKind.UnderWater) Drunk(reading, path, Need, findings);
        if (reading.Kind is ReadingKind.Caliper or ReadingKind.Tub)
            Need(may.Any(k => numbers[k] is not null) || reading.Sat is not null, may[0], string.Join(", ", may) + ": at least one");
        if (reading.Kind == ReadingKind.Drop && (reading.FromMm ?? 0) >= (reading.DepthMm ?? double.MaxValue))
            findings.Add("range", $"{path}.from_mm", Findings.Show(reading.FromMm ?? 0), "less than depth_mm", "The clock starts at from_mm and stops at depth_mm, both from where it was let go.");
        if (reading.Rig != Rig.Bare && reading.Stage == Stage.Blank)
            findings.Add("range", $"{path}.rig", reading.Rig == Rig.Rigged ? "rigged" : "standins", "bare", "A blank has nothing to hang hooks on; name the stage.");
    }

    private static void Drunk(LogReading reading, string path, Action<bool, string, string> need, Findings findings)
    {
        if (reading.BeforeG is null != reading.AfterG is null)
            need(false, reading.BeforeG is null ? "before_g" : "after_g", "the lure in air, just before and, dabbed dry, just after: both or neither, g");
        if (reading.AfterG < reading.BeforeG)
            findings.Add("range", $"{path}.after_g", Findings.Show(reading.AfterG.Value), $"at least before_g, {Findings.Show(reading.BeforeG.Value)}", "Wood takes water up; if it shows less, leave both out.");
    }

    private static void Capacity(TubLog log, LogReading reading, string path, Findings findings)
    {
        LogScale scale = log.ScaleOf(reading);
        if (reading.Scale is null) return;
        foreach ((string key, double? value) in reading.Numbers)
            if (key.EndsWith("_g", StringComparison.Ordinal) && value > scale.CapacityG)
                findings.Add("range", $"{path}.{key}", Findings.Show(value.Value), $"at most {Findings.Show(scale.CapacityG)}, where the scale \"{JsonTree.Shorten(scale.Id)}\" stops", "Name the scale that you used, or correct the number.");
    }
}
