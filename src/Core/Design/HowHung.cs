namespace Trimwright.Core.Design;

/// <summary>How a coat hung while it set. Resin sags: what hung by one end lies thicker towards the other.</summary>
public enum HowHung
{
    /// <summary>By its line tie: it comes out thicker towards the tail.</summary>
    NoseUp,

    /// <summary>By its tail: thicker towards the nose.</summary>
    TailUp,

    /// <summary>The first coat nose up, the next tail up, and so on.</summary>
    AlternateEnds,

    /// <summary>Turned until it set: even.</summary>
    Turner,
}
