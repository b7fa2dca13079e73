using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Finish;

/// <summary>What amounts are counted in.</summary>
public enum Counted
{
    Pieces,
    Boards,
    Millimetres,
    Grams,
}

/// <summary>One thing that the build takes.</summary>
/// <param name="Name">As the design calls it.</param>
/// <param name="In">What the amounts are in.</param>
/// <param name="Needed">How much it takes.</param>
/// <param name="There">How much the box has; null: plenty, or not said.</param>
/// <param name="Item">The box's own item; null: the box names none such.</param>
/// <param name="Cost">In the box's currency, of what is used; null: no price is known.</param>
public sealed record Need(string Name, Counted In, double Needed, double? There, BoxItem? Item, double? Cost)
{
    /// <summary>How much is to be bought; what the box does not name is bought whole.</summary>
    public double ToBuy => Item is null ? Needed : Math.Max(0, Needed - (There ?? Needed));
}

/// <summary>What it takes, and what that costs as far as the box knows prices.</summary>
/// <param name="Needs">One line for each thing.</param>
/// <param name="Materials">Sum of the known costs; null: no price is known.</param>
/// <param name="Labour">Hours of work at the maker's rate; null: no rate is known.</param>
/// <param name="Currency">The maker's own word.</param>
public sealed record ShoppingList(ImmutableArray<Need> Needs, double? Materials, double? Labour, string? Currency)
{
    /// <summary>How many needs have no price.</summary>
    public int Unpriced => Needs.Count(n => n.Cost is null);

    /// <summary>For a plan's steps.</summary>
    public static ShoppingList Of(LureDesign design, MakersBox? box, ImmutableArray<BuildStep> steps)
    {
        ImmutableArray<Need> needs =
        [
            .. steps.OfType<BoardsStep>().Select(s => Boards(s.Boards, design, box)),
            .. steps.OfType<WireStep>().Select(s => OfWire(s, box)),
            .. design.Ballast.GroupBy(p => (p.Form, p.DiameterMm, p.LengthMm, p.WidthMm, p.ThicknessMm, p.BoreMm, p.Mass)).Select(g => Weights([.. g], box)),
            .. Eyes(design),
            .. Liquids(steps),
            .. design.Hardware.GroupBy(h => h.Name).Select(g => Hardware(g.Key, g.Count(), box)),
        ];
        double?[] known = [.. needs.Select(n => n.Cost).Where(c => c is not null)];
        double hours = steps.Aggregate(0.0, (sum, s) => sum + s.Hands.TotalHours);
        return new(needs, known.Length > 0 ? known.Sum() : null, box?.LabourPerHour * hours, box?.Currency);
    }

    private static Need Boards(BoardPlan plan, LureDesign design, MakersBox? box)
    {
        BoxWood? wood = Products.WoodOf(design, box);
        int boards = plan.Pair.Length > 0 ? plan.Pair.Length : plan.Pieces;
        double? there = wood is null ? null : plan.Pair.Length;
        return new(design.Wood.Name ?? "wood", Counted.Boards, boards, there, wood, wood?.Price * boards);
    }

    private static Need OfWire(WireStep step, MakersBox? box)
    {
        BoxWire? wire = box?.Wires.FirstOrDefault(w => w.DiameterMm == step.Wire.DiameterMm && w.Grade == step.Wire.Grade);
        return new($"{step.Wire.Grade} wire".TrimStart(), Counted.Millimetres, step.Cut, wire?.LengthMm, wire, wire?.Price * step.Cut / 1000);
    }

    private static Need Weights(ImmutableArray<BallastPiece> pieces, MakersBox? box)
    {
        BallastPiece piece = pieces[0];
        if (box?.Weights.FirstOrDefault(w => IsPiece(w, piece)) is { } weight)
            return new(piece.Name, Counted.Pieces, pieces.Length, weight.Count, weight, weight.Price * pieces.Length);
        bool bar = piece.Form.IsBar && piece.BoreMm == 0;
        if (bar && box?.Stock.FirstOrDefault(s => s.Kind != StockKind.Sheet && s.DiameterMm == piece.DiameterMm && IsStuff(s.Density.Value, piece)) is { } stock)
        {
            double length = pieces.Sum(p => p.LengthMm);
            return new($"{stock.Name} for {string.Join(", ", pieces.Select(p => p.Name))}", Counted.Millimetres, length, stock.LengthMm, stock, stock.Price * length / 1000);
        }
        return new(piece.Name, Counted.Pieces, pieces.Length, null, null, null);
    }

    // By its name, or by form and sizes within what a caliper and a scale tell.
    private static bool IsPiece(BoxWeight weight, BallastPiece piece) =>
        string.Equals(weight.Name, piece.Name, StringComparison.OrdinalIgnoreCase)
        || (weight.Kind == piece.Form && Near(weight.DiameterMm, piece.DiameterMm) && Near(weight.LengthMm, piece.LengthMm) && Near(weight.WidthMm, piece.WidthMm)
            && Near(weight.ThicknessMm, piece.ThicknessMm) && weight.BoreMm > 0 == piece.BoreMm > 0 && Math.Abs(weight.Mass.Value / piece.Mass - 1) < 0.03);

    private static bool Near(double? a, double b) => Math.Abs((a ?? 0) - b) < 0.05;

    private static bool IsStuff(double density, BallastPiece piece) => piece.DensityGPerCm3 is { } own && Math.Abs(density / own - 1) < 0.03;

    private static IEnumerable<Need> Eyes(LureDesign design)
    {
        if (design.Eyes is not null) yield return new("eyes", Counted.Pieces, 2, null, null, null);
    }

    private static IEnumerable<Need> Liquids(ImmutableArray<BuildStep> steps)
    {
        (string Name, Mix Mix)[] all =
        [
            .. steps.OfType<GlueStep>().Select(s => ("slow glue for the joint", s.Mix)),
            .. steps.OfType<SealStep>().Where(s => s.Mix is not null).Select(s => ("sealer", s.Mix!)),
            .. steps.OfType<CoatStep>().Select(s => (s.Film.Name, s.Mix)),
        ];
        foreach (IGrouping<string, (string Name, Mix Mix)> group in all.GroupBy(a => a.Mix.Product?.Name ?? a.Name))
        {
            double grams = group.Sum(g => g.Mix.MixedG);
            BoxFinish? product = group.First().Mix.Product;
            yield return new(group.Key, Counted.Grams, grams, null, product, product?.Price * grams / 100);
        }
    }

    private static Need Hardware(string name, int count, MakersBox? box)
    {
        BoxHardware? item = box is null ? null : Products.Named<BoxHardware>([.. box.Hooks, .. box.Rings, .. box.Swivels], name);
        return new(name, Counted.Pieces, count, item?.Count, item, item?.Price * count);
    }
}
