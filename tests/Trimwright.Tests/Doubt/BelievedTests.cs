using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Doubt;

/// <summary>A build written back into a design predicts what the build does.</summary>
public class BelievedTests
{
    [Fact]
    public void The_drawn_build_is_the_design_itself()
    {
        foreach (LureDesign design in Lures.Demos)
        {
            var build = new BuildModel(design);
            LureDesign same = Believed.Of(build, new double[build.Unknowns.Count]);
            Prediction drawn = Prediction.Of(design, Circumstances.InTheSea), back = Prediction.Of(same, Circumstances.InTheSea);
            Assert.Equal(drawn.Ledger.Weight, back.Ledger.Weight, 1e-9);
            Assert.Equal(drawn.SpareBuoyancy, back.SpareBuoyancy, 1e-9);
        }
    }

    [Fact]
    public void A_build_and_its_design_weigh_and_sit_alike()
    {
        double grams = 0, spare = 0;
        int[] untold = [Unknowns.TailHeavy, Unknowns.RightHeavy, Unknowns.Across, Unknowns.HookDrag, Unknowns.EndDrag, Unknowns.Wake];
        foreach (LureDesign design in Lures.Demos)
        {
            var build = new BuildModel(design, mesh: MeshSize.Live);
            Sitting sitting = build.In(Circumstances.InTheSea);
            StageShape.Scratch scratch = sitting.Rent();
            for (int i = 0; i < Tier.Count(3, 20, 100); i++)
            {
                var xi = new double[build.Unknowns.Count];
                new NormalDraws(7, i).Fill(xi);
                foreach (int k in untold) xi[k] = 0;
                Weighed weighed = sitting.Model.Weigh(xi, scratch);
                Outcome of = sitting.Of(xi, scratch);
                Prediction told = Prediction.Of(Believed.Of(build, xi), Circumstances.InTheSea);
                Say($"{design.Name} {i}: {of.Weight:F2} g {told.Ledger.Weight - of.Weight:+0.00;-0.00}, spare {of.Spare:F2} {told.SpareBuoyancy - of.Spare:+0.00;-0.00}, CG {Show(told.Ledger.Cg - weighed.Cg)}, CB {Show(told.Ledger.Cb - weighed.Cb)}; {string.Join(' ', xi[..17].Select(v => v.ToString("F1", System.Globalization.CultureInfo.InvariantCulture)))}");
                grams = Math.Max(grams, Math.Abs(told.Ledger.Weight - of.Weight));
                spare = Math.Max(spare, Math.Abs(told.SpareBuoyancy - of.Spare));
            }
        }
        Say($"worst: {grams:F3} g, {spare:F3} g to spare");
        Assert.True(grams < 0.1 && spare < 0.15, $"{grams:F3} g, {spare:F3} g to spare");
    }

    private static string Show(Vec3 v) => System.FormattableString.Invariant($"({v.X:F3}, {v.Y:F3}, {v.Z:F3})");

    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);
}
