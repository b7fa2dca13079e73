using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Ledger;

namespace Trimwright.Core.Finish;

/// <summary>What is put on the scale.</summary>
public enum WeighPoint
{
    Boards,
    Blank,
    RightHalf,
    LeftHalf,
    BothHalves,
    Wire,
    Piece,
    StandIn,
    DryFit,
    Glued,
    Sealed,
    Coat,
    Eyes,
    Rigged,
}

/// <summary>A weigh point with the reading to expect.</summary>
/// <param name="Point">What is weighed.</param>
/// <param name="Name">Which of them: a piece, a coat; empty where there is one only.</param>
/// <param name="Expected">What the scale reads, g.</param>
/// <param name="Gain">By how much it reads more than at the weigh point before, g; null where that says nothing.</param>
/// <param name="Stage">The stage whose prediction it is; null for a single part.</param>
/// <param name="Already">Lines of the ledger that a later stage holds and that are done by now: wood cut early. Part of <paramref name="Expected"/>.</param>
/// <param name="Scale">The finest scale of the box that bears it; null: no box, or none does.</param>
public sealed record Weighing(
    WeighPoint Point, string Name, double Expected, double? Gain, Stage? Stage, ImmutableArray<Part> Already, BoxScale? Scale)
{
    /// <summary>The finest scale that bears so many grams.</summary>
    public static BoxScale? ScaleFor(double grams, MakersBox? box) =>
        box?.Scales.Where(s => s.CapacityG >= grams).OrderBy(s => s.ResolutionG).ThenBy(s => s.CapacityG).FirstOrDefault();
}

/// <summary>
/// The carved blank under water, which tells its volume from its density. Two ways to read the same grams: a sinker hung
/// from the scale into a bucket, alone and then with the blank (the difference is the spare buoyancy, whatever the bucket);
/// or a tall jar of water on the tared scale, the blank pushed fully under with a needle (the reading is what it displaces,
/// and less its weight it is the spare buoyancy).
/// </summary>
/// <param name="Volume">Outside, mm³.</param>
/// <param name="Spare">What the two ways measure, g.</param>
/// <param name="SinkerMass">Lead that takes it under with something to spare, g in air; 0: it sinks by itself.</param>
/// <param name="SinkerReads">That sinker alone, under water, g.</param>
/// <param name="BothRead">Sinker and blank, under water, g.</param>
/// <param name="JarReads">The jar's scale, tared, with the blank pushed under, g.</param>
/// <param name="JarHolds">Water in a jar that is tall enough, about, g.</param>
/// <param name="SinkerScale">The finest scale for the sinker way; null: none is known.</param>
/// <param name="JarScale">The finest scale that bears the jar.</param>
public sealed record UnderWater(
    double Volume, double Spare, double SinkerMass, double SinkerReads, double BothRead, double JarReads, double JarHolds,
    BoxScale? SinkerScale, BoxScale? JarScale)
{
    private const double Lead = 11.3e-3;

    // A sinker this much heavier under water than the blank pulls up, in whole tens of grams.
    private const double Over = 1.3;

    // A jar of this width, so much taller than the lure; glass and water together. Common practice, no source.
    private const double JarWidth = 90;
    private const double JarTaller = 40;
    private const double Jar = 400;

    /// <summary>Of a blank with this spare buoyancy (g), volume (mm³) and length (mm), in water of this effective density (g/mm³).</summary>
    public static UnderWater Of(double spare, double volume, double length, double water, MakersBox? box)
    {
        double sinker = spare <= 0 ? 0 : 10 * Math.Ceiling(Over * spare / (1 - water / Lead) / 10);
        double alone = sinker * (1 - water / Lead), jar = water * (Math.PI / 4 * JarWidth * JarWidth * (length + JarTaller));
        return new(volume, spare, sinker, alone, alone - spare, water * volume, jar,
            Weighing.ScaleFor(Math.Max(alone, alone - spare), box), Weighing.ScaleFor(Jar + jar + water * volume, box));
    }
}
