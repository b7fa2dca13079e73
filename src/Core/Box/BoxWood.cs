using System.Collections.Immutable;
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

    /// <summary>A board in the file.</summary>
    internal static readonly FileObject<Board> Form = new(
        new() { LengthMm = 0, WidthMm = 0, ThicknessMm = 0, MassG = 0 }, b => b.Kept, (b, kept) => b with { Kept = kept },
    [
        new TextOrNone<Board>("name", "What is pencilled on it", "what is pencilled on the board",
            b => b.Name, (b, v) => b with { Name = v }),
        new NeededNumber<Board>("length_mm", "Length, mm", 1, 10_000, b => b.LengthMm, (b, v) => b with { LengthMm = v }),
        new NeededNumber<Board>("width_mm", "Width, mm", 1, 10_000, b => b.WidthMm, (b, v) => b with { WidthMm = v }),
        new NeededNumber<Board>("thickness_mm", "Thickness, mm", 0.5, 10_000, b => b.ThicknessMm, (b, v) => b with { ThicknessMm = v }),
        new NeededNumber<Board>("mass_g", "Weight, g", 0.01, 100_000, b => b.MassG, (b, v) => b with { MassG = v }),
    ]) { Definition = "board" };
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

    // What a ruler and a kitchen scale leave open of one board, and one end of it against the other, as a share; common practice, no source.
    private const double OfOneBoard = 0.02;

    /// <summary>
    /// This wood as a design takes it: its density; its scatter as the box has it or boards show it, at least what weighing one leaves
    /// open; without boards, what the design says.
    /// </summary>
    public WoodDesign In(WoodDesign wood) => wood with
    {
        BoxId = Id, Name = Name, DensityGPerCm3 = Density.Value,
        // Two boards may be alike by chance.
        DensitySdGPerCm3 = DensitySdGPerCm3 ?? (Boards.IsEmpty ? wood.DensitySdGPerCm3 : Math.Max(Scatter ?? 0, OfOneBoard * Density.Value)),
    };

    internal override void Check(string path, Findings findings) => BoxSoundness.Wood(this, path, findings);

    internal static readonly BoxForm<BoxWood> Form = new("wood", new() { Id = "", Name = "" },
    [
        new ObjectList<BoxWood, Board>("boards", "Boards, measured and weighed", 100, "a list of boards, measured and weighed", Board.Form,
            w => w.Boards, (w, v) => w with { Boards = v })
            { More = "Squared pieces; their weight over their volume is the wood's density." },
        new NumberOrNone<BoxWood>("density_g_cm3", "Density, g/cm³", LureFile.Lightest, LureFile.Densest,
            w => w.DensityGPerCm3, (w, v) => w with { DensityGPerCm3 = v })
            { More = "Needed until a board is weighed.", NeededWhere = (from, _) => from.Find("boards") is not { Kind: JsonKind.Array, ItemCount: > 0 } },
        new NumberOrNone<BoxWood>("density_sd_g_cm3", "Scatter from board to board, one standard deviation, g/cm³", 0, LureFile.Densest,
            w => w.DensitySdGPerCm3, (w, v) => w with { DensitySdGPerCm3 = v }),
    ],
        """
            {
              "if": { "not": { "required": ["boards"], "properties": { "boards": { "type": "array", "minItems": 1 } } } },
              "then": { "required": ["density_g_cm3"], "properties": { "density_g_cm3": { "type": "number", "minimum": 0.01 } } }
            }
            """);

    internal override BoxForm Declared => Form;
}
