using System.Text;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Design;

/// <summary>Well-formed files whose geometry is the attack: predicted with finite numbers or refused with a reason.</summary>
public class HostileGeometryTests
{
    // Small: what matters here is that nothing breaks, not the last digit.
    private static readonly MeshSize Small = new(17, 16);

    [Fact]
    public void Every_hostile_geometry_is_predicted_finitely_or_refused_with_a_reason()
    {
        int each = Tier.Count(quick: 6, ci: 120, @long: 2000);
        var complaints = new List<string>();
        var report = new StringBuilder();
        int made = 0;
        foreach ((string name, Func<Random, System.Text.Json.Nodes.JsonObject> make) in HostileGeometryMakers.All)
        {
            int accepted = 0;
            for (int i = 0; i < each && complaints.Count < 40; i++)
            {
                string file = make(new Random(++made)).ToJsonString();
                // Every twelfth on the mesh that the program uses.
                Examiner.Outcome outcome = Examiner.Examine(Examiner.Bytes(file), i, i % 12 == 11 ? MeshSize.Live : Small);
                if (outcome.Accepted) accepted++;
                if (outcome.Complaint is { } complaint) complaints.Add($"{name} {i}: {complaint}\n{file[..Math.Min(file.Length, 3000)]}");
            }
            report.AppendLine($"{name,-32} {each} files, {accepted} read");
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{made} files\n{report}");
        Assert.True(complaints.Count == 0, $"{complaints.Count} complaints\n{report}\n{string.Join("\n\n", complaints.Take(12))}");
    }
}
