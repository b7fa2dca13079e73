using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>
/// Where one can still drill into a glued lure, from which side and how deep: the map behind remedies and the sheets.
/// <para>
/// A hole is tried straight up from the belly line, straight down from the back line, and straight across from a side. It
/// goes deeper in small steps until the next would come nearer than <see cref="Walls"/> to something
/// <see cref="Buried"/>, or to the skin. Distances to simple solids are exact; they are taken at points of the hole's
/// bottom so close together that between them at most a tenth of a wall is missed, which is added to the wall.
/// </para>
/// </summary>
public sealed class SafeSpots
{
    private const double Step = 0.5;
    private const double Deepest = 60;

    // A filling shorter than this is not worth a broken seal.
    private const double LeastRoom = 2;

    // Where the skin leans more than this against the drill, over its own width, the drill wanders.
    private const double MostLean = 0.6;

    private readonly Body body;

    // What each half lost at the seam beyond its glue, mm, and its half-breadth against the drawn one. What a thick glue line or the
    // wider half gains is not counted: a design's pieces must lie in the body as drawn.
    private readonly double narrower;
    private readonly double right;
    private readonly double left;
    private readonly ImmutableArray<Buried> buried;
    private readonly Walls walls;

    /// <param name="design">Sound.</param>
    /// <param name="walls">What to leave; null: <see cref="Walls.Usual"/>.</param>
    public SafeSpots(LureDesign design, Walls? walls = null)
    {
        body = design.Body.Surface();
        if (design.Wire is not null || !design.Ballast.IsEmpty || design.Joint is not null || design.Halves is not null)
            narrower = (design.Joint ?? new JointDesign()) is var joint ? Math.Max(joint.LostPerHalf - joint.GlueLineMm / 2, 0) : 0;
        double wider = (design.Halves?.RightWiderMm ?? 0) / (2 * Enumerable.Range(0, 129).Max(i => body.HalfBreadthAt(body.Length * i / 128)));
        (right, left) = (Math.Min(1 + wider, 1), Math.Min(1 - wider, 1));
        buried = Buried.In(design, body);
        this.walls = walls ?? Walls.Usual;
    }

    /// <summary>Every safe spot for a drill along the belly and the back, nose to tail.</summary>
    /// <param name="bit">The drill.</param>
    /// <param name="every">Distance between tried places, mm.</param>
    /// <param name="pace">How to go about it.</param>
    public IEnumerable<SafeSpot> Along(DrillBit bit, double every, Pace? pace = null)
    {
        for (int i = 1; i * every < body.Length; i++)
            foreach (DrilledFrom from in (DrilledFrom[])[DrilledFrom.Belly, DrilledFrom.Back])
                if (Try(from, i * every, 0, bit, pace) is { } spot) yield return spot;
    }

    /// <summary>Every safe spot for a drill across from one side, in a grid.</summary>
    /// <param name="from">Right or left side.</param>
    /// <param name="bit">The drill.</param>
    /// <param name="every">Distance between tried places, mm.</param>
    public IEnumerable<SafeSpot> Across(DrilledFrom from, DrillBit bit, double every)
    {
        for (int i = 1; i * every < body.Length; i++)
        {
            Section section = body.SectionAt(i * every);
            for (int k = (int)Math.Ceiling(section.Belly / every); k * every < section.Back; k++)
                if (Try(from, i * every, k * every, bit) is { } spot) yield return spot;
        }
    }

    /// <summary>The hole at one place, as deep as is safe; null where none is.</summary>
    /// <param name="from">The side.</param>
    /// <param name="x">Station, mm.</param>
    /// <param name="z">Height, mm, for a side; the belly and back lines have their own.</param>
    /// <param name="bit">The drill.</param>
    /// <param name="pace">How to go about it.</param>
    public SafeSpot? Try(DrilledFrom from, double x, double z, DrillBit bit, Pace? pace = null)
    {
        pace?.Step();
        if (x <= 0 || x >= body.Length) return null;
        Section section = body.SectionAt(x);
        (Vec3 mouth, Vec3 into) = from switch
        {
            DrilledFrom.Belly => (new Vec3(x, 0, section.BottomAt(Drawn(0))), Vec3.UnitZ),
            DrilledFrom.Back => (new Vec3(x, 0, section.TopAt(Drawn(0))), -Vec3.UnitZ),
            DrilledFrom.RightSide => (new Vec3(x, Side(section, z, right), z), -Vec3.UnitY),
            DrilledFrom.LeftSide => (new Vec3(x, -Side(section, z, left), z), Vec3.UnitY),
        };
        double radius = bit.Diameter / 2;
        if (Entry(mouth, into, radius) is not { } rim || rim.Last - rim.First > MostLean * bit.Diameter) return null;
        // The filling needs its wall all round, and its stopper above it, which the rim's deepest place still leaves whole.
        if (Entry(mouth, into, radius + walls.ToSkin) is not { } sound) return null;
        double from_ = Math.Max(Math.Max(rim.Last, 0) + walls.Cover, sound.Last);
        return Deepen(from, mouth, into, bit, Math.Max(rim.Last, 0), from_);
    }

    // Distance from the centreline, as drawn, of wood that now lies at y.
    private double Drawn(double y) => Math.Max(Math.Abs(y) + narrower, 0) / (y >= 0 ? right : left);

    private double Side(Section section, double z, double half) => half * section.BreadthAt(z) - narrower;

    private bool InWood(Vec3 p) => body.Contains(p with { Y = Drawn(p.Y) });

    private SafeSpot? Deepen(DrilledFrom from, Vec3 mouth, Vec3 into, DrillBit bit, double rim, double filling)
    {
        Buried[] near = [.. Near(mouth, into, bit)];
        double safe = -1;
        string? stopped = null;
        for (int i = 0; i * Step <= Math.Min(Deepest, bit.Reach); i++)
        {
            double depth = i * Step;
            if (Met(mouth, into, bit, depth, near) is { } met)
            {
                stopped = met.Name;
                break;
            }
            // Under its rim the hole is in the wood, unless a slanted or cupped face cuts in.
            if (depth > rim + Step && depth < filling && !Ring(mouth + depth * into, into, bit.Diameter / 2).All(InWood)) break;
            if (depth >= filling && !WoodRound(mouth, into, bit, depth)) break;
            safe = depth;
        }
        return safe >= filling + LeastRoom ? new SafeSpot(from, mouth, into, bit, rim, filling, safe, stopped) : null;
    }

    // What can come within its wall of any depth of this hole.
    private IEnumerable<Buried> Near(Vec3 mouth, Vec3 into, DrillBit bit)
    {
        foreach (Buried thing in buried)
        {
            (Vec3 middle, double radius) = thing.Solid.Ball;
            Vec3 d = middle - mouth;
            double along = Math.Clamp(Vec3.Dot(d, into), 0, Deepest);
            if ((d - along * into).Length < radius + bit.Diameter / 2 + bit.Beyond + walls.To(thing.Kind) + 1) yield return thing;
        }
    }

    private static Buried? Nearest(Vec3 p, Buried[] near, Walls walls, double missed)
    {
        foreach (Buried thing in near)
            if (thing.Solid.DistanceTo(p) < walls.To(thing.Kind) + missed) return thing;
        return null;
    }

    private Buried? Met(Vec3 mouth, Vec3 into, DrillBit bit, double depth, Buried[] near)
    {
        if (near.Length == 0) return null;
        Vec3 bottom = mouth + depth * into;
        if (Nearest(bottom, near, walls, 0) is { } middle) return middle;
        if (Nearest(bottom + bit.Beyond * into, near, walls, 0) is { } point) return point;
        // The point is a cone from the edge to its tip; a spur lies well within that.
        for (int k = 1; k < Cone && bit.Beyond > 0; k++)
            foreach (Vec3 p in Ring(bottom + bit.Beyond * k / Cone * into, into, bit.Diameter / 2 * (Cone - k) / Cone))
                if (Nearest(p, near, walls, Missed) is { } flank) return flank;
        foreach (Vec3 p in Disc(bottom, into, bit.Diameter / 2))
            if (Nearest(p, near, walls, Missed) is { } met) return met;
        return null;
    }

    // Between points of the disc h apart a wall w is missed by at most √(w² + h²/4) − w: 0.14 mm for w = 2 and h = 1.5.
    private const double Apart = 1.5;
    private const double Missed = 0.15;
    private const int Cone = 3;

    private static IEnumerable<Vec3> Disc(Vec3 centre, Vec3 axis, double radius)
    {
        (Vec3 e1, Vec3 e2) = axis.Frame();
        int rings = (int)Math.Ceiling(radius / Apart);
        for (int ring = rings; ring > 0; ring--)
        {
            double r = radius * ring / rings;
            int around = Math.Max(8, (int)Math.Ceiling(2 * Math.PI * r / Apart));
            for (int k = 0; k < around; k++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * k / around);
                yield return centre + r * (cos * e1 + sin * e2);
            }
        }
    }

    /// <summary>The wall stands round the hole at this depth, beyond its bottom's edge, and beyond the drill's point.</summary>
    private bool WoodRound(Vec3 mouth, Vec3 into, DrillBit bit, double depth)
    {
        Vec3 bottom = mouth + depth * into;
        return Ring(bottom, into, bit.Diameter / 2 + walls.ToSkin).All(InWood)
            && Ring(bottom + walls.ToSkin * into, into, bit.Diameter / 2).All(InWood)
            && InWood(bottom + (bit.Beyond + walls.ToSkin) * into);
    }

    private static IEnumerable<Vec3> Ring(Vec3 centre, Vec3 axis, double radius)
    {
        (Vec3 e1, Vec3 e2) = axis.Frame();
        for (int k = 0; k < 24; k++)
        {
            (double sin, double cos) = Math.SinCos(2 * Math.PI * k / 24);
            yield return centre + radius * (cos * e1 + sin * e2);
        }
    }

    /// <summary>Least and greatest depth below the mouth at which a ring of this radius meets the skin; null where it passes it by.</summary>
    private (double First, double Last)? Entry(Vec3 mouth, Vec3 into, double radius)
    {
        double first = double.PositiveInfinity, last = double.NegativeInfinity;
        foreach (Vec3 p in Ring(mouth, into, radius))
        {
            if (p.X <= 0 || p.X >= body.Length) return null;
            Section section = body.SectionAt(p.X);
            double skin;
            if (into.Z != 0)
            {
                if (Drawn(p.Y) >= section.HalfBreadth) return null;
                skin = into.Z > 0 ? section.BottomAt(Drawn(p.Y)) - mouth.Z : mouth.Z - section.TopAt(Drawn(p.Y));
            }
            else
            {
                double side = Side(section, p.Z, into.Y < 0 ? right : left);
                if (side <= 0) return null;
                skin = Math.Abs(mouth.Y) - side;
            }
            (first, last) = (Math.Min(first, skin), Math.Max(last, skin));
        }
        return (first, last);
    }
}
