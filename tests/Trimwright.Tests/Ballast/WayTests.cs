using Trimwright.Core.Ballast;

namespace Trimwright.Tests.Ballast;

public class WayTests
{
    [Fact]
    public void Alike_pieces_in_other_places_are_another_way()
    {
        // Three alike pieces in seven bins of 30 mm, as often in one as you like: 84 patterns. A sum of squares made 80 of them.
        var ways = new HashSet<Way>();
        for (int a = 0; a < 7; a++)
            for (int b = a; b < 7; b++)
                for (int c = b; c < 7; c++)
                    Assert.True(ways.Add(Way.Of([(0, 30 * a + 1), (0, 30 * b + 1), (0, 30 * c + 1)])), $"bins {a}, {b}, {c} are taken for others");
        Assert.Equal(84, ways.Count);
    }

    [Fact]
    public void The_order_of_choosing_makes_no_other_way_and_the_kind_does()
    {
        Assert.Equal(Way.Of([(0, 5), (1, 70), (1, 40)]), Way.Of([(1, 40), (0, 5), (1, 70)]));
        Assert.NotEqual(Way.Of([(0, 5), (1, 70)]), Way.Of([(1, 5), (0, 70)]));
        Assert.NotEqual(Way.Of([(0, 5)]), Way.Of([(0, 5), (0, 5)]));
    }
}
