using System.Collections.Immutable;
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

    /// <summary>It as a design takes it, hanging from <c>line_tie</c>, a hanger's name or <c>tail_loop</c>.</summary>
    public HardwareItem Hanging(string from) =>
        new() { Name = Name, Kind = Kind, Size = Size, HangsFrom = from, MassG = MassG, LengthMm = LengthMm, DensityGPerCm3 = DensityGPerCm3, StrengthKgf = StrengthKg };

    /// <summary>
    /// Something that hangs, in the file. Where its kind is left out it is what its name says, of what its list may hold; else what most of
    /// them are.
    /// </summary>
    private protected static BoxForm<T> FormOf<T>(
        string definition, T none, string what, ImmutableArray<(string Word, HardwareKind Kind)> kinds, string length = "Length when hanging, mm")
        where T : BoxHardware
    {
        FileKey<T>[] kind = kinds.IsEmpty ? []
            : [new Choice<T, HardwareKind>("kind", what, none.Kind, kinds, h => h.Kind, (h, v) => h with { Kind = v }) { IsAlwaysWritten = true }];
        return new(definition, none,
        [
            .. kind,
            new TextOrNone<T>("size", "Size on the packet", "the size on the packet", h => h.Size, (h, v) => h with { Size = v }),
            new NeededNumber<T>("mass_g", "Weight of one, g", 0.001, 2000, h => h.MassG, (h, v) => h with { MassG = v }),
            new NeededNumber<T>("length_mm", length, 0.5, 1000, h => h.LengthMm, (h, v) => h with { LengthMm = v })
                { More = "By this much it lowers what hangs from it." },
            new UsualNumber<T>("density_g_cm3", "Density, g/cm³", 0.05, LureFile.Densest, Steel, h => h.DensityGPerCm3, (h, v) => h with { DensityGPerCm3 = v })
                { IsAlwaysWritten = true },
            new NumberOrNone<T>("strength_kg", "Load at which it lets go, kg", 0, 10_000, h => h.StrengthKg, (h, v) => h with { StrengthKg = v })
                { More = "As printed on the packet." },
            CountKey<T>(),
        ], then: kinds.IsEmpty ? null : TakeByName);

        T TakeByName(ObjectReader from, T item)
        {
            if (from.Has("kind")) return item;
            HardwareKind said = ByName.Hardware(item.Name);
            if (kinds.Any(k => k.Kind == said)) item = item with { Kind = said };
            if (item.Kind.IsHook() && item.Size is null) item = item with { Size = HookSize.In(item.Name) };
            from.Named.Take(from, item.Name, item.Kind, item.Size);
            return item;
        }
    }
}

/// <summary>A treble or a single.</summary>
public sealed record BoxHook : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.Treble;

    internal static readonly BoxForm<BoxHook> Form = FormOf<BoxHook>("hook", new() { Id = "", Name = "", MassG = 0, LengthMm = 0 }, "Treble or single", [("treble", HardwareKind.Treble), ("single", HardwareKind.Single)]);

    internal override BoxForm Declared => Form;
}

/// <summary>A split ring or a solid one.</summary>
public sealed record BoxRing : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.SplitRing;

    internal static readonly BoxForm<BoxRing> Form = FormOf<BoxRing>("ring", new() { Id = "", Name = "", MassG = 0, LengthMm = 0 }, "Split or solid", [("split", HardwareKind.SplitRing), ("solid", HardwareKind.SolidRing)], "Outside diameter, mm");

    internal override BoxForm Declared => Form;
}

public sealed record BoxSwivel : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.Swivel;

    internal static readonly BoxForm<BoxSwivel> Form = FormOf<BoxSwivel>("swivel", new() { Id = "", Name = "", MassG = 0, LengthMm = 0 }, "", []);

    internal override BoxForm Declared => Form;
}

/// <summary>A snap, or anything else that hangs on a lure.</summary>
public sealed record BoxSnap : BoxHardware
{
    public override HardwareKind Kind { get; init; } = HardwareKind.Snap;

    internal static readonly BoxForm<BoxSnap> Form = FormOf<BoxSnap>("snap", new() { Id = "", Name = "", MassG = 0, LengthMm = 0 }, "A snap, or something else", [("snap", HardwareKind.Snap), ("other", HardwareKind.Other)]);

    internal override BoxForm Declared => Form;
}

public sealed record BoxLeader : BoxItem
{
    public const double Fluorocarbon = 1.78;

    public string? Material { get; init; }

    public required double DiameterMm { get; init; }

    public double DensityGPerCm3 { get; init; } = Fluorocarbon;

    public double? StrengthKg { get; init; }

    public LeaderDesign ForDesign(double carriedMm) =>
        new() { Material = Material, DiameterMm = DiameterMm, DensityGPerCm3 = DensityGPerCm3, CarriedMm = carriedMm };

    internal static readonly BoxForm<BoxLeader> Form = new("leader", new() { Id = "", Name = "", DiameterMm = 0 },
    [
        new TextOrNone<BoxLeader>("material", "What it is made of", "what the leader is made of",
            l => l.Material, (l, v) => l with { Material = v }),
        new NeededNumber<BoxLeader>("diameter_mm", "Diameter, mm", 0.05, 10, l => l.DiameterMm, (l, v) => l with { DiameterMm = v }),
        new UsualNumber<BoxLeader>("density_g_cm3", "Density, g/cm³", 0.5, LureFile.Densest, Fluorocarbon,
            l => l.DensityGPerCm3, (l, v) => l with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new NumberOrNone<BoxLeader>("strength_kg", "Load at which it lets go, kg", 0, 10_000,
            l => l.StrengthKg, (l, v) => l with { StrengthKg = v })
            { More = "As printed on the packet." },
    ]);

    internal override BoxForm Declared => Form;
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

    public WireDesign ForDesign() => new() { DiameterMm = DiameterMm, Grade = Grade, DensityGPerCm3 = DensityGPerCm3 };

    internal static readonly BoxForm<BoxWire> Form = new("wire", new() { Id = "", Name = "", DiameterMm = 0 },
    [
        new TextOrNone<BoxWire>("grade", "Grade and temper", "the wire's grade", w => w.Grade, (w, v) => w with { Grade = v }),
        new NeededNumber<BoxWire>("diameter_mm", "Diameter, mm", 0.2, 6, w => w.DiameterMm, (w, v) => w with { DiameterMm = v }),
        new UsualNumber<BoxWire>("density_g_cm3", "Density, g/cm³", 0.5, LureFile.Densest, Stainless,
            w => w.DensityGPerCm3, (w, v) => w with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new NumberOrNone<BoxWire>("tensile_mpa", "Least tensile strength, MPa", 10, 5000,
            w => w.TensileMpa, (w, v) => w with { TensileMpa = v }),
        new NumberOrNone<BoxWire>("length_mm", "How much there is, mm", 0, BoxFile.Longest,
            w => w.LengthMm, (w, v) => w with { LengthMm = v })
            { More = "Left out: plenty." },
    ]);

    internal override BoxForm Declared => Form;
}
