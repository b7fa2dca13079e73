namespace Trimwright.Core.Design;

/// <summary>What a finish is there for.</summary>
public enum FinishUse
{
    /// <summary>A box need not say; a coat of a lure always does.</summary>
    NotSaid,
    Sealer,
    Colour,
    Clear,
    Glue,
}
