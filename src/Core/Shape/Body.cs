using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>Fullness of the section at a station; between stations it runs straight, beyond them it holds.</summary>
/// <param name="X">Station, mm from the nose.</param>
/// <param name="Above">Exponent above the widest line, 1 to 20.</param>
/// <param name="Below">Exponent below it, 1 to 20.</param>
/// <param name="Widest">Height of the widest line, mm; null: on the axis, or as near to it as the section reaches.</param>
public readonly record struct Fullness(double X, double Above, double Below, double? Widest = null);

/// <summary>What the nose is cut to.</summary>
public enum NoseFaceKind
{
    Flat,
    Slanted,
    Cupped,
}

/// <summary>
/// The nose face of a popper. The body's foremost lip stays at x = 0 and the face leans aft from it.
/// </summary>
/// <param name="Kind">Flat (square to the axis), slanted, or cupped (which may be slanted too).</param>
/// <param name="Slant">Radians; positive: the upper lip is foremost and the face looks forward and down.</param>
/// <param name="CupDiameter">Diameter of the cup's rim on the face, mm.</param>
/// <param name="CupDepth">Depth of the cup below the face, mm; the cup is a spherical cap.</param>
/// <param name="CupHeight">Height of the cup's centre on the face, mm.</param>
public sealed record NoseFace(
    NoseFaceKind Kind, double Slant, double CupDiameter, double CupDepth, double CupHeight);

/// <summary>
/// The body as drawn: three outlines, the fullness of its sections and the nose face. Answers for any station; the
/// closed mesh (<see cref="BodyMesh"/>) is what the physics reads.
/// </summary>
public sealed class Body
{
    private readonly OutlineCurve back;
    private readonly OutlineCurve belly;
    private readonly OutlineCurve plan;
    private readonly ImmutableArray<Fullness> fullness;
    private readonly SectionCurve curve;

    public double Length { get; }

    public NoseFace? Face { get; }

    /// <summary>The nose (tail) comes together in a point or an edge rather than in a flat face.</summary>
    public bool NoseCloses { get; }

    public bool TailCloses { get; }

    /// <summary>The x of corners in any outline, rising, mm: the mesh puts rings there.</summary>
    public ImmutableArray<double> Corners { get; }

    /// <param name="back">Upper outline (heights).</param>
    /// <param name="belly">Lower outline (heights).</param>
    /// <param name="plan">Half-breadth outline.</param>
    /// <param name="fullness">At least one station.</param>
    /// <param name="face">Nose face, or null.</param>
    /// <param name="curve">Of every section; null: superellipses.</param>
    public Body(
        Outline back, Outline belly, Outline plan, ImmutableArray<Fullness> fullness, NoseFace? face = null, SectionCurve? curve = null)
    {
        Length = back.Points[^1].X;
        bool noseEdge = back.Points[0].Value == belly.Points[0].Value;
        bool tailEdge = back.Points[^1].Value == belly.Points[^1].Value;
        bool noseThin = plan.Points[0].Value == 0, tailThin = plan.Points[^1].Value == 0;
        NoseCloses = noseEdge || noseThin;
        TailCloses = tailEdge || tailThin;
        this.back = new OutlineCurve(back, noseEdge && back.Nose == EndForm.Round, tailEdge && back.Tail == EndForm.Round);
        this.belly = new OutlineCurve(belly, noseEdge && belly.Nose == EndForm.Round, tailEdge && belly.Tail == EndForm.Round);
        this.plan = new OutlineCurve(plan, noseThin && plan.Nose == EndForm.Round, tailThin && plan.Tail == EndForm.Round);
        this.fullness = [.. fullness.OrderBy(f => f.X)];
        Face = face;
        this.curve = curve ?? SectionCurve.Superellipse;
        Corners = [.. back.Corners.Concat(belly.Corners).Concat(plan.Corners).Distinct().Order()];
    }

    public double BackAt(double x) => back.At(x);

    public double BellyAt(double x) => belly.At(x);

    public double HalfBreadthAt(double x) => plan.At(x);

    /// <summary>The section at x, 0 to <see cref="Length"/> mm; never inside out.</summary>
    public Section SectionAt(double x)
    {
        double top = back.At(x), bottom = Math.Min(belly.At(x), top), half = Math.Max(plan.At(x), 0);
        (double above, double below, double? widest) = FullnessAt(x);
        return new Section(half, top, bottom, Math.Clamp(widest ?? 0, bottom, top), above, below) { Curve = curve };
    }

    /// <summary>Whether a point (mm, body axes) lies in the body as drawn, its nose face respected.</summary>
    public bool Contains(Vec3 p) =>
        p.X >= 0 && p.X <= Length && p.X >= FaceAt(p.Y, p.Z) && SectionAt(p.X).Contains(p.Y, p.Z);

    /// <summary>The station of the nose face at (y, z), mm: 0 without one; in the cup, its bottom.</summary>
    public double FaceAt(double y, double z)
    {
        if (Face is not { } face) return 0;
        double plane = FacePlaneAt(z);
        if (face.Kind != NoseFaceKind.Cupped) return plane;
        // Distance from the cup's centre in the face, and how deep the cap is there, square to the face.
        (double sin, double cos) = Math.SinCos(face.Slant);
        double radius = face.CupDiameter / 2, depth = face.CupDepth;
        double sphere = (radius * radius + depth * depth) / (2 * depth);
        Vec3 inward = new(cos, 0, sin);
        Vec3 centre = new Vec3(FacePlaneAt(face.CupHeight), 0, face.CupHeight) + inward * (depth - sphere);
        // The ray along x at (y, z) meets the sphere at its aft side where it is inside the rim.
        double dy = y - centre.Y, dz = z - centre.Z, reach = sphere * sphere - dy * dy - dz * dz;
        if (reach <= 0) return plane;
        double aft = centre.X + Math.Sqrt(reach);
        return Math.Max(plane, aft);
    }

    /// <summary>The station of the plane that the nose is cut to, at height z.</summary>
    public double FacePlaneAt(double z)
    {
        if (Face is not { } face || face.Slant == 0) return 0;
        double lip = face.Slant > 0 ? BackAt(0) : BellyAt(0);
        return (lip - z) * Math.Tan(face.Slant);
    }

    private (double Above, double Below, double? Widest) FullnessAt(double x)
    {
        if (fullness.Length == 1 || x <= fullness[0].X) return (fullness[0].Above, fullness[0].Below, fullness[0].Widest);
        for (int i = 1; i < fullness.Length; i++)
        {
            Fullness a = fullness[i - 1], b = fullness[i];
            if (x > b.X) continue;
            double t = (x - a.X) / (b.X - a.X);
            double? widest = a.Widest is null && b.Widest is null ? null
                : (1 - t) * (a.Widest ?? 0) + t * (b.Widest ?? 0);
            return ((1 - t) * a.Above + t * b.Above, (1 - t) * a.Below + t * b.Below, widest);
        }
        return (fullness[^1].Above, fullness[^1].Below, fullness[^1].Widest);
    }
}
