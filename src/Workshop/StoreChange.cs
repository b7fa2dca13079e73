namespace Trimwright.Workshop;

/// <summary>What a change in the store was of.</summary>
public enum ChangeOf
{
    /// <summary>A revision of a lure: owner is the lure, n the revision.</summary>
    Lure,

    /// <summary>A lure was put away or taken out again.</summary>
    Shelf,

    /// <summary>A revision of the box.</summary>
    Box,

    /// <summary>A batch was begun: owner is the lure, n the batch.</summary>
    Batch,

    /// <summary>A build was begun: owner is the lure, n the build.</summary>
    Build,

    /// <summary>An entry in a log: owner is the build, n the entry.</summary>
    Log,

    /// <summary>A photo came, was laid elsewhere, or was taken away: owner is the lure.</summary>
    Photo,

    /// <summary>The maker chose something for the page.</summary>
    Setting,

    /// <summary>Another store was restored in this one's place: read everything anew.</summary>
    Everything,
}

/// <summary>Something that was committed to the store, by us or by another process.</summary>
public readonly record struct StoreChange(ChangeOf Of, long Owner, int N);
