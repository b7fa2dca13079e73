using System.Collections.Immutable;
using System.Text.Json;
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

    public override IEnumerable<(string Key, double? Value)> Numbers =>
    [
        ("density_g_cm3", DensityGPerCm3), ("thickness_mm", ThicknessMm), ("resin_density_g_cm3", ResinDensityGPerCm3),
        ("hardener_density_g_cm3", HardenerDensityGPerCm3), ("solids", Solids), ("losses", Losses), ("pot_minimum_g", PotMinimumG),
        ("pot_life_min", PotLifeMin), ("recoat_from_h", RecoatFromH), ("recoat_until_h", RecoatUntilH), ("sand_from_h", SandFromH),
        ("turn_h", TurnH), ("cure_h", CureH), ("times_at_c", TimesAtC),
    ];

    public override IEnumerable<string> Lists => ["ratio_by_volume", "ratio_by_weight"];

    public Coat ForDesign(int coats) => new() { Name = Name, Coats = coats, ThicknessMm = ThicknessMm, DensityGPerCm3 = DensityGPerCm3 };

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        if (Use != FinishUse.NotSaid) json.WriteString("use", ObjectWriter.Word(Use));
        if (RatioByVolume is { } volume) ObjectWriter.Numbers(json, "ratio_by_volume", volume);
        if (RatioByWeight is { } weighed) ObjectWriter.Numbers(json, "ratio_by_weight", weighed);
    }

    internal override void Check(string path, Findings findings) => BoxSoundness.Finish(this, path, findings);
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

    public override IEnumerable<(string Key, double? Value)> Numbers => [("spur_mm", SpurMm), ("reach_mm", ReachMm)];

    public override IEnumerable<string> Lists => ["diameters_mm"];

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        json.WriteString("kind", ObjectWriter.Word(Kind));
        ObjectWriter.Numbers(json, "diameters_mm", DiametersMm);
    }
}

/// <summary>A scale: its last digit, and the weight it stops at.</summary>
public sealed record BoxScale : BoxItem
{
    public required double ResolutionG { get; init; }

    public required double CapacityG { get; init; }

    public override IEnumerable<(string Key, double? Value)> Numbers => [("resolution_g", ResolutionG), ("capacity_g", CapacityG)];

    internal override void Check(string path, Findings findings) => BoxSoundness.Scale(this, path, findings);
}
