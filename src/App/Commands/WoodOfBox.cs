using System.Globalization;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.App.Commands;

/// <summary>Which wood of the box a lure is cut from: as an option says, else as the lure does.</summary>
internal static class WoodOfBox
{
    /// <param name="design">The lure.</param>
    /// <param name="box">The maker's box; null: none.</param>
    /// <param name="id">What <c>--wood</c> says; null: nothing.</param>
    /// <returns>The lure naming that wood, and a note when the wood that its file names is not in the box.</returns>
    public static (LureDesign Design, IReadOnlyList<Warning> Notes) Chosen(LureDesign design, MakersBox? box, string? id)
    {
        if (id is null)
            return (design, box is not null && design.Wood.BoxId is { } named && box.WoodOf(design) is null
                ? [new Warning("wood.box_id", string.Create(CultureInfo.InvariantCulture,
                    $"{box.Name} has no wood \"{named}\"; the lure's own {design.Wood.DensityGPerCm3} g/cm³ counts"))]
                : []);
        if (box is null) throw Options.Wrong("--wood", $"\"{id}\" without a box", "--wood together with --box", "Name the box that holds the wood: --box NAME.box.json.");
        LureDesign chosen = design with { Wood = design.Wood with { BoxId = id } };
        if (box.WoodOf(chosen) is not null) return (chosen, []);
        throw Options.Wrong("--wood", $"\"{id}\"", box.Woods.IsEmpty ? "nothing: the box has no woods" : string.Join(", ", box.Woods.Select(w => w.Id)),
            Options.Meant(box.Woods.Select(w => w.Id), id) ?? "Name one of the box's woods by its id.");
    }
}
