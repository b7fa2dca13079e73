using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>Where a number comes from; the later the better.</summary>
public enum Source
{
    /// <summary>Common practice, or somebody's memory.</summary>
    Typical,

    /// <summary>A printed table, a standard or a data sheet.</summary>
    Published,

    /// <summary>The maker's own ruler, caliper or scale, on this very thing.</summary>
    Measured,
}

/// <summary>A number with where it comes from.</summary>
public readonly record struct Flagged(double Value, Source Source);

/// <summary>
/// One kind of thing in the box. Its numbers carry their source: that of the item, unless <see cref="Measured"/> or
/// <see cref="Published"/> names their key.
/// </summary>
public abstract record BoxItem
{
    /// <summary>Unique in the box: a plan names what it takes by it. Small letters, digits and hyphens.</summary>
    public required string Id { get; init; }

    public required string Name { get; init; }

    public Source Source { get; init; }

    /// <summary>Keys whose numbers the maker measured.</summary>
    public ImmutableArray<string> Measured { get; init; } = [];

    /// <summary>Keys whose numbers stand in a printed source.</summary>
    public ImmutableArray<string> Published { get; init; } = [];

    /// <summary>In the box's currency: of one piece; of a metre of wire, stock or leader; of a board; of 100 g of finish.</summary>
    public double? Price { get; init; }

    public Kept Kept { get; init; }

    /// <summary>The keys of its kind.</summary>
    internal abstract BoxForm Declared { get; }

    /// <summary>Its numbers by their keys in the file, null where the file has none.</summary>
    public IEnumerable<(string Key, double? Value)> Numbers => Declared.Numbers(this);

    /// <summary>Keys of what is not a single number but has a source too.</summary>
    public IEnumerable<string> Lists => Declared.Lists;

    /// <summary>What only its kind can be asked: whether its numbers agree with each other.</summary>
    internal virtual void Check(string path, Findings findings)
    {
    }

    public Source SourceOf(string key) =>
        Measured.Contains(key) ? Source.Measured : Published.Contains(key) ? Source.Published : Source;

    /// <summary>A number by its key, with its source; null when there is none.</summary>
    public Flagged? Told(string key)
    {
        foreach ((string own, double? value) in Numbers)
            if (own == key && value is { } number) return new Flagged(number, SourceOf(key));
        return null;
    }
}

/// <summary>A thing that comes by the piece.</summary>
public abstract record CountedItem : BoxItem
{
    /// <summary>How many there are; null: plenty.</summary>
    public int? Count { get; init; }

    public bool IsThere => Count is not 0;

    /// <summary>The key of its count.</summary>
    private protected static CountOrNone<T> CountKey<T>()
        where T : CountedItem =>
        new("count", "How many there are", 0, 1_000_000, i => i.Count, (i, v) => i with { Count = v }) { More = "Left out: plenty." };
}
