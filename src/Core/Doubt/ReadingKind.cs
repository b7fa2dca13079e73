using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Doubt;

/// <summary>Where a lure is while it is read, in the order in which readings are proposed.</summary>
internal enum ReadAt
{
    InAir,
    UnderWater,
    Afloat,
    Falling,

    /// <summary>Not the lure, but a part of it.</summary>
    Apart,
}

/// <summary>The words of others that a reading's sentence is made of.</summary>
/// <param name="Stage">How far the build was: "dry-fit".</param>
/// <param name="Rig">What hung on it, after a comma; empty when bare.</param>
/// <param name="Part">The part's name.</param>
internal readonly record struct ReadingNames(string Stage, string Rig, string Part);

/// <summary>
/// What was read: a kind of reading, with all that others ask of it, in a file of its own. A new one is such a file and a place in
/// <see cref="All"/>; a key that no other kind has is one more in <see cref="LogReading"/>.
/// </summary>
public abstract class ReadingKind : IKind
{
    public static readonly ReadingKind Boards = new BoardsReading();
    public static readonly ReadingKind Part = new PartReading();
    public static readonly ReadingKind Halves = new HalvesReading();
    public static readonly ReadingKind CutHalves = new CutHalvesReading();
    public static readonly ReadingKind Weight = new WeightReading();
    public static readonly ReadingKind UnderWater = new UnderWaterReading();
    public static readonly ReadingKind Needle = new NeedleReading();
    public static readonly ReadingKind Balance = new BalanceReading();
    public static readonly ReadingKind Caliper = new CaliperReading();
    public static readonly ReadingKind Tub = new TubReading();
    public static readonly ReadingKind Inclining = new IncliningReading();
    public static readonly ReadingKind Drop = new DropReading();
    public static readonly ReadingKind Soak = new SoakReading();

    /// <summary>Every kind, in the order in which files and answers list them.</summary>
    public static ImmutableArray<ReadingKind> All { get; } =
        [Boards, Part, Halves, CutHalves, Weight, UnderWater, Needle, Balance, Caliper, Tub, Inclining, Drop, Soak];

    private protected ReadingKind()
    {
    }

    public abstract string Word { get; }

    public sealed override string ToString() => Word;

    internal abstract ReadAt At { get; }

    /// <summary>The numbers that a reading must have, by their keys in <see cref="LogReading"/>.</summary>
    internal virtual ImmutableArray<string> Needs => [];

    /// <summary>The numbers that it may have besides.</summary>
    internal virtual ImmutableArray<string> May => [];

    /// <summary>Notes what no single key can say of a reading.</summary>
    internal virtual void Check(ReadingCheck check)
    {
    }

    /// <summary>Adds each of a reading's numbers with what a build would show instead of it.</summary>
    /// <param name="to">The log as numbers.</param>
    /// <param name="i">The reading's place in the log.</param>
    /// <param name="r">The reading.</param>
    internal abstract void Expect(Observations to, int i, LogReading r);

    /// <summary>The readings of this kind that make sense at a stage and were not made yet, with what they take.</summary>
    internal virtual IEnumerable<Possible> Proposed(Possibilities at) => [];

    /// <summary>There are several ways to make it, of which one is enough.</summary>
    internal virtual bool HasWays => false;

    /// <summary>In one breath: "blank weighed".</summary>
    internal abstract string Said(LogReading r, ReadingNames names);

    /// <summary>The words for a number that is less, or more, than everything else says: "lighter".</summary>
    internal virtual string Off(bool isLess, bool isGrams) => isGrams ? isLess ? "lighter" : "heavier" : isLess ? "less" : "more";

    /// <summary>By how much the number of grams goes up with each gram of a part that may be missing or there twice; 0: no part can be.</summary>
    internal virtual int SignOfParts(LogReading r) => 0;

    /// <summary>Air that clings can make it read too much.</summary>
    internal virtual bool TakesAir => false;

    /// <summary>It tells how much wood was cut away for slots and pockets.</summary>
    internal virtual bool TellsOfCuts => false;

    /// <summary>What is wrong with a reading whatever the build is like; null: nothing.</summary>
    internal virtual Flag? Alarm(int i, LogReading r) => null;
}
