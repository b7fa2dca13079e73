using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Doubt;

/// <summary>
/// One build of a design written back into a design's own numbers: outlines as carved, wood as heavy as it is, coats as
/// thick, weights where they lie. What can be predicted, planned or drawn for a design can so be done for the lure in hand.
/// <para>
/// Each outline point moves along its own normal by the sum of the carving modes there (<see cref="StageShape"/>), fat less
/// what sanding took, and the whole swells with moisture. Wood that is heavier towards the tail, or on one side when the
/// halves were not weighed, has no place in a design, and drag none either: those three are left as drawn, and a test says
/// how little that is.
/// </para>
/// </summary>
public static class Believed
{
    // As for sampled builds: no tip turns inside out.
    private const double Thin = 1;
    private const double SlopeOver = 0.5;

    /// <summary>The design that this build is.</summary>
    /// <param name="build">The design as drawn, with its unknowns.</param>
    /// <param name="xi">Unit normals, at least as many as the build has unknowns; those of instruments may follow.</param>
    public static LureDesign Of(BuildModel build, ReadOnlySpan<double> xi)
    {
        (LureDesign d, Unknowns u) = (build.Design, build.Unknowns);
        double[] v = new double[u.Count];
        for (int i = 0; i < v.Length; i++) v[i] = u[i].At(xi[i]);
        var lift = new Vec3(0, 0, v[Unknowns.WireHeight]);
        double grow = 1 + 0.5 * build.Priors.SwellingPerMoisture * v[Unknowns.Moisture];
        BodyDesign body = Carved(d.Body, v, grow);
        // What swelling adds to its size adds nothing to its weight.
        double heavier = v[Unknowns.Density] * (1 + v[Unknowns.Moisture]) / (grow * grow);
        return d with
        {
            Body = body,
            Wood = d.Wood with { DensityGPerCm3 = heavier * d.Wood.DensityGPerCm3 },
            Halves = Halves(d, body, heavier, v),
            Wire = d.Wire is { } wire ? Lifted(wire, v[Unknowns.WireMass], lift.Z) : null,
            Joint = Joined(d.Joint, v),
            SoakedG = d.SoakedG > 0 ? v[Unknowns.Sealer] * d.SoakedG : Math.Max(v[Unknowns.Sealer], 0),
            Eyes = d.Eyes is { } eyes ? eyes with { MassG = v[Unknowns.Eyes] * eyes.MassG } : null,
            Finish = [.. d.Finish.Select((c, i) => c with { ThicknessMm = v[u.Coat(i)] * c.ThicknessMm })],
            Ballast = [.. d.Ballast.Select((p, i) => p with
            {
                MassG = v[u.PieceMass(i)] * p.Mass,
                AtMm = [p.AtMm[0] + v[u.PieceX(i)], p.AtMm[1] + v[u.PieceY(i)], p.AtMm[2] + v[u.PieceZ(i)]],
            })],
            Hardware = [.. d.Hardware.Select((h, i) => h with { MassG = v[u.Hardware(i)] * h.MassG })],
        };
    }

    private static BodyDesign Carved(BodyDesign body, double[] v, double grow)
    {
        Body drawn = body.Surface();
        double fat = v[Unknowns.Mean] - v[Unknowns.Sanding];

        // How far the skin moves across the axis, at a point of an outline whose normal leans along it with the slope.
        double Moved(double x, double half, Func<double, double> outline, double across)
        {
            double t = 2 * x / body.LengthMm - 1;
            double from = Math.Max(x - SlopeOver, 0), to = Math.Min(x + SlopeOver, body.LengthMm);
            double slope = (outline(to) - outline(from)) / (to - from);
            double delta = fat + v[Unknowns.Slope] * t + v[Unknowns.Ends] * (3 * t * t - 1) / 2 + across;
            return delta * half / (half + Thin) / Math.Sqrt(1 + slope * slope);
        }
        double Half(double x) => (drawn.BackAt(x) - drawn.BellyAt(x)) / 2;
        Outline With(Outline outline, Func<OutlinePoint, double> moved) =>
            outline with { Points = [.. outline.Points.Select(p => p with { Value = grow * (p.Value + moved(p)) })] };
        return body with
        {
            Back = With(body.Back, p => Moved(p.X, Half(p.X), drawn.BackAt, v[Unknowns.Tall] + v[Unknowns.Raised])),
            Belly = With(body.Belly, p => -Moved(p.X, Half(p.X), drawn.BellyAt, v[Unknowns.Tall] - v[Unknowns.Raised])),
            Plan = With(body.Plan, p => Moved(p.X, drawn.HalfBreadthAt(p.X), drawn.HalfBreadthAt, -v[Unknowns.Tall])),
        };
    }

    // Halves that were weighed tell the wood's density by the body's size: they grow with both.
    private static HalvesDesign? Halves(LureDesign d, BodyDesign body, double heavier, double[] v)
    {
        double wider = 2 * v[Unknowns.Lopsided];
        if (d.Halves is not { } halves) return wider == 0 || (d.Wire is null && d.Ballast.IsEmpty && d.Joint is null) ? null : new HalvesDesign { RightWiderMm = wider };
        if (halves is { RightG: { } right, LeftG: { } left })
        {
            double bigger = Volume(body) / Volume(d.Body), side = 0.5 * v[Unknowns.RightHeavy];
            halves = halves with { RightG = right * heavier * bigger * (1 + side), LeftG = left * heavier * bigger * (1 - side) };
        }
        return halves with { RightWiderMm = halves.RightWiderMm + wider };
    }

    private static double Volume(BodyDesign body) => SolidProperties.Of(BodyMesh.Of(body.Surface(), MeshSize.Live)).Volume;

    private static WireDesign Lifted(WireDesign wire, double heavier, double by)
    {
        EyeDesign Eye(EyeDesign eye) => eye with { ZMm = eye.ZMm + by, HangAtMm = eye.HangAtMm is { } at ? [at[0], at[1], at[2] + by] : null };
        return wire with
        {
            DensityGPerCm3 = heavier * wire.DensityGPerCm3,
            LineTie = Eye(wire.LineTie),
            TailLoop = wire.TailLoop is { } tail ? Eye(tail) : null,
            // What hangs under the belly is measured from there.
            Hangers = [.. wire.Hangers.Select(h => h with { Eye = Eye(h.Eye) with { StandsOutMm = Math.Max(h.Eye.StandsOutMm - by, 0) }, MassG = heavier * h.MassG })],
            RunMm = [.. wire.RunMm.Select(p => (p.X, p.Z + by))],
        };
    }

    private static JointDesign? Joined(JointDesign? joint, double[] v)
    {
        if (joint is null && v[Unknowns.GlueLine] == 1 && v[Unknowns.Filler] == 1) return null;
        JointDesign own = joint ?? new JointDesign();
        return own with { GlueLineMm = v[Unknowns.GlueLine] * own.GlueLineMm, FillerDensityGPerCm3 = v[Unknowns.Filler] * own.FillerDensityGPerCm3 };
    }
}
