using System.Collections.Concurrent;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>Nothing in a lure that is alike left and right chooses a side: what leans to one leans to the other, and is told so.</summary>
public class TwinTests
{
    private static bool IsAlike(Prediction p) => Math.Abs(p.Body.Cg.Y) + Math.Abs(p.Body.Cb.Y) < 1e-9 * p.Body.Reach;

    private static IEnumerable<string> OneSided(Prediction p) => !IsAlike(p) ? [] : p.Postures
        .Where(r => r.Heel is { } heel && Math.Abs(Math.Sin(heel)) > Math.Sin(Units.FromDegrees(1)) && !r.Mirror)
        .Select(r => Words.Posture(r, Notation.Metric));

    [Fact]
    public void No_lure_that_is_alike_left_and_right_is_told_to_lean_one_way()
    {
        var wrong = new ConcurrentBag<string>();
        int heeled = 0;
        Parallel.For(0, Tier.Count(quick: 60, ci: 1000, @long: 4000), seed =>
        {
            Draw draw = RandomLures.Of(600_000 + seed);
            Prediction p = Prediction.Of(draw.Design, Circumstances.InTheSea with { Mesh = MeshSize.Coarse });
            if (p.SpareBuoyancy <= 0) return;
            foreach (string said in OneSided(p)) wrong.Add($"lure {600_000 + seed}: {said}");
            if (p.Postures.Any(r => r.Mirror)) Interlocked.Increment(ref heeled);
        });
        foreach (string line in wrong.Take(20)) Console.WriteLine("wrong: " + line);
        Assert.Empty(wrong);
        Assert.True(heeled > 0);
    }

    /// <summary>
    /// A lure is made top-heavy until it just begins to lean: there the hollows to both sides lie so close, and so little higher between, that a
    /// search takes them for one.
    /// </summary>
    [Fact]
    public void Twins_that_hardly_a_barrier_parts_are_told_as_twins()
    {
        int leaning = 0, hardly = 0;
        foreach (string name in new[] { "slipway-150", "mooring-post-210" })
        {
            LureDesign demo = Lures.Demo(name) with { Halves = null, Hardware = [] };
            // A point of lead at the middle of buoyancy's station, raised: it moves nothing but GM.
            Prediction At(double z) => Prediction.Of(demo with
            {
                Ballast = [new BallastPiece { Name = "raised", Form = BallastForm.Ball, DiameterMm = 6, MassG = 12, AtMm = [demo.Body.LengthMm / 2, 0, z] }],
            }, Circumstances.InTheSea with { Mesh = MeshSize.Coarse });
            bool Upright(double z) => Math.Abs(At(z).Posture.Heel ?? 9) < 1e-3;
            (double low, double high) = (-10, 10);
            if (!Upright(low) || Upright(high)) continue;
            for (int i = 0; i < 14; i++)
                if (Upright((low + high) / 2)) low = (low + high) / 2;
                else high = (low + high) / 2;
            foreach (double over in new[] { 0, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5 })
            {
                Prediction p = At(high + over);
                Assert.Empty(OneSided(p));
                if (!p.Posture.Mirror) continue;
                leaning++;
                double upright = Equilibrium.Afloat(p.Body, p.Posture.Plane.N with { Y = 0 } is var n ? n.Unit() : n).Energy;
                if (upright - Equilibrium.Afloat(p.Body, p.Posture.Plane.N).Energy < RestSearch.Indifferent * p.Body.Weight) hardly++;
            }
        }
        Assert.True(leaning > 5 && hardly > 1, $"{leaning} leaning, {hardly} hardly parted");
    }

    [Fact]
    public void A_lure_that_begins_to_lean_under_the_hand_may_lean_either_way()
    {
        LureDesign demo = Lures.Demo("mooring-post-210") with { Halves = null, Hardware = [] };
        LureDesign Raised(double z) => demo with { Ballast = [new BallastPiece { Name = "raised", Form = BallastForm.Ball, DiameterMm = 6, MassG = 12, AtMm = [demo.Body.LengthMm / 2, 0, z] }] };
        Prediction shown = Prediction.Of(Raised(-10), Circumstances.InTheSea);
        int leaning = 0;
        for (double z = -9.5; z <= 10; z += 0.5)
        {
            shown = Prediction.Following(Raised(z), shown);
            Assert.Empty(OneSided(shown));
            leaning += shown.Posture.Mirror ? 1 : 0;
        }
        Assert.True(leaning > 0);
    }
}
