using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>The wire's straight run through the glue face.</summary>
public static class WireRun
{
    /// <summary>The height of the straight run at x, mm, dips left out.</summary>
    public static double Height(WireDesign wire, Body body, double x)
    {
        double from = wire.LineTie.ZMm, to = wire.TailLoop?.ZMm ?? from;
        if (wire.RunMm.IsEmpty) return from + (to - from) * Math.Clamp(x / body.Length, 0, 1);
        for (int i = 1; i < wire.RunMm.Length; i++)
        {
            (double x0, double z0) = wire.RunMm[i - 1];
            (double x1, double z1) = wire.RunMm[i];
            if (x >= x0 && x <= x1 && x1 > x0) return z0 + (z1 - z0) * (x - x0) / (x1 - x0);
        }
        return x < wire.RunMm[0].X ? wire.RunMm[0].Z : wire.RunMm[^1].Z;
    }
}
