using System.Globalization;
using System.Text.Json;

namespace Trimwright.Frozen;

/// <summary>Compares answers as printed: JSON by its paths, text by its lines.</summary>
internal static class Differences
{
    public static IEnumerable<Difference> Of(Ask ask, Answer old, Answer now)
    {
        for (int i = 0; i < old.Said.Length; i++)
        {
            string step = old.Said.Length == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"{i + 1}: ");
            foreach (Difference d in Of(old.Said[i], now.Said[i])) yield return d with { Ask = ask.Name, Place = step + d.Place };
        }
    }

    private static IEnumerable<Difference> Of(Said old, Said now)
    {
        if (old.Exit != now.Exit)
            yield return new("", "exit", PlaceKind.Whole, "exit status", old.Exit.ToString(CultureInfo.InvariantCulture), now.Exit.ToString(CultureInfo.InvariantCulture));
        foreach (Difference d in Texts("out", old.Out, now.Out)) yield return d;
        foreach (Difference d in Texts("error", Unwrapped(old.Error), Unwrapped(now.Error))) yield return d;
        foreach (string path in old.Files.Keys.Union(now.Files.Keys).Order(StringComparer.Ordinal))
        {
            string? was = old.Files.GetValueOrDefault(path), @is = now.Files.GetValueOrDefault(path);
            if (was == Said.Unread || @is == Said.Unread) continue;
            if (was is null || @is is null) yield return new("", "file " + path, PlaceKind.Whole, "the file", was, @is);
            else
                foreach (Difference d in Texts("file " + path, Unfolded(path, was), Unfolded(path, @is))) yield return d;
        }
    }

    // A calendar's long lines are folded (RFC 5545, 3.1): one changed word would move every fold after it.
    private static string Unfolded(string path, string text) =>
        path.EndsWith(".ics", StringComparison.Ordinal) ? text.Replace("\n ", "", StringComparison.Ordinal) : text;

    // A note is one line, however long.
    private static string Unwrapped(string notes) => notes.Replace("\n  ", " ", StringComparison.Ordinal);

    private static IEnumerable<Difference> Texts(string part, string old, string now)
    {
        if (old == now) return [];
        Difference[] found = Json(old) is { } a && Json(now) is { } b ? [.. Values("$", a, b)] : [.. Lines(old, now)];
        // The same values in another order or spacing are a difference too.
        return (found.Length > 0 ? found : [new("", "", PlaceKind.Whole, "its form", old, now)]).Select(d => d with { Part = part });
    }

    private static JsonElement? Json(string text)
    {
        if (!text.StartsWith('{')) return null;
        try
        {
            return JsonDocument.Parse(text).RootElement;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IEnumerable<Difference> Values(string path, JsonElement old, JsonElement now)
    {
        if (old.ValueKind == JsonValueKind.Object && now.ValueKind == JsonValueKind.Object)
        {
            foreach (JsonProperty was in old.EnumerateObject())
            {
                if (!now.TryGetProperty(was.Name, out JsonElement @is)) yield return At($"{path}.{was.Name}", was.Value, null);
                else
                    foreach (Difference d in Values($"{path}.{was.Name}", was.Value, @is)) yield return d;
            }
            foreach (JsonProperty @is in now.EnumerateObject())
                if (!old.TryGetProperty(@is.Name, out _)) yield return At($"{path}.{@is.Name}", null, @is.Value);
        }
        else if (old.ValueKind == JsonValueKind.Array && now.ValueKind == JsonValueKind.Array)
        {
            JsonElement[] before = [.. old.EnumerateArray()], after = [.. now.EnumerateArray()];
            foreach ((int i, int j) in Alignment.Of([.. before.Select(e => e.GetRawText())], [.. after.Select(e => e.GetRawText())]))
            {
                string at = string.Create(CultureInfo.InvariantCulture, $"{path}[{(i >= 0 ? i : j)}]");
                if (i < 0) yield return At(at, null, after[j]);
                else if (j < 0) yield return At(at, before[i], null);
                else
                    foreach (Difference d in Values(at, before[i], after[j])) yield return d;
            }
        }
        else if (old.GetRawText() != now.GetRawText())
        {
            yield return At(path, old, now);
        }
    }

    private static Difference At(string path, JsonElement? old, JsonElement? now) => new("", "", PlaceKind.Json, path, old?.GetRawText(), now?.GetRawText());

    private static IEnumerable<Difference> Lines(string old, string now)
    {
        string[] before = old.Split('\n'), after = now.Split('\n');
        foreach ((int i, int j) in Alignment.Of(before, after))
        {
            string? was = i < 0 ? null : before[i], @is = j < 0 ? null : after[j];
            if (was != @is) yield return new("", "", PlaceKind.Line, string.Create(CultureInfo.InvariantCulture, $"line {(i >= 0 ? i : j) + 1}"), was, @is);
        }
    }
}
