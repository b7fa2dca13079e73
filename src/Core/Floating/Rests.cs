using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>A way in which a floating body can stay at rest.</summary>
/// <param name="Balance">The body there, with its water plane.</param>
/// <param name="HeelIsFree">It rolls about its long axis without any change of energy.</param>
/// <param name="HasMirror">Its mirror image is a rest too and is not listed, whether or not anybody would notice the barrier between the two.</param>
/// <param name="Escape">
/// Energy over the lowest pass by which it leaves for another rest, g·mm: for the lowest rest to any other, for the
/// others to a lower one; infinite when there is no other.
/// </param>
public sealed record Rest(Balance Balance, bool HeelIsFree, bool HasMirror, double Escape);

/// <summary>All rests of a floating body, lowest energy first, and what the search met on the way.</summary>
/// <param name="All">At least one.</param>
/// <param name="Minima">How many stable critical points were found, mirror images and mesh ripples counted.</param>
/// <param name="Passes">How many passes between them.</param>
public sealed record Rests(ImmutableArray<Rest> All, int Minima, int Passes);

/// <summary>
/// Finds every stable rest.
/// <para>
/// The energy over the sphere of up directions is looked at on an even grid, where each look gives slope and curvature
/// besides. A descent starts wherever a grid point lies lower than its neighbours, and wherever Newton's step from a
/// point of positive curvature ends within the grid's spacing; then the body is rolled round from each rest
/// (<see cref="RollSweep"/>). Passes are sought from the lowest place found between two basins by following the softest
/// direction uphill.
/// </para>
/// <para>
/// A mesh of a round body ripples: rests parted by less than weight × 0.001 mm are one, and a whole turn of them is
/// "rolls freely". Of mirror twins one is kept.
/// </para>
/// </summary>
public static class RestSearch
{
    /// <summary>Energies closer than weight × this, mm, are the same to anybody.</summary>
    public const double Indifferent = 1e-3;

    private const int Halvings = 2;
    private const double Same = 2e-3;

    /// <summary>Angle from a grid direction to its neighbours, at most, radians.</summary>
    internal const double Spacing = 0.30;

    /// <summary>Nearer than this, radians, a direction is at a rest.</summary>
    internal const double Beside = 0.02;

    private const int RollSteps = 25;

    // Softer than this, mm of righting arm a radian, a mesh's ripples may be hollows of their own.
    private const double Firm = 0.05;

    /// <summary>Every rest of a body with spare buoyancy.</summary>
    /// <exception cref="ArgumentException">The body sinks: misuse.</exception>
    public static Rests All(FloatingBody body)
    {
        if (body.SpareBuoyancy <= 0) throw new ArgumentException("a body without spare buoyancy does not rest afloat");
        SphereGrid grid = SphereGrid.Of(Halvings);
        Balance[] looks = Look(body, grid);
        double[] energy = [.. looks.Select(b => b.Energy)];
        var found = new List<Minimum>();
        int[] nearest = new int[looks.Length];
        Array.Fill(nearest, -1);
        foreach (int i in Enumerable.Range(0, looks.Length).OrderBy(i => energy[i]))
        {
            bool lowest = grid.Neighbours[i].All(j => energy[i] <= energy[j]);
            if (lowest || PointsNear(looks[i], out _)) nearest[i] = Add(body, found, looks[i], lowest);
        }
        List<Edge> valleys = Roll(body, found);
        if (IsAlikeLeftAndRight(body)) AddMirrorImages(body, found);
        List<Pass> passes = PassSearch.Between(body, grid, energy, nearest, found, valleys);
        return Arrange(body, found, passes);
    }

    /// <summary>
    /// The rest that a known posture has become after a small change of the body; the next one down where its hollow went.
    /// Null where only a whole search can tell: it rolls freely or nearly so, or stands on a ridge.
    /// </summary>
    internal static Rest? Follow(FloatingBody body, Posture known)
    {
        if (known.HeelIsFree) return null;
        Equilibrium.Found end = Equilibrium.Descend(body, known.Plane.N);
        (double h11, double h12, double h22) = end.Balance.Curvature;
        double softest = 0.5 * (h11 + h22) - Math.Sqrt(0.25 * (h11 - h22) * (h11 - h22) + h12 * h12);
        if (!end.Converged || softest < Firm * body.Weight) return null;
        // A heeled rest has its mirror image as long as it is heeled; one that begins to lean may lean either way.
        bool mirror = LeansEitherWay(body, end.Balance.N) || known.Mirror && Math.Abs(end.Balance.N.Y) > Beside == Math.Abs(known.Plane.N.Y) > Beside;
        return new Rest(end.Balance, false, mirror, double.PositiveInfinity);
    }

    private static Balance[] Look(FloatingBody body, SphereGrid grid)
    {
        var looks = new Balance[grid.Directions.Count];
        double? guess = null;
        for (int i = 0; i < looks.Length; i++)
        {
            looks[i] = Equilibrium.Afloat(body, grid.Directions[i], guess, 1e-6);
            guess = looks[i].Offset;
        }
        return looks;
    }

    /// <summary>Whether the curvature here is all positive and Newton's step ends within the grid's spacing.</summary>
    private static bool PointsNear(in Balance b, out Vec3 target)
    {
        (double h11, double h12, double h22) = b.Curvature;
        (double g1, double g2) = b.Slope;
        double determinant = h11 * h22 - h12 * h12;
        target = b.N;
        if (h11 <= 0 || determinant <= 0) return false;
        double s1 = -(h22 * g1 - h12 * g2) / determinant, s2 = -(h11 * g2 - h12 * g1) / determinant;
        target = Equilibrium.Turn(b, s1, s2);
        return s1 * s1 + s2 * s2 < Spacing * Spacing;
    }

    /// <summary>Descends from a look unless it clearly leads to a rest already found; returns that rest's index.</summary>
    private static int Add(FloatingBody body, List<Minimum> found, Balance look, bool lowest)
    {
        PointsNear(look, out Vec3 target);
        int ring = found.FindIndex(m => m.Free && Math.Abs(WaterPlane.Trim(m.Balance.N) - WaterPlane.Trim(lowest ? look.N : target)) < 0.1
            && Math.Abs(look.Energy - m.Balance.Energy) < 0.02 * Math.Abs(body.Weight * body.Reach));
        if (ring >= 0 && !lowest) return ring;
        if (!lowest && found.FindIndex(m => Vec3.Angle(m.Balance.N, target) < 0.03) is var near and >= 0) return near;
        Balance end = Equilibrium.Descend(body, look.N).Balance;
        int known = found.FindIndex(m => Vec3.Angle(m.Balance.N, end.N) < Same || OnRing(body, m, end));
        if (known >= 0) return known;
        found.Add(new Minimum(end, RollsFreely(body, end)));
        return found.Count - 1;
    }

    private static bool OnRing(FloatingBody body, Minimum ring, Balance b) =>
        ring.Free && Math.Abs(WaterPlane.Trim(ring.Balance.N) - WaterPlane.Trim(b.N)) < 0.02
        && Math.Abs(ring.Balance.Energy - b.Energy) < Indifferent * body.Weight;

    /// <summary>Turned about the body's long axis all the way, trim following, the energy stays the same.</summary>
    private static bool RollsFreely(FloatingBody body, in Balance rest)
    {
        double trim = WaterPlane.Trim(rest.N), heel = WaterPlane.Heel(rest.N);
        if (Math.Abs(trim) > Math.PI / 2 - 1e-3) return false;
        Vec3 roll = Vec3.Cross(Vec3.UnitX, rest.N).Unit();
        if (Math.Abs(rest.CurvatureAlong(roll)) > 0.05 * body.Weight) return false;
        double low = rest.Energy, high = rest.Energy, d = rest.Offset;
        for (int k = 1; k < RollSteps; k++)
        {
            Balance b = TrimmedAt(body, ref trim, heel + 2 * Math.PI * k / RollSteps, d);
            d = b.Offset;
            (low, high) = (Math.Min(low, b.Energy), Math.Max(high, b.Energy));
            if (high - low > Indifferent * body.Weight) return false;
        }
        return true;
    }

    /// <summary>The body held at a heel, its trim left to find its rest (radians, started from and left in trim).</summary>
    internal static Balance TrimmedAt(FloatingBody body, ref double trim, double heel, double guess)
    {
        double scale = body.Weight * body.Reach;
        Balance b = Equilibrium.Afloat(body, WaterPlane.Up(trim, heel), guess);
        for (int i = 0; i < 30; i++)
        {
            // ∂n/∂θ is a unit vector square to n.
            (double sinT, double cosT) = Math.SinCos(trim);
            (double sinH, double cosH) = Math.SinCos(heel);
            Vec3 along = new(-cosT, sinT * sinH, -sinT * cosH);
            double slope = Vec3.Dot(b.Pull, along);
            if (Math.Abs(slope) < 1e-10 * scale) break;
            double curve = Math.Max(Math.Abs(b.CurvatureAlong(along)), 1e-6 * scale);
            double step = Math.Clamp(-slope / curve, -0.2, 0.2);
            Balance next = b;
            for (int halving = 0; halving < 20; halving++, step /= 2)
            {
                next = Equilibrium.Afloat(body, WaterPlane.Up(trim + step, heel), b.Offset);
                if (next.Energy <= b.Energy + 1e-14 * scale) break;
            }
            trim += step;
            if (Math.Abs(step) < 1e-12) break;
            b = next;
        }
        return b;
    }

    /// <summary>Rolls the body round from each rest in a valley not yet rolled through; adds rests, returns passes.</summary>
    private static List<Edge> Roll(FloatingBody body, List<Minimum> found)
    {
        var edges = new List<Edge>();
        var rolled = new HashSet<int>();
        for (int i = 0; i < found.Count; i++)
        {
            if (found[i].Free || !rolled.Add(i)) continue;
            List<RollSweep.Extreme> round = RollSweep.Round(
                body, found[i].Balance, 0.5 * Indifferent * body.Weight, n => found.Exists(m => Vec3.Angle(m.Balance.N, n) < Beside));
            int[] at = [.. round.Select(e => e.IsRest ? Nearby(body, found, e.N) : -1)];
            rolled.UnionWith(at);
            for (int k = 0; k < round.Count; k++)
                if (!round[k].IsRest)
                    edges.Add(new Edge(at[(k + round.Count - 1) % round.Count], at[(k + 1) % round.Count], round[k].N, round[k].Energy));
        }
        return edges;
    }

    private static bool IsAlikeLeftAndRight(FloatingBody body) => Math.Abs(body.Cg.Y) + Math.Abs(body.Cb.Y) < 1e-9 * body.Reach;

    // Nothing in a lure alike left and right chooses the side that it leans to.
    private static bool LeansEitherWay(FloatingBody body, Vec3 n) => Math.Abs(n.Y) > Same && IsAlikeLeftAndRight(body);

    // What a lure alike left and right does to one side it does to the other, however shallow.
    private static void AddMirrorImages(FloatingBody body, List<Minimum> found)
    {
        for (int i = 0, count = found.Count; i < count; i++)
            if (!found[i].Free && Math.Abs(found[i].Balance.N.Y) > Beside)
                Nearby(body, found, found[i].Balance.N with { Y = -found[i].Balance.N.Y });
    }

    private static int Nearby(FloatingBody body, List<Minimum> found, Vec3 n)
    {
        int known = found.FindIndex(m => Vec3.Angle(m.Balance.N, n) < Beside);
        if (known >= 0) return known;
        Balance end = Equilibrium.Descend(body, n, longest: 2 * Beside).Balance;
        known = found.FindIndex(m => Vec3.Angle(m.Balance.N, end.N) < Same || OnRing(body, m, end));
        if (known >= 0) return known;
        found.Add(new Minimum(end, false));
        return found.Count - 1;
    }

    /// <summary>Merges what is one, keeps one of mirror twins, sorts, and finds each one's way out.</summary>
    private static Rests Arrange(FloatingBody body, List<Minimum> found, List<Pass> passes)
    {
        double same = Indifferent * body.Weight;
        int[] group = [.. Enumerable.Range(0, found.Count)];
        int Root(int i) => group[i] == i ? i : Root(group[i]);
        foreach (Pass pass in passes.OrderBy(p => p.Energy))
        {
            int a = Root(pass.A), b = Root(pass.B);
            if (a == b) continue;
            (int low, int high) = found[a].Balance.Energy <= found[b].Balance.Energy ? (a, b) : (b, a);
            if (pass.Energy - found[high].Balance.Energy >= same) continue;
            // Of two that are the same to anybody, the one that rolls freely says more: a sphere's ripples stand as well.
            if (found[high].Free && !found[low].Free && found[high].Balance.Energy - found[low].Balance.Energy < same) (low, high) = (high, low);
            group[high] = low;
        }
        var roots = Enumerable.Range(0, found.Count).Where(i => Root(i) == i).OrderBy(i => found[i].Balance.Energy).ToList();
        var kept = new List<(int Root, bool Mirror)>();
        var twins = new HashSet<int>();
        foreach (int i in roots)
        {
            if (twins.Contains(i)) continue;
            List<int> alike = [i, .. roots.Where(j => j != i && !twins.Contains(j) && Twins(body, found[i], found[j]))];
            twins.UnionWith(alike);
            int shown = alike.OrderByDescending(j => Precedence(found[j].Balance.N)).First();
            // A twin that no barrier anybody would notice parts from it has been merged into it, and is there all the same.
            kept.Add((shown, alike.Count > 1 || !found[shown].Free && LeansEitherWay(body, found[shown].Balance.N)));
        }
        var rests = kept.Select(k => new Rest(
            found[k.Root].Free ? Upright(body, found[k.Root].Balance) : found[k.Root].Balance, found[k.Root].Free, k.Mirror,
            Escape(found, passes, Root, k.Root, kept[0].Root, same)));
        return new Rests([.. rests], found.Count, passes.Count);
    }

    // A body that rolls freely is shown back up.
    internal static Balance Upright(FloatingBody body, in Balance rest)
    {
        double trim = WaterPlane.Trim(rest.N);
        return TrimmedAt(body, ref trim, 0, rest.Offset);
    }

    private static bool Twins(FloatingBody body, Minimum a, Minimum b)
    {
        if (Math.Abs(a.Balance.Energy - b.Balance.Energy) > Indifferent * body.Weight) return false;
        Vec3 n = a.Balance.N, m = b.Balance.N;
        if (a.Free && b.Free) return Math.Abs(Math.Abs(n.X) - Math.Abs(m.X)) < 0.01;
        return new Vec3(Math.Abs(n.X) - Math.Abs(m.X), Math.Abs(n.Y) - Math.Abs(m.Y), Math.Abs(n.Z) - Math.Abs(m.Z)).Length < 0.01;
    }

    // Nose up, then starboard down, then back up.
    private static (int, int, int) Precedence(Vec3 up)
    {
        const double Level = 1e-3;
        return (up.X < -Level ? 2 : up.X <= Level ? 1 : 0, up.Y < -Level ? 2 : up.Y <= Level ? 1 : 0, up.Z > 0 ? 1 : 0);
    }

    /// <summary>The lowest pass on the way from one rest to a lower one (for the lowest: to any other), over its own energy.</summary>
    private static double Escape(List<Minimum> found, List<Pass> passes, Func<int, int> root, int from, int lowest, double same)
    {
        double own = found[from].Balance.Energy;
        var reached = new HashSet<int> { root(from) };
        double height = own;
        while (true)
        {
            Pass? next = passes.Where(p => reached.Contains(root(p.A)) != reached.Contains(root(p.B)))
                .OrderBy(p => p.Energy).Cast<Pass?>().FirstOrDefault();
            if (next is not { } pass) return double.PositiveInfinity;
            height = Math.Max(height, pass.Energy);
            int entered = reached.Contains(root(pass.A)) ? root(pass.B) : root(pass.A);
            bool out_ = from == lowest ? found[entered].Balance.Energy > own + same || Vec3.Angle(found[entered].Balance.N, found[from].Balance.N) > 0.05
                : entered == root(lowest) || found[entered].Balance.Energy < own - same;
            if (out_) return height - own;
            reached.Add(entered);
        }
    }
}
