using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>
/// Rolls a body once round from a rest, its trim following. A lure is long: its energy is a narrow ring-shaped valley, in
/// which rests and the passes between them lie one after the other, some closer than any affordable grid shows.
/// <para>
/// At each heel one Newton step in trim keeps to the valley; what is left of the trim moment g_θ is taken off to first
/// order, slope s = g_φ − h_φθ/h_θθ·g_θ and curvature κ = h_φφ − h_φθ²/h_θθ along the valley. A change of the slope's
/// sign is a rest or a pass; where the cubic through two slopes and curvatures dips to the other sign in between, that
/// place is looked at too.
/// </para>
/// </summary>
internal static class RollSweep
{
    private const int Steps = 24;
    private const double Loose = 1e-7;
    private const double Beside = 0.01;
    private const double Dip = 0.8;
    private const int Deepest = 2;

    // Nearer the vertical than this, rolling says nothing.
    private const double Steepest = 75 * Math.PI / 180;

    /// <summary>A rest or a pass met on the way round; its energy is within the trim moment's square of the valley's.</summary>
    public readonly record struct Extreme(Vec3 N, double Energy, bool IsRest);

    private readonly record struct Station(double Heel, double Trim, double Energy, double Slope, double Curve, double Offset);

    /// <summary>
    /// The rests and passes round the valley of a rest, in turn, itself first; new ones that are parted by less than
    /// <paramref name="same"/> left out. Empty where the valley leads up to standing, or has no wall.
    /// </summary>
    public static List<Extreme> Round(FloatingBody body, in Balance rest, double same, Func<Vec3, bool> known)
    {
        double heel = WaterPlane.Heel(rest.N), trim = WaterPlane.Trim(rest.N), offset = rest.Offset, step = 2 * Math.PI / Steps;
        var way = new List<Station>(Steps + 8);
        double before = trim;
        for (int k = 0; k <= Steps; k++)
        {
            if (Look(body, heel + k * step, 2 * trim - before, offset) is not { } here) return [];
            (before, trim, offset) = (k == 0 ? here.Trim : trim, here.Trim, here.Offset);
            if (way.Count > 0) Between(body, way, here);
            way.Add(here);
        }
        // A valley that does not close on itself is another's by now.
        if (Math.Abs(way[^1].Energy - rest.Energy) > same) return [];
        // At the rest itself the slope is 0 but for rounding; beside it, it leads up.
        double up = Math.Max(way[0].Curve, 1e-6 * body.Weight) * Beside;
        way[0] = way[0] with { Heel = way[0].Heel + Beside, Slope = up };
        way[^1] = way[^1] with { Heel = way[^1].Heel - Beside, Slope = -up };
        return Thinned([new Extreme(rest.N, rest.Energy, true), .. Extremes(body, way)], same, known);
    }

    private static Station? Look(FloatingBody body, double heel, double trim, double offset)
    {
        Balance b = Equilibrium.Afloat(body, WaterPlane.Up(trim, heel), offset, Loose);
        for (int i = 0; ; i++)
        {
            if (Math.Abs(trim) > Steepest) return null;
            (double sinT, double cosT) = Math.SinCos(trim);
            (double sinH, double cosH) = Math.SinCos(heel);
            Vec3 pitch = new(-cosT, sinT * sinH, -sinT * cosH), roll = new(0, -cosH, -sinH);
            double gT = Vec3.Dot(b.Pull, pitch), gR = Vec3.Dot(b.Pull, roll), hTT = b.CurvatureAlong(pitch), hRR = b.CurvatureAlong(roll);
            if (hTT <= 0) return null;
            double step = -gT / hTT;
            if (Math.Abs(step) < 0.01 || i == 4)
            {
                double hTR = b.CurvatureAlong((pitch + roll) / Math.Sqrt(2)) - 0.5 * (hTT + hRR);
                // Arc length along the valley is cos θ a radian of heel.
                return new Station(heel, trim + step, b.Energy + 0.5 * gT * step, cosT * (gR + hTR * step),
                    cosT * cosT * (hRR - hTR * hTR / hTT), b.Offset);
            }
            trim += Math.Clamp(step, -0.2, 0.2);
            b = Equilibrium.Afloat(body, WaterPlane.Up(trim, heel), b.Offset, Loose);
        }
    }

    // A slope of the same sign at both ends may still have changed it twice between them.
    private static void Between(FloatingBody body, List<Station> way, in Station b, int depth = 0)
    {
        Station a = way[^1];
        if (a.Slope > 0 != b.Slope > 0 || depth == Deepest) return;
        double turn = b.Heel - a.Heel, least = Math.Min(Math.Abs(a.Slope), Math.Abs(b.Slope)), at = -1;
        for (int k = 1; k < 8; k++)
        {
            double t = k / 8.0, u = 1 - t;
            double slope = u * u * (1 + 2 * t) * a.Slope + t * u * u * turn * a.Curve + t * t * (1 + 2 * u) * b.Slope - t * t * u * turn * b.Curve;
            double same = a.Slope > 0 ? slope : -slope;
            // A cubic that dips at all deserves a look: hooks that leave the water bend the true slope otherwise.
            if (same < Dip * least) (least, at) = (same / Dip, t);
        }
        if (at < 0 || Look(body, a.Heel + at * turn, (1 - at) * a.Trim + at * b.Trim, a.Offset) is not { } middle) return;
        Between(body, way, middle, depth + 1);
        way.Add(middle);
        Between(body, way, b, depth + 1);
    }

    private static List<Extreme> Extremes(FloatingBody body, List<Station> way)
    {
        var found = new List<Extreme>();
        for (int i = 1; i < way.Count; i++)
        {
            Station a = way[i - 1], b = way[i];
            if (a.Slope > 0 == b.Slope > 0) continue;
            bool isRest = a.Slope <= 0;
            // Regula falsi (Illinois) on the slope along the valley.
            for (int k = 0; k < 4; k++)
            {
                double t = Math.Clamp(a.Slope / (a.Slope - b.Slope), 0.1, 0.9);
                if (Look(body, a.Heel + t * (b.Heel - a.Heel), (1 - t) * a.Trim + t * b.Trim, a.Offset) is not { } middle) break;
                if (middle.Slope > 0 == a.Slope > 0) (a, b) = (middle, b with { Slope = 0.5 * b.Slope });
                else (a, b) = (a with { Slope = 0.5 * a.Slope }, middle);
            }
            Station best = Math.Abs(a.Slope) < Math.Abs(b.Slope) ? a : b;
            found.Add(new Extreme(WaterPlane.Up(best.Trim, best.Heel), best.Energy, isRest));
        }
        return found;
    }

    /// <summary>Takes out the smallest pair of a rest and a pass while their heights differ by less than this.</summary>
    private static List<Extreme> Thinned(List<Extreme> round, double same, Func<Vec3, bool> known)
    {
        bool[] kept = [.. round.Select(e => e.IsRest && known(e.N))];
        var left = Enumerable.Range(0, round.Count).ToList();
        while (left.Count > 2)
        {
            double Apart(int i) => Math.Abs(round[left[i]].Energy - round[left[(i + 1) % left.Count]].Energy);
            var pairs = Enumerable.Range(0, left.Count).Where(i => !kept[left[i]] && !kept[left[(i + 1) % left.Count]]).ToList();
            if (pairs.Count == 0) break;
            int least = pairs.MinBy(Apart), next = (least + 1) % left.Count;
            if (Apart(least) >= same) break;
            left.RemoveAt(Math.Max(least, next));
            left.RemoveAt(Math.Min(least, next));
        }
        return [.. left.Select(i => round[i])];
    }
}
