namespace Trimwright.Core.Design;

/// <summary>Closed by laying its end back along the run, beside it in the joint.</summary>
internal sealed class DoubledClosing : EyeClosing
{
    public override string Word => "doubled";

    internal override WireBehind? Behind(EyeDesign eye, double diameter) => new(Allowances.DoubledLeg, 1, diameter, 0);

    internal override EyeHold Hold(EyeDesign eye, bool isBight) => new(EyeGives.Breaks, EyeGives.GoesOval);

    public override string Said(EyeDesign eye, IMeasures measures) => "its end laid back along the wire in the joint";

    public override string Bent(EyeDesign eye, IMeasures measures) => "laid back along the run";
}
