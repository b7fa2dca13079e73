using System.Collections.Concurrent;
using System.Runtime.Intrinsics;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Doubt;

/// <summary>
/// The skins of one stage, ready to be carved a hair differently ten thousand times: every vertex moves by δ along its
/// own radial normal, so that volume, area, centres and coats move together, as they do in wood.
/// <para>
/// With t running from −1 at the nose to 1 at the tail and (n_y, n_z) the skin's normal across the axis, δ is the sum of
/// ξ·sd times: 1 (fat all over), t (one end), (3t² − 1)/2 (ends against middle), n_z² − n_y² (tall against wide), n_z
/// (the whole body raised over its glue face's features), n_y (right side fatter). Length is sawn and stays. δ fades where
/// the body is thinner than about a millimetre, so that no tip turns inside out.
/// </para>
/// <para>
/// A coarse mesh is stretched once, by a hair, until its volume and centroid are those of the live mesh: what is left of
/// its error is then of second order in the carving error.
/// </para>
/// </summary>
internal sealed class StageShape
{
    private const double Thin = 1;

    private readonly double[] dirY;
    private readonly double[] dirZ;
    private readonly double[][] modes;
    private readonly double[] filmX;
    private readonly double[] filmY;
    private readonly double[] filmZ;
    private readonly double[] along;
    private readonly ClosedMesh wood;
    private readonly ClosedMesh outer;
    private readonly double glueLine;

    /// <summary>Of the wood (and glue) under the coats, and of the outside, as designed.</summary>
    public SolidProperties Wood { get; }

    public SolidProperties Outer { get; }

    /// <summary>Film of all coats, mm.</summary>
    public double Film { get; }

    /// <summary>∫|y| dV over the wood, mm⁴: how far apart the halves' centres are.</summary>
    public double Apart { get; }

    // What one more mm on each side of the seam adds to the outside.
    private readonly double seamArea;
    private readonly Vec3 seamMoment;

    /// <summary>Glue and sanding are done at this stage.</summary>
    public bool IsGlued { get; }

    /// <param name="stage">How far the build is.</param>
    /// <param name="skins">The stage's bare and outer skins on the sampling mesh.</param>
    /// <param name="live">The same on the live mesh.</param>
    /// <param name="film">mm of film between the two skins.</param>
    /// <param name="glueLine">mm.</param>
    public StageShape(Stage stage, (ClosedMesh Bare, ClosedMesh Outer) skins, (ClosedMesh Bare, ClosedMesh Outer) live, double film, double glueLine)
    {
        IsGlued = stage >= Stage.Glued;
        Film = film;
        this.glueLine = IsGlued ? glueLine : 0;
        (Wood, Outer) = (SolidProperties.Of(live.Bare), SolidProperties.Of(live.Outer));
        wood = Fitted(skins.Bare, Wood);
        outer = ReferenceEquals(skins.Bare, skins.Outer) ? wood : Fitted(skins.Outer, Outer);
        ClosedMesh grown = Offset.By(skins.Bare, 1);
        int count = skins.Bare.VertexCount;
        (dirY, dirZ) = (new double[count], new double[count]);
        (filmX, filmY, filmZ) = (new double[count], new double[count], new double[count]);
        modes = [.. Enumerable.Range(0, Unknowns.Modes - 1).Select(_ => new double[count])];
        along = new double[count];
        (double middle, double half) = Offset.Along(skins.Bare);
        double from = skins.Bare.X.Min(), to = skins.Bare.X.Max();
        Vec3[] middles = Middles(skins.Bare);
        for (int i = 0; i < count; i++)
        {
            Vec3 p = skins.Bare.Vertex(i), mitre = grown.Vertex(i) - p, n = mitre.Unit();
            double across = Math.Sqrt((p.Y - middles[i].Y) * (p.Y - middles[i].Y) + (p.Z - middles[i].Z) * (p.Z - middles[i].Z));
            double fade = across / (across + Thin), t = 2 * (p.X - from) / (to - from) - 1;
            (dirY[i], dirZ[i]) = (fade * n.Y, fade * n.Z);
            (filmX[i], filmY[i], filmZ[i]) = (mitre.X, mitre.Y, mitre.Z);
            along[i] = (p.X - middle) / half;
            double[] shapes = [1, t, (3 * t * t - 1) / 2, n.Z * n.Z - n.Y * n.Y, n.Z, n.Y];
            for (int k = 0; k < shapes.Length; k++) modes[k][i] = shapes[k];
        }
        Apart = Halves(live.Bare);
        SolidProperties wider = SolidProperties.Of(live.Outer.Mapped((_, p) => p with { Y = p.Y + Math.Clamp(p.Y, -1, 1) }));
        (seamArea, seamMoment) = (wider.Volume - Outer.Volume, wider.Moment - Outer.Moment);
    }

    // Each vertex's own ring's middle; the poles have themselves.
    private static Vec3[] Middles(ClosedMesh mesh)
    {
        var middles = new Vec3[mesh.VertexCount];
        (middles[0], middles[^1]) = (mesh.Vertex(0), mesh.Vertex(mesh.VertexCount - 1));
        for (int ring = 0; ring < mesh.Rings; ring++)
        {
            int first = 1 + ring * mesh.Sides;
            Vec3 middle = 0.25 * (mesh.Vertex(first) + mesh.Vertex(first + mesh.Sides / 4) + mesh.Vertex(first + mesh.Sides / 2) + mesh.Vertex(first + 3 * mesh.Sides / 4));
            for (int side = 0; side < mesh.Sides; side++) middles[first + side] = middle;
        }
        return middles;
    }

    private static double Halves(ClosedMesh mesh)
    {
        SolidProperties right = SolidProperties.Of(mesh.Mapped((_, p) => p with { Y = Math.Max(p.Y, 0) }));
        SolidProperties left = SolidProperties.Of(mesh.Mapped((_, p) => p with { Y = Math.Min(p.Y, 0) }));
        return right.Moment.Y - left.Moment.Y;
    }

    /// <summary>A mesh stretched across its axis by 1 + a + b·t, and lifted by c, until volume and centroid are as given.</summary>
    private static ClosedMesh Fitted(ClosedMesh mesh, SolidProperties target)
    {
        double from = mesh.X.Min(), to = mesh.X.Max();
        ClosedMesh fitted = mesh;
        for (int round = 0; round < 4; round++)
        {
            SolidProperties now = SolidProperties.Of(fitted);
            double lift = target.Centroid.Z - now.Centroid.Z, shift = target.Centroid.X - now.Centroid.X;
            double grow = 0.5 * (target.Volume / now.Volume - 1);
            // Growing by b·t moves the centroid by 2b·∫t(x − x̄)dV/V = 2b·(2/L)·second moment over volume.
            double lean = shift / (4 / (to - from) * now.Second.X / now.Volume);
            double centre = now.Centroid.X, middle = now.Centroid.Z;
            fitted = fitted.Mapped((_, p) =>
            {
                double k = 1 + grow + lean * 2 * (p.X - centre) / (to - from);
                return new Vec3(p.X, k * p.Y, middle + k * (p.Z - middle) + lift);
            });
        }
        return fitted;
    }

    /// <summary>An outside without what a thicker or thinner glue line than designed does to it: what coats go by.</summary>
    public SolidProperties WithoutGlue(in SolidProperties outer, double glue)
    {
        double apart = (glue - 1) * glueLine / 2, volume = outer.Volume - apart * seamArea;
        return outer with { Volume = volume, Centroid = (outer.Moment - apart * seamMoment) / volume };
    }

    /// <summary>What a thread needs to try builds of this shape: the one that was carved last, measured, and what cuts it.</summary>
    public sealed class Scratch(StageShape shape)
    {
        internal readonly ClosedMesh Wood = shape.wood.Mapped((_, p) => p);
        internal readonly ClosedMesh Outer = shape.outer.Mapped((_, p) => p);
        internal readonly double[] Delta = new double[shape.wood.VertexCount];

        // By what the last build was carved.
        internal readonly double[] By = new double[Unknowns.Modes + 4];
        private StripCutter? cutter;
        private bool isTaken;

        /// <summary>It holds a build.</summary>
        internal bool IsCarved { get; private set; }

        /// <summary>Of the wood (and glue) under the coats.</summary>
        public SolidProperties Bare { get; private set; }

        /// <summary>Of the outside.</summary>
        public SolidProperties Outside { get; private set; }

        /// <summary>The outside, which the next build overwrites.</summary>
        public ClosedMesh Skin => Outer;

        internal void Measure(bool isGlued)
        {
            Bare = SolidProperties.Of(Wood);
            Outside = isGlued ? SolidProperties.Of(Outer) : Bare;
            (IsCarved, isTaken) = (true, false);
        }

        internal ICutter Cutter()
        {
            if (cutter is null) cutter = new StripCutter(Outer);
            else if (!isTaken) cutter.Take(Outer);
            isTaken = true;
            return cutter;
        }
    }

    private readonly ConcurrentBag<Scratch> idle = [];

    /// <summary>A scratch that no other thread holds; give it back.</summary>
    public Scratch Rent() => idle.TryTake(out Scratch? scratch) ? scratch : new Scratch(this);

    public void Return(Scratch scratch) => idle.Add(scratch);

    /// <summary>
    /// Moves the scratch's vertices to a build and measures it; nothing where it holds that build already: several readings of one build ask
    /// for it in turn, and many an unknown (a hook's weight) doesn't touch the wood.
    /// </summary>
    /// <param name="scratch">Of this shape.</param>
    /// <param name="mm">Amount of each carving mode, sanding last (its sign: positive takes off), mm.</param>
    /// <param name="swell">Share by which the wood grows across the grain.</param>
    /// <param name="film">mm of film more than designed.</param>
    /// <param name="lean">mm by which the film is thicker at the tail end than designed, and thinner at the nose.</param>
    /// <param name="glue">Thickness of the glue line over the design's.</param>
    public void Carve(Scratch scratch, ReadOnlySpan<double> mm, double swell, double film, double lean, double glue)
    {
        Span<double> by = stackalloc double[Unknowns.Modes + 4];
        mm.CopyTo(by);
        (by[^4], by[^3], by[^2], by[^1]) = (swell, film, lean, glue);
        if (scratch.IsCarved && by.SequenceEqual(scratch.By)) return;
        by.CopyTo(scratch.By);
        double[] delta = scratch.Delta;
        double all = mm[Unknowns.Mean] - (IsGlued ? mm[Unknowns.Sanding] : 0);
        Array.Fill(delta, all);
        for (int k = 1; k < modes.Length; k++)
            if (mm[k] != 0) Vec3x4.AddTimes(mm[k], modes[k], delta);
        Vector256<double> grow = Vector256.Create(1 + swell), more = Vector256.Create(film), one = Vector256<double>.One;
        Vector256<double> even = more, leaning = Vector256.Create(lean);
        Vector256<double> apart = Vector256.Create((glue - 1) * glueLine / 2);
        for (int i = 0; i < delta.Length; i += 4)
        {
            // The last four overlap the four before.
            int at = Math.Min(i, delta.Length - 4);
            Vector256<double> d = Four(delta, at), y = d * Four(dirY, at), z = d * Four(dirZ, at), across = Four(outer.Y, at);
            (grow * (Four(wood.Y, at) + y)).CopyTo(scratch.Wood.Y, at);
            (grow * (Four(wood.Z, at) + z)).CopyTo(scratch.Wood.Z, at);
            if (lean != 0) more = even + leaning * Four(along, at);
            Vector256<double> side = apart * Vector256.Min(Vector256.Max(across, -one), one);
            (Four(outer.X, at) + more * Four(filmX, at)).CopyTo(scratch.Outer.X, at);
            (grow * (across + y) + more * Four(filmY, at) + side).CopyTo(scratch.Outer.Y, at);
            (grow * (Four(outer.Z, at) + z) + more * Four(filmZ, at)).CopyTo(scratch.Outer.Z, at);
        }
        scratch.Measure(IsGlued);
    }

    private static Vector256<double> Four(double[] values, int at) => Vector256.LoadUnsafe(ref values[at]);
}
