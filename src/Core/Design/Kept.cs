using System.Collections.Immutable;
using System.Text;

namespace Trimwright.Core.Design;

/// <summary>
/// What the reader of a file doesn't know but hands on: keys and values as they stood there, in the file's order; and which of the keys
/// that it knows were written in another unit. Two are alike when both are, letter for letter.
/// </summary>
public readonly struct Kept : IEquatable<Kept>
{
    // Key, value, key, value, in UTF-8, and where each ends: a file may hold five million bytes of them.
    private readonly byte[]? text;
    private readonly int[]? ends;
    private readonly string[]? inOtherUnits;

    internal Kept(byte[]? text, int[]? ends, string[]? inOtherUnits) => (this.text, this.ends, this.inOtherUnits) = (text, ends, inOtherUnits);

    /// <summary>The unit in which a key was written instead of in its own; null: in its own.</summary>
    /// <param name="key">In the program's own unit.</param>
    internal OtherUnit? UnitOf(string key) => inOtherUnits is not null && inOtherUnits.Contains(key) ? OtherUnit.Of(key) : null;

    /// <summary>A key that the program knows, as the file writes it.</summary>
    internal string AsWritten(string key) => UnitOf(key)?.Key(key) ?? key;

    /// <summary>How many keys there are.</summary>
    public int Count => (ends?.Length ?? 0) / 2;

    /// <summary>Each key, and its value as JSON.</summary>
    public ImmutableArray<(string Key, string Json)> All
    {
        get
        {
            var all = ImmutableArray.CreateBuilder<(string, string)>(Count);
            for (int i = 0; i < Count; i++) all.Add((Encoding.UTF8.GetString(Key(i)), Encoding.UTF8.GetString(Value(i))));
            return all.MoveToImmutable();
        }
    }

    /// <summary>A key, in UTF-8.</summary>
    internal ReadOnlySpan<byte> Key(int i) => Piece(2 * i);

    /// <summary>A value as JSON, in UTF-8.</summary>
    internal ReadOnlySpan<byte> Value(int i) => Piece(2 * i + 1);

    private ReadOnlySpan<byte> Piece(int i)
    {
        int from = i == 0 ? 0 : ends![i - 1];
        return text.AsSpan(from, ends![i] - from);
    }

    public bool Equals(Kept other) => text.AsSpan().SequenceEqual(other.text) && ends.AsSpan().SequenceEqual(other.ends)
        && inOtherUnits.AsSpan().SequenceEqual(other.inOtherUnits);

    public override bool Equals(object? obj) => obj is Kept other && Equals(other);

    public override int GetHashCode() => Count;

    public static bool operator ==(Kept left, Kept right) => left.Equals(right);

    public static bool operator !=(Kept left, Kept right) => !left.Equals(right);
}
