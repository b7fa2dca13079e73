using System.Collections.Immutable;
using System.Text.Json;
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

    public override IEnumerable<(string Key, double? Value)> Numbers =>
    [
        ("diameter_mm", DiameterMm), ("length_mm", LengthMm), ("width_mm", WidthMm), ("thickness_mm", ThicknessMm),
        ("bore_mm", BoreMm), ("density_g_cm3", DensityGPerCm3), ("mass_g", MassG),
    ];

    /// <summary>The weight as a design takes it: lying along an axis, its middle at a place.</summary>
    public BallastPiece Piece(Axis axis, ImmutableArray<double> atMm) => new()
    {
        Name = Name, Form = Kind, Axis = axis, AtMm = atMm, MassG = MassG, DensityGPerCm3 = DensityGPerCm3, BoreMm = BoreMm ?? 0,
        DiameterMm = DiameterMm ?? 0, LengthMm = LengthMm ?? 0, WidthMm = WidthMm ?? 0, ThicknessMm = ThicknessMm ?? 0,
    };

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        json.WriteString("kind", Kind.Word);
        json.WriteBoolean("is_lead", IsLead);
    }

    internal override void Check(string path, Findings findings) => BoxSoundness.Weight(this, path, findings);
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

    public override IEnumerable<(string Key, double? Value)> Numbers =>
    [
        ("diameter_mm", DiameterMm), ("bore_mm", BoreMm), ("width_mm", WidthMm), ("thickness_mm", ThicknessMm),
        ("length_mm", LengthMm), ("step_mm", StepMm), ("density_g_cm3", DensityGPerCm3), ("mass_g", MassG),
    ];

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

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        json.WriteString("kind", ObjectWriter.Word(Kind));
        json.WriteBoolean("is_lead", IsLead);
    }

    internal override void Check(string path, Findings findings) => BoxSoundness.Stock(this, path, findings);
}
