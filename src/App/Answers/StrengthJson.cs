using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Strength;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What holds a fish, what lets go first, and how far hooks reach: for comparing, never a rating.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="DragKgf">The reel's strike drag, kgf; null when none was given.</param>
/// <param name="Weakest">Of the links whose strength is known, the one that lets go first; null when none is known.</param>
/// <param name="Leader">Where the leader breaks, without its knots; null when that is not known.</param>
/// <param name="Wire">The wire through the lure.</param>
/// <param name="Paths">All that holds a fish, hook by hook.</param>
/// <param name="Reach">How far hooks come.</param>
/// <param name="Caution">What these figures are not.</param>
/// <param name="Warnings">Of the lure's file.</param>
[Answer("strength")]
internal sealed record StrengthJson(
    string Name, double? DragKgf, WeakestJson? Weakest, FigureJson? Leader, WireJson Wire, ImmutableArray<PathJson> Paths, ReachJson Reach, string Caution,
    ImmutableArray<WarningJson> Warnings)
{
    public static StrengthJson Of(StrengthAnswer answer, IReadOnlyList<Warning> warnings)
    {
        LureStrength strength = answer.Strength;
        return new(
            answer.Design.Name, answer.Drag / Units.KilogramForce, WeakestJson.Of(strength), FigureJson.Of(strength.Leader), WireJson.Of(answer),
            [.. strength.Paths.Select(path => PathJson.Of(path, answer.Drag))], ReachJson.Of(strength.Reach), StrengthWords.Caution,
            WarningJson.Of(warnings));
    }
}

/// <summary>The link that lets go first.</summary>
/// <param name="HangsFrom">Where its hook hangs: a hanger's name or tail_loop.</param>
/// <param name="Link">What it is, in words.</param>
/// <param name="LetsGoKgf">At which load, kgf.</param>
internal sealed record WeakestJson(string HangsFrom, string Link, double LetsGoKgf)
{
    public static WeakestJson? Of(LureStrength strength) =>
        strength.Weakest is { } weakest ? new(weakest.Path.HangsFrom, StrengthWords.Of(weakest.Link), weakest.Link.LetsGo!.Kgf) : null;
}

/// <summary>A load, with what it stands on.</summary>
/// <param name="Kgf">The load, kgf.</param>
/// <param name="N">The same load, N.</param>
/// <param name="Formula">That gave it.</param>
/// <param name="Source">Of the formula or of the value: a publication, or "typical".</param>
/// <param name="Basis">How sure it is, the surest first.</param>
internal sealed record FigureJson(double Kgf, double N, string Formula, string Source, Basis Basis)
{
    public static FigureJson? Of(Figure? figure) =>
        figure is null ? null : new(figure.Kgf, figure.Newtons, figure.Formula, figure.Source, figure.Basis);
}

/// <summary>The wire through the lure.</summary>
/// <param name="DiameterMm">Across, mm.</param>
/// <param name="Grade">In the file's own words; null: it says none.</param>
/// <param name="Taken">What it is taken to be; only where there are figures for it.</param>
/// <param name="LengthMm">Its length along its bends, mm.</param>
/// <param name="CutMm">How much to cut, mm.</param>
internal sealed record WireJson(double DiameterMm, string? Grade, [property: Inline] TakenWireJson? Taken, double LengthMm, double CutMm)
{
    public static WireJson Of(StrengthAnswer answer) => new(
        answer.Design.Wire!.DiameterMm, answer.Design.Wire.Grade, TakenWireJson.Of(answer.Strength.Wire), answer.Strength.WireLength, answer.Strength.CutLength);
}

/// <summary>Figures of a wire.</summary>
/// <param name="TakenAs">How hard it is taken to be, in words.</param>
/// <param name="Assumption">What had to be assumed to take it so; null: nothing, the file says it.</param>
/// <param name="TensileMpa">Tensile strength, MPa.</param>
/// <param name="TensileSource">Of the tensile strength: a publication, or "typical".</param>
/// <param name="TensileBasis">How sure the tensile strength is.</param>
/// <param name="YieldMpa">Yield strength of the wire as bent, MPa.</param>
/// <param name="YieldBasis">How sure the yield strength is: it is always from memory.</param>
/// <param name="PlasticMomentNmm">Moment that bends it for good, N·mm.</param>
internal sealed record TakenWireJson(
    string TakenAs, string? Assumption, double TensileMpa, string TensileSource, Basis TensileBasis, double YieldMpa, Basis YieldBasis, double PlasticMomentNmm)
{
    public static TakenWireJson? Of(WireStrength? wire) => wire is null ? null : new(
        StrengthWords.Of(wire.Grade.Temper), StrengthWords.Of(wire.Grade), wire.Tensile, wire.Source, wire.TensileBasis, wire.Yield, Basis.FromMemory,
        wire.PlasticMoment);
}

/// <summary>All that holds a fish on one hook.</summary>
/// <param name="HangsFrom">A hanger's name or tail_loop.</param>
/// <param name="Hook">The last thing of its chain; empty when nothing hangs there.</param>
/// <param name="Links">The one that lets go first in front; those that are not known last.</param>
/// <param name="Wood">Where the wire begins to cut into the wood.</param>
internal sealed record PathJson(string HangsFrom, string Hook, ImmutableArray<LinkJson> Links, ImmutableArray<WoodJson> Wood)
{
    public static PathJson Of(LoadPath path, double? drag) => new(
        path.HangsFrom, path.Hook, [.. path.WeakestFirst.Select(link => LinkJson.Of(link, drag))],
        [.. path.Wood.Select(wood => new WoodJson(wood.Place, FigureJson.Of(wood.Figure)!))]);
}

/// <summary>Where a wire pulled square to its run begins to cut into the wood.</summary>
/// <param name="At">line_tie, a hanger's name or tail_loop.</param>
/// <param name="CutsIn">At which load.</param>
internal sealed record WoodJson(string At, FigureJson CutsIn);

/// <summary>A link between the leader's knot and the hook's point.</summary>
/// <param name="Link">In words.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Place">From the leader, 0 first.</param>
/// <param name="LetsGo">Where it parts or opens; null: not known.</param>
/// <param name="OutOfShape">Where it begins to bend for good while it still holds; null: not before it lets go, or not known.</param>
/// <param name="Otherwise">What it comes to if something else is so; null when nothing else is likely.</param>
/// <param name="TimesDrag">How many times the strike drag it holds; null without a drag, or where it is not known.</param>
internal sealed record LinkJson(
    string Link, LinkKind Kind, int Place, FigureJson? LetsGo, FigureJson? OutOfShape, OtherwiseJson? Otherwise, double? TimesDrag)
{
    public static LinkJson Of(Link link, double? drag) => new(
        StrengthWords.Of(link), link.Kind, link.Place, FigureJson.Of(link.LetsGo), FigureJson.Of(link.OutOfShape),
        OtherwiseJson.Of(link.Otherwise), link.LetsGo?.Newtons / drag);
}

/// <summary>A figure that holds under a condition.</summary>
/// <param name="If">The condition.</param>
/// <param name="Figure">The load then.</param>
internal sealed record OtherwiseJson(Condition If, FigureJson Figure)
{
    public static OtherwiseJson? Of(Otherwise? other) => other is null ? null : new(other.Condition, FigureJson.Of(other.Figure)!);
}

/// <summary>What hooks can come to, as circles about the points that they hang from.</summary>
/// <param name="Hooks">Every pair of hooks.</param>
/// <param name="Back">Each hook and the ridge of the back, the shortest way round the side.</param>
/// <param name="Leader">Each hook and the leader's knot.</param>
internal sealed record ReachJson(ImmutableArray<MeetingJson> Hooks, ImmutableArray<MeetingJson> Back, ImmutableArray<MeetingJson> Leader)
{
    public static ReachJson Of(HookReach reach) => new(MeetingJson.Of(reach.Hooks), MeetingJson.Of(reach.Back), MeetingJson.Of(reach.Leader));
}

/// <summary>One thing that a hook may come to.</summary>
/// <param name="HangsFrom">Where the hook hangs: a hanger's name or tail_loop.</param>
/// <param name="OtherHangsFrom">Where the other hook hangs; only between two hooks.</param>
/// <param name="WayMm">How far it is to there, mm.</param>
/// <param name="ReachMm">How far the hook, or both hooks together, come, mm.</param>
/// <param name="Meets">They may meet.</param>
internal sealed record MeetingJson(
    string HangsFrom, [property: LeftOut] string? OtherHangsFrom, double WayMm, double ReachMm, bool Meets)
{
    public static ImmutableArray<MeetingJson> Of(IEnumerable<Meeting> meetings) =>
        [.. meetings.Select(m => new MeetingJson(m.Hook.HangsFrom, m.Other?.HangsFrom, m.Way, m.Reach, m.Meets))];
}
