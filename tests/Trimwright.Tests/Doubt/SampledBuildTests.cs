using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Doubt;

/// <summary>Sampled builds against the live mesh, and against the bookkeeper on designs changed by hand.</summary>
public class SampledBuildTests
{
    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    /// <summary>
    /// One random build of each random lure, on the sampling mesh with its loose descents from known rests, and on the live
    /// mesh with the exact cutter and a full search for every rest.
    /// </summary>
    [Fact]
    public void Builds_on_the_sampling_mesh_differ_from_the_live_mesh_by_under_a_tenth_of_a_degree()
    {
        int lures = Tier.Count(quick: 4, ci: 80, @long: 1000);
        double worstGrams = 0, worstDegrees = 0, worstCliff = 0;
        int afloat = 0, cliffs = 0, elsewhere = 0;
        for (int seed = 0; seed < lures; seed++)
        {
            Draw draw = RandomLures.Of(seed);
            Circumstances where = draw.Circumstances;
            var fast = new BuildModel(draw.Design);
            var exact = new BuildModel(draw.Design, mesh: MeshSize.Live);
            var xi = new double[fast.Unknowns.Count];
            new NormalDraws(7, seed).Fill(xi);
            Outcome a = Try(fast, where, xi), b = Try(exact, where, xi);
            worstGrams = Math.Max(worstGrams, Math.Max(Math.Abs(a.Weight - b.Weight), Math.Abs(a.Spare - b.Spare)));
            if (b.Spare <= 0 || a.Spare <= 0) continue;
            afloat++;
            double apart = Units.ToDegrees(Math.Abs(a.Trim - b.Trim));
            // A cliff: a gram more or less turns it by more than 5°.
            double cliff = Cliff(exact, where, xi, b);
            if (apart > 5) elsewhere++;
            else if (cliff > 5) (cliffs, worstCliff) = (cliffs + 1, Math.Max(worstCliff, apart));
            else worstDegrees = Math.Max(worstDegrees, apart);
            if (apart > 0.05) Say($"{draw}: {Units.ToDegrees(a.Trim):F3}° for {Units.ToDegrees(b.Trim):F3}°, a gram turns it {cliff:F1}°, {a.Spare - b.Spare:F4} g");
        }
        Say($"{lures} lures, {afloat} afloat: worst {worstGrams:F4} g, {worstDegrees:F3}°, {cliffs} on a cliff {worstCliff:F3}°; {elsewhere} at another rest");
        Assert.True(worstGrams < 0.05);
        Assert.True(worstDegrees < 0.1);
        Assert.True(worstCliff < 0.2);
        Assert.True(elsewhere <= lures / 100);
    }

    private static Outcome Try(BuildModel build, Circumstances where, double[] xi, in Extra extra = default)
    {
        Sitting sitting = build.In(where);
        return sitting.Of(xi, sitting.Rent(), extra);
    }

    private static double Cliff(BuildModel build, Circumstances where, double[] xi, Outcome at)
    {
        double turned = 0;
        foreach (double gram in new[] { -1.0, 1.0 })
        {
            Outcome there = Try(build, where, xi, new Extra(0, 0, Vec3.Zero, 0, gram));
            if (there.Spare > 0) turned = Math.Max(turned, Units.ToDegrees(Vec3.Angle(at.Up, there.Up)));
        }
        return turned;
    }

    [Fact]
    public void A_build_without_error_is_the_prediction()
    {
        foreach ((int i, string name) in new[] { "tidegate-185", "mooring-post-210", "slipway-150" }.Index())
        {
            LureDesign design = Lures.Demo(name);
            var build = new BuildModel(design);
            foreach (Stage stage in Enum.GetValues<Stage>())
                foreach (Rig rig in Enum.GetValues<Rig>())
                {
                    // Outside CI each stage and rig of one of the three.
                    if (!Tier.IsCi && ((int)stage + (int)rig) % 3 != i) continue;
                    Circumstances where = Circumstances.InTheSea with { Stage = stage, Rig = rig };
                    Prediction p = Prediction.Of(design, where);
                    Outcome o = Try(build, where, new double[build.Unknowns.Count]);
                    Say($"{name} {stage} {rig}: {o.Weight - p.Ledger.Weight:E1} g, {o.Spare - p.SpareBuoyancy:E1} g, {Units.ToDegrees(o.Trim - p.Posture.Trim):F3}°, fall {Units.ToDegrees(o.FallTrim - (p.Descent?.First?.Trim ?? double.NaN)):F3}°");
                    Assert.Equal(p.Ledger.Weight, o.Weight, 1e-6);
                    Assert.Equal(p.SpareBuoyancy, o.Spare, 1e-3);
                    Assert.Equal(p.Posture.Trim, o.Trim, Units.FromDegrees(0.1));
                    if (p.Descent?.First is { } fall) Assert.Equal(fall.Trim, o.FallTrim, Units.FromDegrees(0.1));
                }
        }
    }
}
