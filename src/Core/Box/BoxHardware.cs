using System.Text.Json;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>What hangs on a lure. Sizes are no standard between makers, so its own weight counts, never its size.</summary>
public abstract record BoxHardware : CountedItem
{
    /// <summary>As a design assumes where hardware names no density.</summary>
    public const double Steel = 7.8;

    /// <summary>What it is.</summary>
    public abstract HardwareKind Kind { get; init; }

    /// <summary>As printed on the packet: 3/0.</summary>
    public string? Size { get; init; }

    public required double MassG { get; init; }

    /// <summary>By how much it lowers what hangs from it: a hook from eye to bend, a ring its outside diameter.</summary>
    public required double LengthMm { get; init; }

    public double DensityGPerCm3 { get; init; } = Steel;

    /// <summary>Load at which it lets go, as printed on the packet.</summary>
    public double? StrengthKg { get; init; }

    public override IEnumerable<(string Key, double? Value)> Numbers =>
        [("mass_g", MassG), ("length_mm", LengthMm), ("density_g_cm3", DensityGPerCm3), ("strength_kg", StrengthKg)];

    /// <summary>It as a design takes it, hanging from <c>line_tie</c>, a hanger's name or <c>tail_loop</c>.</summary>
    public HardwareItem Hanging(string from) =>
        new() { Name = Name, Kind = Kind, Size = Size, HangsFrom = from, MassG = MassG, LengthMm = LengthMm, DensityGPerCm3 = DensityGPerCm3 };

    internal override void WriteOwn(Utf8JsonWriter json) => ObjectWriter.Text(json, "size", Size);
}

/// <summary>A treble or a single.</summary>
public sealed record BoxHook : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.Treble;

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        json.WriteString("kind", ObjectWriter.Word(Kind));
        base.WriteOwn(json);
    }
}

/// <summary>A split ring or a solid one.</summary>
public sealed record BoxRing : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.SplitRing;

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        json.WriteString("kind", Kind == HardwareKind.SolidRing ? "solid" : "split");
        base.WriteOwn(json);
    }
}

public sealed record BoxSwivel : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.Swivel;
}

/// <summary>A snap, or anything else that hangs on a lure.</summary>
public sealed record BoxSnap : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.Snap;

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        json.WriteString("kind", ObjectWriter.Word(Kind));
        base.WriteOwn(json);
    }
}

public sealed record BoxLeader : BoxItem
{
    public const double Fluorocarbon = 1.78;

    public string? Material { get; init; }

    public required double DiameterMm { get; init; }

    public double DensityGPerCm3 { get; init; } = Fluorocarbon;

    public double? StrengthKg { get; init; }

    public override IEnumerable<(string Key, double? Value)> Numbers =>
        [("diameter_mm", DiameterMm), ("density_g_cm3", DensityGPerCm3), ("strength_kg", StrengthKg)];

    public LeaderDesign ForDesign(double carriedMm) =>
        new() { Material = Material, DiameterMm = DiameterMm, DensityGPerCm3 = DensityGPerCm3, CarriedMm = carriedMm };

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        ObjectWriter.Text(json, "material", Material);
    }
}

/// <summary>Wire for through-wires.</summary>
public sealed record BoxWire : BoxItem
{
    public const double Stainless = 7.9;

    public required double DiameterMm { get; init; }

    public string? Grade { get; init; }

    public double DensityGPerCm3 { get; init; } = Stainless;

    /// <summary>The least tensile strength that its grade promises at this diameter.</summary>
    public double? TensileMpa { get; init; }

    /// <summary>How much of it there is; null: plenty.</summary>
    public double? LengthMm { get; init; }

    public override IEnumerable<(string Key, double? Value)> Numbers =>
        [("diameter_mm", DiameterMm), ("density_g_cm3", DensityGPerCm3), ("tensile_mpa", TensileMpa), ("length_mm", LengthMm)];

    public WireDesign ForDesign() => new() { DiameterMm = DiameterMm, Grade = Grade, DensityGPerCm3 = DensityGPerCm3 };

    internal override void WriteOwn(Utf8JsonWriter json)
    {
        ObjectWriter.Text(json, "grade", Grade);
    }
}
