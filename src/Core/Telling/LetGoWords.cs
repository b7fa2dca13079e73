using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Telling;

/// <summary>What is said of the start that a fall is reached from.</summary>
public static class LetGoWords
{
    /// <summary>
    /// "Let go level it comes to that; let go from 34° tail down to straight tail down it turns over into a fall belly up, 12° nose down, at
    /// 210 mm/s." Null when every start leads to the fall that is told first.
    /// </summary>
    public static string? Of(IReadOnlyList<LetGo> starts, Descent descent, Notation notation)
    {
        if (starts.Count == 0 || (descent.First ?? descent.IfItHolds) is not { } told) return null;
        int first = descent.All.IndexOf(told);
        if (starts.All(s => s.Fall == first)) return null;
        LetGo level = starts.First(s => s.To >= 0);
        string Range(LetGo s) => $"from {Edge(s.From, notation)} to {Edge(s.To, notation)}";
        string List(IEnumerable<LetGo> runs) => string.Join(" or ", runs.Select(Range));
        if (level.Fall == first)
            return $"Let go level it comes to that; {string.Join("; ", starts.Where(s => s.Fall != first).GroupBy(s => s.Fall).Select(g => $"let go {List(g)} it {Comes(g.Key, descent, notation)}"))}.";
        string here = $"let go level it {Comes(level.Fall, descent, notation)}.";
        return starts.Any(s => s.Fall == first)
            ? $"It comes to that only when it is let go {List(starts.Where(s => s.Fall == first))}; {here}"
            : $"No way of letting it go belly down and at rest comes to that: {here}";
    }

    private static string Edge(double trim, Notation notation)
    {
        string end = trim > 0 ? "tail down" : "nose down";
        double size = Math.Abs(trim);
        return size > 0.5 * Math.PI - 1e-6 ? "straight " + end : size < Units.FromDegrees(0.5) ? "level" : $"{notation.Angle(size)} {end}";
    }

    private static string Comes(int? fall, Descent descent, Notation notation)
    {
        if (fall is not { } place) return "goes on swinging from one way to another";
        Fall to = descent.All[place];
        return $"{(to.BellyUp ? "turns over into a fall belly up" : "comes to a fall")}, {Words.Trim(to.Trim, notation)}, at {notation.Speed(to.Rate)}";
    }
}
