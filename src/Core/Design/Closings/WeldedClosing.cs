using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>Welded shut.</summary>
internal sealed class WeldedClosing : EyeClosing
{
    // The heat of welding takes back what cold work gave the wire behind the eye.
    private static readonly Condition Softened = new("softened", "if the weld softened the wire behind it, lets go at");

    public override string Word => "welded";

    internal override EyeHold Hold(EyeDesign eye, bool isBight) => new(EyeGives.Breaks, EyeGives.GoesOval, Softened, EyeGives.BreaksSoft);

    internal override ImmutableArray<Condition> Conditions => [Softened];

    public override string Said(EyeDesign eye, IMeasures measures) => "welded shut";
}
