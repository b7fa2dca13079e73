using System.Globalization;
using Trimwright.App.Pages;
using Trimwright.App.Sessions;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Sessions;

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

    // As these places write numbers; the program itself runs without any place's data, so that they are spelled out here.
    [Theory]
    [InlineData("de-DE", ",", ".", "-")]
    [InlineData("tr-TR", ",", ".", "-")]
    [InlineData("ar-SA", "\u066B", "\u066C", "\u061C-")]
    [InlineData("fa-IR", "\u066B", "\u066C", "\u200E\u2212")]
    public void The_machine_s_culture_changes_nothing(string place, string mark, string group, string minus)
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            var other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            (other.NumberFormat.NumberDecimalSeparator, other.NumberFormat.NumberGroupSeparator, other.NumberFormat.NegativeSign) = (mark, group, minus);
            CultureInfo.CurrentCulture = other;
            // The place holds for this thread, or the test would show nothing.
            Assert.Equal($"{minus}1{mark}5", (-1.5).ToString(CultureInfo.CurrentCulture));
            Assert.True(Typed.Length("-12.5") == -12.5, place);
            Assert.Equal(12.5, Typed.Length("12,5"));
            Assert.Equal(1.5, Typed.Length("1,500"));
            Assert.Equal(34.925, Typed.Length("1 3/8 IN")!.Value, 9);
            Assert.Equal("-1.5", Measure.Length.Show(-1.5, Notation.Metric));
            Assert.Equal("1.5", Measure.Length.Show(38.1, new Notation(Inches: true)));
            Assert.Equal("1.5\u00A0g", Notation.Metric.Weight(1.5));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(14.175)]
    [InlineData(185)]
    public void What_a_field_shows_is_read_back_as_the_same(double value)
    {
        foreach (var notation in new[] { Notation.Metric, new Notation(Inches: true) })
            foreach (Measure measure in Enum.GetValues<Measure>())
            {
                double step = notation.Inches ? measure == Measure.Length ? 0.0254 : 0.02835 : 0.001;
                Assert.Equal(value, measure.Read(measure.Show(value, notation), notation)!.Value, step / 2 + 1e-9);
            }
    }
}
