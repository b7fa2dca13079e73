using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>A homogeneous lure of a random shape: bellied, tapered, flat-ended or boxy; the same for the same seed.</summary>
internal static class RandomSolid
{
    public static LureDesign Design(int seed, double density)
    {
        var random = new Random(seed);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        double length = Between(60, 220), height = length * Between(0.05, 0.2), breadth = length * Between(0.05, 0.2);
        bool flatNose = random.Next(4) == 0, flatTail = random.Next(4) == 0;
        (double, double)[] Outline(double size) =>
        [
            (0, flatNose ? size * Between(0.4, 0.8) : 0), (0.2 * length, size * Between(0.6, 0.9)), (0.5 * length, size),
            (0.8 * length, size * Between(0.5, 0.9)), (length, flatTail ? size * Between(0.3, 0.6) : 0),
        ];
        (double X, double V)[] back = Outline(height), below = Outline(height * Between(0.7, 1.4)), plan = Outline(breadth);
        return Lures.Solid(density, length, back, [.. below.Select(p => (p.X, -p.V))], plan, Between(1.2, 5));
    }

    public static Prediction Afloat(int seed, double ratio, MeshSize? mesh = null) =>
        Forms.Afloat(density => Design(seed, density), ratio, mesh ?? MeshSize.Coarse);

    /// <summary>The skin by itself, without asking how it rests.</summary>
    public static ClosedMesh Skin(int seed) => Prediction.Of(Design(seed, Forms.Heavy), Forms.Tap(MeshSize.Coarse)).Ledger.Skin;
}
