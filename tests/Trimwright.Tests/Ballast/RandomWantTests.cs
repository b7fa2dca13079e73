using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Ballast;

/// <summary>Wants that weights at random would meet, and wants made from a hidden choice.</summary>
public class RandomWantTests
{
    [Fact]
    public void Random_lures_with_random_wants_get_plans()
    {
        int wanted = Tier.Count(quick: 1, ci: 30, @long: 300), done = 0, proved = 0, tried = 0;
        for (int seed = 700; done < wanted; seed++)
        {
            // What is wanted is what lead balls of any weight would do, wherever they leave sound wood: nothing of the box.
            var random = new Random(seed);
            LureDesign design = PlanCases.Lure(seed);
            if (AnyWant(design, random, MeshSize.Live) is not { } want) continue;
            tried++;
            PlanAnswer answer = Planner.Of(design, PlanCases.Kitchen, want, PlanLimits.Usual);
            string what = $"{seed} ({WantWords.Of(want, Notation.Metric)})";
            if (answer.Plans.IsEmpty)
            {
                Console.WriteLine($"{what}: {PlanWords.Of(answer.WhyNot!, answer, design, Notation.Metric)}");
                continue;
            }
            foreach (BallastPlan plan in answer.Plans) PlannerTests.Holds(design, PlanCases.Kitchen, answer, plan, what);
            if (answer.Proved) proved++;
            done++;
        }
        Console.WriteLine($"{done} of {tried} random wants have plans, {proved} proved best");
        Assert.True(done >= 0.8 * tried - 1, $"{done} of {tried}");
    }

    internal static Want? AnyWant(LureDesign design, Random random, MeshSize mesh)
    {
        Body body = design.Body.Surface();
        var seating = new Seating(design, new FaceRoom(design, SoundWood.Usual));
        var pieces = ImmutableArray.CreateBuilder<BallastPiece>();
        for (int i = random.Next(1, 3); i > 0; i--)
        {
            double x = body.Length * (0.2 + 0.6 * random.NextDouble());
            Section section = body.SectionAt(x);
            double z = section.Belly + (0.25 + 0.3 * random.NextDouble()) * (section.Back - section.Belly);
            double grams = 2 + 8 * random.NextDouble();
            var ball = new BallastPiece { Name = "any", Form = BallastForm.Ball, DiameterMm = Math.Cbrt(6 * grams / (Math.PI * 11.3e-3)), MassG = grams, AtMm = [x, 0, z] };
            if (!seating.Fits(new Offer("any", ball with { AtMm = [0, 0, 0] }, new PocketTool(null, null, ball.DiameterMm, 0, false), null, null, false, grams), x, z)) return null;
            pieces.Add(ball);
        }
        Want? want = PlanCases.AsItIs(design with { Ballast = pieces.ToImmutable() }, Circumstances.InTheSea with { Mesh = mesh });
        // At the edge of floating nothing holds a trim.
        return want is { Manner: Manner.Falls, Rate: < 0.05 } or { Spare: < 0.5 } ? null : want;
    }

    [Fact]
    public void A_plan_is_at_least_as_good_as_the_solution_that_a_want_was_made_from()
    {
        int wanted = Tier.Count(quick: 3, ci: 100, @long: 1000), done = 0, better = 0, tried = 0;
        for (int seed = 3000; done < wanted; seed++)
        {
            tried++;
            var random = new Random(seed);
            LureDesign design = PlanCases.Lure(seed);
            MakersBox box = PlanCases.Small(random, 12);
            BallastModel places = PlanCases.Places(design, box, 20, PlanLimits.Usual with { Step = 3 });
            if (PlanCases.Draw(places, random, random.Next(1, 4)) is not { } seats) continue;
            if (PlanCases.AsItIs(PlanCases.With(design, places, seats), Circumstances.InTheSea with { Mesh = MeshSize.Coarse }) is not { } want || Target.Of(design, want).Target is not { } target) continue;
            BallastModel model = Planner.Model(design, box, want, target, PlanLimits.Usual with { LooksForMore = 15_000_000 });
            Seat[] hidden = [.. seats.Select(s => model.Seats.SelectMany(x => x).FirstOrDefault(x =>
                Same(model.Offers[x.Offer], places.Offers[s.Offer]) && x.X == s.X && Math.Abs(x.Z - s.Z) < 1e-9))];
            // A hidden solution without stiffness enough is none.
            if (hidden.Any(h => h.Cost == 0) || !model.Meets(model.SumsOf(hidden))) continue;
            Found found = PlanSearch.Of(model);
            double cost = model.Cost(model.SumsOf(hidden));
            double best = found.Best?.Cost ?? double.PositiveInfinity;
            Assert.True(best <= cost + 1e-9, $"{seed}: {best} for a hidden {cost}");
            if (best < cost - 1e-9) better++;
            done++;
        }
        Console.WriteLine($"{done} hidden solutions of {tried} drawn, {better} beaten, the others met");
    }

    private static bool Same(Offer a, Offer b) => (a.BoxId, a.Piece.Axis, a.Piece.OnWire) == (b.BoxId, b.Piece.Axis, b.Piece.OnWire);
}
