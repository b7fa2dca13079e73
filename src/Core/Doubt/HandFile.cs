using System.Globalization;
using Trimwright.Core.Design;
using static Trimwright.Core.Design.ObjectWriter;

namespace Trimwright.Core.Doubt;

/// <summary>
/// The hand file, <c>NAME.hand.json</c>, version 1 of the format, with the manners of <see cref="LureFile"/>: this reader is
/// the only validator, and <c>hand.schema.json</c> accepts everything that it accepts.
/// </summary>
public static class HandFile
{
    public const int Version = 1;

    /// <summary>The key that holds the version of the format, and by which a hand is told from a lure.</summary>
    public const string VersionKey = "trimwright_hand";

    private const int MostBuilds = 1000;
    private const int MostLessons = 200;
    private const string Day = "yyyy-MM-dd";

    /// <summary>Reads a hand from UTF-8 JSON; lists every fault.</summary>
    public static Reading<Hand> Read(ReadOnlySpan<byte> utf8)
    {
        var findings = new Findings();
        if (JsonParser.Parse(utf8, findings) is not { } tree) return new(null, [.. findings.Faults], []);
        if (tree.Member(VersionKey) is { Kind: JsonKind.Number } value && value.Number > Version)
            return new(null, [new Fault("newer-version", VersionKey, value.Shown, $"up to {Version}", "This hand was written by a newer Trimwright; use that one.")], []);
        var file = new ObjectReader(tree, findings);
        file.Number(VersionKey, Version, Version);
        int version = file.Count("version", 0, int.MaxValue, 0);
        var days = new List<string>();
        var builds = file.Each("builds", MostBuilds, "a list of builds", b =>
        {
            string name = b.Text("name", "the name of the lure"), finished = b.Text("finished", "the day, like 2026-05-30");
            days.Add(finished);
            var lessons = b.Each("lessons", MostLessons, "a list of lessons", l =>
            {
                l.Text("habit", string.Join(", ", Hand.Habits));
                var lesson = new Lesson(l.Choice("habit", "", [.. Hand.Habits.Select(h => (h, h))]), l.Number("mean", -1000, 1000), l.Number("variance", 1e-9, 1000));
                l.Close();
                return lesson;
            });
            b.Close();
            return new Taught(name, DayOf(finished) ?? default, lessons);
        });
        file.Close();
        if (findings.Faults.Count == 0)
            foreach ((int i, string day) in days.Index())
                if (DayOf(day) is null) findings.Add("range", $"builds[{i}].finished", $"\"{JsonTree.Shorten(day)}\"", "a day like 2026-05-30", "Write year, month and day.");
        return new(findings.Faults.Count == 0 ? new Hand(version, builds) : null, [.. findings.Faults], [.. findings.Told]);
    }

    /// <summary>Whether a file means to be a hand.</summary>
    public static bool IsHand(ReadOnlySpan<byte> utf8) => JsonParser.Parse(utf8, new Findings())?.Member(VersionKey) is not null;

    /// <summary>A day as files write it; null when it is none.</summary>
    public static DateOnly? DayOf(string? text) =>
        DateOnly.TryParseExact(text, Day, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;

    /// <summary>The hand as indented UTF-8 JSON; reading it back gives the same hand, digit for digit.</summary>
    public static byte[] Write(Hand hand) => ObjectWriter.File(json =>
    {
        json.WriteNumber(VersionKey, Version);
        json.WriteNumber("version", hand.Version);
        List(json, "builds", hand.Builds, (j, b) =>
        {
            j.WriteString("name", b.Name);
            j.WriteString("finished", b.Finished.ToString(Day, CultureInfo.InvariantCulture));
            List(j, "lessons", b.Lessons, (k, l) =>
            {
                k.WriteString("habit", l.Habit);
                k.WriteNumber("mean", l.Mean);
                k.WriteNumber("variance", l.Variance);
                Close(k, default);
            });
            Close(j, default);
        });
        Close(json, default);
    });
}
