using System.Collections.Concurrent;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>
/// Dropped from any attitude in three dimensions, whatever a motion ends in that is planar and does not turn is a root
/// called steady. Ends that go round in a spiral or lie on a side count as ends too.
/// </summary>
public class FallFromAnywhereTests
{
    [Fact]
    public void From_anywhere_no_steady_planar_fall_is_reached_that_is_not_a_root()
    {
        int sinkers = Tier.Count(quick: 8, ci: 100), starts = Tier.Count(quick: 15, ci: 50);
        var make = new RandomSinkers(17);
        (LureDesign Design, FallingBody Body)[] all = [.. Enumerable.Range(0, sinkers).Select(_ => make.Next())];
        var wrong = new ConcurrentBag<string>();
        int planar = 0, turning = 0, leaning = 0, unsettled = 0, roots = 0, blind = 0;
        Parallel.ForEach(all.Index(), pair =>
        {
            (int index, (LureDesign design, FallingBody body)) = pair;
            Fall[] steady = [.. Falls.Of(body)!.All.Where(f => f.Kind == FallKind.Steady)];
            var reached = new bool[steady.Length];
            var motion = new Motion(body);
            var random = new Random(index);
            double speed = Falls.Of(body)!.TypicalRate;
            for (int k = 0; k < starts; k++)
            {
                MotionState start = new(speed * Any(random), 0.2 * speed / body.Length * Any(random), Any(random).Unit());
                if (Drop.Settled(motion, body, start, speed) is not { } end)
                {
                    Interlocked.Increment(ref unsettled);
                    continue;
                }
                double spin = end.Omega.Length * body.Length / end.V.Length;
                if (spin > 1e-3) Interlocked.Increment(ref turning);
                else if (Math.Abs(end.Up.Y) > 1e-3) Interlocked.Increment(ref leaning);
                else
                {
                    Interlocked.Increment(ref planar);
                    int found = Array.FindIndex(steady, f => Drop.Apart(body, end, f) < 1e-2);
                    if (found < 0) wrong.Add(FormattableString.Invariant($"{design.Name}: comes to up {end.Up}, v {end.V}, which is no steady root"));
                    else reached[found] = true;
                }
            }
            Interlocked.Add(ref roots, steady.Length);
            Interlocked.Add(ref blind, reached.Count(r => r));
        });
        string summary = $"{sinkers} sinkers × {starts}: {planar} planar, {turning} turning, {leaning} leaning, {unsettled} unsettled; {blind} of {roots} steady roots found blindly";
        TestContext.Current.TestOutputHelper?.WriteLine(summary);
        Assert.True(wrong.IsEmpty, summary + "\n" + string.Join("\n", wrong.Take(20)));
        Assert.True(planar > sinkers && unsettled * 20 <= sinkers * starts && 2 * blind > roots, summary);
    }

    private static Vec3 Any(Random random) => new(2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1);
}
