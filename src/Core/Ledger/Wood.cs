using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ledger;

/// <summary>The carved wood: its skins at each stage, its two halves, what the saw and the glue take and give.</summary>
internal sealed class Wood
{
    private readonly JointDesign? joint;
    private readonly ClosedMesh blank;
    private readonly ClosedMesh dry;
    private readonly ClosedMesh glued;
    private readonly SolidProperties blankSolid;
    private readonly SolidProperties drySolid;
    private readonly SolidProperties gluedSolid;
    private readonly double tack;
    private readonly double rightDensity;
    private readonly double leftDensity;

    /// <summary>Mean density of the wood, g/mm³.</summary>
    public double Density { get; }

    /// <summary>Centre of the wood's weight before anything is cut into it, mm.</summary>
    public Vec3 Centre { get; }

    public Wood(LureDesign design, Body body, MeshSize size)
    {
        bool split = design.Wire is not null || !design.Ballast.IsEmpty || design.Joint is not null || design.Halves is not null;
        joint = split ? design.Joint ?? new JointDesign() : null;
        double wider = design.Halves?.RightWiderMm ?? 0;
        // A blank that is sawn apart was one piece; one that is split had a tack between its boards.
        tack = joint is null || joint.KerfMm > 0 ? 0 : joint.TackThicknessMm;
        double lost = joint?.LostPerHalf ?? 0;
        double glue = joint?.GlueLineMm ?? 0;
        blank = BodyMesh.Of(body, size, new Seam(0, 0, wider));
        dry = lost == 0 ? blank : BodyMesh.Of(body, size, new Seam(lost, 0, wider));
        glued = glue == 0 ? dry : BodyMesh.Of(body, size, new Seam(lost, glue / 2, wider));
        blankSolid = SolidProperties.Of(blank);
        drySolid = SolidProperties.Of(dry);
        gluedSolid = SolidProperties.Of(glued);
        Density = rightDensity = leftDensity = Units.FromGramsPerCm3(design.Wood.DensityGPerCm3);
        if (design.Halves is { RightG: { } right, LeftG: { } left })
        {
            // The halves are weighed after splitting and cleaning, before anything is cut.
            rightDensity = right / Half(dry, starboard: true).Volume;
            leftDensity = left / Half(dry, starboard: false).Volume;
            Density = (right + left) / drySolid.Volume;
        }
        (_, Vec3 moment) = Weigh(dry);
        Centre = moment / (Density * drySolid.Volume);
    }

    /// <summary>The outer surface of the wood (and glue) at a stage.</summary>
    public ClosedMesh Skin(Stage stage) => stage switch
    {
        Stage.Blank => blank,
        Stage.DryFit => dry,
        Stage.Glued or Stage.Sealed or Stage.Finished => glued,
    };

    public void AddTo(List<Part> parts, Stage stage)
    {
        (double face, Vec3 faceMoment) = tack > 0 ? Face(blank) : default;
        (double mass, Vec3 moment) = Weigh(blank);
        mass -= Density * tack * face;
        moment -= Density * tack * faceMoment;
        Vec3 spread = Density * blankSolid.Second;
        parts.Add(new Part(PartKind.CarvedWood, 0, "wood, as carved", mass, moment, blankSolid.Volume, blankSolid.Moment, spread));
        if (stage == Stage.Blank || ReferenceEquals(dry, blank)) return;
        (double after, Vec3 momentAfter) = Weigh(dry);
        parts.Add(new Part(PartKind.PartedWood, 0, "lost in parting and cleaning the halves", after - mass, momentAfter - moment,
            drySolid.Volume - blankSolid.Volume, drySolid.Moment - blankSolid.Moment, Density * (drySolid.Second - blankSolid.Second)));
    }

    public void AddGlue(List<Part> parts)
    {
        if (joint is null || joint.GlueLineMm == 0) return;
        parts.Add(Bookkeeper.Between(PartKind.GlueLine, 0, "glue line", drySolid, gluedSolid, Units.FromGramsPerCm3(joint.GlueDensityGPerCm3)));
    }

    private (double Mass, Vec3 Moment) Weigh(ClosedMesh mesh)
    {
        if (rightDensity == leftDensity)
        {
            SolidProperties whole = ReferenceEquals(mesh, dry) ? drySolid : blankSolid;
            return (Density * whole.Volume, Density * whole.Moment);
        }
        SolidProperties right = Half(mesh, starboard: true), left = Half(mesh, starboard: false);
        return (rightDensity * right.Volume + leftDensity * left.Volume, rightDensity * right.Moment + leftDensity * left.Moment);
    }

    // Flattening one side onto y = 0 closes the other along the glue face.
    private static SolidProperties Half(ClosedMesh mesh, bool starboard) =>
        SolidProperties.Of(mesh.Mapped((_, p) => p with { Y = starboard ? Math.Max(p.Y, 0) : Math.Min(p.Y, 0) }));

    /// <summary>Area of the glue face, mm², and its moment, mm³: inside the loop of the rings' back and belly points.</summary>
    private static (double Area, Vec3 Moment) Face(ClosedMesh mesh)
    {
        IEnumerable<int> Side(int at) => Enumerable.Range(0, mesh.Rings).Select(ring => 1 + ring * mesh.Sides + at);
        int[] loop = [0, .. Side(0), mesh.VertexCount - 1, .. Side(mesh.Sides / 2).Reverse()];
        double twice = 0;
        Vec3 moment = Vec3.Zero;
        for (int i = 0; i < loop.Length; i++)
        {
            int a = loop[i], b = loop[(i + 1) % loop.Length];
            double cross = mesh.X[a] * mesh.Z[b] - mesh.X[b] * mesh.Z[a];
            twice += cross;
            moment += cross / 6 * new Vec3(mesh.X[a] + mesh.X[b], 0, mesh.Z[a] + mesh.Z[b]);
        }
        return (Math.Abs(twice) / 2, Math.Sign(twice) * moment);
    }
}
