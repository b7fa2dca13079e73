using System.Collections.Immutable;
using System.Text.Json;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>A squared board, measured and weighed: the way to a density that asks only for a ruler and a scale.</summary>
public sealed record Board
{
    /// <summary>What is pencilled on it.</summary>
    public string? Name { get; init; }

    public required double LengthMm { get; init; }

    public required double WidthMm { get; init; }

    public required double ThicknessMm { get; init; }

    public required double MassG { get; init; }

    public Kept Kept { get; init; }

    public double VolumeCm3 => LengthMm * WidthMm * ThicknessMm / Quantities.Units.CubicCentimetre;

    public double DensityGPerCm3 => MassG / VolumeCm3;
}

/// <summary>A kind of wood: boards that were weighed, or a density from a table until one is.</summary>
public sealed record BoxWood : BoxItem
{
    public ImmutableArray<Board> Boards { get; init; } = [];

    /// <summary>From a table; boards that were weighed outrank it.</summary>
    public double? DensityGPerCm3 { get; init; }

    /// <summary>Scatter from board to board, one standard deviation; null: as the boards show, if there are several.</summary>
    public double? DensitySdGPerCm3 { get; init; }

    /// <summary>The boards' weight over their volume, else the table's density.</summary>
    public Flagged Density => Boards.IsEmpty
        ? new(DensityGPerCm3 ?? 0, SourceOf("density_g_cm3"))
        : new(Boards.Sum(b => b.MassG) / Boards.Sum(b => b.VolumeCm3), Source.Measured);

    /// <summary>
    /// Scatter between boards: as given, else the sample standard deviation of two boards or more; null when nobody can
    /// tell, and it must be assumed.
    /// </summary>
    public double? Scatter
    {
        get
        {
            if (DensitySdGPerCm3 is { } given) return given;
            if (Boards.Length < 2) return null;
            double mean = Boards.Average(b => b.DensityGPerCm3);
            return Math.Sqrt(Boards.Sum(b => (b.DensityGPerCm3 - mean) * (b.DensityGPerCm3 - mean)) / (Boards.Length - 1));
        }
    }

    public override IEnumerable<(string Key, double? Value)> Numbers =>
        [("density_g_cm3", DensityGPerCm3), ("density_sd_g_cm3", DensitySdGPerCm3)];

    /// <summary>The wood as a design takes it: of no board in particular.</summary>
    public WoodDesign ForDesign() => new() { Name = Name, DensityGPerCm3 = Density.Value, DensitySdGPerCm3 = Scatter };

    /// <summary>The wood as a design takes it, cut from this board: the scatter between boards is gone.</summary>
    public WoodDesign ForDesign(Board board) => new() { Name = Name, DensityGPerCm3 = board.DensityGPerCm3 };

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        ObjectWriter.List(json, "boards", Boards, BoxWriter.WriteBoard);
    }

    internal override void Check(string path, Findings findings) => BoxSoundness.Wood(this, path, findings);
}
