using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;
using static Trimwright.Tests.RandomBodies;

namespace Trimwright.Tests;

/// <summary>A random lure and the circumstances it is tried in.</summary>
/// <param name="Seed">Draws it again.</param>
internal sealed record Draw(int Seed, LureDesign Design, Circumstances Circumstances)
{
    public override string ToString() =>
        FormattableString.Invariant(
            $"draw {Seed}: {Design.Kind} {Design.Body.LengthMm:F0} mm, {Circumstances.Stage} {Circumstances.Rig} in S {Circumstances.Water.Salinity} at {Circumstances.Water.TemperatureC} °C");
}

/// <summary>
/// Believable lures by number: the same number gives the same lure on any machine. Every one has been written to a file
/// and read back, so it is sound. Sizes, chances and weights are common practice, no source.
/// </summary>
internal static class RandomLures
{
    /// <summary>How many designs were drawn in all and how many the reader refused, since the run began.</summary>
    public static (int Drawn, int Refused) Tries => (drawn, refused);

    private static int drawn;
    private static int refused;

    /// <summary>Every wood, weight and hook as it comes.</summary>
    public static Draw Of(int seed)
    {
        // Neighbouring seeds give alike first numbers; a spread seed does not.
        var random = new Random(unchecked((int)(((uint)seed + 1) * 2654435761u)));
        while (true)
        {
            Interlocked.Increment(ref drawn);
            LureDesign design = Draft(random, seed);
            Reading<LureDesign> reading = LureFile.Read(LureFile.Write(design));
            if (reading.Value is { } sound) return new Draw(seed, sound, DrawCircumstances(random));
            Interlocked.Increment(ref refused);
        }
    }

    private static Circumstances DrawCircumstances(Random random)
    {
        Stage stage = Chance(random, 0.6) ? Stage.Finished : (Stage)random.Next(5);
        Rig rig = Chance(random, 0.6) ? Rig.Rigged : (Rig)random.Next(3);
        WaterState water = Chance(random, 0.6)
            ? WaterState.Named[random.Next(WaterState.Named.Count)].Water
            : new WaterState(Round(Between(random, 0, 40)), Round(Between(random, 2, 32)));
        return new Circumstances(stage, rig, water) { Mesh = MeshSize.Coarse };
    }

    private static LureDesign Draft(Random random, int seed)
    {
        string kind = Kinds[random.Next(Kinds.Length)];
        BodyDesign body = RandomBodies.Draw(random, kind);
        double density = Round(Between(random, 0.14, 0.72));
        var design = new LureDesign
        {
            Name = $"random {seed}",
            Kind = kind,
            Body = body,
            Wood = new WoodDesign { DensityGPerCm3 = density },
        };
        if (!IsBody(body) || Chance(random, 0.06)) return design;
        Body surface = body.Surface();
        WireDesign? wire = Chance(random, 0.88) ? RandomRigs.Wire(random, surface) : null;
        return RandomNames.Dress(design with
        {
            Wire = wire,
            Ballast = RandomRigs.Ballast(random, kind, surface, wire),
            Finish = Coats(random),
            Hardware = wire is null ? [] : RandomRigs.Hardware(random, body.LengthMm, wire),
            Leader = Chance(random, 0.4) ? Leader(random) : null,
            Halves = Chance(random, 0.25) ? Halves(random, surface, density) : null,
            SoakedG = Chance(random, 0.5) ? Round(Between(random, 0, 2)) : 0,
            Joint = Chance(random, 0.6) ? Joint(random, surface) : null,
            Eyes = Chance(random, 0.4) ? Eyes(random, surface) : null,
        }, seed);
    }

    // Pieces can be fitted only into a body that the reader takes.
    private static bool IsBody(BodyDesign body) =>
        LureFile.Read(LureFile.Write(new LureDesign { Name = "body", Body = body, Wood = new WoodDesign { DensityGPerCm3 = 0.5 } })).IsSound;

    private static ImmutableArray<Coat> Coats(Random random) =>
        [.. Enumerable.Range(0, random.Next(4)).Select(i => new Coat
        {
            Name = $"coat {i}",
            Coats = random.Next(1, 4),
            ThicknessMm = Math.Round(Between(random, 0.03, 0.3), 3),
            DensityGPerCm3 = Round(Between(random, 0.95, 1.4)),
        })];

    private static LeaderDesign Leader(Random random) => new()
    {
        DiameterMm = Round(Between(random, 0.4, 1.4)),
        DensityGPerCm3 = new[] { 1.78, 1.14, 0.97 }[random.Next(3)],
        CarriedMm = Round(Between(random, 0, 600)),
    };

    private static HalvesDesign Halves(Random random, Body surface, double density)
    {
        double grams = density * 1e-3 * SolidProperties.Of(BodyMesh.Of(surface, MeshSize.Coarse)).Volume / 2;
        double uneven = Between(random, -0.08, 0.08);
        bool weighed = Chance(random, 0.7) && grams > 1;
        return new HalvesDesign
        {
            RightG = weighed ? Round(grams * (1 + uneven)) : null,
            LeftG = weighed ? Round(grams * (1 - uneven)) : null,
            RightWiderMm = Chance(random, 0.6) ? Round(Between(random, -0.05, 0.05) * surface.HalfBreadthAt(surface.Length / 2)) : 0,
        };
    }

    private static JointDesign Joint(Random random, Body surface)
    {
        double half = surface.HalfBreadthAt(surface.Length / 2);
        return new JointDesign
        {
            Tack = (Tack)random.Next(3),
            KerfMm = Chance(random, 0.4) ? Round(Between(random, 0.3, Math.Min(2.5, 0.3 * half))) : 0,
            CleanedOffMm = Chance(random, 0.4) ? Round(Between(random, 0, 0.03 * half)) : 0,
            GlueLineMm = Chance(random, 0.2) ? 0 : Round(Between(random, 0.05, 0.4)),
            GlueDensityGPerCm3 = Round(Between(random, 1.05, 1.25)),
            FillerDensityGPerCm3 = Round(Between(random, 0.5, 1.2)),
        };
    }

    private static EyesDesign Eyes(Random random, Body surface) => new()
    {
        DiameterMm = Round(Between(random, 0.03, 0.06) * surface.Length),
        ThicknessMm = Round(Between(random, 0.8, 2)),
        MassG = Round(Between(random, 0.1, 1.5)),
        XMm = Round(Between(random, 0.15, 0.25) * surface.Length),
    };
}
