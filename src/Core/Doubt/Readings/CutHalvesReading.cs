using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>
/// Left and right half after pockets and slots were cut, before anything is put in: lighter than planned is wood cut too wide, which is
/// glue and filler to come. Holes for screw eyes are bored later, and are still wood.
/// </summary>
internal sealed class CutHalvesReading : ReadingKind
{
    public override string Word => "halves_cut";

    internal override ReadAt At => ReadAt.InAir;

    internal override ImmutableArray<string> Needs => ["right_g", "left_g"];

    internal override bool TellsOfCuts => true;

    internal override void Expect(Observations to, int i, LogReading r)
    {
        WeightLedger dry = to.Build.At(Stage.DryFit, Rig.Bare, WaterState.Tap).Ledger;
        double Grams(PartKind kind) => -dry.Of(kind).Sum(p => p.Mass);
        // The wire lies in the middle, and half of every slot in each half; a pocket off the middle takes more of one.
        double slots = Grams(PartKind.WoodForWire) + Grams(PartKind.OpenSlot), pockets = Grams(PartKind.WoodForWeight);
        double toRight = -dry.Of(PartKind.WoodForWeight).Sum(p => p.Mass * to.Build.Design.Ballast[p.Index].RightShare);
        double Half(ReadOnlySpan<double> x, bool right) =>
            to.Half(x, right, slots / 2 + (right ? toRight : pockets - toRight)) - TooWide(to, x) / 2;
        to.Number(i, "right_g", r.RightG, to.Digit(r), to.Scaled(r, x => Half(x, right: true)));
        to.Number(i, "left_g", r.LeftG, to.Digit(r), to.Scaled(r, x => Half(x, right: false)));
    }

    // Filler beyond the planned is where wood beyond the planned was: as much room, at the wood's weight, g.
    private static double TooWide(Observations to, ReadOnlySpan<double> x)
    {
        BuildModel build = to.Build;
        double room = build.Gaps.Mass / build.FillerDensity, wood = to.WoodDensity(x);
        return room * (build.Unknowns[Unknowns.Filler].At(x[Unknowns.Filler]) - 1) * wood;
    }

    internal override string Said(LogReading r, ReadingNames names) => "halves weighed, pockets and slots cut";
}
