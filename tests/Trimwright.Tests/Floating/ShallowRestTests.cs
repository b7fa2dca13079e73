using Trimwright.Core;

namespace Trimwright.Tests.Floating;

/// <summary>Rests that a search once lost.</summary>
public class ShallowRestTests
{
    [Fact]
    public void A_shallow_rest_is_kept_though_a_grid_edge_jumps_the_ridge_before_it()
    {
        // At 110° of heel, 0.07 g·mm under a ridge at 97° whose two grid neighbours both lie lower than it.
        Draw draw = RandomLures.Of(8862);
        Prediction lure = Prediction.Of(draw.Design, draw.Circumstances);

        Assert.Equal(4, lure.Postures.Length);
    }
}
