using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>Sealer, paint, clear coat or glue. Volume and weight ratios differ, and the scale needs the one by weight.</summary>
public sealed record BoxFinish : BoxItem
{
    public const double Epoxy = 1.15;

    public FinishUse Use { get; init; }

    /// <summary>15 to 20 % of a mix stays in brush and cup (common practice, no source); a fifth of what goes on is a sixth of the mix.</summary>
    public const double UsualLosses = 0.2;

    /// <summary>Of the dry film.</summary>
    public double DensityGPerCm3 { get; init; } = Epoxy;

    /// <summary>Usual dry film of one coat.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>Resin to hardener; null: nothing to mix, or not known.</summary>
    public ImmutableArray<double>? RatioByVolume { get; init; }

    public ImmutableArray<double>? RatioByWeight { get; init; }

    /// <summary>Of the liquid resin; with the hardener's and one ratio it gives the other ratio.</summary>
    public double? ResinDensityGPerCm3 { get; init; }

    public double? HardenerDensityGPerCm3 { get; init; }

    /// <summary>Share by weight of the liquid that stays when it is dry; null: all of it.</summary>
    public double? Solids { get; init; }

    /// <summary>What stays in brush, pot and cup, as a share of what goes on; null: <see cref="UsualLosses"/>.</summary>
    public double? Losses { get; init; }

    /// <summary>Less than this is not mixed: a drop too much of one part spoils a small cup.</summary>
    public double? PotMinimumG { get; init; }

    public double? PotLifeMin { get; init; }

    /// <summary>The next coat goes on without sanding from here …</summary>
    public double? RecoatFromH { get; init; }

    /// <summary>… to here.</summary>
    public double? RecoatUntilH { get; init; }

    /// <summary>From here on the next coat goes on after sanding.</summary>
    public double? SandFromH { get; init; }

    /// <summary>It runs until then: keep it turning.</summary>
    public double? TurnH { get; init; }

    public double? CureH { get; init; }

    /// <summary>The temperature that these times are told for.</summary>
    public double? TimesAtC { get; init; }

    public Coat ForDesign(int coats) => new() { Name = Name, Coats = coats, ThicknessMm = ThicknessMm, DensityGPerCm3 = DensityGPerCm3 };

    internal override void Check(string path, Findings findings) => BoxSoundness.Finish(this, path, findings);

    internal static readonly BoxForm<BoxFinish> Form = new("finish", new() { Id = "", Name = "", ThicknessMm = 0 },
    [
        new Choice<BoxFinish, FinishUse>("use", "What it is for", FinishUse.NotSaid,
            [("sealer", FinishUse.Sealer), ("colour", FinishUse.Colour), ("clear", FinishUse.Clear), ("glue", FinishUse.Glue)], f => f.Use, (f, v) => f with { Use = v })
            { More = "Left out: as its name says.", IsUsualSaid = true },
        new NumbersOrNone<BoxFinish>("ratio_by_volume", "Mixing ratio by volume", 2, 0.01, 1000,
            f => f.RatioByVolume, (f, v) => f with { RatioByVolume = v })
            { More = "[resin, hardener]" },
        new NumbersOrNone<BoxFinish>("ratio_by_weight", "Mixing ratio by weight", 2, 0.01, 1000,
            f => f.RatioByWeight, (f, v) => f with { RatioByWeight = v })
            { More = "[resin, hardener]" },
        new UsualNumber<BoxFinish>("density_g_cm3", "Density of the dry film, g/cm³", 0.05, LureFile.Densest, Epoxy,
            f => f.DensityGPerCm3, (f, v) => f with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new NeededNumber<BoxFinish>("thickness_mm", "Usual dry film of one coat, mm", 0.001, 5,
            f => f.ThicknessMm, (f, v) => f with { ThicknessMm = v }),
        new NumberOrNone<BoxFinish>("resin_density_g_cm3", "Density of the liquid resin, g/cm³", 0.5, 5,
            f => f.ResinDensityGPerCm3, (f, v) => f with { ResinDensityGPerCm3 = v })
            { More = "With the hardener's and one ratio it gives the other ratio." },
        new NumberOrNone<BoxFinish>("hardener_density_g_cm3", "Density of the liquid hardener, g/cm³", 0.5, 5,
            f => f.HardenerDensityGPerCm3, (f, v) => f with { HardenerDensityGPerCm3 = v }),
        new NumberOrNone<BoxFinish>("solids", "Share by weight that stays when dry", 0.05, 1,
            f => f.Solids, (f, v) => f with { Solids = v })
            { More = "Left out: all of it, as with resin that holds no solvent." },
        new NumberOrNone<BoxFinish>("losses", "What stays in brush, pot and cup, as a share of what goes on", 0, 5,
            f => f.Losses, (f, v) => f with { Losses = v })
            { More = "Left out: 0.2." },
        new NumberOrNone<BoxFinish>("pot_minimum_g", "The least that is worth mixing, g", 0, 10_000,
            f => f.PotMinimumG, (f, v) => f with { PotMinimumG = v })
            { More = "Of a smaller mix a drop more or less is a wrong ratio." },
        new NumberOrNone<BoxFinish>("pot_life_min", "Pot life, minutes", 0.1, 100_000,
            f => f.PotLifeMin, (f, v) => f with { PotLifeMin = v }),
        new NumberOrNone<BoxFinish>("recoat_from_h", "Next coat without sanding from, hours", 0, 10_000,
            f => f.RecoatFromH, (f, v) => f with { RecoatFromH = v }),
        new NumberOrNone<BoxFinish>("recoat_until_h", "Next coat without sanding until, hours", 0, 10_000,
            f => f.RecoatUntilH, (f, v) => f with { RecoatUntilH = v }),
        new NumberOrNone<BoxFinish>("sand_from_h", "Next coat after sanding from, hours", 0, 10_000,
            f => f.SandFromH, (f, v) => f with { SandFromH = v }),
        new NumberOrNone<BoxFinish>("turn_h", "Runs, and is kept turning, for hours", 0, 10_000,
            f => f.TurnH, (f, v) => f with { TurnH = v }),
        new NumberOrNone<BoxFinish>("cure_h", "Full cure, hours", 0, 10_000, f => f.CureH, (f, v) => f with { CureH = v }),
        new NumberOrNone<BoxFinish>("times_at_c", "Temperature that these times are for, °C", -20, 80,
            f => f.TimesAtC, (f, v) => f with { TimesAtC = v }),
    ]);

    internal override BoxForm Declared => Form;
}

public enum CutterKind
{
    Twist,
    FlatBit,
    RoundNose,
    Gouge,
}

/// <summary>A drill, bit, router cutter or gouge, or a set of one kind.</summary>
public sealed record BoxCutter : BoxItem
{
    public CutterKind Kind { get; init; }

    public required ImmutableArray<double> DiametersMm { get; init; }

    /// <summary>How far its spur or point goes beyond its edge; null: as usual for its kind.</summary>
    public double? SpurMm { get; init; }

    /// <summary>How deep it can go; null: deep enough.</summary>
    public double? ReachMm { get; init; }

    /// <summary>What it cuts beyond the full width of its hole: the wall of sound wood begins there.</summary>
    public double BeyondMm(double diameterMm) => SpurMm ?? Kind switch
    {
        // A flat-bottomed bit's spur is 2 to 3 mm; the upper end is on the safe side.
        CutterKind.FlatBit => 3,
        // A point of 118° is half the diameter over tan 59° long.
        CutterKind.Twist => 0.3 * diameterMm,
        CutterKind.RoundNose or CutterKind.Gouge => 0,
    };

    internal static readonly BoxForm<BoxCutter> Form = new("cutter", new() { Id = "", Name = "", DiametersMm = [] },
    [
        new Choice<BoxCutter, CutterKind>("kind", "Form", CutterKind.Twist, FileWords.Of<CutterKind>(),
            c => c.Kind, (c, v) => c with { Kind = v }) { IsAlwaysWritten = true },
        new NumberList<BoxCutter>("diameters_mm", "Diameters in the set, mm", 200, "a list of diameters, such as [8, 10, 12]", (0.1, 200),
            c => c.DiametersMm, (c, v) => c with { DiametersMm = v }) { HasToBeThere = true },
        new NumberOrNone<BoxCutter>("spur_mm", "How far spur or point goes beyond the edge, mm", 0, 50,
            c => c.SpurMm, (c, v) => c with { SpurMm = v })
            { More = "Left out: a flat bit's 3 mm, a twist drill's 0.3 of its diameter, else none." },
        new NumberOrNone<BoxCutter>("reach_mm", "How deep it can go, mm", 1, 1000, c => c.ReachMm, (c, v) => c with { ReachMm = v }),
    ]);

    internal override BoxForm Declared => Form;
}

/// <summary>A scale: its last digit, and the weight it stops at.</summary>
public sealed record BoxScale : BoxItem
{
    public required double ResolutionG { get; init; }

    public required double CapacityG { get; init; }

    internal override void Check(string path, Findings findings) => BoxSoundness.Scale(this, path, findings);

    internal static readonly BoxForm<BoxScale> Form = new("scale", new() { Id = "", Name = "", ResolutionG = 0, CapacityG = 0 },
    [
        new NeededNumber<BoxScale>("resolution_g", "Its last digit, g", 0.0001, 1000,
            s => s.ResolutionG, (s, v) => s with { ResolutionG = v }),
        new NeededNumber<BoxScale>("capacity_g", "The weight it stops at, g", 1, 1_000_000,
            s => s.CapacityG, (s, v) => s with { CapacityG = v }),
    ]);

    internal override BoxForm Declared => Form;
}
