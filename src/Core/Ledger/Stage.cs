namespace Trimwright.Core.Ledger;

/// <summary>How far the build is.</summary>
public enum Stage
{
    /// <summary>The two tacked boards, carved.</summary>
    Blank,

    /// <summary>Halves taped, wire and weights in, gaps empty.</summary>
    DryFit,

    /// <summary>Glue line and filler in.</summary>
    Glued,

    /// <summary>Sealer soaked in.</summary>
    Sealed,

    /// <summary>Coats on, eyes mounted.</summary>
    Finished,
}

/// <summary>What hangs on the outside.</summary>
public enum Rig
{
    Bare,

    /// <summary>Lead on thread in place of each chain, with its wet weight.</summary>
    StandIns,

    /// <summary>The design's own hardware and leader.</summary>
    Rigged,
}
