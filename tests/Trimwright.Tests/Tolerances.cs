using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;

[assembly: AssemblyFixture(typeof(Trimwright.Tests.ToleranceReport))]

namespace Trimwright.Tests;

/// <summary>
/// The tolerance ledger: <c>tolerances.json</c> says for each case what is expected, how far off is allowed and whose
/// value it is. Tests compare through here, and the run ends with what could be tightened.
/// </summary>
internal static class Tolerances
{
    private static readonly IReadOnlyDictionary<string, Bound> Ledger = Load();
    private static readonly ConcurrentDictionary<string, double> Used = new();

    /// <summary>One case. Expected is a number, or words where a table or closed form gives one number a row.</summary>
    private sealed record Bound(double? Expected, double? Allowed, double? AllowedPercent, string Source);

    /// <summary>Compares with the number in the ledger.</summary>
    public static void Check(string name, double actual) =>
        Check(name, actual, Of(name).Expected ?? throw new InvalidOperationException($"tolerances.json: \"{name}\" has no number to expect"));

    /// <summary>Compares with a number from a table or closed form; the ledger gives what is allowed.</summary>
    public static void Check(string name, double actual, double expected, string? row = null)
    {
        Bound bound = Of(name);
        double allowed = bound.Allowed ?? bound.AllowedPercent!.Value / 100 * Math.Abs(expected);
        double error = Math.Abs(actual - expected), share = allowed > 0 ? error / allowed : error == 0 ? 0 : double.PositiveInfinity;
        string line = string.Create(CultureInfo.InvariantCulture,
            $"{name}{(row is null ? "" : $" [{row}]")}: got {actual:G12}, expected {expected:G12}, off {error:G3}, allowed {allowed:G3} ({bound.Source})");
        TestContext.Current.TestOutputHelper?.WriteLine(line);
        if (double.IsFinite(share)) Used.AddOrUpdate(name, share, (_, most) => Math.Max(most, share));
        Assert.True(error <= allowed, line);
    }

    /// <summary>What this run used of each allowance, the least used first.</summary>
    internal static IReadOnlyList<(string Name, double Share)> Shares => [.. Used.Select(u => (u.Key, u.Value)).OrderBy(u => u.Value)];

    internal static IEnumerable<string> Names => Ledger.Keys;

    private static Bound Of(string name) =>
        Ledger.TryGetValue(name, out Bound? bound) ? bound : throw new InvalidOperationException($"tolerances.json has no case \"{name}\"; add it with its source");

    private static Dictionary<string, Bound> Load()
    {
        using JsonDocument file = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Here.Tests, "tolerances.json")));
        var ledger = new Dictionary<string, Bound>();
        foreach (JsonProperty entry in file.RootElement.EnumerateObject())
        {
            double? Number(string key) =>
                entry.Value.TryGetProperty(key, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
            var bound = new Bound(Number("expected"), Number("allowed"), Number("allowed_percent"), entry.Value.GetProperty("source").GetString()!);
            if (bound.Allowed is null == bound.AllowedPercent is null)
                throw new InvalidOperationException($"tolerances.json: \"{entry.Name}\" needs either allowed or allowed_percent");
            if (!ledger.TryAdd(entry.Name, bound)) throw new InvalidOperationException($"tolerances.json names \"{entry.Name}\" twice");
        }
        return ledger;
    }
}

/// <summary>Speaks at the end of a run: which bounds used less than a tenth of what they allow. It fails nothing.</summary>
public sealed class ToleranceReport : IDisposable
{
    private const double Roomy = 0.1;

    public void Dispose()
    {
        IReadOnlyList<(string Name, double Share)> shares = Tolerances.Shares;
        if (shares.Count == 0) return;
        var lines = new List<string> { $"Tolerances: {shares.Count} of {Tolerances.Names.Count()} cases compared; worst: {Told(shares[^1])}." };
        foreach ((string Name, double Share) roomy in shares.Where(s => s.Share < Roomy))
            lines.Add($"  could be tightened: {Told(roomy)}");
        string report = string.Join(Environment.NewLine, lines) + Environment.NewLine;
        Console.Out.Write(report);
        File.WriteAllText(Path.Combine(AppContext.BaseDirectory, "tolerances-used.txt"), report);
    }

    private static string Told((string Name, double Share) used) =>
        string.Create(CultureInfo.InvariantCulture, $"{used.Name}, used {100 * used.Share:G2} % of its allowance");
}
