using System.Collections.Concurrent;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>Whether a lure rolls, at each share of Munk's moment that its wake may leave, by the motion itself: let go a tenth of a degree over.</summary>
public class RollingTests
{
    private static readonly double[] Shares = [0.3, 0.45, 0.6, 0.75, 0.9, 1];

    [Fact]
    public void At_each_share_a_lure_rolls_or_keeps_its_back_up_as_is_said()
    {
        int asked = Tier.Count(quick: 60, ci: 600, @long: 2000), rolled = 0, held = 0;
        var make = new RandomSinkers(7);
        (LureDesign Design, FallingBody Body)[] all = [.. Enumerable.Range(0, asked).Select(_ => make.Next())];
        var wrong = new ConcurrentBag<string>();
        Parallel.ForEach(all, item =>
        {
            if (Falls.Of(item.Body) is not { RollsOnTheFall: true, IfItHolds: { } fall }) return;
            foreach (double share in Shares)
            {
                FallingBody body = item.Body with { Model = item.Body.Model with { WakeInRoll = share } };
                var motion = new Motion(body);
                FallKind kind = Rolling.KindAt(item.Body, fall, share);
                (double within, double without, _) = motion.Growth(fall.Velocity, fall.Up);
                double time = 60 * body.Length / fall.Velocity.Length;
                // One that loses its course or its plane is another question, and what hardly grows takes longer than this.
                if (kind is FallKind.Spirals or FallKind.Unsteady || Math.Abs(without) * time < 4 || within * time > -1) continue;
                double tip = Units.FromDegrees(0.1), dt = Drop.StepFor(body, fall.Velocity.Length), most = 0;
                MotionState s = new(fall.Velocity, Vec3.Zero, (fall.Up + new Vec3(0, tip, 0)).Unit());
                for (double t = 0; t < time; t += dt)
                {
                    s = Drop.Step(motion, s, dt);
                    most = Math.Max(most, Math.Asin(Math.Min(Math.Abs(s.Up.Y), 1)));
                }
                bool rolls = most > 4 * tip;
                if (rolls) Interlocked.Increment(ref rolled);
                else Interlocked.Increment(ref held);
                if (rolls != (kind == FallKind.Rolls)) wrong.Add(FormattableString.Invariant($"{item.Design.Name} at {share}: {kind}, heels to {Units.ToDegrees(most):F1}°, grows {without * time:F1}"));
            }
        });
        Console.WriteLine($"{asked} sinkers; at {rolled} shares they roll, at {held} they hold");
        foreach (string line in wrong.Take(20)) Console.WriteLine("wrong: " + line);
        Assert.Empty(wrong);
        Assert.True(rolled > 5 && held > 2, $"{rolled} rolled, {held} held");
    }

    [Fact]
    public void The_chance_is_the_priors_share_of_what_rolls()
    {
        var make = new RandomSinkers(7);
        int rolling = 0;
        for (int i = 0; i < 60; i++)
        {
            (_, FallingBody body) = make.Next();
            Descent descent = Falls.Of(body)!;
            if (descent.First is not null) Assert.Equal(0, descent.RollChance);
            if (!descent.RollsOnTheFall) continue;
            rolling++;
            // The density of 0.7 ± 0.2 over the shares at which it rolls, and all that lies above 1 at 1 itself.
            double sum = 0;
            const int Steps = 400;
            for (int k = 0; k < Steps; k++)
            {
                double low = (double)k / Steps, high = (k + 1.0) / Steps;
                double mass = MathNet.Numerics.Distributions.Normal.CDF(0.7, 0.2, k == Steps - 1 ? 99 : high) - MathNet.Numerics.Distributions.Normal.CDF(0.7, 0.2, k == 0 ? -99 : low);
                if (Rolling.KindAt(body, descent.IfItHolds!, (low + high) / 2) == FallKind.Rolls) sum += mass;
            }
            Assert.Equal(sum, descent.RollChance, 0.03);
        }
        Assert.True(rolling > 0);
    }
}
