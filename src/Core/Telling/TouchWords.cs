using Trimwright.Core.Sinking;

namespace Trimwright.Core.Telling;

/// <summary>Small changes in the maker's words.</summary>
public static class TouchWords
{
    /// <summary>"front lead rod 1 mm aft", "treble 4/0 at the tail loop, a size up".</summary>
    public static string Of(Touch touch, Notation notation) => touch.By switch
    {
        TouchBy.Aft => $"{touch.Name} {notation.Length(1)} aft",
        TouchBy.Heavier => $"{touch.Name} {notation.Gram} heavier",
        TouchBy.SizeUp => $"{touch.Name} at the {StrengthWords.Place(touch.Place)}, a size up",
    };
}
