using Trimwright.App.Edits;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>What is shown while a point is in hand is a rest of the shape in hand, and weighs what it weighs.</summary>
public class FollowTests(ITestOutputHelper output)
{
    [Fact]
    public void On_the_lighter_mesh_a_preview_weighs_and_sits_as_on_the_live_one()
    {
        double grams = 0, degrees = 0;
        foreach (LureDesign lure in Lures.Demos)
        {
            Look shown = Look.At(lure, Circumstances.InTheSea, Core.Telling.Notation.Metric);
            for (int i = 0; i < Tier.Count(quick: 5, ci: 40); i++)
            {
                OutlinePoint p = lure.Body.Back.Points[3];
                LureDesign moved = Reshape.Move(lure, Line.Back, 3, p.X, p.Value + 0.08 * i);
                shown = Look.Following(moved, shown, Core.Telling.Notation.Metric);
                Prediction live = Prediction.Following(moved, shown.Prediction with { Circumstances = Circumstances.InTheSea });
                grams = Math.Max(grams, Math.Abs(shown.Prediction.SpareBuoyancy - live.SpareBuoyancy));
                degrees = Math.Max(degrees, Units.ToDegrees(Math.Abs(shown.Prediction.Posture.Trim - live.Posture.Trim)));
            }
        }
        output.WriteLine($"worst: {grams:F4} g to spare, {degrees:F3} degrees");
        Assert.True(grams < 0.02 && degrees < 0.2);
    }

    [Theory]
    [InlineData("mooring-post-210")]
    [InlineData("tidegate-185")]
    public void A_preview_s_posture_is_one_of_the_rests_of_the_dragged_shape(string name)
    {
        LureDesign lure = Lures.Demo(name);
        var random = new Random(11);
        Prediction shown = Prediction.Of(lure, Circumstances.InTheSea);
        int followed = 0;
        for (int i = 0; i < Tier.Count(quick: 12, ci: 60, @long: 600); i++)
        {
            Line line = (Line)random.Next(3);
            int at = random.Next(1, 5);
            OutlinePoint p = Reshape.Of(lure.Body, line).Points[at];
            LureDesign moved = Reshape.Move(lure, line, at, p.X, p.Value + 5 * (random.NextDouble() - 0.5));
            if (LureFile.Read(LureFile.Write(moved)).Value is not { } design) continue;
            shown = Prediction.Following(design, shown);
            Prediction all = Prediction.Of(design, Circumstances.InTheSea);
            Assert.Equal(all.Ledger.Weight, shown.Ledger.Weight);
            double nearest = all.Postures.Min(r => Math.Acos(Math.Clamp(
                Math.Abs(r.Plane.N.X * shown.Posture.Plane.N.X + r.Plane.N.Z * shown.Posture.Plane.N.Z) + Math.Abs(r.Plane.N.Y * shown.Posture.Plane.N.Y), -1, 1)));
            if (shown.SpareBuoyancy > 0 && shown.Tipping is null) followed++;
            output.WriteLine($"{name}, move {i}: {Units.ToDegrees(nearest):0.0000} degrees from the nearest rest");
            Assert.True(nearest < Units.FromDegrees(0.1), $"move {i}: {Units.ToDegrees(nearest):0.00} degrees from any rest");
        }
        if (shown.SpareBuoyancy > 0) Assert.True(followed > 0, "no posture was followed");
    }
}
