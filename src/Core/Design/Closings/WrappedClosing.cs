using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>Closed by winding its end round the standing leg.</summary>
internal sealed class WrappedClosing : EyeClosing
{
    // Fewer wraps than this slip; common practice, no source.
    private const double LeastWraps = 2;

    // Each wrap is a turn of a helix of mean diameter 2d and pitch d: so many times as long as its way along the leg.
    private static readonly double Helix = Math.Sqrt(4 * Math.PI * Math.PI + 1);

    // A wrap that slips makes the eye an open one; one of few turns may hold all the same.
    private static readonly Condition Slips = new("wrap_slips", "if the wrap slips, lets go from");
    private static readonly Condition HoldsYet = new("wrap_holds", "if so few wraps hold, out of shape only from");

    public override string Word => "wrapped";

    internal override WireBehind? Behind(EyeDesign eye, double diameter) =>
        eye.Wraps > 0 ? new(eye.Wraps * diameter, Helix, 2 * diameter, 2 * diameter) : null;

    internal override EyeHold Hold(EyeDesign eye, bool isBight) => eye.Wraps < LeastWraps
        ? new(EyeGives.Opens, If: HoldsYet, Otherwise: EyeGives.GoesOval)
        : new(EyeGives.Breaks, EyeGives.GoesOval, Slips, EyeGives.Opens);

    internal override ImmutableArray<Condition> Conditions => [Slips, HoldsYet];

    public override string Said(EyeDesign eye, IMeasures measures) =>
        $"wrapped {measures.Number(eye.Wraps, Math.Abs(eye.Wraps - Math.Round(eye.Wraps)) < 0.05 ? 0 : 1)} times, the wraps in the joint";

    public override string Bent(EyeDesign eye, IMeasures measures) => $"{measures.Number(eye.Wraps, eye.Wraps % 1 == 0 ? 0 : 1)} wraps round the standing leg";
}
