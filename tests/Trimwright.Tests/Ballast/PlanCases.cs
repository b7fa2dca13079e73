using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Ballast;

/// <summary>Lures without weights, boxes and wants for the planner's tests.</summary>
internal static class PlanCases
{
    public static readonly MakersBox Kitchen = BoxFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo", "kitchen.box.json"))).Value!;

    /// <summary>The lure without its weights, its joint given.</summary>
    public static LureDesign Stripped(LureDesign design) => design with { Ballast = [], Joint = design.Joint ?? new JointDesign() };

    /// <summary>A box without the pieces of this lure: nothing of their weight within a twentieth.</summary>
    public static MakersBox Without(MakersBox box, LureDesign design) => box with
    {
        Weights = [.. box.Weights.Where(w => !design.Ballast.Any(p => Math.Abs(p.Mass - w.Mass.Value) < 0.05 * p.Mass))],
    };

    /// <summary>A small box: a few kinds of the kitchen's, in small number, and no stock.</summary>
    public static MakersBox Small(Random random, int kinds) => Kitchen with
    {
        Stock = [],
        Weights = [.. Kitchen.Weights.Where(w => w.Kind != BallastForm.Plug).OrderBy(_ => random.Next()).Take(kinds).Select(w => w with { Count = random.Next(1, 3) })],
    };

    /// <summary>A random lure with wire and hooks as it will fish, without its weights.</summary>
    public static LureDesign Lure(int seed)
    {
        for (int at = seed; ; at += 10_000)
            if (RandomLures.Of(at).Design is { Wire: not null } design) return Stripped(design);
    }

    /// <summary>What a lure does now, as a want; null when it does nothing that a maker would ask for.</summary>
    public static Want? AsItIs(LureDesign design, Circumstances circumstances)
    {
        Prediction p = Prediction.Of(design, circumstances);
        if (p.Descent is { } descent)
            return descent.First is { BellyUp: false } fall && Math.Abs(fall.Trim) < 1.4 && fall.Rate > 0.02
                ? Want.Falling(1 / fall.Rate, fall.Trim) with { Circumstances = circumstances } : null;
        if (p.SpareBuoyancy <= 0.05 || Math.Abs(p.Posture.Trim) > 1.5) return null;
        Want want = Want.Floating(p.Posture.Trim, p.SpareBuoyancy) with { Circumstances = circumstances };
        return BallastPlan.Does(p, want) && p.Posture.Heel is { } heel && Math.Abs(heel) < 1e-3 ? want : null;
    }

    /// <summary>Seats of a model drawn at random that may stand together; null when luck has none.</summary>
    public static ImmutableArray<Seat>? Draw(BallastModel model, Random random, int pieces)
    {
        var seats = ImmutableArray.CreateBuilder<Seat>();
        for (int tries = 0; tries < 60 && seats.Count < pieces && model.Offers.Length > 0; tries++)
        {
            ImmutableArray<Seat> of = model.Seats[random.Next(model.Offers.Length)];
            Seat seat = of[random.Next(of.Length)];
            if (seats.All(s => model.Clear(s, seat)) && model.InTheBox([.. seats.Select(s => s.Offer), seat.Offer])) seats.Add(seat);
        }
        return seats.Count == pieces ? seats.ToImmutable() : null;
    }

    public static LureDesign With(LureDesign design, BallastModel model, IEnumerable<Seat> seats) =>
        design with { Ballast = [.. design.Ballast, .. seats.Select(s => model.Offers[s.Offer].At(s.X, s.Z))] };

    /// <summary>A model whose target nobody asked for: only its offers and seats count.</summary>
    public static BallastModel Places(LureDesign design, MakersBox box, double most, PlanLimits limits)
    {
        var target = new Target
        {
            Origin = default, Trimming = Core.Numerics.Vec3.UnitX, Up = Core.Numerics.Vec3.UnitZ, Weight = most, Moment = 0, MomentPerGram = 0,
            TrimStiffness = 0, HeelStiffness = 0, LeastHeelStiffness = 0, WholeWeight = 100,
        };
        return Planner.Model(design, box, Want.Suspending(), target, limits);
    }
}
