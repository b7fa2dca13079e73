using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Core.Finish;

/// <summary>
/// Which thing in the box a design means. A product is only taken by its own name: a ratio guessed from a name that is
/// merely alike would never harden.
/// </summary>
internal static class Products
{
    public static (FinishUse Use, BoxFinish? Product) For(Coat coat, MakersBox? box)
    {
        BoxFinish? product = Named(box?.Finishes ?? [], coat.Name);
        return (product is { Use: not FinishUse.NotSaid } said ? said.Use : coat.Use, product);
    }

    public static BoxFinish? For(FinishUse use, MakersBox? box) => box?.Finishes.FirstOrDefault(f => f.Use == use);

    /// <summary>The wood that a design names by id; else what lies on the shelf under its wood's name, to show: no number comes from that.</summary>
    public static BoxWood? WoodOf(LureDesign design, MakersBox? box) => box?.WoodOf(design) ?? Named(box?.Woods ?? [], design.Wood.Name);

    /// <summary>The item of that name or id, letter case apart; null when there is none.</summary>
    public static T? Named<T>(IEnumerable<T> items, string? name)
        where T : BoxItem => name is null ? null : items.FirstOrDefault(i => Same(i.Name, name) || Same(i.Id, name));

    private static bool Same(string a, string b) => string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);
}
