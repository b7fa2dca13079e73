using System.Text;

namespace Trimwright.Tests.Design;

/// <summary>
/// Files that a slip, another program or an attacker might hand in: each is read and predicted with finite numbers, or
/// refused with faults that a maker can act on; never an exception, and read with little room.
/// </summary>
public class HostileFilesTests
{
    private const int Seed = 20_250_101;

    [Fact]
    public void Every_hostile_file_is_predicted_finitely_or_refused_with_a_reason()
    {
        int each = Tier.Count(quick: 15, ci: 500, @long: 5000);
        var complaints = new List<string>();
        var report = new StringBuilder();
        int files = 0;
        foreach (HostileClass hostile in HostileFilesMakers.All)
        {
            int accepted = 0;
            double most = 0;
            var kinds = new SortedDictionary<string, int>(StringComparer.Ordinal);
            for (int i = 0; i < each; i++, files++)
            {
                byte[] file = hostile.Make(new Random(HashCode(Seed, hostile.Name, i)));
                Examiner.Outcome outcome = Examiner.Examine(file, i);
                if (outcome.Accepted) accepted++;
                most = Math.Max(most, outcome.Room / 1000);
                foreach (string kind in outcome.Faults.Select(f => f.Kind).Distinct()) kinds[kind] = kinds.GetValueOrDefault(kind) + 1;
                if ((outcome.Complaint ?? Unexpected(hostile, outcome)) is { } complaint)
                    complaints.Add($"{hostile.Name} {i}: {complaint}\n{Start(file)}");
            }
            report.AppendLine($"{hostile.Name,-28} {each} files, {accepted} read, read with at most {most:0} kB; {string.Join(", ", kinds.Select(k => $"{k.Key} {k.Value}"))}");
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{files} files\n{report}");
        Assert.True(complaints.Count == 0, $"{complaints.Count} complaints\n{report}\n{string.Join("\n\n", complaints.Take(12))}");
        Assert.True(files >= Tier.Count(400, 2000) && each >= Tier.Count(15, 100));
    }

    private static string? Unexpected(HostileClass hostile, Examiner.Outcome outcome) => hostile.Kind switch
    {
        null => null,
        "" => outcome.Accepted ? null : $"should be read, but: {string.Join("; ", outcome.Faults)}",
        string kind => outcome.Faults.Any(f => f.Kind == kind) ? null
            : $"should be refused as {kind}, but: {(outcome.Accepted ? "was read" : string.Join("; ", outcome.Faults))}",
    };

    // string.GetHashCode differs from run to run.
    private static int HashCode(int seed, string name, int i) => name.Aggregate(seed * 31 + i, (h, c) => unchecked(h * 31 + c));

    private static string Start(byte[] file) => Encoding.UTF8.GetString(file[..Math.Min(file.Length, 3000)]);
}
