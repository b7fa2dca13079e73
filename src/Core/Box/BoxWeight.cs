using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Box;

/// <summary>A kind of weight, by the piece.</summary>
public sealed record BoxWeight : CountedItem
{
    public BallastForm Kind { get; init; } = BallastForm.Rod;

    public double? DiameterMm { get; init; }

    public double? LengthMm { get; init; }

    public double? WidthMm { get; init; }

    public double? ThicknessMm { get; init; }

    /// <summary>A barrel has one, and any other piece may.</summary>
    public double? BoreMm { get; init; }

    /// <summary>Needed where no piece was weighed.</summary>
    public double? DensityGPerCm3 { get; init; }

    /// <summary>Of one piece, as weighed; ten on the scale and a tenth of it is better.</summary>
    public double? MassG { get; init; }

    public required bool IsLead { get; init; }

    /// <summary>Weight of one, g: as given, else by form and density.</summary>
    public Flagged Mass => MassG is { } mass ? new(mass, SourceOf("mass_g")) : new(Piece(Axis.X, [0, 0, 0]).Mass, SourceOf("density_g_cm3"));

    /// <summary>The weight as a design takes it: lying along an axis, its middle at a place.</summary>
    public BallastPiece Piece(Axis axis, ImmutableArray<double> atMm) => new()
    {
        Name = Name, Form = Kind, Axis = axis, AtMm = atMm, MassG = MassG, DensityGPerCm3 = DensityGPerCm3, BoreMm = BoreMm ?? 0,
        DiameterMm = DiameterMm ?? 0, LengthMm = LengthMm ?? 0, WidthMm = WidthMm ?? 0, ThicknessMm = ThicknessMm ?? 0,
    };

    internal override void Check(string path, Findings findings) => BoxSoundness.Weight(this, path, findings);

    internal static readonly BoxForm<BoxWeight> Form = new("weight", new() { Id = "", Name = "", IsLead = false },
    [
        new Choice<BoxWeight, BallastForm>("kind", "Form", BallastForm.Rod, [.. BallastForm.All.Select(f => (f.Word, f))],
            w => w.Kind, (w, v) => w with { Kind = v })
            { IsAlwaysWritten = true },
        new NeededYesOrNo<BoxWeight>("is_lead", "Holds lead", w => w.IsLead, (w, v) => w with { IsLead = v }),
        new NumberOfSome<BoxWeight>("diameter_mm", "Diameter, mm", BallastForm.Smallest, 500, w => w.Kind.Needs.Has("diameter_mm"),
            w => w.DiameterMm, (w, v) => w with { DiameterMm = v })
            { More = "Every form but a strip needs it, 0.1 mm or more." },
        new NumberOfSome<BoxWeight>("length_mm", "Length, mm", BallastForm.Smallest, 500, w => w.Kind.Needs.Has("length_mm"),
            w => w.LengthMm, (w, v) => w with { LengthMm = v })
            { More = "Every form but a ball needs it, 0.1 mm or more." },
        new NumberOfSome<BoxWeight>("width_mm", "Width of a strip, mm", BallastForm.Smallest, 500, w => w.Kind.Needs.Has("width_mm"),
            w => w.WidthMm, (w, v) => w with { WidthMm = v })
            { More = "0.1 mm or more." },
        new NumberOfSome<BoxWeight>("thickness_mm", "Thickness of a strip, mm", BallastForm.Smallest, 500, w => w.Kind.Needs.Has("thickness_mm"),
            w => w.ThicknessMm, (w, v) => w with { ThicknessMm = v })
            { More = "0.1 mm or more." },
        new NumberOfSome<BoxWeight>("bore_mm", "Diameter of its bore, mm", BallastForm.Smallest, 100, w => w.Kind.Needs.Has("bore_mm"),
            w => w.BoreMm, (w, v) => w with { BoreMm = v })
            { More = "A barrel needs it, 0.1 mm or more." },
        new NumberOrNone<BoxWeight>("density_g_cm3", "Density, g/cm³", LureFile.Lightest, LureFile.Densest,
            w => w.DensityGPerCm3, (w, v) => w with { DensityGPerCm3 = v })
            { More = "Needed where no piece was weighed.", NeededWhere = (_, w) => w.MassG is null },
        new NumberOrNone<BoxWeight>("mass_g", "Weight of one piece, g", 0.001, 10_000, w => w.MassG, (w, v) => w with { MassG = v })
            { More = "Better a tenth of ten pieces. Left out: by form and density.", Turn = -1 },
        CountKey<BoxWeight>(),
    ],
        BallastForm.Conditions("kind", "diameter_mm", "length_mm", "width_mm", "thickness_mm", "bore_mm") + """
            ,
            {
              "if": { "not": { "required": ["mass_g"], "properties": { "mass_g": { "type": "number" } } } },
              "then": { "required": ["density_g_cm3"], "properties": { "density_g_cm3": { "type": "number", "minimum": 0.01 } } }
            }
            """);

    internal override BoxForm Declared => Form;
}

public enum StockKind
{
    Rod,
    Sheet,
    Wire,
}

/// <summary>Rod, sheet or wire that weights are cut from, in steps that a maker can keep.</summary>
public sealed record BoxStock : BoxItem
{
    public const double UsualStepMm = 0.5;

    public StockKind Kind { get; init; }

    /// <summary>Of a rod or wire.</summary>
    public double? DiameterMm { get; init; }

    /// <summary>Of a tube's bore.</summary>
    public double? BoreMm { get; init; }

    /// <summary>Of a sheet.</summary>
    public double? WidthMm { get; init; }

    public double? ThicknessMm { get; init; }

    /// <summary>How much of it there is; null: plenty.</summary>
    public double? LengthMm { get; init; }

    public double StepMm { get; init; } = UsualStepMm;

    public double? DensityGPerCm3 { get; init; }

    /// <summary>All of it on the scale, for its length.</summary>
    public double? MassG { get; init; }

    public required bool IsLead { get; init; }

    /// <summary>Its own section, mm²: of a sheet over its whole width.</summary>
    public double SectionMm2 => Kind == StockKind.Sheet
        ? (WidthMm ?? 0) * (ThicknessMm ?? 0)
        : Solids.Cylinder(DiameterMm ?? 0, 1) - Solids.Cylinder(BoreMm ?? 0, 1);

    /// <summary>By its weight and length where it was weighed, else as given.</summary>
    public Flagged Density => MassG is { } mass && LengthMm is { } length
        ? new(Units.ToGramsPerCm3(mass / (SectionMm2 * length)), SourceOf("mass_g"))
        : new(DensityGPerCm3 ?? 0, SourceOf("density_g_cm3"));

    /// <summary>The nearest length that its step allows, at least one step and no more than there is.</summary>
    public double Cuttable(double lengthMm)
    {
        double steps = Math.Max(1, Math.Round(lengthMm / StepMm));
        if (LengthMm is { } there) steps = Math.Min(steps, Math.Floor(there / StepMm + 1e-9));
        return steps * StepMm;
    }

    /// <summary>A piece cut from it as a design takes it; a sheet's is a strip of some width.</summary>
    public BallastPiece Cut(double lengthMm, Axis axis, ImmutableArray<double> atMm, double? widthMm = null) => new()
    {
        Name = Name, Form = Kind == StockKind.Sheet ? BallastForm.Strip : BallastForm.Rod, Axis = axis, AtMm = atMm,
        LengthMm = lengthMm, DiameterMm = DiameterMm ?? 0, BoreMm = BoreMm ?? 0,
        WidthMm = Kind == StockKind.Sheet ? widthMm ?? WidthMm ?? 0 : 0, ThicknessMm = ThicknessMm ?? 0, DensityGPerCm3 = Density.Value,
    };

    internal override void Check(string path, Findings findings) => BoxSoundness.Stock(this, path, findings);

    internal static readonly BoxForm<BoxStock> Form = new("stock", new() { Id = "", Name = "", IsLead = false },
    [
        new Choice<BoxStock, StockKind>("kind", "Form", StockKind.Rod, FileWords.Of<StockKind>(),
            s => s.Kind, (s, v) => s with { Kind = v }) { IsAlwaysWritten = true },
        new NeededYesOrNo<BoxStock>("is_lead", "Holds lead", s => s.IsLead, (s, v) => s with { IsLead = v }),
        new NumberOfSome<BoxStock>("diameter_mm", "Diameter of a rod or wire, mm", 0.1, 500,
            s => s.Kind != StockKind.Sheet, s => s.DiameterMm, (s, v) => s with { DiameterMm = v })
            { More = "0.1 mm or more." },
        new NumberOrNone<BoxStock>("bore_mm", "Bore of a tube, mm", 0, 100, s => s.BoreMm, (s, v) => s with { BoreMm = v }),
        new NumberOfSome<BoxStock>("width_mm", "Width of a sheet, mm", 0.1, 500,
            s => s.Kind == StockKind.Sheet, s => s.WidthMm, (s, v) => s with { WidthMm = v })
            { More = "0.1 mm or more." },
        new NumberOfSome<BoxStock>("thickness_mm", "Thickness of a sheet, mm", 0.1, 500,
            s => s.Kind == StockKind.Sheet, s => s.ThicknessMm, (s, v) => s with { ThicknessMm = v })
            { More = "0.1 mm or more." },
        new NumberOrNone<BoxStock>("length_mm", "How much there is, mm", 1, BoxFile.Longest,
            s => s.LengthMm, (s, v) => s with { LengthMm = v })
            { More = "Left out: plenty; needed with mass_g.", NeededWhere = (_, s) => s.MassG is not null },
        new UsualNumber<BoxStock>("step_mm", "Steps in which it is cut, mm", 0.01, 100, UsualStepMm,
            s => s.StepMm, (s, v) => s with { StepMm = v })
            { IsAlwaysWritten = true },
        new NumberOrNone<BoxStock>("density_g_cm3", "Density, g/cm³", LureFile.Lightest, LureFile.Densest,
            s => s.DensityGPerCm3, (s, v) => s with { DensityGPerCm3 = v })
            { More = "Needed where it was not weighed.", NeededWhere = (_, s) => s.MassG is null },
        new NumberOrNone<BoxStock>("mass_g", "Weight of all of it, g", 0.001, 100_000, s => s.MassG, (s, v) => s with { MassG = v })
            { More = "With its length it gives the density.", Turn = -1 },
    ],
        """
            {
              "if": { "properties": { "kind": { "enum": ["rod", "wire", null] } } },
              "then": { "required": ["diameter_mm"], "properties": { "diameter_mm": { "type": "number", "minimum": 0.1 } } }
            },
            {
              "if": { "properties": { "kind": { "enum": ["sheet"] } }, "required": ["kind"] },
              "then": {
                "required": ["width_mm", "thickness_mm"],
                "properties": { "width_mm": { "type": "number", "minimum": 0.1 }, "thickness_mm": { "type": "number", "minimum": 0.1 } }
              }
            },
            {
              "if": { "not": { "required": ["mass_g"], "properties": { "mass_g": { "type": "number" } } } },
              "then": { "required": ["density_g_cm3"], "properties": { "density_g_cm3": { "type": "number", "minimum": 0.01 } } }
            },
            {
              "if": { "required": ["mass_g"], "properties": { "mass_g": { "type": "number" } } },
              "then": { "required": ["length_mm"], "properties": { "length_mm": { "type": "number", "minimum": 1 } } }
            }
            """);

    internal override BoxForm Declared => Form;
}
