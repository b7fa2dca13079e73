using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>
/// Where eye, mouth and gill lines go, seen from the side: a simple scheme of our own, for looks only. Everything is a share
/// of the body's length and of its height at that place, so that it suits any outline.
/// </summary>
/// <param name="EyeX">mm from the nose.</param>
/// <param name="EyeZ">mm.</param>
/// <param name="EyeDiameter">mm.</param>
/// <param name="EyeGiven">The design has eyes; else this is a proposal.</param>
/// <param name="Mouth">Cut along it, (x, z) mm; empty for a nose with a face, which is a mouth already.</param>
/// <param name="Gill">The edge of the gill cover.</param>
/// <param name="GillInner">A shorter line before it.</param>
public sealed record FaceMarks(
    double EyeX, double EyeZ, double EyeDiameter, bool EyeGiven,
    ImmutableArray<(double X, double Z)> Mouth, ImmutableArray<(double X, double Z)> Gill, ImmutableArray<(double X, double Z)> GillInner)
{
    private const int Steps = 20;

    public static FaceMarks Of(LureDesign design, Body body)
    {
        double length = body.Length;
        EyesDesign? eyes = design.Eyes;
        double size = eyes?.DiameterMm ?? 0.05 * length, x = eyes?.XMm ?? 0.095 * length;
        double z = eyes?.ZMm ?? 0.25 * body.BackAt(x) + 0.05 * body.BellyAt(x);
        double gill = x + 0.75 * size + 0.045 * length;
        return new(x, z, size, eyes is not null, body.Face is null && body.NoseCloses ? MouthOf(body, x + 0.15 * size, z - 0.5 * size) : [],
            Arc(body, gill, 0.042 * length, 0.72, 0.82), Arc(body, gill - 0.035 * length, 0.032 * length, 0.42, 0.62));
    }

    /// <summary>A curve bowed aft, from a share of the back's height to a share of the belly's.</summary>
    private static ImmutableArray<(double X, double Z)> Arc(Body body, double x, double bow, double up, double down) =>
        [.. Enumerable.Range(0, Steps + 1).Select(i =>
        {
            double t = (double)i / Steps, at = x + bow * 4 * t * (1 - t), top = body.BackAt(at), bottom = body.BellyAt(at);
            double high = up * top + (1 - up) * 0.5 * (top + bottom), low = down * bottom + (1 - down) * 0.5 * (top + bottom);
            return (at, high + t * (low - high));
        })];

    /// <summary>From the nose to a corner under the eye, a little hollow, always inside the outline.</summary>
    private static ImmutableArray<(double X, double Z)> MouthOf(Body body, double corner, double under)
    {
        double start = 0.5 * (body.BackAt(0) + body.BellyAt(0)), end = Math.Max(Math.Min(under, 0.4 * body.BellyAt(corner)), 0.7 * body.BellyAt(corner));
        return [.. Enumerable.Range(0, Steps + 1).Select(i =>
        {
            double t = (double)i / Steps, x = corner * t * t, z = start + (end - start) * Math.Pow(t, 1.4);
            return (x, Math.Max(z, 0.9 * body.BellyAt(x)));
        })];
    }
}
