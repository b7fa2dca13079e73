using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>
/// How an eye of the wire is closed, with all that others ask of it, in a file of its own. A new one is such a file and a place in
/// <see cref="All"/>; a size that no other one has is a key more of <see cref="EyeDesign"/>.
/// </summary>
public abstract class EyeClosing : IKind
{
    public static readonly EyeClosing Open = new OpenClosing();
    public static readonly EyeClosing Wrapped = new WrappedClosing();
    public static readonly EyeClosing Doubled = new DoubledClosing();
    public static readonly EyeClosing Welded = new WeldedClosing();
    public static readonly EyeClosing Whipped = new WhippedClosing();

    /// <summary>Every closing, in the order in which files list them.</summary>
    public static ImmutableArray<EyeClosing> All { get; } = [Open, Wrapped, Doubled, Welded, Whipped];

    private protected EyeClosing()
    {
    }

    public abstract string Word { get; }

    public sealed override string ToString() => Word;

    /// <summary>How much of a whole turn the wire of the eye goes round.</summary>
    internal virtual double Turn => 1;

    /// <summary>The wire that closes the eye, behind it; null: none, as far as room and grams go.</summary>
    /// <param name="eye">The eye.</param>
    /// <param name="diameter">Of the wire, mm.</param>
    internal virtual WireBehind? Behind(EyeDesign eye, double diameter) => null;

    /// <summary>What binds that wire to the leg; null: nothing.</summary>
    internal virtual Binding? Bound(EyeDesign eye, double diameter) => null;

    /// <summary>What the eye does under a pull.</summary>
    /// <param name="eye">The eye.</param>
    /// <param name="isBight">It is a bight of the run, both legs of which go on in the wood.</param>
    internal abstract EyeHold Hold(EyeDesign eye, bool isBight);

    /// <summary>Conditions that <see cref="Hold"/> may name.</summary>
    internal virtual ImmutableArray<Condition> Conditions => [];

    /// <summary>Notes what a maker should hear of an eye closed like this.</summary>
    /// <param name="eye">The eye.</param>
    /// <param name="diameter">Of the wire, mm.</param>
    /// <param name="path">Of the eye in the file.</param>
    /// <param name="findings">Takes it.</param>
    internal virtual void Check(EyeDesign eye, double diameter, string path, Findings findings)
    {
    }

    /// <summary>For the step that bends it, after a comma: "welded shut".</summary>
    public abstract string Said(EyeDesign eye, IMeasures measures);

    /// <summary>For the order of bends, what is done with the wire behind the eye; only asked where there is some.</summary>
    public virtual string Bent(EyeDesign eye, IMeasures measures) => "";

    /// <summary>What its groove is called on the sheets.</summary>
    public virtual string Groove => "wrap groove";
}

/// <summary>Wire behind an eye, along its leg, from where the eye begins.</summary>
/// <param name="Length">Along the leg, mm.</param>
/// <param name="Wound">How many times as long the wire itself is.</param>
/// <param name="Wider">By how much its groove is wider than the slot, mm.</param>
/// <param name="Deeper">By how much it is deeper, both halves together, mm.</param>
internal readonly record struct WireBehind(double Length, double Wound, double Wider, double Deeper)
{
    /// <summary>Length of the wire itself, mm.</summary>
    public double WireLength => Length * Wound;
}

/// <summary>Line that is wound round wire, and what holds it.</summary>
/// <param name="Length">Along the leg, from where the eye begins, mm.</param>
/// <param name="LineLength">Of the line itself, mm.</param>
/// <param name="LineVolume">mm³.</param>
/// <param name="LineDensity">g/mm³.</param>
/// <param name="GlueVolume">What soaks it and fills it up, mm³.</param>
internal readonly record struct Binding(double Length, double LineLength, double LineVolume, double LineDensity, double GlueVolume)
{
    public double Volume => LineVolume + GlueVolume;

    /// <summary>g.</summary>
    /// <param name="glue">Density of the glue, g/mm³.</param>
    public double Mass(double glue) => LineDensity * LineVolume + glue * GlueVolume;
}

/// <summary>What an eye may do at some pull.</summary>
public enum EyeGives
{
    /// <summary>One hinge opens it.</summary>
    Opens,

    /// <summary>Four hinges pull it oval while it holds.</summary>
    GoesOval,

    /// <summary>Both its legs break.</summary>
    Breaks,

    /// <summary>One leg breaks where heat has softened it; only of wire that has hardness to lose.</summary>
    BreaksSoft,

    /// <summary>Nobody has reckoned it.</summary>
    Unknown,
}

/// <summary>What an eye does under a pull, by how it is closed.</summary>
/// <param name="LetsGo">In the end.</param>
/// <param name="OutOfShape">Before that; null: nothing.</param>
/// <param name="If">On what else it depends; null: on nothing.</param>
/// <param name="Otherwise">What it does then.</param>
internal readonly record struct EyeHold(EyeGives LetsGo, EyeGives? OutOfShape = null, Condition? If = null, EyeGives Otherwise = EyeGives.Unknown);

/// <summary>On what else the strength of an eye depends; each stands with the closing that it belongs to.</summary>
/// <param name="word">By which answers know it.</param>
/// <param name="says">What stands before the figure that then holds.</param>
public sealed class Condition(string word, string says) : IKind
{
    public static ImmutableArray<Condition> All => [.. EyeClosing.All.SelectMany(c => c.Conditions)];

    public string Word => word;

    public string Says => says;

    public override string ToString() => word;
}
