using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ledger;

/// <summary>An eye of the wire: where hardware hangs and which way is out.</summary>
public readonly record struct HangPlace(string Place, Vec3 At, Vec3 Outward, EyeDesign Eye);

/// <summary>A binding where it lies.</summary>
/// <param name="Place">Of its eye.</param>
/// <param name="Of">What it is.</param>
/// <param name="Middle">mm.</param>
/// <param name="Inside">Its share that lies in the wood.</param>
/// <param name="InsideMiddle">Middle of that share, mm.</param>
internal readonly record struct LaidBinding(string Place, Binding Of, Vec3 Middle, double Inside, Vec3 InsideMiddle)
{
    /// <summary>Its share outside the wood.</summary>
    public double Outside => 1 - Inside;

    public Vec3 OutsideMiddle => Outside > 0 ? (Middle - Inside * InsideMiddle) / Outside : Middle;
}

/// <summary>
/// The bent wire: its path through the glue face with its dips to hangers, the turns of its eyes and wraps. Lengths
/// are along the wire's middle line, as it is cut.
/// </summary>
public sealed class WireShape
{
    // Of the wire's diameter: the pieces in which it is laid grow with the lure, so that a scaled lure is a scaled lure.
    private const double Step = 0.4;

    private readonly Body body;
    private readonly double diameter;

    /// <summary>Every eye and hanger, nose to tail as the design lists them.</summary>
    public IReadOnlyList<HangPlace> Places => places;

    private readonly List<HangPlace> places = [];

    /// <summary>The wire's path in the glue face from the line tie's eye to the tail's, mm.</summary>
    public IReadOnlyList<Vec3> Path => path;

    private readonly List<Vec3> path = [];

    /// <summary>Developed length, mm: run, dips, eyes and wraps.</summary>
    public double Length { get; private set; }

    /// <summary>Σ length × place, mm².</summary>
    public Vec3 Moment { get; private set; }

    /// <summary>Σ length × (x², y², z²), mm³, about the origin.</summary>
    public Vec3 SecondMoment { get; private set; }

    /// <summary>Length of wire that lies in the wood, mm, and its length × place.</summary>
    public double InsideLength { get; private set; }

    public Vec3 InsideMoment { get; private set; }

    /// <summary>Room cut into the wood for the wire, mm³, and its moment: its slot, wider where it is wound or doubled.</summary>
    public double SlotVolume { get; private set; }

    public Vec3 SlotMoment { get; private set; }

    /// <summary>Side of the square slot, mm.</summary>
    public double SlotWidth { get; }

    /// <summary>Wire outside the wood, by place: length, length × place.</summary>
    public IReadOnlyDictionary<string, (double Length, Vec3 Moment)> Outside => outside;

    private readonly Dictionary<string, (double Length, Vec3 Moment)> outside = new(StringComparer.Ordinal);

    /// <summary>What is wound round the wire behind an eye, nose to tail.</summary>
    internal IReadOnlyList<LaidBinding> Bindings => bindings;

    private readonly List<LaidBinding> bindings = [];

    /// <param name="wire">The design's wire.</param>
    /// <param name="body">The body as drawn.</param>
    public WireShape(WireDesign wire, Body body)
    {
        this.body = body;
        diameter = wire.DiameterMm;
        SlotWidth = Math.Max(wire.SlotWidthMm ?? diameter + Allowances.WireSlot, diameter);
        double nose = body.FaceAt(0, wire.LineTie.ZMm);
        places.Add(Place(Soundness.LineTie, wire.LineTie, new Vec3(nose, 0, wire.LineTie.ZMm), -Vec3.UnitX));
        foreach (Hanger hanger in wire.Hangers)
            places.Add(Place(hanger.Name, hanger.Eye, new Vec3(hanger.XMm, 0, body.BellyAt(hanger.XMm)), -Vec3.UnitZ));
        if (wire.TailLoop is { } tail)
            places.Add(Place(Soundness.TailLoop, tail, new Vec3(body.Length, 0, tail.ZMm), Vec3.UnitX));
        LayPath(wire);
        for (int i = 1; i < path.Count; i++) Lay(path[i - 1], path[i], NearestPlace(path[i]));
        TurnEye(places[0]);
        foreach (Hanger hanger in wire.Hangers)
            if (hanger.Kind == HangerKind.Loop) TurnEye(places.First(p => p.Place == hanger.Name));
        if (wire.TailLoop is not null) TurnEye(places[^1]);
    }

    private static HangPlace Place(string name, EyeDesign eye, Vec3 surface, Vec3 outward)
    {
        Vec3 at = eye.HangAtMm is { } given ? new Vec3(given[0], given[1], given[2]) : surface + eye.StandsOutMm * outward;
        return new HangPlace(name, at, outward, eye);
    }

    private double Radius(EyeDesign eye) => (eye.InsideMm + diameter) / 2;

    private static Vec3 EyeCentre(HangPlace place) => place.At - place.Eye.InsideMm / 2 * place.Outward;

    // Where the wire meets the eye's turn on its near side.
    private Vec3 NearSide(HangPlace place) => EyeCentre(place) - Radius(place.Eye) * place.Outward;

    private void LayPath(WireDesign wire)
    {
        path.Add(NearSide(places[0]));
        if (wire.RunMm.IsEmpty)
            foreach ((Hanger hanger, HangPlace place) in wire.Hangers.Zip(places.Skip(1)).OrderBy(p => p.First.XMm))
                AddHanger(wire, hanger, place);
        else
            path.AddRange(wire.RunMm.Select(p => new Vec3(p.X, 0, p.Z)));
        if (wire.TailLoop is not null)
        {
            path.Add(NearSide(places[^1]));
            return;
        }
        // Without a tail loop the wire ends in the wood a little behind its last hanger.
        double last = wire.Hangers.Length > 0 ? wire.Hangers.Max(h => h.XMm) + 15 : body.Length - 10;
        double end = Math.Clamp(last, body.Length / 10, 0.95 * body.Length);
        if (wire.RunMm.IsEmpty) path.Add(new Vec3(end, 0, WireRun.Height(wire, body, end)));
    }

    private void AddHanger(WireDesign wire, Hanger hanger, HangPlace place)
    {
        double run = WireRun.Height(wire, body, hanger.XMm);
        if (hanger.Kind == HangerKind.Swivel)
        {
            path.Add(new Vec3(hanger.XMm, 0, run));
            return;
        }
        if (hanger.Kind != HangerKind.Loop) return;
        double near = Math.Min(NearSide(place).Z, run);
        path.Add(new Vec3(hanger.XMm - diameter, 0, run));
        path.Add(new Vec3(hanger.XMm - diameter, 0, near));
        path.Add(new Vec3(hanger.XMm + diameter, 0, near));
        path.Add(new Vec3(hanger.XMm + diameter, 0, run));
    }

    private void TurnEye(HangPlace place)
    {
        EyeDesign eye = place.Eye;
        double r = Radius(eye);
        Vec3 centre = EyeCentre(place);
        Vec3 across = Math.Abs(place.Outward.Z) > 0.5 ? Vec3.UnitX : Vec3.UnitZ;
        if (eye.Plane == EyePlane.Flat) across = Vec3.UnitY;
        double turn = eye.Closing.Turn;
        int steps = 48;
        Vec3 At(int k)
        {
            // The gap of an open eye lies evenly about its leg: on which side it is no file says, and a flat eye must not list.
            (double sin, double cos) = Math.SinCos(2 * Math.PI * (1 + turn * ((double)k / steps - 0.5)));
            return centre + r * (cos * place.Outward + sin * across);
        }
        for (int k = 0; k < steps; k++) Lay(At(k), At(k + 1), place.Place);
        Vec3 leg = NearSide(place);
        if (eye.Closing.Behind(eye, diameter) is { } behind)
            Lay(leg, leg - behind.Length * place.Outward, place.Place, behind.Wound, p => behind.Wider == behind.Deeper
                ? Square(p, SlotWidth + behind.Wider) - Square(p, SlotWidth)
                : SlotWidth * behind.Wider + behind.Deeper * (SlotWidth + behind.Wider));
        if (eye.Closing.Bound(eye, diameter) is { } bound) Bind(place, leg, bound);
    }

    private void Bind(HangPlace place, Vec3 leg, Binding bound)
    {
        Vec3 end = leg - bound.Length * place.Outward;
        int pieces = Math.Max(1, (int)Math.Ceiling(bound.Length / (Step * diameter) - 1e-9));
        double inside = 0;
        Vec3 moment = Vec3.Zero;
        for (int k = 0; k < pieces; k++)
        {
            Vec3 middle = leg + (k + 0.5) / pieces * (end - leg);
            if (!body.Contains(middle)) continue;
            inside += 1.0 / pieces;
            moment += 1.0 / pieces * middle;
        }
        bindings.Add(new(place.Place, bound, 0.5 * (leg + end), inside, inside > 0 ? moment / inside : leg));
    }

    /// <summary>
    /// Lays wire from place to place; wound wire is <paramref name="wound"/> times as long as its way, for which
    /// <paramref name="room"/> (mm² at a place; null: the plain slot) is cut out of the wood.
    /// </summary>
    private void Lay(Vec3 from, Vec3 to, string place, double wound = 1, Func<Vec3, double>? room = null)
    {
        Func<Vec3, double> section = room ?? (p => Square(p, SlotWidth));
        // Less a hair: a length of just so many steps must not take one more by its rounding.
        int pieces = Math.Max(1, (int)Math.Ceiling((to - from).Length / (Step * diameter) - 1e-9));
        Vec3 a = from;
        bool inside = body.Contains(a);
        for (int k = 1; k <= pieces; k++)
        {
            Vec3 b = from + (double)k / pieces * (to - from);
            bool stays = body.Contains(b);
            Vec3 surface = stays == inside ? a : Crossing(a, b, inside);
            if (stays != inside) Put(a, surface, inside, place, wound, section);
            Put(surface, b, stays, place, wound, section);
            (a, inside) = (b, stays);
        }
    }

    // What a square slot of this side takes of the section; at a thin end it is wider than the wood.
    private double Square(Vec3 at, double side)
    {
        Section section = body.SectionAt(at.X);
        double half = side / 2, low = at.Z - half, high = at.Z + half;
        if (section.Contains(half, low) && section.Contains(half, high)) return side * side;
        return 2 * Quadrature.Eight(
            y => Math.Max(Math.Min(high, section.TopAt(y)) - Math.Max(low, section.BottomAt(y)), 0), 0, Math.Min(half, section.HalfBreadth));
    }

    // Where a piece of wire passes the body's surface, by bisection: else its share outside would jump by whole pieces.
    private Vec3 Crossing(Vec3 a, Vec3 b, bool inside)
    {
        for (int i = 0; i < 44; i++)
        {
            Vec3 middle = 0.5 * (a + b);
            if (body.Contains(middle) == inside) a = middle;
            else b = middle;
        }
        return 0.5 * (a + b);
    }

    private void Put(Vec3 from, Vec3 to, bool inside, string place, double wound, Func<Vec3, double> section)
    {
        double length = wound * (to - from).Length;
        Vec3 at = 0.5 * (from + to);
        Length += length;
        Moment += length * at;
        SecondMoment += length * new Vec3(at.X * at.X, at.Y * at.Y, at.Z * at.Z);
        if (inside)
        {
            InsideLength += length;
            InsideMoment += length * at;
            double cut = section(at) * (to - from).Length;
            SlotVolume += cut;
            SlotMoment += cut * at;
            return;
        }
        if (length == 0) return;
        (double sum, Vec3 moment) = outside.GetValueOrDefault(place);
        outside[place] = (sum + length, moment + length * at);
    }

    private string NearestPlace(Vec3 at) => places.MinBy(p => (p.At - at).LengthSquared).Place;
}
