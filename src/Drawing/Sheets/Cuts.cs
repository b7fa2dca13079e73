using Trimwright.Core.Shape;

namespace Trimwright.Drawing.Sheets;

/// <summary>
/// The outline of several cuts together: of each cut's own edge only what lies outside all the others, and in the wood.
/// </summary>
internal sealed class Cuts
{
    // How finely an edge is asked, mm; finer than a line is wide.
    private const double Step = 0.06;
    private const double Touching = 1e-6;

    private readonly List<(IReadOnlyList<(double X, double Z)> Edge, Func<double, double, double> Distance, bool Drawn)> shapes = [];

    /// <summary>A cut by its edge (drawn if asked) and by its distance, negative inside.</summary>
    public void Add(IReadOnlyList<(double X, double Z)> edge, Func<double, double, double> distance, bool drawn = true) =>
        shapes.Add((edge, distance, drawn));

    /// <summary>A straight groove with round ends.</summary>
    public void AddGroove(double x0, double z0, double x1, double z1, double width)
    {
        var groove = new Core.Carving.Groove(x0, z0, x1, z1, width);
        double angle = Math.Atan2(z1 - z0, x1 - x0), r = width / 2;
        var edge = new List<(double, double)>();
        for (int i = 0; i <= 16; i++) edge.Add(Off(x1, z1, r, angle - Math.PI / 2 + Math.PI * i / 16));
        for (int i = 0; i <= 16; i++) edge.Add(Off(x0, z0, r, angle + Math.PI / 2 + Math.PI * i / 16));
        edge.Add(edge[0]);
        Add(edge, groove.DistanceTo);
    }

    /// <summary>A ring-shaped groove, as two edges.</summary>
    public void AddRing(double x, double z, double radius, double width)
    {
        // Both edges share it, or each would be taken for lying inside the other's cut.
        Func<double, double, double> distance = (px, pz) => Math.Abs(double.Hypot(px - x, pz - z) - radius) - width / 2;
        foreach (double r in new[] { radius + width / 2, radius - width / 2 })
            if (r > 0.1) Add([.. Enumerable.Range(0, 65).Select(i => Off(x, z, r, 2 * Math.PI * i / 64))], distance);
    }

    private static (double X, double Z) Off(double x, double z, double r, double angle) => (x + r * Math.Cos(angle), z + r * Math.Sin(angle));

    /// <summary>The pieces of edge that remain, where <paramref name="there"/> holds.</summary>
    public IEnumerable<List<(double X, double Z)>> Outline(Func<double, double, bool> there)
    {
        for (int k = 0; k < shapes.Count; k++)
        {
            if (!shapes[k].Drawn) continue;
            int own = k;
            bool Kept(double x, double z) => there(x, z)
                && shapes.All(s => s.Distance == shapes[own].Distance || s.Distance(x, z) > -Touching);
            foreach (List<(double, double)> run in Runs(shapes[k].Edge, Kept)) yield return run;
        }
    }

    private static IEnumerable<List<(double X, double Z)>> Runs(IReadOnlyList<(double X, double Z)> edge, Func<double, double, bool> kept)
    {
        var run = new List<(double X, double Z)>();
        foreach (((double X, double Z) from, (double X, double Z) to) in edge.Zip(edge.Skip(1)).SelectMany(e => Stretches(e.First, e.Second, kept)))
        {
            if (run.Count > 0 && run[^1] == from)
            {
                run.Add(to);
                continue;
            }
            if (run.Count > 1) yield return run;
            run = [from, to];
        }
        if (run.Count > 1) yield return run;
    }

    /// <summary>The parts of a straight edge that are kept.</summary>
    private static IEnumerable<((double X, double Z) From, (double X, double Z) To)> Stretches(
        (double X, double Z) a, (double X, double Z) b, Func<double, double, bool> kept)
    {
        int steps = Math.Max(1, (int)Math.Ceiling(double.Hypot(b.X - a.X, b.Z - a.Z) / Step)), open = -1;
        (double X, double Z) At(int k) => k == 0 ? a : k == steps ? b : (a.X + (b.X - a.X) * k / steps, a.Z + (b.Z - a.Z) * k / steps);
        for (int k = 0; k <= steps; k++)
        {
            (double x, double z) = At(k);
            bool stays = kept(x, z);
            if (stays && open < 0) open = k;
            if (open >= 0 && open < k && (!stays || k == steps))
                yield return (At(open), At(stays ? k : k - 1));
            if (!stays) open = -1;
        }
    }

    /// <summary>Whether a point of the glue face is wood.</summary>
    public static bool InWood(Body body, double x, double z) =>
        x >= 0 && x <= body.Length && z <= body.BackAt(x) && z >= body.BellyAt(x) && x >= body.FaceAt(0, z);
}
