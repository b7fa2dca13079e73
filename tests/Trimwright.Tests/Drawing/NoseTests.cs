using Trimwright.App.Edits;
using Trimwright.App.Pages;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.Tests.Drawing;

public class NoseTests
{
    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    [InlineData("slipway-150")]
    public void With_the_nose_to_the_right_the_picture_is_the_other_one_in_a_mirror_and_its_words_are_not(string demo)
    {
        LureDesign lure = Lures.Demo(demo);
        Prediction prediction = Prediction.Of(lure, Circumstances.InTheSea);
        Picture left = Afloat.Draw(lure, prediction, Notation.Metric), right = Afloat.Draw(lure, prediction, Notation.Metric, nose: Nose.Right);
        Assert.Equal(Wood(left), Wood(right).Select(p => (Afloat.Width - p.X, p.Y)), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) < 1e-9);
        Assert.Equal(left.Marks.OfType<Label>().Select(l => l.Text), right.Marks.OfType<Label>().Select(l => l.Text));
        Assert.Equal(left.Marks.OfType<Tap>().Select(t => t.Name), right.Marks.OfType<Tap>().Select(t => t.Name));
        static IEnumerable<(double X, double Y)> Wood(Picture picture) =>
            picture.Marks.OfType<Stroke>().Single(s => s.Ink == Ink.Wood).Contours.SelectMany(c => c.Steps).Select(s => (s.End.X, s.End.Y));
    }

    // Looked at from its other side, not mirrored: a closed surface that is turned inside out has a volume below nothing.
    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    [InlineData("slipway-150")]
    public void In_the_round_it_is_the_same_body_seen_from_its_other_side(string demo)
    {
        LureDesign lure = Lures.Demo(demo);
        Prediction prediction = Prediction.Of(lure, Circumstances.InTheSea);
        double[] volumes = [.. new[] { Nose.Left, Nose.Right }.Select(n => Volume(InTheRound.Of(lure, prediction, n)[0]))];
        Assert.Equal(volumes[0], volumes[1], 1e-3 * Math.Abs(volumes[0]));
        static double Volume(InTheRound.Surface s)
        {
            double sum = 0;
            for (int i = 0; i < s.Triangles.Length; i += 3)
            {
                (double ax, double ay, double az) = P(s.Triangles[i]);
                (double bx, double by, double bz) = P(s.Triangles[i + 1]);
                (double cx, double cy, double cz) = P(s.Triangles[i + 2]);
                sum += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
            }
            return sum;
            (double, double, double) P(int v) => (s.Places[3 * v], s.Places[3 * v + 1], s.Places[3 * v + 2]);
        }
    }

    [Theory]
    [InlineData(Nose.Left)]
    [InlineData(Nose.Right)]
    public void A_point_lies_on_the_paper_where_a_hand_that_takes_it_means_it(Nose nose)
    {
        BodyDesign body = Lures.Demo("tidegate-185").Body;
        var sheet = new OutlineSheet(body, nose);
        foreach (Line line in Enum.GetValues<Line>())
            foreach (OutlinePoint point in Reshape.Of(body, line).Points)
            {
                (double x, double y) = Knob.On(sheet, line, point);
                (double along, double value) = Knob.Place(sheet, line, x, y);
                Assert.Equal((point.X, point.Value), (Math.Round(along, 9), Math.Round(value, 9)));
                Assert.InRange(x, 0, sheet.Width);
            }
        // From above, heading left a lure has its right side up the page; heading right, down.
        Assert.Equal(nose == Nose.Left, sheet.Plan(50, 4).Y < sheet.Seam);
    }
}
