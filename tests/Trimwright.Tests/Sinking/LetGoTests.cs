using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Sinking;

/// <summary>From which start a fall is reached, against the motion in its plane by the tests' own steps.</summary>
public class LetGoTests
{
    private static (LureDesign Design, FallingBody Body, Descent Descent)[] Several(int seed, int most)
    {
        var make = new RandomSinkers(seed);
        return [.. Enumerable.Range(0, most).Select(_ => make.Next()).Select(p => (p.Design, p.Body, Falls.Of(p.Body)!)).Where(p => LetGo.Decides(p.Item3))];
    }

    [Fact]
    public void What_is_let_go_comes_to_the_fall_that_is_told()
    {
        int asked = 0, ended = 0, others = 0;
        var wrong = new List<string>();
        foreach ((LureDesign design, FallingBody body, Descent descent) in Several(33, Tier.Count(quick: 16, ci: 200)))
        {
            var motion = new Motion(body);
            int first = descent.All.IndexOf(descent.First ?? descent.IfItHolds!);
            foreach (LetGo run in LetGo.Of(body, descent))
            {
                if (run.Fall != first) others++;
                // Two degrees inside the edges, and in the middle.
                double inside = Units.FromDegrees(2);
                if (run.To - run.From < 4 * inside) continue;
                foreach (double trim in new[] { run.From + inside, 0.5 * (run.From + run.To), run.To - inside })
                {
                    asked++;
                    int? came = EndOf(motion, body, descent, trim);
                    if (came is not null) ended++;
                    if (came != run.Fall) wrong.Add(FormattableString.Invariant($"{design.Name} let go at {Units.ToDegrees(trim):F1}°: comes to {came?.ToString() ?? "nothing"}, told {run.Fall?.ToString() ?? "nothing"}"));
                }
            }
        }
        Console.WriteLine($"{asked} starts, {ended} settled, {others} runs to another fall than the first");
        // Runs of a degree or two within ten are not looked for.
        Assert.True(50 * wrong.Count <= asked, string.Join("\n", wrong));
        Assert.True(asked > 20 && ended > asked / 2 && others > 2, $"{asked}, {ended}, {others}");
    }

    // What it lies beside after three hundred of its lengths; a swing that hardly dies out is still on its way there.
    private static int? EndOf(Motion motion, FallingBody body, Descent descent, double trim)
    {
        double speed = descent.All.Max(f => f.Velocity.Length), step = Drop.StepFor(body, speed), most = 0;
        var s = new MotionState(Vec3.Zero, Vec3.Zero, WaterPlane.Up(trim, 0));
        int? beside = null;
        for (double t = 0; t < 300 * body.Length / speed; t += step)
        {
            s = Drop.Step(motion, s, step);
            s = new MotionState(s.V with { Y = 0 }, new Vec3(0, s.Omega.Y, 0), s.Up with { Y = 0 });
            if (t < 250 * body.Length / speed) continue;
            (int index, Fall fall) = descent.All.Index().Where(f => f.Item.Kind != FallKind.Unsteady).MinBy(f => Drop.Apart(body, s, f.Item));
            beside ??= index;
            most = Math.Max(most, index == beside ? Drop.Apart(body, s, fall) : double.PositiveInfinity);
        }
        return most < 0.1 ? beside : null;
    }

    [Fact]
    public void Words_say_which_start_leads_there_and_nothing_when_all_do()
    {
        int silent = 0, told = 0;
        foreach ((_, FallingBody body, Descent descent) in Several(33, 16))
        {
            LetGo[] runs = [.. LetGo.Of(body, descent)];
            Assert.Equal(-Math.PI / 2, runs[0].From, 1e-9);
            Assert.Equal(Math.PI / 2, runs[^1].To, 1e-9);
            for (int i = 1; i < runs.Length; i++) Assert.Equal(runs[i - 1].To, runs[i].From);
            int first = descent.All.IndexOf(descent.First ?? descent.IfItHolds!);
            string? said = LetGoWords.Of(runs, descent, Notation.Metric);
            Assert.Equal(runs.All(r => r.Fall == first), said is null);
            if (said is null) silent++;
            else told++;
            if (said is not null) Console.WriteLine(said);
        }
        Assert.True(told > 0, $"{silent} silent, {told} told");
    }
}
