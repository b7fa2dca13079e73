using System.Collections.Immutable;

namespace Trimwright.Core.Box;

public static partial class Catalogue
{
    /// <summary>
    /// Published: air-dry at 12 % moisture, USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), tables 4-3, 5-3
    /// and 5-5: specific gravity at 12 % where tabled, else from the basic one by eqs. 4-13 and 4-14. Typical: middles of
    /// ranges that makers name, and two woods whose basic gravity is from memory.
    /// </summary>
    public static ImmutableArray<BoxWood> Woods =>
    [
        Wood("balsa", 0.184, Source.Typical), Wood("ceiba (kapok)", 0.292), Wood("paulownia (kiri)", 0.292, Source.Typical),
        Wood("northern white-cedar", 0.347), Wood("western redcedar", 0.358), Wood("Atlantic white-cedar", 0.358),
        Wood("basswood, American", 0.414), Wood("quaking aspen", 0.426), Wood("willow, black", 0.437), Wood("jelutong", 0.428),
        Wood("alder, red", 0.459), Wood("yellow-poplar", 0.470), Wood("baldcypress", 0.515), Wood("yellow-cedar", 0.493),
        Wood("Spanish-cedar", 0.491), Wood("Port-Orford-cedar", 0.482), Wood("black ash", 0.549), Wood("paper birch", 0.616),
        Wood("white ash", 0.672), Wood("American beech", 0.717), Wood("black walnut", 0.616), Wood("teak", 0.675),
        // Maples: gravity at 12 % times 1.12.
        Wood("maple, sugar", 0.706), Wood("maple, black", 0.638), Wood("maple, red", 0.605), Wood("maple, bigleaf", 0.538), Wood("maple, silver", 0.526),
        Wood("falcata", 0.30, Source.Typical), Wood("obeche", 0.39, Source.Typical), Wood("hinoki", 0.41, Source.Typical),
        Wood("white pine", 0.42, Source.Typical), Wood("redwood", 0.43, Source.Typical), Wood("spruce", 0.44, Source.Typical),
        Wood("Douglas-fir", 0.53, Source.Typical), Wood("meranti", 0.55, Source.Typical), Wood("cherry", 0.56, Source.Typical),
        Wood("mahogany", 0.57, Source.Typical), Wood("oak", 0.70, Source.Typical),
    ];

    private static BoxWood Wood(string name, double density, Source source = Source.Published) =>
        new() { Id = "wood-" + Slug(name), Name = name, DensityGPerCm3 = density, Source = source };
}
