using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;

namespace Trimwright.Tests.Carving;

/// <summary>What the sheets mark behind an eye is what the ledger takes out of the wood there.</summary>
public class EyeGrooveTests
{
    public static TheoryData<string> Closings => [.. EyeClosing.All.Select(c => c.Word)];

    [Theory]
    [MemberData(nameof(Closings))]
    public void The_marked_groove_holds_the_room_that_the_ledger_cuts(string word)
    {
        LureDesign lure = Lures.Demo("tidegate-185");
        EyeClosing closing = EyeClosing.All.Single(c => c.Word == word);
        WireDesign Closed(EyeClosing by) => lure.Wire! with { LineTie = lure.Wire!.LineTie with { Closing = by } };
        var shape = new WireShape(Closed(closing), lure.Body.Surface());
        // Welded, nothing lies behind the eye: the rest of slot and turn is the same, but for an open one's gap, which lies outside.
        double behind = shape.SlotVolume - new WireShape(Closed(EyeClosing.Welded), lure.Body.Surface()).SlotVolume;
        WireSlot slot = WireSlot.Of(Closed(closing), lure.Body.Surface(), shape);
        var (x, z) = (shape.Places[0].At.X, shape.Places[0].At.Z);
        EyeGroove[] marked = [.. slot.Wraps.Where(w => Math.Abs(w.Cut.FromX - x) < 15 && Math.Abs(w.Cut.FromZ - z) < 1)];
        if (closing == EyeClosing.Open || closing == EyeClosing.Welded)
        {
            Assert.Empty(marked);
            return;
        }
        EyeGroove groove = Assert.Single(marked);
        // The part of the leg that lies in the wood. The round nose takes a little of the first millimetre, 3 % of a wrap groove.
        double length = groove.Cut.ToX - Math.Max(groove.Cut.FromX, 0);
        Assert.Equal(length * ((groove.Cut.Width * 2 * groove.Depth) - (slot.Width * slot.Width)), behind, 0.05 * behind);
    }
}
