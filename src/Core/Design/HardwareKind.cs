namespace Trimwright.Core.Design;

/// <summary>What a piece of hardware is. Rules go by this, never by its name, which is the maker's own.</summary>
public enum HardwareKind
{
    SplitRing,
    SolidRing,
    Swivel,
    Treble,
    Single,
    Snap,
    Other,
}

/// <summary>What can be asked of a kind.</summary>
public static class HardwareKinds
{
    /// <summary>It has points.</summary>
    public static bool IsHook(this HardwareKind kind) => kind is HardwareKind.Treble or HardwareKind.Single;

    public static bool IsRing(this HardwareKind kind) => kind is HardwareKind.SplitRing or HardwareKind.SolidRing;
}
