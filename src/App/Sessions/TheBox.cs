using Trimwright.App.Carried;
using Trimwright.Core.Box;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>What the maker has: their own box, and until they keep one the demo box that lies in the program.</summary>
internal static class TheBox
{
    public static MakersBox Of(Store store) => store.Box()?.Read().Value ?? Starters.Box;
}
