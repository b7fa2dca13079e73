using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>Metal cast into a hole, or filed to fill it; in the file it lies across unless said otherwise.</summary>
internal sealed class PlugForm : RoundForm
{
    public override string Word => "plug";

    public override bool IsCast => true;

    public override Axis UsualAxis => Axis.Y;
}
