using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Drawing.Sheets;

/// <summary>All sheets of a lure, in the order of the work.</summary>
public static class SheetSet
{
    private static readonly (string Id, Func<Drafting, Sheet?> Draw)[] All =
    [
        ("side", OutlineSheets.SideOutline),
        ("plan", OutlineSheets.PlanOutline),
        ("flats", FlatsSheet.Draw),
        ("gauges", GaugeSheet.Draw),
        ("glue-right", GlueFaceSheets.Right),
        ("glue-left", GlueFaceSheets.Left),
        ("wire", WireSheet.Draw),
        ("pockets", TableSheets.Pockets),
        ("face", FaceSheet.Draw),
        ("calipers", TableSheets.Calipers),
        ("stand-ins", TableSheets.StandIns),
        ("label", LabelSheet.Draw),
    ];

    /// <summary>The name of the set with which sawing and carving can begin.</summary>
    public const string FirstEvening = "first-evening";

    private static readonly string[] Evening = ["side", "plan", "flats", "gauges"];

    /// <summary>Every word that <c>--only</c> knows.</summary>
    public static IEnumerable<string> Known => [FirstEvening, .. All.Select(s => s.Id)];

    /// <summary>Draws the sheets named, or all.</summary>
    public static ImmutableArray<Sheet> Of(LureDesign design, SheetOptions options, IReadOnlyCollection<string> only)
    {
        var wanted = new HashSet<string>(only.SelectMany(o => o == FirstEvening ? Evening : [o]), StringComparer.Ordinal);
        var drafting = new Drafting(design, options);
        return [.. All.Where(s => wanted.Count == 0 || wanted.Contains(s.Id)).Select(s => s.Draw(drafting)).OfType<Sheet>()];
    }
}
