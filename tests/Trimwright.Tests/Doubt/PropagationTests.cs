using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Doubt;

/// <summary>The two ways of carrying doubt against JCGM 100:2008, annex H.1 (the end gauge), and the density of a rod.</summary>
public class PropagationTests
{
    // l = lS + d − lS(δα·θ + αS·δθ): JCGM 100:2008, H.1.2. Estimates and uncertainties of its table H.1; nm.
    private static double EndGauge(ReadOnlySpan<double> xi)
    {
        double standard = 50.000623e6 + 25 * xi[0], d = 215 + 9.7 * xi[1], alpha = 11.5e-6 + 1.2e-6 * xi[2];
        double theta = -0.1 + 0.41 * xi[3], deltaAlpha = 0.58e-6 * xi[4], deltaTheta = 0.029 * xi[5];
        return standard + d - standard * (deltaAlpha * theta + alpha * deltaTheta);
    }

    [Fact]
    public void The_end_gauge_of_the_guide_by_slopes_and_by_sampling()
    {
        Tolerances.Check("end gauge, length", EndGauge(new double[6]));
        Tolerances.Check("end gauge, by slopes", Propagation.Linear(EndGauge, 6));
        Tolerances.Check("end gauge, by sampling", Propagation.Sampled(EndGauge, 6, Tier.Count(400_000, 2_000_000), seed: 1).Sd);
    }

    // A weighed and measured rod: 50.00 ± 0.05 g, 20.00 ± 0.05 mm across, 150.0 ± 0.1 mm long.
    private static double RodDensity(ReadOnlySpan<double> xi)
    {
        double d = 20 + 0.05 * xi[1];
        return 1000 * (50 + 0.05 * xi[0]) / (Math.PI / 4 * d * d * (150 + 0.1 * xi[2]));
    }

    [Fact]
    public void The_density_of_a_weighed_rod()
    {
        Tolerances.Check("rod density", RodDensity(new double[3]));
        double closed = 1.061033 * Math.Sqrt(Math.Pow(0.05 / 50, 2) + Math.Pow(2 * 0.05 / 20, 2) + Math.Pow(0.1 / 150, 2));
        Tolerances.Check("rod density, doubt", Propagation.Linear(RodDensity, 3), closed, "by slopes");
        Tolerances.Check("rod density, doubt", Propagation.Sampled(RodDensity, 3, 200_000, seed: 2).Sd, closed, "by sampling");
    }

    [Fact]
    public void Draws_are_normal_and_hang_on_nothing_but_seed_and_index()
    {
        var all = new List<double>();
        for (int i = 0; i < 20_000; i++)
        {
            var draws = new NormalDraws(3, i);
            (double a, double b) = (draws.Normal(), draws.Normal());
            var again = new NormalDraws(3, i);
            Assert.Equal((a, b), (again.Normal(), again.Normal()));
            all.AddRange([a, b]);
        }
        double mean = all.Average(), sd = Math.Sqrt(all.Average(v => v * v)), within = all.Count(v => Math.Abs(v) < 1.959964) / (double)all.Count;
        double neighbours = Enumerable.Range(0, all.Count - 2).Average(i => all[i] * all[i + 2]);
        TestContext.Current.TestOutputHelper?.WriteLine($"mean {mean:F4}, sd {sd:F4}, within 1.96: {within:P2}, neighbours {neighbours:F4}");
        // Four standard errors of 40 000 draws.
        Assert.Equal(0, mean, 0.02);
        Assert.Equal(1, sd, 0.015);
        Assert.Equal(0.95, within, 0.0045);
        Assert.Equal(0, neighbours, 0.02);
    }
}
