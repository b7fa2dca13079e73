using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.Tests.Drawing.Sheets;

/// <summary>The guide's pictures are approved drawings: what the program draws, to 0.02 mm.</summary>
public sealed partial class GuidePicturesTest
{
    [Fact]
    public void Pictures_in_the_guide_are_what_the_program_draws()
    {
        Outside.NeedType();
        string folder = Path.Combine(Here.Root, "docs", "guide", "pictures");
        Sheet[] drawn = [.. SheetSet.Of(Lures.Demo("tidegate-185"), new SheetOptions(PaperSize.A4, Notation.Metric), [SheetSet.FirstEvening, "glue-right"])];
        // The contact sheet in the guide is the first evening's own.
        drawn[0] = SheetSet.Of(Lures.Demo("tidegate-185"), new SheetOptions(PaperSize.A4, Notation.Metric), [SheetSet.FirstEvening])[0];
        string[] pictures = Directory.GetFiles(folder, "*.svg");
        Assert.NotEmpty(pictures);
        foreach (string picture in pictures)
        {
            string id = Path.GetFileNameWithoutExtension(picture)["tidegate-185-".Length..], kept = File.ReadAllText(picture);
            string now = Svg.WriteTrueSize(Assert.Single(drawn, s => s.Id == id).Fields[0]);
            Assert.Equal(Number().Replace(kept, "#"), Number().Replace(now, "#"));
            foreach ((Match a, Match b) in Number().Matches(kept).Zip(Number().Matches(now)))
                Assert.Equal(double.Parse(a.Value, CultureInfo.InvariantCulture), double.Parse(b.Value, CultureInfo.InvariantCulture), 0.02);
        }
    }

    [GeneratedRegex(@"(?<![\w#.])-?\d+(\.\d+)?")]
    private static partial Regex Number();
}
