using System.Text.RegularExpressions;

namespace Trimwright.Core.Strength;

public enum WireAlloy
{
    Stainless304,
    Stainless316,
    Galvanised,

    /// <summary>Brass, copper, music wire …: no figures here.</summary>
    Other,
}

public enum WireTemper
{
    Soft,
    HalfHard,
    Spring,
}

/// <summary>What had to be taken for granted to read a grade; each time the weaker wire was taken.</summary>
public enum GradeDoubt
{
    None,
    NothingStated,
    TemperNotStated,
    TemperBetween,
    AlloyNotStated,
    NotKnown,
}

/// <summary>A wire's grade as recognised in the design's own words.</summary>
public readonly partial record struct WireGrade(WireAlloy Alloy, WireTemper Temper, GradeDoubt Doubt)
{
    /// <summary>Recognises "304 half-hard", "316 spring", "soft" … in free text; what isn't said is taken as the weaker.</summary>
    public static WireGrade Recognise(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return new(WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.NothingStated);
        string words = text.ToLowerInvariant().Replace('-', ' ').Replace("½", "1/2 ", StringComparison.Ordinal).Replace("¼", "1/4 ", StringComparison.Ordinal).Replace("¾", "3/4 ", StringComparison.Ordinal);
        if (OtherMetal().IsMatch(words)) return new(WireAlloy.Other, WireTemper.Soft, GradeDoubt.NotKnown);
        if (Galvanised().IsMatch(words)) return new(WireAlloy.Galvanised, WireTemper.Soft, GradeDoubt.None);
        (WireTemper temper, GradeDoubt doubt) = TemperIn(words);
        bool molybdenum = Stainless316().IsMatch(words), plain = Stainless304().IsMatch(words);
        if (doubt == GradeDoubt.TemperNotStated && !molybdenum && !plain && !words.Contains("stainless", StringComparison.Ordinal))
            doubt = GradeDoubt.NotKnown;
        // Only spring wire differs by alloy here.
        if (doubt == GradeDoubt.None && temper == WireTemper.Spring && !molybdenum && !plain)
            return new(WireAlloy.Stainless316, temper, GradeDoubt.AlloyNotStated);
        return new(molybdenum ? WireAlloy.Stainless316 : WireAlloy.Stainless304, temper, doubt);
    }

    // The softest word that stands there counts.
    private static (WireTemper, GradeDoubt) TemperIn(string words) => words switch
    {
        _ when Soft().IsMatch(words) => (WireTemper.Soft, GradeDoubt.None),
        _ when QuarterHard().IsMatch(words) => (WireTemper.Soft, GradeDoubt.TemperBetween),
        _ when HalfHard().IsMatch(words) => (WireTemper.HalfHard, GradeDoubt.None),
        _ when Spring().IsMatch(words) => (WireTemper.Spring, GradeDoubt.None),
        _ when Hard().IsMatch(words) => (WireTemper.HalfHard, GradeDoubt.TemperBetween),
        _ => (WireTemper.Soft, GradeDoubt.TemperNotStated),
    };

    [GeneratedRegex(@"brass|bronze|copper|alumini|titan|monel|nickel|silver|music|piano|carbon")]
    private static partial Regex OtherMetal();

    [GeneratedRegex(@"galvani|zinc|\biron\b|\bmild\b")]
    private static partial Regex Galvanised();

    [GeneratedRegex(@"\b316l?\b|\b1\.440[14]\b|\ba4\b")]
    private static partial Regex Stainless316();

    [GeneratedRegex(@"\b30[1248]l?\b|\b1\.43(10|01)\b|\ba2\b")]
    private static partial Regex Stainless304();

    [GeneratedRegex(@"\bsoft\b|\banneal")]
    private static partial Regex Soft();

    [GeneratedRegex(@"\bquarter|\b1/4")]
    private static partial Regex QuarterHard();

    [GeneratedRegex(@"\bhalf|\b1/2")]
    private static partial Regex HalfHard();

    [GeneratedRegex(@"\bspring|\bns\b|\b1\.4310\b|\b10270\b|\ba313\b")]
    private static partial Regex Spring();

    [GeneratedRegex(@"\bhard")]
    private static partial Regex Hard();
}
