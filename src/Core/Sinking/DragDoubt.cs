namespace Trimwright.Core.Sinking;

/// <summary>
/// How sure the rate of a fall is when the lure is built exactly as drawn: what is left is its drag. Each of the four coefficients that
/// nobody has measured on lures is moved one standard deviation either way, the fall followed, and what that does to the rate added in
/// squares (JCGM 100:2008, 5.1.2, by central differences). Sampled builds move the same four by the same priors among everything else, so
/// this is their share in what readings tell.
/// </summary>
public static class DragDoubt
{
    /// <summary>One standard deviation of a fall's rate by its drag alone, as a share of the rate.</summary>
    public static double Of(FallingBody body, Fall fall)
    {
        double sum = 0;
        foreach (Func<double, FallingBody> move in (Func<double, FallingBody>[])
        [
            xi => body.Dragging(Math.Exp(DragModel.AcrossSd * xi), 1, 1, 0),
            xi => body.Dragging(1, Math.Exp(DragModel.HooksSd * xi), 1, 0),
            xi => body.Dragging(1, 1, Math.Exp(DragModel.EndsSd * xi), 0),
            xi => body.Dragging(1, 1, 1, DragModel.WakeSd * xi),
        ])
        {
            double up = Moved(move(1)), down = Moved(move(-1));
            // A fall that is lost on one side tells by the other.
            double slope = double.IsNaN(up) ? double.IsNaN(down) ? 0 : down : double.IsNaN(down) ? up : 0.5 * (up - down);
            sum += slope * slope;
        }
        return Math.Sqrt(sum);

        double Moved(FallingBody moved) => Falls.Follow(moved, fall) is { } after ? Math.Log(after.Rate / fall.Rate) : double.NaN;
    }
}
