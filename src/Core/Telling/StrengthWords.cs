using Trimwright.Core.Design;
using Trimwright.Core.Strength;

namespace Trimwright.Core.Telling;

/// <summary>The words about strength: what a link is, what was taken for granted, how far hooks come.</summary>
public static class StrengthWords
{
    /// <summary>What every page of strength figures ends with.</summary>
    public const string Caution =
        "These are estimates for comparing choices, never a rating. Pull-test a lure before it fishes: behind a shield, nobody in line with the pull.";

    /// <summary>What is wanted of every link; common practice, from memory.</summary>
    public const double TimesTheDrag = 4;

    /// <summary>A place as a maker calls it.</summary>
    public static string Place(string place) => place.Replace('_', ' ');

    public static string Of(Link link) => link.Kind switch
    {
        LinkKind.Leader => $"{link.Name} leader".TrimStart(),
        LinkKind.LineTie => "eye of the line tie",
        LinkKind.Wire => $"{link.Name} wire".TrimStart(),
        LinkKind.HangerLoop => $"loop at the {link.Name}",
        LinkKind.WireAcrossSlot => $"wire across the slot at the {link.Name}",
        LinkKind.ScrewEye => $"eye of the screw eye at the {link.Name}",
        LinkKind.ScrewInWood => $"screw eye's thread in the wood at the {link.Name}",
        LinkKind.WireInWood => "wire's hold in the wood",
        LinkKind.TailLoop => "eye of the tail loop",
        LinkKind.Ring or LinkKind.Swivel or LinkKind.Hook or LinkKind.Fitting => link.Name,
    };

    /// <summary>A path by its hook.</summary>
    public static string Of(LoadPath path) => path.Hook.Length > 0
        ? $"a fish on the {path.Hook} at the {Place(path.HangsFrom)}"
        : $"a fish on the {Place(path.HangsFrom)}";

    /// <summary>How sure a figure is, in a few words.</summary>
    public static string Of(Basis basis) => basis switch
    {
        Basis.Given => "given",
        Basis.Published => "published",
        Basis.FromMemory => "from memory",
    };

    /// <summary>A figure's formula and what it stands on.</summary>
    public static string Why(Figure figure) => figure.Basis == Basis.Given
        ? $"{figure.Formula}, {Of(figure.Basis)} in {figure.Source}"
        : $"{figure.Formula}; {figure.Source}, {Of(figure.Basis)}";

    /// <summary>"if the wrap slips, lets go from" …: under what the other figure holds; the figure follows.</summary>
    public static string Of(Condition condition) => condition.Says;

    /// <summary>What had to be taken for granted of the wire; null when nothing.</summary>
    public static string? Of(WireGrade grade) => grade.Doubt switch
    {
        GradeDoubt.NothingStated => "The file states no grade of wire; it is taken as soft.",
        GradeDoubt.TemperNotStated => "The grade does not say how hard the wire is; it is taken as soft.",
        GradeDoubt.TemperBetween => $"There are no figures for this hardness; it is taken as {Of(grade.Temper)}.",
        GradeDoubt.AlloyNotStated => "The grade does not say which steel; it is taken as 316, the weaker spring wire.",
        GradeDoubt.NotKnown when grade.Alloy == WireAlloy.Other => "There are no figures for this metal.",
        GradeDoubt.NotKnown => "This grade is not recognised; it is taken as soft stainless.",
        GradeDoubt.None => null,
    };

    public static string Of(WireTemper temper) => temper switch
    {
        WireTemper.HalfHard => "half-hard",
        WireTemper.Spring => "spring",
        WireTemper.Soft => "soft",
    };

    /// <summary>One sentence for each thing that a hook may come to.</summary>
    public static IEnumerable<string> Of(HookReach reach, Notation notation)
    {
        foreach (Meeting pair in reach.Hooks)
            yield return $"{Capital(Named(pair.Hook))} and {Named(pair.Other!)} {(pair.Meets ? "may tangle" : "stay apart")}: {Told(pair, notation)}.";
        foreach (Meeting back in reach.Back)
            yield return $"{Capital(Named(back.Hook))} {(back.Meets ? "may catch over the back" : "does not come over the back")}: {Told(back, notation)}.";
        foreach (Meeting leader in reach.Leader)
            yield return $"{Capital(Named(leader.Hook))} {(leader.Meets ? "may catch the leader" : "does not come to the leader")}: {Told(leader, notation)}.";
    }

    private static string Named(Swing swing) => $"the {swing.Hook} at the {Place(swing.HangsFrom)}";

    private static string Told(Meeting meeting, Notation notation) =>
        $"{notation.Length(meeting.Way)} to go, {notation.Length(meeting.Reach)} of reach";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
