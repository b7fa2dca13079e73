using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>
/// Closed by laying its end back along the leg and whipping both with line, turn beside turn, soaked with glue. Two round wires side by
/// side have the hull π·d + 2·d; a line of thickness t runs round it at t/2. What such a whipping holds nobody has reckoned here.
/// </summary>
internal sealed class WhippedClosing : EyeClosing
{
    // Of nylon line, g/mm³: a handbook's round value, from memory. Other lines lie between 0.97 and 1.4; on 0.1 g of line it is nothing.
    private const double LineDensity = 1.14e-3;

    private static readonly Condition Slips = new("whipping_slips", "what the whipping holds is not reckoned: pull it; if it slips, lets go from");

    public override string Word => "whipped";

    internal override WireBehind? Behind(EyeDesign eye, double diameter) => new(eye.WhippedMm, 1, diameter + 2 * eye.LineMm, 2 * eye.LineMm);

    internal override Binding? Bound(EyeDesign eye, double diameter)
    {
        double t = eye.LineMm, hull = (Math.PI + 2) * diameter, round = hull + Math.PI * t;
        double length = Turns(eye) * Math.Sqrt(round * round + t * t), line = Math.PI / 4 * t * t * length;
        // Glue fills what the line leaves of its own layer, and the two valleys between the wires.
        double layer = hull * t + Math.PI * t * t, valleys = diameter * diameter * (1 - Math.PI / 4);
        return new(eye.WhippedMm, length, line, LineDensity, Math.Max(eye.WhippedMm * (layer + valleys) - line, 0));
    }

    private static double Turns(EyeDesign eye) => eye.WhippedMm / eye.LineMm;

    internal override EyeHold Hold(EyeDesign eye, bool isBight) => new(EyeGives.Unknown, If: Slips, Otherwise: EyeGives.Opens);

    internal override ImmutableArray<Condition> Conditions => [Slips];

    internal override void Check(EyeDesign eye, double diameter, string path, Findings findings) =>
        findings.Warn(path + ".closing", "what a whipping of line and glue holds is not reckoned; pull it before the halves are glued");

    public override string Said(EyeDesign eye, IMeasures measures) =>
        $"its end laid back along the leg, both whipped over {measures.Caliper(eye.WhippedMm)} with {measures.Number(Turns(eye), 0)} turns of line "
        + $"{measures.Number(eye.LineMm, 2)}\u00A0mm thick, turn beside turn, soaked with glue. What that holds is not reckoned: once it is hard, pull it, "
        + "behind a shield, before the halves are glued";

    public override string Bent(EyeDesign eye, IMeasures measures) => $"laid back along the leg, whipped with {measures.Number(Turns(eye), 0)} turns of line";

    public override string Groove => "whipping groove";
}
