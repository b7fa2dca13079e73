using Trimwright.Core.Telling;
using Trimwright.Workshop;

namespace Trimwright.App.Work;

/// <summary>The units in which a maker thinks, kept in the store: for every page, the phone's too, and for next time.</summary>
internal static class UnitsChoice
{
    private const string Name = "units", InInches = "in", InMillimetres = "mm";

    public static Notation Of(Store store) => new(Inches: store.Setting(Name) == InInches);

    public static void Choose(Store store, bool inches) => store.Choose(Name, inches ? InInches : InMillimetres);
}
