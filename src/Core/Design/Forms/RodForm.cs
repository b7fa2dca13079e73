namespace Trimwright.Core.Design;

/// <summary>A length of rod.</summary>
internal sealed class RodForm : RoundForm
{
    public override string Word => "rod";

    public override bool IsBar => true;
}
