using System.Collections.Concurrent;
using Trimwright.Core;

namespace Trimwright.Tests.Floating;

/// <summary>
/// What must hold for any lure, over thousands of random ones (<see cref="RandomLures"/>) at about 2 000 triangles. A
/// breach names its draw, which comes again by <c>RandomLures.Of(number)</c>.
/// </summary>
public class RandomLureTests
{
    // At most this many breaches are printed.
    private const int Shown = 25;

    [Fact]
    public void Every_lure_balances_mirrors_scales_and_keeps_its_books()
    {
        int count = Tier.Count(quick: 120, ci: 10_000, @long: 50_000);
        var coverage = new RandomLureCoverage();
        var breaches = new ConcurrentBag<string>();
        Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            Draw draw = RandomLures.Of(seed);
            Prediction prediction = Prediction.Of(draw.Design, draw.Circumstances);
            coverage.Count(draw, prediction);
            foreach ((string property, IEnumerable<string> found) in Properties(draw, prediction))
                foreach (string breach in found) breaches.Add($"{draw}: {property}: {breach}");
        });
        (int drawn, int refused) = RandomLures.Tries;
        Console.WriteLine(FormattableString.Invariant($"{coverage}; {refused} of {drawn} drafts refused by the reader"));
        foreach (var property in breaches.GroupBy(b => b.Split(": ")[2])) Console.WriteLine($"{property.Count()} breaches of {property.Key}");
        foreach (string breach in breaches.OrderBy(b => b.Contains(": mirror") ? 0 : 1).Take(Shown)) Console.WriteLine(breach);
        Assert.Empty(breaches);
        Assert.All(coverage.Shares, s => Assert.True(s.Share >= 0.05, $"only {s.Share:P1} of the draws are {s.Name}"));
    }

    private static IEnumerable<(string, IEnumerable<string>)> Properties(Draw draw, Prediction p)
    {
        yield return ("finite", RandomLureProperties.Finite(draw, p));
        yield return ("balance", RandomLureProperties.InBalance(draw, p));
        yield return ("any water", RandomLureProperties.SameInAnyWater(draw, p));
        yield return ("order of parts", RandomLureProperties.OrderOfPartsIsIrrelevant(draw, p));
        yield return ("books", RandomLureProperties.BooksBalance(draw, p));
        yield return ("mirror", RandomLureProperties.MirrorGivesMirror(draw, p));
        yield return ("scale", RandomLureProperties.ScalesByTheCube(draw, 2, 1.31));
    }
}
