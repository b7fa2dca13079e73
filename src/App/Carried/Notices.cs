using System.Text.Json;

namespace Trimwright.App.Carried;

/// <summary>Something that others made and that ships with the program.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Version">Its version; empty for what lies inside another part.</param>
/// <param name="Within">The part that it lies in, null when it stands by itself.</param>
/// <param name="Licence">Its licence's name.</param>
/// <param name="Texts">The licence in full, and whatever its makers ask to be told with it.</param>
internal sealed record ShippedPart(string Name, string Version, string? Within, string Licence, IReadOnlyList<string> Texts);

/// <summary>What the program is built from; the build wrote the list from its own packages.</summary>
internal static class Notices
{
    private static readonly Lazy<IReadOnlyList<ShippedPart>> all = new(Read);

    /// <summary>In the order of their names.</summary>
    public static IReadOnlyList<ShippedPart> All => all.Value;

    /// <summary>Those whose name holds a word, whatever its case; there may be none.</summary>
    public static IReadOnlyList<ShippedPart> Named(string word) => [.. All.Where(p => p.Name.Contains(word, StringComparison.OrdinalIgnoreCase))];

    private static IReadOnlyList<ShippedPart> Read()
    {
        using Stream stream = typeof(Notices).Assembly.GetManifestResourceStream("notices.json")!;
        using JsonDocument file = JsonDocument.Parse(stream);
        string[] texts = [.. file.RootElement.GetProperty("texts").EnumerateArray().Select(t => t.GetString()!)];
        return [.. file.RootElement.GetProperty("parts").EnumerateArray().Select(p => new ShippedPart(
            p.GetProperty("name").GetString()!, p.GetProperty("version").GetString()!,
            p.TryGetProperty("within", out JsonElement within) ? within.GetString() : null, p.GetProperty("licence").GetString()!,
            [.. p.GetProperty("texts").EnumerateArray().Select(t => texts[t.GetInt32()])]))];
    }
}
