using Trimwright.Core;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Tests.Floating;

/// <summary>What kinds of lure the generator really draws, counted while properties run over them.</summary>
internal sealed class RandomLureCoverage
{
    private static readonly string[] Names = ["floating", "sunk", "standing", "listing", "several postures", "flat ends"];

    private readonly int[] counts = new int[Names.Length];
    private int all;

    public void Count(Draw draw, Prediction prediction)
    {
        bool floats = prediction.SpareBuoyancy > 0;
        double trim = Math.Abs(Units.ToDegrees(prediction.Posture.Trim)), heel = Math.Abs(Units.ToDegrees(prediction.Posture.Heel ?? 0));
        bool[] is_ =
        [
            floats,
            !floats,
            floats && trim > 60,
            floats && trim <= 60 && heel is > 1 and < 90,
            prediction.Postures.Length > 1,
            !draw.Design.Body.Surface().NoseCloses || !draw.Design.Body.Surface().TailCloses,
        ];
        Interlocked.Increment(ref all);
        for (int i = 0; i < is_.Length; i++)
            if (is_[i]) Interlocked.Increment(ref counts[i]);
    }

    public IEnumerable<(string Name, double Share)> Shares => Names.Select((name, i) => (name, (double)counts[i] / all));

    public override string ToString() =>
        $"{all} lures: " + string.Join(", ", Shares.Select(s => FormattableString.Invariant($"{s.Name} {100 * s.Share:F1} %")));
}
