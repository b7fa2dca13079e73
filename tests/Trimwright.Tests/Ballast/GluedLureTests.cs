using System.Collections.Concurrent;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Ballast;

/// <summary>A glued lure's predictions are those of the front door, whatever is changed from outside.</summary>
public class GluedLureTests
{
    [Fact]
    public void What_a_glued_lure_does_is_what_the_front_door_predicts_of_the_changed_design()
    {
        int lures = Tier.Count(16, 300, 2000);
        var wrong = new ConcurrentBag<string>();
        int afloat = 0, sunk = 0;
        Parallel.For(0, lures, seed =>
        {
            LureDesign design = RandomLures.Of(500_000 + seed).Design;
            var random = new Random(seed);
            var lure = new GluedLure(design);
            for (int k = 0; k < 2; k++)
            {
                LureDesign changed = Changed(design, random);
                WaterState water = WaterState.Named[random.Next(5)].Water;
                Prediction quick = lure.Predict(changed, water), full = Prediction.Of(changed, new(Stage.Finished, Rig.Rigged, water));
                if (full.SpareBuoyancy > 0) Interlocked.Increment(ref afloat);
                else Interlocked.Increment(ref sunk);
                foreach (string difference in Differences(quick, full)) wrong.Add($"lure {seed}.{k}: {difference}");
            }
        });
        TestContext.Current.TestOutputHelper?.WriteLine($"{afloat} afloat, {sunk} sunk");
        foreach (string line in wrong.Take(20)) Console.WriteLine("wrong: " + line);
        Assert.Empty(wrong);
        Assert.True(afloat > lures / 4 && sunk > lures / 8, $"{afloat} afloat, {sunk} sunk");
    }

    // Hooks heavier and lighter, one gone, a leader, and a plug in the middle of the body.
    private static LureDesign Changed(LureDesign design, Random random)
    {
        IEnumerable<HardwareItem> hardware = design.Hardware.Where(_ => random.NextDouble() < 0.85).Select(h => h with { MassG = h.MassG * (0.5 + random.NextDouble()) });
        double middle = design.Body.LengthMm * (0.3 + 0.4 * random.NextDouble());
        var surface = design.Body.Surface();
        double size = 0.2 * Math.Min(surface.BackAt(middle) - surface.BellyAt(middle), surface.HalfBreadthAt(middle));
        var plug = new BallastPiece
        {
            Name = "plug", Form = BallastForm.Plug, Axis = Core.Shape.Axis.Z, DiameterMm = size, LengthMm = 2 * size, DensityGPerCm3 = random.NextDouble() < 0.5 ? 11.3 : 0.2,
            AtMm = [middle, 0, 0.5 * (surface.BackAt(middle) + surface.BellyAt(middle))],
        };
        return design with
        {
            Hardware = [.. hardware],
            Leader = random.NextDouble() < 0.3 ? new LeaderDesign { DiameterMm = 1, CarriedMm = 1500 * random.NextDouble() } : null,
            // A solid that was never split is not a glued lure.
            Ballast = design.Wire is null && design.Ballast.IsEmpty && design.Joint is null && design.Halves is null || random.NextDouble() < 0.5 ? design.Ballast : [.. design.Ballast, plug],
        };
    }

    internal static IEnumerable<string> Differences(Prediction quick, Prediction full)
    {
        if (Math.Abs(quick.SpareBuoyancy - full.SpareBuoyancy) > 1e-9) yield return $"spare {quick.SpareBuoyancy} and {full.SpareBuoyancy}";
        if (Math.Abs(quick.Ledger.Weight - full.Ledger.Weight) > 1e-9) yield return $"weight {quick.Ledger.Weight} and {full.Ledger.Weight}";
        if (quick.Verdict != full.Verdict) yield return $"{quick.Verdict} and {full.Verdict}";
        // Two rests of one energy, to anybody, may come in either order.
        double alike = 1e-3 * full.Body.Weight * Core.Quantities.Units.Gravity;
        bool bothSides = Math.Abs(full.Body.Cg.Y) + Math.Abs(full.Body.Cb.Y) < 1e-9;
        double nearest = full.Postures.Where(p => p.Energy <= alike).Min(p => Apart(quick.Posture, p, bothSides));
        if (nearest > 1e-5 && !(bothSides && IsBetweenTwins(quick, full, alike))) yield return $"rests {nearest} rad apart: {quick.Posture.Plane.N} and {full.Posture.Plane.N}";
        if (quick.Descent?.First is { } fall && Math.Abs(fall.Rate - full.Descent!.First!.Rate) > 1e-9) yield return $"falls {fall.Rate} and {full.Descent.First.Rate}";
        if (quick.Descent?.First is null != full.Descent?.First is null) yield return "one falls and the other does not";
    }

    // Upright between twins that nothing anybody could notice parts: the search tells one of them, whoever follows from upright stays there.
    private static bool IsBetweenTwins(Prediction quick, Prediction full, double alike) => quick.Body.SpareBuoyancy > 0 && quick.Posture.Plane.N.Y == 0
        && Core.Floating.Equilibrium.Afloat(full.Body, quick.Posture.Plane.N).Energy - Core.Floating.Equilibrium.Afloat(full.Body, full.Posture.Plane.N).Energy is var over
        && Math.Abs(over) <= alike;

    // Of twins left and right of a lure that is alike on both sides either may stand for both, also where a barrier that nobody notices parts them and no mirror is
    // told of; one that rolls freely has any heel.
    private static double Apart(Core.Floating.Posture a, Core.Floating.Posture b, bool alike)
    {
        if (a.HeelIsFree && b.HeelIsFree) return Math.Abs(a.Trim - b.Trim);
        double angle = Vec3.Angle(a.Plane.N, b.Plane.N);
        return alike && a.Mirror == b.Mirror ? Math.Min(angle, Vec3.Angle(a.Plane.N, b.Plane.N with { Y = -b.Plane.N.Y })) : angle;
    }
}
