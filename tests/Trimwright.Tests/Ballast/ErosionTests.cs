using Trimwright.Core.Ballast;

namespace Trimwright.Tests.Ballast;

public class ErosionTests
{
    /// <summary>Against the definition, cell by cell; solids of any shape, also off their middle and larger than the grid.</summary>
    [Fact]
    public void It_is_the_least_of_the_heights_round_each_cell_less_what_the_solid_needs_there()
    {
        int buried = 0, left = 0;
        for (int seed = 0; seed < Tier.Count(60, 600); seed++)
        {
            var random = new Random(seed);
            int columns = random.Next(1, 40), rows = random.Next(1, 23), reach = random.Next(0, 9);
            double[] from = [.. Enumerable.Range(0, columns * rows).Select(_ => random.NextDouble() < 0.03 ? double.NegativeInfinity : 20 * random.NextDouble())];
            List<(int I, int K, double Less)> solid = [(random.Next(-2, 3), random.Next(-2, 3), random.NextDouble())];
            for (int i = -reach; i <= reach; i++)
                for (int k = -reach; k <= reach; k++)
                    if (random.NextDouble() < 0.2) solid.Add((i, k, 4 * random.NextDouble()));
            double[] eroded = Erosion.Of(from, columns, rows, solid);
            for (int i = 0; i < columns; i++)
                for (int k = 0; k < rows; k++)
                {
                    double least = solid.Min(s => i + s.I < 0 || i + s.I >= columns || k + s.K < 0 || k + s.K >= rows ? double.NegativeInfinity : from[(i + s.I) * rows + k + s.K] - s.Less);
                    Assert.Equal(least < 0 ? -1 : least, eroded[i * rows + k]);
                    (buried, left) = (buried + (least < 0 ? 1 : 0), left + (least < 0 ? 0 : 1));
                }
        }
        Assert.True(buried > 1000 && left > 1000, $"{buried} cells without room, {left} with");
    }
}
