using System.Collections.Concurrent;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>What is said of a fall's stability against what the motion does when it is let go.</summary>
public class FallKindTests
{
    /// <summary>Where a motion ends that starts beside a fall, tipped out of its plane by half a degree; null: it never settles.</summary>
    private static MotionState? Released(FallingBody body, Fall fall)
    {
        var motion = new Motion(body);
        MotionState s = new(fall.Velocity, Vec3.Zero, (fall.Up + new Vec3(0, 0.01, 0)).Unit());
        // What hardly dies out takes its time.
        (double within, double without, _) = motion.Growth(fall.Velocity, fall.Up);
        double slowest = Math.Max(Math.Min(Math.Abs(within), Math.Abs(without)) * body.Length / fall.Velocity.Length, 2e-3);
        return Drop.Settled(motion, body, s, fall.Velocity.Length, (int)Math.Max(800, 20 / slowest));
    }

    private static double Degrees(double radians) => Units.ToDegrees(radians);

    [Fact]
    public void Falls_hold_spiral_or_roll_as_is_said_of_them()
    {
        int sinkers = Tier.Count(quick: 40, ci: 600);
        var make = new RandomSinkers(2);
        (LureDesign Design, FallingBody Body)[] all = [.. Enumerable.Range(0, sinkers).Select(_ => make.Next())];
        var wrong = new ConcurrentBag<string>();
        var counts = new ConcurrentDictionary<string, int>();
        Parallel.ForEach(all, item =>
        {
            FallingBody body = item.Body;
            foreach (Fall fall in Falls.Of(body)!.All.Where(f => f.Kind != FallKind.Unsteady))
            {
                string what = FormattableString.Invariant($"{item.Design.Name}: {fall.Kind}, trim {Degrees(fall.Trim):F1}°, belly up {fall.BellyUp}, {1000 * fall.Rate:F0} mm/s");
                if (Released(body, fall) is not { } end)
                {
                    counts.AddOrUpdate($"{fall.Kind} unsettled", 1, (_, n) => n + 1);
                    if (fall.Kind == FallKind.Steady) wrong.Add(what + ": never settles");
                    continue;
                }
                counts.AddOrUpdate($"{fall.Kind}", 1, (_, n) => n + 1);
                double grows = new Motion(body).Growth(fall.Velocity, fall.Up).OutOfPlane * body.Length / fall.Velocity.Length;
                double heel = Degrees(Math.Asin(Math.Min(Math.Abs(end.Up.Y), 1))), rate = -Vec3.Dot(end.V, end.Up) / fall.Rate;
                double trim = Degrees(Math.Asin(-end.Up.X) - Math.Asin(-fall.Up.X)), apart = Drop.Apart(body, end, fall);
                string where = FormattableString.Invariant($"{what}: comes to heel {heel:F1}°, trim {trim:F1}° off, rate × {rate:F3}, grows {grows:F2}, {apart:G3} away, belly up {end.Up.Z < 0}");
                bool holds = fall.Kind switch
                {
                    FallKind.Steady => apart < 1e-2 || (Free(body) && rate is > 0.999 and < 1.001),
                    FallKind.Spirals => heel < 20 && Math.Abs(trim) < 12 && rate is > 0.85 and < 1.15,
                    // Just past the limit it leans as little as you like.
                    _ => apart > 0.02 && (grows < 1.5 || heel > 8 || end.Up.Z < 0 != fall.BellyUp),
                };
                if (!holds) wrong.Add(where);
            }
        });
        string summary = $"{sinkers} sinkers: {string.Join(", ", counts.OrderBy(c => c.Key).Select(c => $"{c.Value} {c.Key}"))}";
        Console.WriteLine(summary + "\n" + string.Join("\n", wrong));
        Assert.True(wrong.IsEmpty, summary + "\n" + string.Join("\n", wrong.Take(20)));
    }

    // Round, or nearly, with hardly any keel: it lies as it likes.
    private static bool Free(FallingBody body) => Math.Abs(body.Cg.Z - body.Cb.Z) < 0.03 && Math.Abs(body.Height / body.Breadth - 1) < 0.02;

    [Fact]
    public void From_rest_it_comes_to_the_fall_that_is_named_first()
    {
        int sinkers = Tier.Count(quick: 60, ci: 600);
        var make = new RandomSinkers(3);
        (LureDesign Design, FallingBody Body)[] all = [.. Enumerable.Range(0, sinkers).Select(_ => make.Next())];
        var wrong = new ConcurrentBag<string>();
        int named = 0;
        double slowest = 0, fastest = double.PositiveInfinity;
        var guard = new Lock();
        Parallel.ForEach(all, item =>
        {
            FallingBody body = item.Body;
            // With its weight well under its lift: otherwise it has no posture at rest to speak of.
            if (Falls.Of(body)! is not { First: { Kind: FallKind.Steady } first } descent || body.Cb.Z - body.Cg.Z < 0.5) return;
            var motion = new Motion(body);
            MotionState start = new(Vec3.Zero, Vec3.Zero, ((body.Cb - body.Cg).Unit() + new Vec3(0, 1e-3, 0)).Unit());
            MotionState? end = Drop.Settled(motion, body, start, first.Velocity.Length);
            double told = descent.TimeTo(1000) / Drop.TimeTo(motion, start, 1000, Drop.StepFor(body, first.Velocity.Length));
            lock (guard)
            {
                named++;
                (slowest, fastest) = (Math.Max(slowest, told), Math.Min(fastest, told));
            }
            if (end is not { } s || Drop.Apart(body, s, first) > 1e-2)
                wrong.Add(FormattableString.Invariant($"{item.Design.Name}: first {Degrees(first.Trim):F1}°, comes to {(end is { } e ? Degrees(Math.Asin(-e.Up.X)) : double.NaN):F1}°"));
        });
        string summary = FormattableString.Invariant($"{named} of {sinkers} with a steady fall named first; the first metre takes {fastest:F2} to {slowest:F2} of the integrated time");
        Console.WriteLine(summary);
        // Where two steady falls lie near each other, the nearer one need not be the one it swings into.
        Assert.True(100 * wrong.Count <= named, summary + "\n" + string.Join("\n", wrong.Take(20)));
        Assert.True(named > sinkers / 5, summary);
    }
}
