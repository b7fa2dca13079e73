using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.Tests;

/// <summary>Bodies a maker could have drawn: sizes and slenderness are common practice, no source.</summary>
internal static class RandomBodies
{
    public static readonly string[] Kinds = ["stickbait", "pencil", "popper", "swimmer", "slab", "dowel"];

    /// <summary>A body of a kind; may be unsound now and then (a spline overshoots), which the caller asks the reader.</summary>
    public static BodyDesign Draw(Random random, string kind)
    {
        double length = Round(70 * Math.Pow(3.7, random.NextDouble()));
        double height = length * kind switch
        {
            "pencil" => Between(random, 0.09, 0.16),
            "popper" => Between(random, 0.16, 0.28),
            "swimmer" => Between(random, 0.18, 0.32),
            "slab" => Between(random, 0.18, 0.38),
            "dowel" => Between(random, 0.1, 0.45),
            _ => Between(random, 0.13, 0.24),
        };
        double breadth = height * (kind == "slab" ? Between(random, 0.3, 0.6) : Between(random, 0.65, 1.1));
        double share = kind == "pencil" || Chance(random, 0.3) ? 0.5 : Between(random, 0.4, 0.6);
        double peak = kind switch
        {
            "pencil" => Between(random, 0.6, 0.82),
            "popper" => Between(random, 0.15, 0.4),
            _ => Between(random, 0.3, 0.6),
        };
        bool flatNose = kind is "popper" or "dowel" || Chance(random, 0.06), flatTail = kind == "dowel" || Chance(random, 0.12);
        var nose = new End(random, flatNose, kind);
        var tail = new End(random, flatTail, kind);
        double[] stations = Stations(random, length);
        Outline Of(double size, double wobble)
        {
            double at = Math.Clamp(peak + Between(random, -0.05, 0.05), 0.1, 0.9);
            return new Outline(
                [.. stations.Select(x => new OutlinePoint(x, Round(size * Shape(x / length, at, nose, tail) * Wobble(random, x, length, wobble))))],
                nose.Form, tail.Form, []);
        }
        double wobble = kind == "dowel" ? 0 : 0.012;
        return new BodyDesign
        {
            LengthMm = length,
            Back = Of(height * share, wobble),
            Belly = Of(-height * (1 - share), wobble),
            Plan = Of(breadth / 2, wobble),
            Section = Fullness(random, length, kind),
            NoseFace = flatNose && kind != "dowel" ? Face(random, height * nose.Size * 0.8, breadth * nose.Size * 0.8, share) : null,
        };
    }

    /// <summary>How an outline comes to its end: a power of the distance for one that closes, or a share left standing.</summary>
    private readonly record struct End
    {
        public double Size { get; }

        public double Power { get; }

        public EndForm Form { get; }

        public End(Random random, bool flat, string kind)
        {
            bool pointed = !flat && Chance(random, 0.25);
            Form = pointed ? EndForm.Pointed : EndForm.Round;
            Size = !flat ? 0 : kind == "dowel" ? (Chance(random, 0.5) ? 1 : Between(random, 0.6, 1)) : Between(random, 0.45, 0.95);
            Power = flat ? 1 : pointed ? Between(random, 0.85, 1.1) : Between(random, 0.45, 0.65);
        }
    }

    private static double Shape(double t, double peak, End nose, End tail)
    {
        (End end, double away) = t <= peak ? (nose, (peak - t) / peak) : (tail, (t - peak) / (1 - peak));
        double rise = Math.Pow(Math.Max(1 - away * away, 0), end.Power);
        return end.Size + (1 - end.Size) * rise;
    }

    private static double Wobble(Random random, double x, double length, double size) =>
        x <= 0 || x >= length ? 1 : 1 + size * (2 * random.NextDouble() - 1);

    private static double[] Stations(Random random, double length)
    {
        int count = random.Next(6, 11);
        return [.. Enumerable.Range(0, count).Select(i =>
            i == 0 ? 0 : i == count - 1 ? length : Round(length * 0.5 * (1 - Math.Cos(Math.PI * i / (count - 1)))))];
    }

    private static ImmutableArray<Fullness> Fullness(Random random, double length, string kind)
    {
        double One() => random.Next(10) switch
        {
            < 2 => Between(random, 1, 1.4),
            < 7 => Between(random, 1.8, 2.4),
            < 9 => Between(random, 2.5, 4),
            _ => Between(random, 4, 8),
        };
        double above = Round(kind == "slab" ? Between(random, 2.5, 7) : One()), below = Chance(random, 0.6) ? above : Round(One());
        double? widest = Chance(random, 0.15) ? Round(Between(random, -0.01, 0.01) * length) : null;
        int count = Chance(random, 0.7) ? 1 : random.Next(2, 4);
        if (count == 1) return [new Fullness(0, above, below, widest)];
        return [.. Enumerable.Range(0, count).Select(i => new Fullness(
            Round(length * i / (count - 1)), Math.Clamp(Round(above + Between(random, -0.5, 0.5)), 1, 20),
            Math.Clamp(Round(below + Between(random, -0.5, 0.5)), 1, 20), widest))];
    }

    private static NoseFaceDesign Face(Random random, double height, double breadth, double share)
    {
        double slant = Chance(random, 0.5) ? 0 : Round(Between(random, -20, 20)), cup = Round(Math.Min(height, breadth) * Between(random, 0.5, 0.75));
        return random.Next(3) switch
        {
            0 => new NoseFaceDesign { Kind = NoseFaceKind.Flat },
            1 => new NoseFaceDesign { Kind = NoseFaceKind.Slanted, SlantDeg = slant == 0 ? 12 : slant },
            _ => new NoseFaceDesign
            {
                Kind = NoseFaceKind.Cupped,
                SlantDeg = slant,
                CupDiameterMm = cup,
                CupDepthMm = Round(cup * Between(random, 0.1, 0.35)),
                CupAtZMm = Round((share - 0.5) * height),
            },
        };
    }

    public static double Between(Random random, double low, double high) => low + (high - low) * random.NextDouble();

    public static bool Chance(Random random, double share) => random.NextDouble() < share;

    /// <summary>As a maker would write it: to a hundredth.</summary>
    public static double Round(double value) => Math.Round(value, 2);
}
