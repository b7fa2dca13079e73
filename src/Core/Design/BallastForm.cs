using System.Collections.Immutable;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>What a piece is like for its pocket, for the room that it takes in the wood and for pictures.</summary>
public enum PieceShape
{
    /// <summary>Round whichever way it lies; its pocket has a round bottom.</summary>
    Ball,

    /// <summary>Round about the axis that it lies along: a trough along the body, a hole across it.</summary>
    Round,

    /// <summary>Six flat sides: a slot.</summary>
    Flat,
}

/// <summary>
/// The form of a ballast piece, with all that others ask of it, in a file of its own. A new one is such a file, a place in
/// <see cref="All"/>; the schemas of lure and box have its word and its sizes from here.
/// </summary>
public abstract class BallastForm : IKind
{
    public static readonly BallastForm Rod = new RodForm();
    public static readonly BallastForm Ball = new BallForm();
    public static readonly BallastForm Barrel = new BarrelForm();
    public static readonly BallastForm Strip = new StripForm();
    public static readonly BallastForm Plug = new PlugForm();

    /// <summary>Every form, in the order in which files list them.</summary>
    public static ImmutableArray<BallastForm> All { get; } = [Rod, Ball, Barrel, Strip, Plug];

    private protected BallastForm()
    {
    }

    public abstract string Word { get; }

    public sealed override string ToString() => Word;

    public abstract PieceShape Shape { get; }

    /// <summary>Cast into its hole, which it fills: it has no pocket in the glue face and no clearance.</summary>
    public virtual bool IsCast => false;

    /// <summary>The same as a length of bar, when it has no bore.</summary>
    public virtual bool IsBar => false;

    /// <summary>Along which axis it lies unless the maker says otherwise.</summary>
    public virtual Axis UsualAxis => Axis.X;

    /// <summary>Which sizes it can't do without.</summary>
    public abstract FormSizes Needs { get; }

    /// <summary>The least of a size that a form can't do without, mm.</summary>
    internal const double Smallest = 0.1;

    /// <summary>Which form needs which size, for a schema: entries of its <c>allOf</c>.</summary>
    /// <param name="key">Of the form; left out it is a rod.</param>
    /// <param name="sizes">Keys of sizes.</param>
    internal static string Conditions(string key, params ReadOnlySpan<string> sizes)
    {
        var conditions = new List<string>();
        foreach (string size in sizes)
        {
            BallastForm[] needing = [.. All.Where(f => f.Needs.Has(size))];
            bool withRod = needing.Contains(Rod);
            string words = string.Join(", ", needing.Select(f => $"\"{f.Word}\"")) + (withRod ? ", null" : "");
            string said = withRod ? "" : $", \"required\": [\"{key}\"]";
            conditions.Add($$"""
                {
                  "if": { "properties": { "{{key}}": { "enum": [{{words}}] } }{{said}} },
                  "then": { "required": ["{{size}}"], "properties": { "{{size}}": { "type": "number", "minimum": {{ObjectWriter.Number(Smallest)}} } } }
                }
                """);
        }
        return string.Join(",", conditions);
    }

    /// <summary>The room of one that is so much larger in every size (mm), bore included, mm³.</summary>
    internal abstract double Room(BallastPiece piece, double larger);

    /// <summary>Length of its bore, mm.</summary>
    internal abstract double Along(BallastPiece piece);

    /// <summary>Its extent across its axis, in the glue face's own directions: to the side and up, mm.</summary>
    internal abstract (double Side, double Up) Across(BallastPiece piece);

    /// <summary>The least of its sizes that a bore has to stay under, mm.</summary>
    internal abstract double Narrowest(BallastPiece piece);

    /// <summary>Mean square distances of its stuff from its middle along x, y and z, mm².</summary>
    internal abstract Vec3 Spread(BallastPiece piece);

    /// <summary>Points on its skin, for asking whether it lies in the wood.</summary>
    internal abstract IEnumerable<Vec3> Points(BallastPiece piece);
}

/// <summary>Sizes that a form can't do without, by their keys in the files.</summary>
/// <param name="Diameter"><c>diameter_mm</c>.</param>
/// <param name="Length"><c>length_mm</c>.</param>
/// <param name="Sides"><c>width_mm</c> and <c>thickness_mm</c>.</param>
/// <param name="Bore"><c>bore_mm</c>, of what is bought by the piece.</param>
public readonly record struct FormSizes(bool Diameter, bool Length, bool Sides = false, bool Bore = false)
{
    /// <summary>Whether the size of that key is among them.</summary>
    internal bool Has(string key) => key switch
    {
        "diameter_mm" => Diameter,
        "length_mm" => Length,
        "width_mm" or "thickness_mm" => Sides,
        "bore_mm" => Bore,
        _ => false,
    };
}
