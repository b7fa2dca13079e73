namespace Trimwright.Core.Ballast;

/// <summary>
/// A way to choose weights: which kinds, and roughly where, whatever order they were chosen in. Of each way the search keeps the
/// cheapest choice, so two ways must never be taken for one.
/// </summary>
internal readonly struct Way : IEquatable<Way>
{
    // Choices are different ways when a piece is this far elsewhere, mm.
    private const double Elsewhere = 30;

    private readonly (int Kind, int Place)[] pieces;

    private Way((int Kind, int Place)[] pieces) => this.pieces = pieces;

    /// <summary>The way of some pieces.</summary>
    /// <param name="pieces">Each one's kind, and its middle along the lure, mm.</param>
    public static Way Of(ReadOnlySpan<(int Kind, double X)> pieces)
    {
        var places = new (int Kind, int Place)[pieces.Length];
        for (int i = 0; i < pieces.Length; i++) places[i] = (pieces[i].Kind, (int)Math.Floor(pieces[i].X / Elsewhere));
        Array.Sort(places);
        return new Way(places);
    }

    public bool Equals(Way other) => pieces.AsSpan().SequenceEqual(other.pieces);

    public override bool Equals(object? obj) => obj is Way other && Equals(other);

    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach ((int kind, int place) in pieces) hash.Add((kind, place));
        return hash.ToHashCode();
    }
}
