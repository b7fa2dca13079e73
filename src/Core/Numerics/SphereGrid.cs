namespace Trimwright.Core.Numerics;

/// <summary>
/// Directions spread evenly over the unit sphere, with their neighbours: an icosahedron whose faces are halved
/// k times (12, 42, 162, 642, 2562 … directions), turned so that none lies on a coordinate plane by construction.
/// </summary>
public sealed class SphereGrid
{
    private static readonly Lazy<SphereGrid>[] Made =
        [.. Enumerable.Range(0, 7).Select(k => new Lazy<SphereGrid>(() => new SphereGrid(k)))];

    /// <summary>The directions.</summary>
    public IReadOnlyList<Vec3> Directions => directions;

    /// <summary>For each direction, the indices of the five or six around it.</summary>
    public IReadOnlyList<int[]> Neighbours => neighbours;

    private readonly Vec3[] directions;
    private readonly int[][] neighbours;

    /// <summary>The grid after <paramref name="halvings"/> halvings (0 to 6), made once.</summary>
    public static SphereGrid Of(int halvings) => Made[halvings].Value;

    private SphereGrid(int halvings)
    {
        double g = (1 + Math.Sqrt(5)) / 2;
        var points = new List<Vec3>
        {
            new(-1, g, 0), new(1, g, 0), new(-1, -g, 0), new(1, -g, 0), new(0, -1, g), new(0, 1, g),
            new(0, -1, -g), new(0, 1, -g), new(g, 0, -1), new(g, 0, 1), new(-g, 0, -1), new(-g, 0, 1),
        };
        // A general turn keeps the grid off the symmetry planes of a lure, where energies tie.
        Vec3 axis = new Vec3(0.36, 0.48, 0.8).Unit();
        for (int i = 0; i < points.Count; i++) points[i] = points[i].Unit().Turned(axis, 0.7);
        List<(int A, int B, int C)> faces =
        [
            (0, 11, 5), (0, 5, 1), (0, 1, 7), (0, 7, 10), (0, 10, 11), (1, 5, 9), (5, 11, 4), (11, 10, 2),
            (10, 7, 6), (7, 1, 8), (3, 9, 4), (3, 4, 2), (3, 2, 6), (3, 6, 8), (3, 8, 9), (4, 9, 5), (2, 4, 11),
            (6, 2, 10), (8, 6, 7), (9, 8, 1),
        ];
        for (int k = 0; k < halvings; k++) faces = Halve(points, faces);
        directions = [.. points];
        neighbours = Around(points.Count, faces);
    }

    private static List<(int, int, int)> Halve(List<Vec3> points, List<(int A, int B, int C)> faces)
    {
        var middles = new Dictionary<(int, int), int>();
        int Middle(int i, int j)
        {
            (int, int) key = i < j ? (i, j) : (j, i);
            if (middles.TryGetValue(key, out int found)) return found;
            points.Add((points[i] + points[j]).Unit());
            return middles[key] = points.Count - 1;
        }
        var smaller = new List<(int, int, int)>(faces.Count * 4);
        foreach ((int a, int b, int c) in faces)
        {
            int ab = Middle(a, b), bc = Middle(b, c), ca = Middle(c, a);
            smaller.AddRange([(a, ab, ca), (b, bc, ab), (c, ca, bc), (ab, bc, ca)]);
        }
        return smaller;
    }

    private static int[][] Around(int count, List<(int A, int B, int C)> faces)
    {
        var sets = new SortedSet<int>[count];
        for (int i = 0; i < count; i++) sets[i] = [];
        foreach ((int a, int b, int c) in faces)
        {
            sets[a].UnionWith([b, c]);
            sets[b].UnionWith([a, c]);
            sets[c].UnionWith([a, b]);
        }
        return [.. sets.Select(set => set.ToArray())];
    }
}
