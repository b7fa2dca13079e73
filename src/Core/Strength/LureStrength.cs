using System.Collections.Immutable;
using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Strength;

/// <summary>
/// What holds a fish, link by link, for each hook in turn; and how far the hooks reach. Estimates for comparing choices,
/// never a rating: most of the figures stand on typical values, and each says so.
/// </summary>
/// <param name="Wire">Null where the grade is of a metal without figures.</param>
/// <param name="Leader">Its breaking load; null: no leader, or not known.</param>
/// <param name="Paths">One for each hook.</param>
/// <param name="Reach">Where hooks reach each other, the back or the leader.</param>
/// <param name="WireLength">Along the bends, mm.</param>
/// <param name="CutLength">With what the pliers hold, mm.</param>
public sealed record LureStrength(
    WireStrength? Wire, Figure? Leader, ImmutableArray<LoadPath> Paths, HookReach Reach, double WireLength, double CutLength)
{
    // Held in the pliers at each end while its eye is turned, then cut off; common practice, no source.
    private const double PliersHold = 25;

    // A cut length is marked with a ruler.
    private const double RulerStep = 5;

    /// <summary>The strength of a sound design; null when it has no wire, which is then no lure to hang a fish on.</summary>
    public static LureStrength? Of(LureDesign design)
    {
        if (design.Wire is not { } wire) return null;
        Body body = design.Body.Surface();
        var shape = new WireShape(wire, body);
        WireStrength? strength = WireStrength.Of(wire.DiameterMm, wire.Grade);
        var links = new Links(design, wire, body, strength);
        string[] places = [.. wire.Hangers.OrderBy(h => h.XMm).Select(h => h.Name), .. wire.TailLoop is null ? (string[])[] : [Soundness.TailLoop]];
        string[] carrying = [.. places.Where(p => design.Hardware.Any(h => h.HangsFrom == p))];
        if (design.Hardware.Any(IsHookOnTheTie)) carrying = [Soundness.LineTie, .. carrying];
        double length = shape.Length;
        double cut = RulerStep * Math.Ceiling((length + (wire.TailLoop is null ? 1 : 2) * PliersHold) / RulerStep);
        return new(strength, design.Leader is { } leader ? Tackle.Of(leader) : null,
            [.. (carrying.Length > 0 ? carrying : places).Select(links.Path)], HookReach.Of(design, body, shape), length, cut);
    }

    private static bool IsHookOnTheTie(HardwareItem item) =>
        item.HangsFrom == Soundness.LineTie && item.Kind.IsHook();

    /// <summary>The path and the link that let go first of all that is known.</summary>
    public (LoadPath Path, Link Link)? Weakest => Paths
        .Where(p => p.Weakest is not null)
        .OrderBy(p => p.Weakest!.LetsGo!.Newtons)
        .Select(p => ((LoadPath, Link)?)(p, p.Weakest!))
        .FirstOrDefault();

    /// <summary>Gathers the links of each path, leader first.</summary>
    private sealed class Links(LureDesign design, WireDesign wire, Body body, WireStrength? strength)
    {
        private readonly EyeStrength? eyes = strength is null ? null : new EyeStrength(strength);
        private readonly double gravity = WoodHold.Gravity(Units.FromGramsPerCm3(design.Wood.DensityGPerCm3));

        public LoadPath Path(string place)
        {
            var links = new List<Link>();
            if (design.Leader is { } leader) links.Add(new(LinkKind.Leader, leader.Material ?? "", 0, Tackle.Of(leader)));
            links.AddRange(Hung(Soundness.LineTie, links.Count, withHooks: place == Soundness.LineTie));
            if (place == Soundness.LineTie) return new LoadPath(place, links[^1].Name, [.. links], []);
            links.Add(Eye(LinkKind.LineTie, Soundness.LineTie, links.Count, wire.LineTie));
            links.Add(new(LinkKind.Wire, wire.Grade ?? "", links.Count, strength is null ? null
                : new Figure(strength.Break, "R_m·πd²/4", strength.TensileSource, strength.TensileBasis)));
            if (wire.Hangers.FirstOrDefault(h => h.Name == place) is { } hanger) AddHanger(links, hanger);
            else links.Add(Eye(LinkKind.TailLoop, place, links.Count, wire.TailLoop!));
            HardwareItem[] hung = [.. design.Hardware.Where(h => h.HangsFrom == place)];
            links.AddRange(Hung(place, links.Count));
            return new LoadPath(place, hung.Length > 0 ? hung[^1].Name : "", [.. links], [.. Bearings(place)]);
        }

        private void AddHanger(List<Link> links, Hanger hanger)
        {
            if (hanger.Kind == HangerKind.Loop)
            {
                links.Add(Eye(LinkKind.HangerLoop, hanger.Name, links.Count, hanger.Eye));
                return;
            }
            if (hanger.Kind == HangerKind.Swivel)
            {
                double slot = hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength;
                links.Add(eyes?.Across(hanger.Name, links.Count, slot) ?? new(LinkKind.WireAcrossSlot, hanger.Name, links.Count, null));
                return;
            }
            // The fish hangs on the wood here, and the wood on the wire.
            links.Add(new(LinkKind.WireInWood, "", links.Count, null));
            links.Add(Screw(hanger, links.Count));
            links.Add(Eye(LinkKind.ScrewEye, hanger.Name, links.Count, hanger.Eye));
        }

        private Link Screw(Hanger hanger, int place)
        {
            double depth = body.BackAt(hanger.XMm) - body.BellyAt(hanger.XMm), length = Math.Min(Allowances.ScrewThread, 0.8 * depth);
            string formula = string.Create(CultureInfo.InvariantCulture, $"108.25·G²·D·L, G {gravity:0.##}, D {wire.DiameterMm:0.##} mm, L {length:0.#} mm");
            return new(LinkKind.ScrewInWood, hanger.Name, place, new Figure(
                WoodHold.WoodScrew(gravity, wire.DiameterMm, length), formula, "Wood Handbook eq. 8-10", Basis.Published));
        }

        private Link Eye(LinkKind kind, string name, int place, EyeDesign eye) =>
            eyes?.Of(kind, name, place, eye) ?? new(kind, name, place, null);

        // A hook that hangs from the line tie carries nothing of what pulls on another.
        private IEnumerable<Link> Hung(string place, int first, bool withHooks = true) => design.Hardware
            .Where(h => h.HangsFrom == place && (withHooks || !IsHookOnTheTie(h)))
            .Select((item, i) => new Link(Kind(item), item.Name, first + i, Tackle.Of(item)));

        private static LinkKind Kind(HardwareItem item) => item.Kind switch
        {
            HardwareKind.SplitRing or HardwareKind.SolidRing => LinkKind.Ring,
            HardwareKind.Swivel => LinkKind.Swivel,
            HardwareKind.Treble or HardwareKind.Single => LinkKind.Hook,
            HardwareKind.Snap or HardwareKind.Other => LinkKind.Fitting,
        };

        private IEnumerable<WoodBearing> Bearings(string place)
        {
            if (strength is null) yield break;
            yield return Bearing(Soundness.LineTie, 1);
            HangerKind? kind = wire.Hangers.FirstOrDefault(h => h.Name == place)?.Kind;
            if (kind != HangerKind.ScrewEye) yield return Bearing(place, kind is null ? 1 : 2);
        }

        // An end of the wire bears on one side of its eye, a hanger on both.
        private WoodBearing Bearing(string place, int legs)
        {
            double bearing = WoodHold.DowelBearing(gravity);
            string formula = string.Create(CultureInfo.InvariantCulture, $"{(legs == 1 ? "" : "2·")}√(2·M_p·F_e·d), F_e = 114.5·G^1.84 = {bearing:0.#} MPa");
            return new(place, new Figure(legs * WoodHold.UnderWire(strength!.PlasticMoment, bearing, strength.Diameter),
                formula, "Wood Handbook eq. 8-3; Johansen 1949", Basis.FromMemory));
        }
    }
}
