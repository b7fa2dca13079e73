using System.Collections.Immutable;
using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

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
        (GlueCard.Id, GlueCard.Draw),
        ("drill", DrillSheet.Draw),
        ("label", LabelSheet.Draw),
    ];

    /// <summary>The name of the set with which sawing and carving can begin.</summary>
    public const string FirstEvening = "first-evening";

    private static readonly string[] Evening = ["side", "plan", "flats", "gauges", "calipers", GlueCard.Id];

    /// <summary>Every word that <c>--only</c> knows.</summary>
    public static IEnumerable<string> Known => [FirstEvening, ContactSheet.Id, .. All.Select(s => s.Id)];

    /// <summary>Draws the sheets named, or all; a set of several begins with a page that shows them all.</summary>
    public static ImmutableArray<Sheet> Of(LureDesign design, SheetOptions options, IReadOnlyCollection<string> only)
    {
        bool listed = only.Count == 0 || only.Contains(FirstEvening) || only.Contains(ContactSheet.Id);
        var wanted = new HashSet<string>(only.SelectMany(o => o == FirstEvening ? Evening : [o]), StringComparer.Ordinal);
        wanted.Remove(ContactSheet.Id);
        var drafting = new Drafting(design, options);
        Sheet[] sheets = [.. All.Where(s => wanted.Count == 0 || wanted.Contains(s.Id)).Select(s => s.Draw(drafting)).OfType<Sheet>()];
        return listed ? [ContactSheet.Draw(options, sheets), .. only.All(o => o == ContactSheet.Id) && only.Count > 0 ? [] : sheets] : [.. sheets];
    }

    /// <summary>Pockets on the glue faces that would come out of the wood; such sheets must not be cut by.</summary>
    public static IEnumerable<PocketCut> PocketsLeavingTheWood(LureDesign design, IEnumerable<string> only)
    {
        string[] asked = [.. only];
        if (asked.Length > 0 && !asked.Any(a => a is "glue-right" or "glue-left" or "pockets")) return [];
        Body body = design.Body.Surface();
        return GlueFace.Of(design, body).Leaving(design, body);
    }
}
