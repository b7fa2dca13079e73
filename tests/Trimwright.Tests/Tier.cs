namespace Trimwright.Tests;

/// <summary>
/// How much to do: the quick tier is plain <c>dotnet test</c>; <c>.ci/run</c> sets TRIMWRIGHT_TIER=ci, and the long tier is
/// TRIMWRIGHT_TIER=long. The same tests run in each, over more cases.
/// </summary>
internal static class Tier
{
    private static readonly string Name = Environment.GetEnvironmentVariable("TRIMWRIGHT_TIER") ?? "quick";

    public static bool IsCi => Name is "ci" or "long";

    public static bool IsLong => Name is "long";

    /// <summary>How many cases to run in this tier.</summary>
    public static int Count(int quick, int ci, int? @long = null) => IsLong ? @long ?? ci : IsCi ? ci : quick;
}
