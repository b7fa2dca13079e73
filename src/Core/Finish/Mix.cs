using Trimwright.Core.Box;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Finish;

/// <summary>Two parts as they are measured out, in ml or in g.</summary>
/// <param name="Resin">ml or g.</param>
/// <param name="Hardener">ml or g.</param>
/// <param name="OffRatio">By how much the ratio of the two is off, as a fraction: what whole marks or digits can't give.</param>
public sealed record Portions(double Resin, double Hardener, double OffRatio)
{
    public double Total => Resin + Hardener;

    // A ratio off by more than this is worth a larger mix; no mix grows by more than this for it.
    private const double GoodRatio = 0.01;
    private const double MostGrowth = 1.25;

    /// <summary>The smallest measurable portions of at least this much whose ratio holds; else the best ratio of those near.</summary>
    /// <param name="total">What is needed, ml or g.</param>
    /// <param name="ratio">Resin over hardener.</param>
    /// <param name="step">The finest mark of the syringe or digit of the scale, ml or g.</param>
    public static Portions Of(double total, double ratio, double step)
    {
        Portions? best = null;
        for (double hardener = Math.Max(1, Math.Ceiling(total / (1 + ratio) / step - 1e-9)); ; hardener++)
        {
            double resin = Math.Max(1, Math.Round(hardener * ratio));
            // Resin rounded down may fall a hair short of the total; the next mark makes it up.
            var portions = new Portions(resin * step, hardener * step, Math.Abs(resin / hardener / ratio - 1));
            if (portions.Total < total - 1e-9) continue;
            if (portions.OffRatio <= GoodRatio) return portions;
            if (best is not null && portions.Total > MostGrowth * total) return best;
            if (best is null || portions.OffRatio < best.OffRatio) best = portions;
        }
    }
}

/// <summary>
/// How much of a liquid a film takes. Of what is mixed a part goes on, a part stays in brush, pot and cup, a part is left
/// over when the cup holds more than it need, and the solvent of all three leaves: mixed × solids = film + lost + left over.
/// </summary>
public sealed record Mix
{
    /// <summary>The product; null: nobody's box names it.</summary>
    public BoxFinish? Product { get; init; }

    /// <summary>Weight of the dry film, g.</summary>
    public required double FilmG { get; init; }

    /// <summary>Share by weight that stays when dry.</summary>
    public required double Solids { get; init; }

    /// <summary>What stays behind, as a share of what goes on.</summary>
    public required double Losses { get; init; }

    /// <summary>The least that is mixed, g.</summary>
    public required double PotMinimumG { get; init; }

    /// <summary>Liquid to measure out, g: for film and losses, and no less than the pot's least.</summary>
    public double MixedG => Math.Max(NeededG, PotMinimumG);

    /// <summary>Liquid that goes on and stays behind, g.</summary>
    public double NeededG => OnG + LostG;

    /// <summary>Liquid that goes on, g.</summary>
    public double OnG => FilmG / Solids;

    /// <summary>Liquid that stays in brush, pot and cup, g.</summary>
    public double LostG => Losses * OnG;

    /// <summary>Liquid over, g: spread it out flat, a full cup heats up.</summary>
    public double LeftOverG => MixedG - NeededG;

    /// <summary>Null: nothing to mix, or nobody knows how.</summary>
    public MixRatio? Ratio => Product is null ? null : MixRatio.Of(Product);

    /// <summary>In syringe marks, ml; null without a ratio by volume.</summary>
    public Portions? Syringes(double stepMl) => Ratio is { ByVolume: { } ratio, Density: var density }
        ? Portions.Of(MixedG / Units.ToGramsPerCm3(density), ratio, stepMl)
        : null;

    /// <summary>On a scale, g; null without a ratio by weight.</summary>
    public Portions? Weighed(double resolutionG) => Ratio is { ByWeight: { } ratio } ? Portions.Of(MixedG, ratio, resolutionG) : null;

    // A two-part mix of a product that nobody describes: common practice, no source.
    private const double UsualPotMinimum = 10;

    /// <summary>For a dry film of this weight, g.</summary>
    public static Mix Of(double filmG, BoxFinish? product) => new()
    {
        Product = product,
        FilmG = filmG,
        Solids = product?.Solids ?? 1,
        Losses = product?.Losses ?? BoxFinish.UsualLosses,
        PotMinimumG = product is null ? 0 : product.PotMinimumG ?? (MixRatio.Of(product) is null ? 0 : UsualPotMinimum),
    };
}
