using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>What a maker chose once, kept in the store: for every page, the phone's too, and for next time.</summary>
/// <param name="Notation">The units in which they think.</param>
/// <param name="Nose">To which side they draw the nose.</param>
internal sealed record Choices(Notation Notation, Nose Nose)
{
    private const string Units = "units", InInches = "in", InMillimetres = "mm", Pointing = "nose", ToTheRight = "right", ToTheLeft = "left";

    public static readonly Choices Usual = new(Notation.Metric, Nose.Left);

    public static Choices Of(Store store) =>
        new(new Notation(Inches: store.Setting(Units) == InInches), store.Setting(Pointing) == ToTheRight ? Nose.Right : Nose.Left);

    // Each by itself: two tabs may choose at once.
    public static void Choose(Store store, bool inches) => store.Choose(Units, inches ? InInches : InMillimetres);

    public static void Choose(Store store, Nose nose) => store.Choose(Pointing, nose == Nose.Right ? ToTheRight : ToTheLeft);
}
