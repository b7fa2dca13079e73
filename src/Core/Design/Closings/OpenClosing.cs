using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>An eye that nothing closes; as a hanger, a bight of the run.</summary>
internal sealed class OpenClosing : EyeClosing
{
    // The joint holds both legs of a bight, so that one can't be drawn from the other.
    private static readonly Condition BothLegsHeld = new("both_legs_held", "if the joint holds both legs fast, out of shape only from");

    public override string Word => "open";

    internal override double Turn => 0.9;

    internal override EyeHold Hold(EyeDesign eye, bool isBight) =>
        isBight ? new(EyeGives.Opens, If: BothLegsHeld, Otherwise: EyeGives.GoesOval) : new(EyeGives.Opens);

    internal override ImmutableArray<Condition> Conditions => [BothLegsHeld];

    public override string Said(EyeDesign eye, IMeasures measures) => "an open bight, both legs in the joint";
}
