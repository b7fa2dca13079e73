using MathNet.Numerics.Distributions;

namespace Trimwright.Core.Sinking;

/// <summary>
/// How likely a lure rolls onto its side on the fall. Whether it does hangs on one number that nobody has measured on lures, the share of
/// Munk's moment in roll that the wake leaves. The share's prior is that of the wake in pitch, 0.7 ± 0.2, never more than all of it.
/// </summary>
public static class Rolling
{
    // Shares that the prior makes equally likely: told to the nearest two in a hundred.
    private const int Shares = 50;

    /// <summary>How likely it rolls, 0 to 1: by how many of the likely shares the fall rolls. It need not roll at every share above one at which it does.</summary>
    public static double Chance(FallingBody body, Fall fall) =>
        Enumerable.Range(0, Shares).Average(i => KindAt(body, fall, Math.Clamp(Normal.InvCDF(DragModel.UsualWake, DragModel.WakeSd, (i + 0.5) / Shares), 0, 1)) == FallKind.Rolls ? 1.0 : 0);

    /// <summary>Whether a fall holds where the wake leaves so much of Munk's moment in roll, 0 to 1.</summary>
    public static FallKind KindAt(FallingBody body, Fall fall, double share) =>
        Falls.KindOf(new Motion(body with { Model = body.Model with { WakeInRoll = share } }), body, fall.Velocity, fall.Up);
}
