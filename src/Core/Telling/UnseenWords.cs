using Trimwright.Core.Doubt;

namespace Trimwright.Core.Telling;

/// <summary>The words for weights that nobody sees.</summary>
public static class UnseenWords
{
    // A deviation that keeps more than this of its size was hardly told by the readings.
    private const double LittleTold = 0.6;

    /// <summary>"About 15.3 g of lead (10.9 to 21.2 g in 95 of 100), 163 mm from the nose (152 to 183 mm), 1 mm below the axis …"</summary>
    public static string Of(Unseen u, Notation notation) =>
        $"About {notation.Weight(u.Lead.Median)} of lead (95 of 100: {notation.Weight(u.Lead.Low95)} to {notation.Weight(u.Lead.High95)}), "
        + $"which is {notation.Weight(u.Net.Median)} more than the wood in its place; its middle {notation.Length(u.X.Median)} from the nose ({notation.Length(u.X.Low95)} to {notation.Length(u.X.High95)}), "
        + $"{Height(u.Z.Median, notation)} ({Height(u.Z.Low95, notation)} to {Height(u.Z.High95, notation)}).";

    /// <summary>What the readings say little of; empty when they tell all of it.</summary>
    public static string Hardly(Unseen u)
    {
        string[] untold =
        [
            .. u.Told.Grams > LittleTold ? ["how many grams they are"] : Array.Empty<string>(),
            .. u.Told.X > LittleTold ? ["how far back they lie"] : Array.Empty<string>(),
            .. u.Told.Z > LittleTold ? ["how low they lie"] : Array.Empty<string>(),
        ];
        return untold.Length == 0 ? "" : $"These readings hardly tell {string.Join(" and ", untold)}: that range is mostly a guess.";
    }

    private static string Height(double z, Notation notation) =>
        Math.Abs(z) < 0.5 ? "on the axis" : $"{notation.Length(Math.Abs(z))} {(z < 0 ? "under" : "over")} the axis";
}
