using System.Globalization;
using Trimwright.Core.Design;

namespace Trimwright.Core.Strength;

/// <summary>An eye of the wire: where it opens, goes oval or breaks, by how it is closed.</summary>
internal sealed class EyeStrength(WireStrength wire)
{
    public Link Of(LinkKind kind, string name, int place, EyeDesign eye)
    {
        double radius = (eye.InsideMm + wire.Diameter) / 2;
        EyeHold hold = eye.Closing.Hold(eye, isBight: kind == LinkKind.HangerLoop);
        Otherwise? otherwise = hold.If is { } condition && Of(hold.Otherwise, radius) is { } figure ? new(condition, figure) : null;
        return new(kind, name, place, Of(hold.LetsGo, radius), hold.OutOfShape is { } bends ? Of(bends, radius) : null, otherwise);
    }

    private Figure? Of(EyeGives gives, double radius) => gives switch
    {
        EyeGives.Opens => Opens(radius),
        EyeGives.GoesOval => Oval(wire, radius),
        EyeGives.Breaks => BothLegs(),
        EyeGives.BreaksSoft => Softened(),
        EyeGives.Unknown => null,
    };

    private Figure Opens(double radius) =>
        new(Bending.Opens(wire.PlasticMoment, radius), Text("M_p/R", radius), wire.YieldSource, Basis.FromMemory);

    private static Figure Oval(WireStrength wire, double radius) =>
        new(Bending.PullsOval(wire.PlasticMoment, radius), Text("4·M_p/R", radius), wire.YieldSource, Basis.FromMemory);

    private static string Text(string formula, double radius) =>
        string.Create(CultureInfo.InvariantCulture, $"{formula}, M_p = σ_y·d³/6, R {radius:0.##} mm");

    /// <summary>A closed eye lets go where both its legs break.</summary>
    private Figure BothLegs() => new(2 * wire.Break, "2·R_m·πd²/4, both legs", wire.TensileSource, wire.TensileBasis);

    // Spring and half-hard wire owe their strength to cold work, which a weld takes back; soft wire has none to lose.
    private Figure? Softened() => wire.Tensile <= WireStrength.SoftTensile ? null
        : new(WireStrength.SoftTensile * wire.Area,
            string.Create(CultureInfo.InvariantCulture, $"R_m·πd²/4, R_m {WireStrength.SoftTensile} MPa, one leg"), WireStrength.Typical, Basis.FromMemory);

    /// <summary>A wire across an open slot, with a swivel at its middle: it bends first, then two slanting legs carry.</summary>
    public Link Across(string name, int place, double slot)
    {
        string span = string.Create(CultureInfo.InvariantCulture, $"8·M_p/s, M_p = σ_y·d³/6, s {slot:0.##} mm");
        // Drawn into a V of 30° a side, for which it must stretch by 15 %, both legs together carry what one carries straight.
        var breaks = new Figure(wire.Break, "2·R_m·πd²/4·sin 30°", wire.TensileSource, Basis.FromMemory);
        var bends = new Figure(Bending.BendsAcross(wire.PlasticMoment, slot), span, wire.YieldSource, Basis.FromMemory);
        return new(LinkKind.WireAcrossSlot, name, place, breaks, bends.Newtons < breaks.Newtons ? bends : null);
    }
}
