namespace Trimwright.Core.Sinking;

/// <summary>The coefficients of the fall that no maker can look up; each is a prior with a doubt.</summary>
public sealed record DragModel
{
    public static readonly DragModel Usual = new();

    /// <summary>The prior of <see cref="Wake"/>: its middle, and one standard deviation.</summary>
    public const double UsualWake = 0.7, WakeSd = 0.2;

    /// <summary>
    /// One standard deviation of the logarithm of what multiplies drag across the way, drag of hooks and rings, and drag end-on: common
    /// practice, no source. With <see cref="WakeSd"/> they are all that is not known of a fall of a lure built exactly as drawn.
    /// </summary>
    public const double AcrossSd = 0.2, HooksSd = 0.3, EndsSd = 0.4;

    /// <summary>Share of Munk's ideal moment that is left behind a real wake; prior <see cref="UsualWake"/> ± <see cref="WakeSd"/>.</summary>
    public double Wake { get; init; } = UsualWake;

    /// <summary>
    /// Share of Munk's ideal moment in roll, which turns a body higher than wide onto its side. The wake behind a body that falls broadside
    /// leaves less than all of it, and by how much less nobody has measured on lures: the limit is told at all of it, the least favourable, and
    /// how likely a lure rolls by the prior of <see cref="Wake"/>, 0.7 ± 0.2, see <see cref="Rolling"/>.
    /// </summary>
    public double WakeInRoll { get; init; } = 1;

    /// <summary>
    /// Drag of a round-ended body along its axis beyond friction, on its largest section: friction alone would let a
    /// lure fall end-on three times as fast as a frontal coefficient near ½ does. Prior 0.35 ± 0.15, common practice, no
    /// source.
    /// </summary>
    public double Ends { get; init; } = 0.35;

    /// <summary>Of a flat face that meets the water (cylinder end-on, physics handbooks: 0.85 to 1.17).</summary>
    public double Face { get; init; } = 0.85;

    /// <summary>Of a cup that meets the water, on the cup's mouth (hollow hemisphere, opening upstream: 1.42).</summary>
    public double Cup { get; init; } = 1.2;

    /// <summary>Of a flat face or cup that trails.</summary>
    public double Base { get; init; } = 0.2;

    /// <summary>Drag area of hardware over its wetted wire's silhouette: 1.1 across the flow, 0.7 for what lies along it and behind itself; sd 30 %.</summary>
    public double Hardware { get; init; } = 1.1 * 0.7;

    /// <summary>Multiplies the cross-flow drag; 1 is the published curve.</summary>
    public double Across { get; init; } = 1;

    /// <summary>Fixed cross-flow coefficient (finite length included) instead of the curve; for checks.</summary>
    public double? FixedCrossFlow { get; init; }
}
