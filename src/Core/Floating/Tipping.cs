using System.Collections.Immutable;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Floating;

/// <summary>How a floating lure answers when it is tipped from its first posture.</summary>
/// <param name="HeelGm">Metacentric height in heel, mm (standing: the lesser of the two).</param>
/// <param name="TrimGm">Metacentric height in trim, mm (standing: the greater).</param>
/// <param name="RollPeriod">Estimate of one free roll, ms; null when it rolls freely.</param>
/// <param name="Curve">Righting arms over a whole turn.</param>
public sealed record Tipping(double HeelGm, double TrimGm, double? RollPeriod, ImmutableArray<RightingPoint> Curve)
{
    private static readonly double Step = Units.FromDegrees(10);

    public static Tipping Of(FloatingBody body, WeightLedger ledger, Balance rest)
    {
        (double heel, double trim) = Stability.MetacentricHeights(body, rest);
        double? period = Stability.RollPeriod(body, heel, Inertia(ledger, body.Cg), AddedInertia(ledger.Skin, body.Water));
        return new Tipping(heel, trim, period, Stability.Curve(body, rest, Step));
    }

    // About the long axis through the centre of gravity; hung hardware stays upright and adds its mass only.
    private static double Inertia(WeightLedger ledger, Vec3 cg)
    {
        double sum = 0;
        foreach (Part part in ledger.Parts)
        {
            Vec3 arm = part.Centre - cg;
            sum += part.Spread.Y + part.Spread.Z + part.Mass * (arm.Y * arm.Y + arm.Z * arm.Z);
        }
        return Math.Max(sum, 0);
    }

    private static double AddedInertia(ClosedMesh skin, double water)
    {
        double sum = 0;
        for (int ring = skin.FaceRings; ring + 1 < skin.Rings; ring++)
        {
            int right = 1 + ring * skin.Sides + skin.Sides / 4, back = 1 + ring * skin.Sides, belly = back + skin.Sides / 2;
            double b = skin.Y[right], h = 0.5 * (skin.Z[back] - skin.Z[belly]);
            double length = skin.X[right + skin.Sides] - skin.X[right];
            sum += Math.PI / 8 * water * (b * b - h * h) * (b * b - h * h) * length;
        }
        return sum;
    }
}
