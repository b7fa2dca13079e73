using System.Globalization;
using Trimwright.App.Questions;
using Trimwright.App.Sessions;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.Tests.Sessions;

/// <summary>Where a photo lies, whatever an import says of it or a maker types: always a place that a page can draw.</summary>
public class PhotoLaidTests
{
    private static readonly OutlineSheet Sheet = new(Lures.Demo("tidegate-185").Body);

    private static Photo Kept(string place) => new(1, "photo-0001", 1, "side", "jpeg", 1600, 600, DateTimeOffset.UnixEpoch, place, false);

    [Theory]
    [InlineData("""{}""")]
    [InlineData("""{"AX":1e308,"AY":0,"BX":-1e308,"BY":0,"LengthMm":185,"AlongMm":0,"AcrossMm":0,"Level":true,"Strength":1}""")]
    [InlineData("""{"AX":0,"AY":0,"BX":1e-300,"BY":0,"LengthMm":185,"AlongMm":0,"AcrossMm":0,"Level":true,"Strength":1}""")]
    [InlineData("""{"AX":0,"AY":0,"BX":1600,"BY":0,"LengthMm":1e307,"AlongMm":0,"AcrossMm":0,"Level":true,"Strength":1}""")]
    [InlineData("""{"AX":0,"AY":0,"BX":1600,"BY":0,"LengthMm":185,"AlongMm":-1e307,"AcrossMm":1e9,"Level":true,"Strength":1}""")]
    [InlineData("""{"AX":0,"AY":0,"BX":1600,"BY":0,"LengthMm":185,"AlongMm":0,"AcrossMm":0,"Level":true,"Strength":99}""")]
    [InlineData("""{"AX":"left"}""")]
    public void What_cannot_be_meant_lies_across_the_middle(string place)
    {
        PhotoLaid laid = PhotoLaid.Of(Kept(place));
        Assert.Equal(new PhotoLaid(0, 300, 1600, 300, 100, 0, 0, Level: true, 1), laid);
        double[] matrix = [.. laid.Matrix(Sheet, "side")["matrix(".Length..^1].Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
        Assert.All(matrix, n => Assert.InRange(n, -10_000, 10_000));
    }

    [Fact]
    public void What_can_be_meant_stays_to_the_digit()
    {
        var laid = new PhotoLaid(12.5, 300, 1544.25, 310, 170, -20, 4.5, Level: false, 2);
        Assert.Equal(laid, PhotoLaid.Of(Kept(laid.Text())));
        Assert.True(laid.IsSound(Kept("{}")));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(1e6)]
    [InlineData(double.NaN)]
    public void A_length_that_no_lure_has_is_not_laid(double length) =>
        Assert.False(new PhotoLaid(0, 0, 1600, 0, length, 0, 0, Level: true, 1).IsSound(Kept("{}")));
}
