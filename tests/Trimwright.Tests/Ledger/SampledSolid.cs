using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Ledger;

/// <summary>
/// What stuff lies at a point of a lure, at any stage, decided anew from the design: superellipse sections, the slab lost
/// and the glue line at the seam, pieces and their pockets, the wire in its slot, open swivel slots, eye sockets, film by
/// its distance from the wood. Wire outside the wood and hardware are not in it.
/// </summary>
internal sealed class SampledSolid
{
    private readonly LureDesign design;
    private readonly Body body;
    private readonly double[] back;
    private readonly double[] belly;
    private readonly double[] half;
    private readonly double lost;
    private readonly double glue;
    private readonly double tack;
    private readonly double rightSide;
    private readonly double leftSide;
    private readonly JointDesign joint;
    // Straight pieces of the wire, the normal of the plane that each lies in, and whether it is an eye's turn.
    private readonly List<(Vec3 A, Vec3 B, Vec3 Normal, bool IsEye)> path = [];
    // The same by millimetre of x, each piece wherever its slot may reach.
    private readonly Dictionary<int, List<(Vec3 A, Vec3 B, Vec3 Normal, bool IsEye)>> byX = [];
    private readonly List<(Vec3 From, Vec3 Inward, double Length)> wraps = [];
    private readonly DistanceToMesh? surface;

    /// <summary>The whole film, mm.</summary>
    public double Film { get; }

    public SampledSolid(LureDesign design)
    {
        this.design = design;
        body = design.Body.Surface();
        const int perMm = 32;
        int count = (int)Math.Ceiling(body.Length * perMm) + 2;
        double[] Table(Func<double, double> f) => [.. Enumerable.Range(0, count).Select(i => f(Math.Min((double)i / perMm, body.Length)))];
        (back, belly, half) = (Table(body.BackAt), Table(body.BellyAt), Table(body.HalfBreadthAt));
        bool split = design.Wire is not null || !design.Ballast.IsEmpty || design.Joint is not null || design.Halves is not null;
        joint = design.Joint ?? new JointDesign();
        tack = split && joint.KerfMm == 0 ? joint.TackThicknessMm : 0;
        lost = split ? (joint.KerfMm + tack) / 2 + joint.CleanedOffMm : 0;
        glue = split ? joint.GlueLineMm : 0;
        double wider = design.Halves?.RightWiderMm ?? 0, widest = half.Max();
        (rightSide, leftSide) = (1 + wider / (2 * widest), 1 - wider / (2 * widest));
        if (design.Wire is { } wire) LayWire(new WireShape(wire, body), wire);
        Film = design.Finish.Sum(c => c.Coats * c.ThicknessMm);
        if (Film > 0) surface = new DistanceToMesh(BodyMesh.Of(body, MeshSize.Live, new Seam(lost, glue / 2, wider)), Film);
    }

    // The path, and the turn of each upright eye.
    private void LayWire(WireShape shape, WireDesign wire)
    {
        for (int i = 1; i < shape.Path.Count; i++) path.Add((shape.Path[i - 1], shape.Path[i], Vec3.UnitY, false));
        foreach (HangPlace place in shape.Places)
        {
            if (wire.Hangers.Any(h => h.Name == place.Place && h.Kind != HangerKind.Loop)) continue;
            double r = (place.Eye.InsideMm + wire.DiameterMm) / 2;
            Vec3 centre = place.At - place.Eye.InsideMm / 2 * place.Outward;
            Vec3 near = centre - r * place.Outward, beside = Vec3.Cross(place.Outward, Vec3.UnitY);
            if (place.Eye.Closing == EyeClosing.Wrapped) wraps.Add((near, -place.Outward, place.Eye.Wraps * wire.DiameterMm));
            // The doubled leg lies beside the run, 25 mm of it (the ledger's own figure).
            Vec3 leg = near + wire.DiameterMm * beside;
            if (place.Eye.Closing == EyeClosing.Doubled) path.Add((leg, leg - 25 * place.Outward, Vec3.UnitY, true));
            Vec3 across = place.Eye.Plane == EyePlane.Flat ? Vec3.UnitY : Math.Abs(place.Outward.Z) > 0.5 ? Vec3.UnitX : Vec3.UnitZ;
            Vec3 On(int k) => centre + r * (Math.Cos(Math.PI * k / 12) * place.Outward + Math.Sin(Math.PI * k / 12) * across);
            for (int k = 0; k < 24; k++) path.Add((On(k), On(k + 1), Vec3.Cross(place.Outward, across), true));
        }
    }

    private List<(Vec3 A, Vec3 B, Vec3 Normal, bool IsEye)> NearWire(double x)
    {
        int bin = (int)Math.Floor(x);
        if (byX.TryGetValue(bin, out var near)) return near;
        double reach = Math.Max(design.Wire!.SlotWidthMm ?? 0, design.Wire.DiameterMm + 0.4) + 1;
        return byX[bin] = [.. path.Where(s => bin + 1 > Math.Min(s.A.X, s.B.X) - reach && bin < Math.Max(s.A.X, s.B.X) + reach)];
    }

    /// <summary>
    /// Densities, g/mm³, at a point at each stage; whether skin encloses it there and it displaces. True where two cuts
    /// (slot, eye, pockets) overlap, which the ledger counts twice, or where windings stand out of the wood.
    /// </summary>
    public bool At(Vec3 p, double right, double left, Span<double> density, Span<double> displaces)
    {
        density.Clear();
        displaces.Clear();
        double wood = p.Y >= 0 ? right : left, y = Math.Abs(p.Y), side = p.Y >= 0 ? rightSide : leftSide;
        if (InWood(p.X, y / side, p.Z))
        {
            displaces[0] = 1;
            density[0] = y < tack / 2 ? 0 : wood;
        }
        bool dry = InWood(p.X, (y + lost) / side, p.Z);
        bool inGlue = y < glue / 2, glued = InWood(p.X, (inGlue ? lost : y + lost - glue / 2) / side, p.Z);
        // Windings wider than the wood at a thin end: the ledger takes them to lie in it.
        bool bare = !glued && InWindings(p);
        if (!dry && !glued && Film == 0) return bare;
        if (dry)
        {
            (double here, _, bool away, bool wet, _) = Inside(p, 0);
            displaces[1] = wet ? 0 : 1;
            density[1] = away ? here : wood;
        }
        (double stuff, double gap, bool cut, bool open, bool twice) = Inside(p, glue / 2);
        double filler = joint.FillerDensityGPerCm3 * 1e-3;
        if (glued)
        {
            double within = open ? stuff : cut ? stuff + gap * filler : inGlue ? joint.GlueDensityGPerCm3 * 1e-3 : wood;
            density[2] = density[3] = density[4] = within;
            displaces[2] = displaces[3] = displaces[4] = open ? 0 : 1;
            if (!cut && InSocket(p)) density[4] = 0;
        }
        else if (surface is not null && surface.Distance(p) is var distance && distance < Film)
        {
            density[4] = FilmAt(distance);
            displaces[4] = 1;
        }
        return bare || (glued && twice);
    }

    private double FilmAt(double distance)
    {
        double outer = 0;
        foreach (Coat coat in design.Finish)
        {
            outer += coat.Coats * coat.ThicknessMm;
            if (distance < outer) return coat.DensityGPerCm3 * 1e-3;
        }
        return 0;
    }

    private bool InWood(double x, double y, double z)
    {
        if (x <= 0 || x >= body.Length || (body.Face is not null && x < body.FaceAt(y, z))) return false;
        double at = x * 32;
        int i = (int)at;
        double t = at - i;
        double top = back[i] + t * (back[i + 1] - back[i]), bottom = belly[i] + t * (belly[i + 1] - belly[i]), b = half[i] + t * (half[i + 1] - half[i]);
        if (y >= b || z >= top || z <= bottom) return false;
        Section s = body.SectionAt(x);
        double zeta = z - s.Widest, h = zeta >= 0 ? top - s.Widest : s.Widest - bottom, n = zeta >= 0 ? s.FullAbove : s.FullBelow;
        return h > 0 && Math.Pow(y / b, n) + Math.Pow(Math.Abs(zeta) / h, n) < 1;
    }

    /// <summary>
    /// Density of what was put in, the share left as a gap, whether wood was cut away here, whether water gets in. Wire
    /// leaves no gap but weighs nothing here: it is weighed by its length, apart. Half of every pocket and slot was cut
    /// into each half, and the glue parts the halves by <paramref name="apart"/> each, so the room grows by that.
    /// </summary>
    private (double Stuff, double Gap, bool Cut, bool Open, bool Twice) Inside(Vec3 at, double apart)
    {
        Vec3 p = at with { Y = Math.CopySign(Math.Max(Math.Abs(at.Y) - apart, 0), at.Y) };
        bool open = InOpenSlot(p), run = false, eye = false, wound = false, onWire = false;
        double? windings = null;
        if (design.Wire is { } wire && Math.Abs(p.Y) < 9)
        {
            double width = Math.Max(wire.SlotWidthMm ?? wire.DiameterMm + 0.4, wire.DiameterMm);
            foreach ((Vec3 a, Vec3 b, Vec3 normal, bool isEye) in NearWire(p.X))
            {
                onWire |= ToSegment(at, a, b) < wire.DiameterMm / 2;
                double off = Vec3.Dot(p - a, normal);
                if (Math.Abs(off) > width / 2 || ToSegment(p - off * normal, a, b) > width / 2) continue;
                run |= !isEye;
                eye |= isEye;
            }
            foreach ((Vec3 from, Vec3 inward, double length) in wraps)
            {
                double along = Vec3.Dot(p - from, inward);
                if (along < 0 || along > length) continue;
                Vec3 q = p - from - along * inward;
                double aside = Math.Sqrt(q.X * q.X + q.Z * q.Z), radius = Math.Sqrt(aside * aside + p.Y * p.Y);
                wound |= Math.Max(aside, Math.Abs(p.Y)) < 1.5 * wire.DiameterMm + (width - wire.DiameterMm) / 2;
                // Between half and one and a half diameters the helix fills √(4π² + 1)/8 of the room.
                if (radius > wire.DiameterMm / 2 && radius < 1.5 * wire.DiameterMm) windings = 1 - Math.Sqrt(4 * Math.PI * Math.PI + 1) / 8;
            }
        }
        BallastPiece? pocket = design.Ballast.FirstOrDefault(b => In(b, p, b.Form == BallastForm.Plug ? 0 : b.ClearanceMm ?? 0.5));
        int cuts = (run || wound ? 1 : 0) + (eye ? 1 : 0) + (pocket is null ? 0 : 1);
        // A threaded piece's pocket and the wire's run through it, or through an open slot, the ledger does tell apart.
        bool twice = cuts > (run && pocket is { OnWire: true } ? 2 : 1) || (open && (eye || wound || pocket is not null));
        bool cut = open || cuts > 0;
        if (pocket is not null)
        {
            // A piece that lies in one half only moves with it.
            Vec3 own = Math.Abs(pocket.AtMm[1]) < pocket.Box.Y / 2 ? at : p;
            bool bore = pocket.BoreMm > 0 && AcrossAxis(pocket, own) < pocket.BoreMm / 2;
            if (!bore && In(pocket, own, 0)) return (pocket.Mass / StuffOf(pocket), 0, true, open, twice);
        }
        if (onWire) return (0, 0, true, false, twice);
        return (0, windings ?? 1, cut, open, twice);
    }

    private bool InWindings(Vec3 p)
    {
        if (design.Wire is not { } wire || wraps.Count == 0) return false;
        foreach ((Vec3 from, Vec3 inward, double length) in wraps)
        {
            double along = Vec3.Dot(p - from, inward);
            if (along >= 0 && along <= length && (p - from - along * inward).Length < 1.5 * wire.DiameterMm) return true;
        }
        return false;
    }

    private static double StuffOf(BallastPiece piece)
    {
        double d = piece.DiameterMm, along = piece.Form == BallastForm.Ball ? d : piece.LengthMm;
        double room = piece.Form.Word switch
        {
            "ball" => Math.PI * d * d * d / 6,
            "strip" => piece.LengthMm * piece.WidthMm * piece.ThicknessMm,
            _ => Math.PI * d * d / 4 * piece.LengthMm,
        };
        double b = piece.BoreMm;
        // A hole through a ball leaves π/6·(d² − b²)^(3/2).
        return piece.Form == BallastForm.Ball ? Math.PI / 6 * Math.Pow(d * d - b * b, 1.5) : room - Math.PI / 4 * b * b * along;
    }

    private static double AlongAxis(BallastPiece piece, Vec3 q) => piece.Axis switch { Axis.X => q.X, Axis.Y => q.Y, _ => q.Z };

    private static double AcrossAxis(BallastPiece piece, Vec3 p)
    {
        Vec3 q = p - new Vec3(piece.AtMm[0], piece.AtMm[1], piece.AtMm[2]);
        double along = AlongAxis(piece, q);
        return Math.Sqrt(Math.Max(q.LengthSquared - along * along, 0));
    }

    private static bool In(BallastPiece piece, Vec3 p, double more)
    {
        Vec3 q = p - new Vec3(piece.AtMm[0], piece.AtMm[1], piece.AtMm[2]);
        if (piece.Form == BallastForm.Ball) return q.Length < (piece.DiameterMm + more) / 2;
        double along = Math.Abs(AlongAxis(piece, q));
        if (along > (piece.LengthMm + more) / 2) return false;
        if (piece.Form != BallastForm.Strip) return AcrossAxis(piece, p) < (piece.DiameterMm + more) / 2;
        (double wide, double thick) = piece.Axis switch { Axis.X => (q.Y, q.Z), Axis.Y => (q.X, q.Z), _ => (q.X, q.Y) };
        return Math.Abs(wide) < (piece.WidthMm + more) / 2 && Math.Abs(thick) < (piece.ThicknessMm + more) / 2;
    }

    private bool InOpenSlot(Vec3 p)
    {
        if (design.Wire is not { } wire) return false;
        foreach (Hanger h in wire.Hangers)
        {
            if (h.Kind != HangerKind.Swivel) continue;
            double length = h.SlotMm?[0] ?? 12, width = h.SlotMm?[1] ?? 4;
            double top = WireRun.Height(wire, body, h.XMm) + wire.DiameterMm / 2;
            if (Math.Abs(p.X - h.XMm) < length / 2 && Math.Abs(p.Y) < width / 2 && p.Z < top) return true;
        }
        return false;
    }

    private bool InSocket(Vec3 p)
    {
        if (design.Eyes is not { } eyes) return false;
        double dx = p.X - eyes.XMm, dz = p.Z - eyes.ZMm;
        double surfaceAt = body.SectionAt(eyes.XMm).BreadthAt(eyes.ZMm);
        return dx * dx + dz * dz < eyes.DiameterMm * eyes.DiameterMm / 4 && Math.Abs(p.Y) > surfaceAt - eyes.ThicknessMm;
    }

    private static double ToSegment(Vec3 p, Vec3 a, Vec3 b)
    {
        Vec3 ab = b - a;
        double t = ab.LengthSquared > 0 ? Math.Clamp(Vec3.Dot(p - a, ab) / ab.LengthSquared, 0, 1) : 0;
        return (p - (a + t * ab)).Length;
    }
}
