using System.Globalization;
using Trimwright.App.Work;

namespace Trimwright.Tests.Work;

/// <summary>Numbers as makers type them.</summary>
public class TypedTests
{
    [Theory]
    [InlineData("12", 12)]
    [InlineData("12.5", 12.5)]
    [InlineData("12,5", 12.5)]
    [InlineData("1,500", 1.5)]
    [InlineData(" .5 ", 0.5)]
    [InlineData("-4", -4)]
    [InlineData("−4 mm", -4)]
    [InlineData("1 3/8 in", 34.925)]
    [InlineData("3/8\"", 9.525)]
    [InlineData("2 cm", 20)]
    [InlineData("0.1 IN", 2.54)]
    public void A_length_is_read_in_millimetres(string text, double mm) => Assert.Equal(mm, Typed.Length(text)!.Value, 9);

    [Theory]
    [InlineData("0,5 oz", 14.1747615625)]
    [InlineData("7 g", 7)]
    [InlineData("9.5", 9.5)]
    public void A_weight_is_read_in_grams(string text, double grams) => Assert.Equal(grams, Typed.Weight(text)!.Value, 6);

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("twelve")]
    [InlineData("1.000,5")]
    [InlineData("1,000,000")]
    [InlineData("1 000")]
    [InlineData("3/0")]
    [InlineData("12 g")]
    [InlineData("1e3")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("１２")]
    [InlineData("0x10")]
    public void What_is_no_length_is_not_read(string? text) => Assert.Null(Typed.Length(text));

    [Fact]
    public void The_machine_s_culture_changes_nothing()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            var other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            (other.NumberFormat.NumberDecimalSeparator, other.NumberFormat.NumberGroupSeparator, other.NumberFormat.NegativeSign) = ("٫", ".", "~");
            CultureInfo.CurrentCulture = other;
            Assert.Equal(-12.5, Typed.Length("-12.5"));
            Assert.Equal(12.5, Typed.Length("12,5"));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
