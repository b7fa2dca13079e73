namespace Trimwright.Core.Design;

/// <summary>What a maker cuts and bends where a design says nothing, mm; common practice, no source.</summary>
public static class Allowances
{
    /// <summary>The slot for the wire is this much wider and deeper than the wire.</summary>
    public const double WireSlot = 0.4;

    /// <summary>A pocket is this much wider and longer than its piece.</summary>
    public const double Pocket = 0.5;

    /// <summary>Play of a piece in a hole that was drilled with a bit of its own size, mm; common practice, no source.</summary>
    public const double Tight = 0.2;

    /// <summary>A swivel's open slot, along the belly and across it.</summary>
    public const double SwivelSlotLength = 12;
    public const double SwivelSlotWidth = 4;

    /// <summary>Thread of a screw eye.</summary>
    public const double ScrewThread = 18;

    /// <summary>The returning leg of a doubled eye lies along the run for this length.</summary>
    public const double DoubledLeg = 25;
}
