using System.Collections.Concurrent;
using Trimwright.Core;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>Steady falls by roots against the motion integrated in time, and the motion against what mechanics keeps.</summary>
public class MotionTests
{
    private const double Step = 4;
    private const double Longest = 60_000;

    /// <summary>Random lures that sink, with left and right alike, so that a planar fall is possible.</summary>
    private static IEnumerable<(string Name, FallingBody Body)> Sinkers(int from) =>
        Enumerable.Range(from, 100_000).Select(RandomLures.Of)
            .Select(draw => (draw, Prediction.Of(draw.Design, draw.Circumstances)))
            .Where(p => p.Item2.SpareBuoyancy < -0.002 * p.Item2.Ledger.Weight)
            .Select(p => (p.draw.ToString(), FallingBody.Of(p.draw.Design, p.Item2.Ledger, p.draw.Circumstances.Water)))
            .Where(p => p.Item2.Heavy > 0.002 * p.Item2.Weight && Math.Abs(p.Item2.Cg.Y) < 1e-9 && Math.Abs(p.Item2.Cb.Y) < 1e-9);

    [Fact]
    public void Steady_falls_by_roots_are_those_that_the_motion_comes_to()
    {
        int sinkers = Tier.Count(quick: 6, ci: 100), starts = Tier.Count(quick: 14, ci: 50);
        var wrong = new ConcurrentBag<string>();
        int roots = 0, settled = 0, unsettled = 0, sideways = 0;
        Parallel.ForEach(Sinkers(700_000).Take(sinkers), item =>
        {
            Descent descent = Falls.Of(item.Body)!;
            Fall[] steady = [.. descent.All.Where(f => f.Kind == FallKind.Steady)];
            Interlocked.Add(ref roots, steady.Length);
            var motion = new Motion(item.Body);
            var random = new Random(item.Name.Length);
            var reached = new bool[steady.Length];
            // A few near each steady fall, the rest anywhere.
            var from = new List<MotionState>();
            foreach (Fall fall in steady)
                for (int k = 0; k < 4; k++) from.Add(Near(random, fall));
            while (from.Count < starts) from.Add(Anywhere(random));
            foreach (MotionState start in from)
            {
                if (Settle(motion, start) is not { } end)
                {
                    Interlocked.Increment(ref unsettled);
                    continue;
                }
                Interlocked.Increment(ref settled);
                if (Math.Abs(end.Up.Y) > 0.02 || Math.Abs(end.V.Y) > 0.02 * end.V.Length)
                {
                    // On its side: steady, but not in the lure's own plane.
                    Interlocked.Increment(ref sideways);
                    continue;
                }
                int found = Array.FindIndex(steady, f => Vec3.Angle(f.Up, end.Up) < 0.02 && (f.Velocity - end.V).Length < 0.02 * f.Velocity.Length);
                if (found < 0) wrong.Add($"{item.Name}: comes to trim {Trim(end.Up):F2}°, v {end.V}, which no root is; roots {string.Join("; ", descent.All.Select(f => $"{f.Kind} {Trim(f.Up):F2}° belly up {f.BellyUp}"))}");
                else reached[found] = true;
            }
            for (int i = 0; i < steady.Length; i++)
                if (!reached[i]) wrong.Add($"{item.Name}: no start comes to the steady root at {Trim(steady[i].Up):F2}°, rate {1000 * steady[i].Rate:F0} mm/s, belly up {steady[i].BellyUp}");
        });
        string summary = $"{sinkers} sinkers, {roots} steady roots, {settled} of {settled + unsettled} motions settled, {sideways} of them on their side";
        TestContext.Current.TestOutputHelper?.WriteLine(summary);
        Assert.True(wrong.IsEmpty, summary + "\n" + string.Join("\n", wrong.Take(20)));
        Assert.True(roots > sinkers / 3, summary);
    }

    private static double Trim(Vec3 up) => Units.ToDegrees(Math.Atan2(-up.X, up.Z));

    private static Vec3 Direction(Random random)
    {
        while (true)
        {
            Vec3 v = new(2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1);
            if (v.Length is > 0.1 and < 1) return v.Unit();
        }
    }

    private static MotionState Near(Random random, Fall fall) =>
        new(fall.Velocity + 0.02 * fall.Velocity.Length * Direction(random), Vec3.Zero, (fall.Up + 0.02 * Direction(random)).Unit());

    private static MotionState Anywhere(Random random) => new(0.05 * Direction(random), 1e-4 * Direction(random), Direction(random));

    /// <summary>Runge and Kutta's fourth order until nothing changes any more; null when something always does.</summary>
    private static MotionState? Settle(Motion motion, MotionState s)
    {
        int still = 0;
        for (double t = 0; t < Longest; t += Step)
        {
            MotionState next = Advance(motion, s, Step);
            if (!next.V.IsFinite) return null;
            double change = (next.V - s.V).Length / (1e-6 + s.V.Length) + (next.Up - s.Up).Length + Step * next.Omega.Length;
            still = change < 2e-6 ? still + 1 : 0;
            s = next;
            // Still for half a second: at rest in its motion.
            if (still * Step > 500) return s;
        }
        return null;
    }

    private static MotionState Advance(Motion motion, MotionState s, double h)
    {
        static MotionState Ahead(MotionState s, MotionState rate, double h) =>
            new(s.V + h * rate.V, s.Omega + h * rate.Omega, (s.Up + h * rate.Up).Unit());
        MotionState k1 = motion.Rate(s), k2 = motion.Rate(Ahead(s, k1, h / 2)), k3 = motion.Rate(Ahead(s, k2, h / 2)), k4 = motion.Rate(Ahead(s, k3, h));
        return new MotionState(
            s.V + h / 6 * (k1.V + 2 * k2.V + 2 * k3.V + k4.V),
            s.Omega + h / 6 * (k1.Omega + 2 * k2.Omega + 2 * k3.Omega + k4.Omega),
            (s.Up + h / 6 * (k1.Up + 2 * k2.Up + 2 * k3.Up + k4.Up)).Unit());
    }

    /// <summary>Kirchhoff's equations keep the energy of lure and water when nothing drags and nothing pulls, whatever share of Munk's moment the wake leaves.</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(0.7, 1)]
    [InlineData(0.7, 0.7)]
    [InlineData(0.5, 1)]
    [InlineData(0.5, 0.2)]
    public void Without_drag_the_motion_keeps_its_energy(double wake, double inRoll)
    {
        FallingBody body = Neutral() with { Model = new DragModel { Wake = wake, WakeInRoll = inRoll, Across = 0, Ends = 0, Hardware = 0 }, SkinArea = 0 };
        var motion = new Motion(body);
        var s = new MotionState(new Vec3(0.2, 0.05, -0.1), new Vec3(2e-4, 5e-4, -3e-4), Vec3.UnitZ);
        double before = motion.Energy(s);
        for (int i = 0; i < 8000; i++) s = Advance(motion, s, 0.5);
        Console.WriteLine($"{motion.Energy(s) / before:0.000000000} of its energy after 4 s at a share of {wake} ({inRoll} in roll)");
        Assert.Equal(before, motion.Energy(s), 1e-6 * before);
    }

    /// <summary>Drag only ever takes energy.</summary>
    [Fact]
    public void Drag_takes_energy_from_any_motion()
    {
        var random = new Random(3);
        foreach ((string name, FallingBody body) in Sinkers(710_000).Take(3))
            for (int i = 0; i < 200; i++)
            {
                Vec3 v = 0.3 * Direction(random), omega = 1e-3 * Direction(random);
                Wrench drag = Flow.Drag(body, v, omega);
                Assert.True(Vec3.Dot(drag.Force, v) + Vec3.Dot(drag.Moment, omega) < 0, name);
            }
    }

    private static FallingBody Neutral()
    {
        FallingBody body = Spheroid.Of(1e-3, 1e-3, 70, 0);
        // Weight equal to lift, at the same point: no force, no moment.
        return body with { Weight = body.Lift * body.Volume };
    }
}
