using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

public static partial class Catalogue
{
    private const double Pound = 0.45359237;

    /// <summary>
    /// Spring wire: least tensile strength by EN 10270-3, grade 1.4310 (302) and 1.4401 (316), as public tables restate it;
    /// densities of the grades likewise. Soft and half-hard 304: usual strengths, from memory.
    /// </summary>
    public static ImmutableArray<BoxWire> Wires =>
    [
        Spring(1.0, 1900), Spring(1.2, 1850), Spring(1.5, 1800), Spring(1.6, 1750), Spring(1.8, 1700), Spring(2.0, 1700), Spring(2.2, 1650),
        Spring(2.5, 1650), Spring(3.0, 1600),
        Marine(1.6, 1450), Marine(1.8, 1400), Marine(2.0, 1400), Marine(2.5, 1350), Marine(3.0, 1300),
        .. new[] { 1.2, 1.4, 1.5, 1.6, 1.8, 2.0 }.Select(d => Tempered(d, "soft", 600)),
        .. new[] { 1.2, 1.4, 1.5, 1.6, 1.8, 2.0 }.Select(d => Tempered(d, "half-hard", 1000)),
    ];

    /// <summary>Middles of what makers weigh; common practice, no source.</summary>
    public static ImmutableArray<BoxHook> Hooks =>
    [
        Hook(HardwareKind.Treble, "1/0", 4.5, 36), Hook(HardwareKind.Treble, "2/0", 7, 43), Hook(HardwareKind.Treble, "3/0", 9.5, 48),
        Hook(HardwareKind.Treble, "4/0", 13, 54), Hook(HardwareKind.Treble, "5/0", 18, 60),
        Hook(HardwareKind.Single, "3/0", 2.25, 38), Hook(HardwareKind.Single, "5/0", 4, 46), Hook(HardwareKind.Single, "7/0", 6.75, 55),
        Hook(HardwareKind.Single, "9/0", 11, 64), Hook(HardwareKind.Single, "10/0", 13.5, 70), Hook(HardwareKind.Single, "11/0", 17, 76),
    ];

    /// <summary>Likewise; mass, outside diameter and strength rise with the number.</summary>
    public static ImmutableArray<BoxRing> Rings =>
    [
        Ring(HardwareKind.SplitRing, "6", 0.5, 10, 45), Ring(HardwareKind.SplitRing, "7", 0.7, 11.5, 75), Ring(HardwareKind.SplitRing, "8", 0.9, 12.5, 80),
        Ring(HardwareKind.SplitRing, "9", 1.4, 14, 115), Ring(HardwareKind.SplitRing, "10", 2.0, 15, 120), Ring(HardwareKind.SplitRing, "11", 2.6, 18, 180),
        Ring(HardwareKind.SolidRing, "small", 1.2, 9, 80), Ring(HardwareKind.SolidRing, "medium", 1.8, 11, 120), Ring(HardwareKind.SolidRing, "large", 3, 13, 180),
    ];

    public static ImmutableArray<BoxSwivel> Swivels => [Swivel("1/0", 1.2, 24, 80), Swivel("2/0", 1.8, 28, 115), Swivel("3/0", 2.5, 32, 160), Swivel("4/0", 4, 38, 210)];

    /// <summary>
    /// Diameters by breaking load: common practice, no source. Nylon 1.14 g/cm³: Morton &amp; Hearle, Physical Properties of
    /// Textile Fibres, table 5.1. Fluorocarbon 1.78: resin data, from memory.
    /// </summary>
    public static ImmutableArray<BoxLeader> Leaders =>
    [
        .. new[] { (80, 0.83), (100, 0.95), (130, 1.08), (150, 1.15), (170, 1.25), (200, 1.38), (300, 1.65) }
            .SelectMany(l => new[] { Leader("nylon", l.Item1, l.Item2), Leader("fluorocarbon", l.Item1, l.Item2) }),
    ];

    /// <summary>Usual films and times at 20 °C, from memory: the tin's own sheet outranks them. 100:47 by weight is one 2:1 epoxy's.</summary>
    public static ImmutableArray<BoxFinish> Finishes =>
    [
        TwoPart("epoxy-1-1", "clear epoxy 1:1") with { RatioByVolume = [1, 1] },
        TwoPart("epoxy-2-1", "clear epoxy 2:1") with { RatioByVolume = [2, 1], RatioByWeight = [100, 47] },
        TwoPart("thinned-epoxy", "thinned epoxy sealer") with { Use = FinishUse.Sealer, ThicknessMm = 0.03, Solids = 0.6, PotLifeMin = 40, TurnH = null, CureH = 72 },
        TwoPart("slow-epoxy-glue", "slow epoxy glue") with { Use = FinishUse.Glue, ThicknessMm = 0.1, PotLifeMin = 60, TurnH = null, RecoatFromH = null, RecoatUntilH = null, SandFromH = 24 },
        Brushed("urethane-varnish", "polyurethane varnish", FinishUse.Clear, 1.12, 0.04, 0.5) with { RecoatFromH = 6, RecoatUntilH = 24, SandFromH = 24, CureH = 168 },
        Brushed("primer", "oil primer", FinishUse.Colour, 1.3, 0.04, 0.7) with { RecoatFromH = 24, SandFromH = 24, CureH = 48 },
        Brushed("paint", "paint", FinishUse.Colour, 1.3, 0.03, 0.5) with { RecoatFromH = 1, CureH = 24 },
        Brushed("lacquer", "sprayed lacquer", FinishUse.Clear, 1.1, 0.03, 0.25) with { RecoatFromH = 5, CureH = 48, Losses = 1 },
        Brushed("cyanoacrylate", "thin cyanoacrylate", FinishUse.Sealer, 1.15, 0.02, 1) with { RecoatFromH = 0.2, CureH = 24 },
    ];

    // A mix of 6 g that is half a gram off has the ratio wrong by 17 %: not less than ten.
    private static BoxFinish TwoPart(string id, string name) => new()
    {
        Id = id, Name = name, Use = FinishUse.Clear, ThicknessMm = 0.15, Solids = 1, PotMinimumG = 10, PotLifeMin = 30,
        RecoatFromH = 4, RecoatUntilH = 12, SandFromH = 24, TurnH = 5, CureH = 120, TimesAtC = 20,
    };

    private static BoxFinish Brushed(string id, string name, FinishUse use, double density, double thickness, double solids) =>
        new() { Id = id, Name = name, Use = use, DensityGPerCm3 = density, ThicknessMm = thickness, Solids = solids, TimesAtC = 20 };

    private static BoxWire Spring(double diameter, double tensile) => OfGrade(diameter, "302 spring", 7.9, tensile, ["density_g_cm3", "tensile_mpa"]);

    private static BoxWire Marine(double diameter, double tensile) => OfGrade(diameter, "316 spring", 8.0, tensile, ["density_g_cm3", "tensile_mpa"]);

    private static BoxWire Tempered(double diameter, string temper, double tensile) => OfGrade(diameter, "304 " + temper, 7.9, tensile, ["density_g_cm3"]);

    private static BoxWire OfGrade(double diameter, string grade, double density, double tensile, ImmutableArray<string> published) => new()
    {
        Id = Slug($"wire {grade} {Show(diameter)}"), Name = $"{grade} wire {Show(diameter)} mm", Grade = grade, DiameterMm = diameter,
        DensityGPerCm3 = density, TensileMpa = tensile, Published = published,
    };

    private static BoxHook Hook(HardwareKind kind, string size, double mass, double length)
    {
        string name = $"{kind.ToString().ToLowerInvariant()} {size}";
        return new() { Id = Slug(name), Name = name, Kind = kind, Size = size, MassG = mass, LengthMm = length };
    }

    private static BoxRing Ring(HardwareKind kind, string size, double mass, double outside, double strength)
    {
        string name = $"{(kind == HardwareKind.SolidRing ? "solid" : "split")} ring {size}";
        return new() { Id = Slug(name), Name = name, Kind = kind, Size = size, MassG = mass, LengthMm = outside, StrengthKg = strength };
    }

    private static BoxSwivel Swivel(string size, double mass, double length, double strength) =>
        new() { Id = Slug("swivel " + size), Name = "swivel " + size, Size = size, MassG = mass, LengthMm = length, StrengthKg = strength };

    private static BoxLeader Leader(string material, int pounds, double diameter) => new()
    {
        Id = Slug($"{material} {pounds} lb"), Name = $"{material} {pounds} lb", Material = material, DiameterMm = diameter,
        DensityGPerCm3 = material == "nylon" ? 1.14 : BoxLeader.Fluorocarbon, Published = material == "nylon" ? ["density_g_cm3"] : [],
        StrengthKg = Math.Round(pounds * Pound, 1),
    };
}
