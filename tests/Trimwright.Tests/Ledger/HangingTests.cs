using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Tests.Finish;

namespace Trimwright.Tests.Ledger;

/// <summary>A coat lies where it hung: grams stay, their place moves, and the build plan says which end goes up.</summary>
public class HangingTests
{
    private static LureDesign Coated(HowHung? hung, int coats = 3, string demo = "tidegate-185", double thick = 0.25) => Lures.Demo(demo) with
    {
        Finish = [new Coat { Name = "clear epoxy", Coats = coats, ThicknessMm = thick, DensityGPerCm3 = 1.15, Hung = hung }],
    };

    private static Part Film(LureDesign design) => Bookkeeper.Of(design, Stage.Finished, Rig.Bare, 1e-3, MeshSize.Live).Of(PartKind.Coat).Single();

    [Theory]
    [InlineData(HowHung.NoseUp, 3, 1)]
    [InlineData(HowHung.TailUp, 3, -1)]
    [InlineData(HowHung.AlternateEnds, 3, 1.0 / 3)]
    [InlineData(HowHung.AlternateEnds, 4, 0)]
    [InlineData(HowHung.Turner, 3, 0)]
    public void Grams_stay_and_go_toward_the_low_end_by_the_skins_own_second_moment(HowHung hung, int coats, double lean)
    {
        foreach (string demo in (string[])["tidegate-185", "mooring-post-210"])
        {
            // Thin, for a film on a curved skin is larger than the skin: by a sixteenth at three quarters of a millimetre.
            const double Thick = 0.02;
            (Part even, Part hanging) = (Film(Coated(null, coats, demo, Thick)), Film(Coated(hung, coats, demo, Thick)));
            Assert.Equal(even.Mass, hanging.Mass, 2e-3 * even.Mass);
            // Another way: the film's grams per area times ∫(x − x̄)²dA over half the length, from triangles of the bare skin.
            ClosedMesh skin = Bookkeeper.Of(Coated(null, coats, demo), Stage.Sealed, Rig.Bare, 1e-3, MeshSize.Live).Skin;
            double area = 0, first = 0, second = 0;
            for (int t = 0; t < skin.Triangles.Length; t += 3)
            {
                Vec3 a = skin.Vertex(skin.Triangles[t]), b = skin.Vertex(skin.Triangles[t + 1]), c = skin.Vertex(skin.Triangles[t + 2]);
                double own = Vec3.Cross(b - a, c - a).Length / 2, x = (a.X + b.X + c.X) / 3;
                (area, first, second) = (area + own, first + own * x, second + own * x * x);
            }
            double spread = second - first * first / area, half = (skin.X.Max() - skin.X.Min()) / 2;
            double expected = lean * Hanging.Sag * coats * Thick * 1.15e-3 * spread / half;
            // About the skin's middle: a film on a curved skin is heavier where it is thicker by a hair more than by its share.
            double moved = hanging.MassMoment.X - even.MassMoment.X - first / area * (hanging.Mass - even.Mass);
            Console.WriteLine($"{demo} {hung} × {coats}: {moved:0.000} g·mm, by the skin {expected:0.000}");
            Assert.Equal(expected, moved, 0.03 * Math.Abs(expected) + 1e-3);
            if (lean == 0) Assert.Equal(even.MassMoment, hanging.MassMoment);
        }
    }

    [Fact]
    public void Who_does_not_say_how_it_hung_has_the_numbers_and_the_doubts_as_before()
    {
        LureDesign silent = Coated(null);
        Assert.DoesNotContain(new Unknowns(silent, Priors.Usual).All, u => u.Id.StartsWith("lean", StringComparison.Ordinal));
        Unknown lean = new Unknowns(Coated(HowHung.AlternateEnds, 4), Priors.Usual).All[^1];
        Assert.Equal(("lean[0]", Cause.Coats, Hanging.SagSd / 2), (lean.Id, lean.Cause, lean.Sd));
        Assert.Equal(Hanging.TurnerSd, new Unknowns(Coated(HowHung.Turner), Priors.Usual).All[^1].Sd);
    }

    [Fact]
    public void A_build_that_sagged_as_planned_is_the_prediction_and_one_that_sagged_more_lies_tail_heavier()
    {
        LureDesign design = Coated(HowHung.NoseUp, 3, "mooring-post-210");
        var build = new BuildModel(design);
        Sitting sitting = build.In(Circumstances.InTheSea);
        StageShape.Scratch scratch = sitting.Rent();
        var xi = new double[build.Unknowns.Count];
        Weighed planned = sitting.Model.Weigh(xi, scratch);
        Prediction p = Prediction.Of(design, Circumstances.InTheSea);
        Assert.Equal(p.Ledger.Cg.X, planned.Cg.X, 1e-6);
        Assert.Equal(p.SpareBuoyancy, planned.Spare(sitting.Model.Water), 1e-6);
        xi[build.Unknowns.Lean(0)] = 1;
        Weighed more = sitting.Model.Weigh(xi, scratch);
        // As far as the lean itself moved it, a deviation of it moves it on: 0.10 for 0.15.
        double itself = planned.WeightMoment.X - Prediction.Of(design with { Finish = [design.Finish[0] with { Hung = null }] }, Circumstances.InTheSea).Ledger.Cg.X * p.Ledger.Weight;
        Assert.Equal(itself * Hanging.SagSd / Hanging.Sag, more.WeightMoment.X - planned.WeightMoment.X, 0.03 * itself);
        Assert.True(itself > 10, $"{itself} g·mm");
        Assert.Equal(planned.Weight, more.Weight, 0.02);
        sitting.Return(scratch);
    }

    [Fact]
    public void The_build_plan_says_which_end_goes_up_and_its_coats_still_add_up()
    {
        string Told(HowHung? hung)
        {
            LureDesign design = Coated(hung);
            BuildPlan plan = BuildPlan.Of(design, null, Plans.Quick);
            CoatStep[] coats = [.. plan.Steps.OfType<CoatStep>()];
            Part line = plan.InTheSea.Ledger.Of(PartKind.Coat).Single();
            Assert.Equal(line.Mass, coats.Sum(c => c.Film.Mass), 1e-9);
            var words = new BuildWords(plan, Notation.Metric);
            return string.Join('\n', coats.SelectMany(c => words.Of((BuildStep)c).Do));
        }
        string one = Told(HowHung.NoseUp), both = Told(HowHung.AlternateEnds), turner = Told(HowHung.Turner), silent = Told(null);
        Assert.Equal(3, one.Split("Hang it nose up").Length - 1);
        Assert.Contains("15\u00A0% thicker at the low end", one, StringComparison.Ordinal);
        Assert.Contains("Hang it nose up", both, StringComparison.Ordinal);
        Assert.Contains("Turn it end for end: this coat hangs tail up", both, StringComparison.Ordinal);
        Assert.Contains("Turn it end for end: this coat hangs nose up", both, StringComparison.Ordinal);
        Assert.Equal(3, turner.Split("On the turner at 4 to 10 turns a minute").Length - 1);
        Assert.DoesNotContain("nose up", silent, StringComparison.Ordinal);
    }

    [Fact]
    public void Paint_is_weighed_planned_and_dried_like_any_coat()
    {
        LureDesign design = Lures.Demo("tidegate-185") with
        {
            Finish =
            [
                new Coat { Name = "paint", Use = FinishUse.Colour, Coats = 2, ThicknessMm = 0.05, DensityGPerCm3 = 1.3, Hung = HowHung.TailUp },
                new Coat { Name = "clear epoxy", Coats = 1, ThicknessMm = 0.25 },
            ],
        };
        BuildPlan plan = BuildPlan.Of(design, null, Plans.Quick);
        Part line = plan.InTheSea.Ledger.Of(PartKind.Coat).First();
        Assert.True(line.Mass > 0.5);
        CoatStep[] coats = [.. plan.Steps.OfType<CoatStep>().Where(c => c.Film.Use == FinishUse.Colour)];
        Assert.Equal(2, coats.Length);
        Assert.Equal(line.Mass, coats.Sum(c => c.Film.Mass), 1e-9);
        Assert.All(coats, c => Assert.True(c.Times.SandFrom > TimeSpan.Zero));
        Assert.Contains("Colour is not sanded.", new BuildWords(plan, Notation.Metric).Of((BuildStep)coats[0]).Do);
    }
}
