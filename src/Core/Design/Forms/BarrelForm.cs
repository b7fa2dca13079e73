namespace Trimwright.Core.Design;

/// <summary>A barrel or bullet, bored along its axis.</summary>
internal sealed class BarrelForm : RoundForm
{
    public override string Word => "barrel";

    public override FormSizes Needs => base.Needs with { Bore = true };
}
