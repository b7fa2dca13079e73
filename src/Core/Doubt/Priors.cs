using System.Collections.Immutable;

namespace Trimwright.Core.Doubt;

/// <summary>
/// What is believed before anything is measured, one standard deviation each. Common practice, no source, but for what
/// says otherwise; each is a default that a maker's own finished builds replace.
/// </summary>
public sealed record Priors
{
    public static readonly Priors Usual = new();

    /// <summary>By hand to pencil lines and templates: ±0.3 mm all over is 4 cm³ on a 185 mm lure.</summary>
    public double CarvingMeanMm { get; init; } = 0.3;

    /// <summary>At each end, opposite signs.</summary>
    public double CarvingSlopeMm { get; init; } = 0.15;

    public double CarvingEndsMm { get; init; } = 0.15;

    public double CarvingTallMm { get; init; } = 0.15;

    public double CarvingRaisedMm { get; init; } = 0.15;

    public double CarvingLopsidedMm { get; init; } = 0.1;

    /// <summary>Over or under what the maker planned to leave for it.</summary>
    public double SandingMm { get; init; } = 0.04;

    /// <summary>Share; 10 % between boards of one wood.</summary>
    public double WoodDensity { get; init; } = 0.1;

    /// <summary>Share by which the tail end is denser than the middle.</summary>
    public double WoodAlong { get; init; } = 0.01;

    /// <summary>Share by which the right half is denser than the left, by half of it each.</summary>
    public double WoodSides { get; init; } = 0.03;

    public double WoodSidesWeighed { get; init; } = 0.003;

    /// <summary>Share of the wood's weight, between weighing the blank and sealing it: 1 % of moisture is about 1 % of weight.</summary>
    public double Moisture { get; init; } = 0.006;

    public double WireMass { get; init; } = 0.015;

    public double WireHeightMm { get; init; } = 0.4;

    public double GlueLine { get; init; } = 0.3;

    public double Filler { get; init; } = 0.2;

    public double Sealer { get; init; } = 0.3;

    /// <summary>When the design says none soaks in.</summary>
    public double SealerUnplannedG { get; init; } = 0.2;

    public double Eyes { get; init; } = 0.1;

    public double CoatThickness { get; init; } = 0.2;

    /// <summary>Of a weight that is known by its form and density only.</summary>
    public double PieceMass { get; init; } = 0.02;

    /// <summary>g; of a weight whose grams the design states.</summary>
    public double WeighedG { get; init; } = 0.05;

    public double PlaceXMm { get; init; } = 1;

    public double PlaceYMm { get; init; } = 0.3;

    public double PlaceZMm { get; init; } = 0.7;

    /// <summary>Of hooks and rings as makers state them.</summary>
    public double HardwareMass { get; init; } = 0.03;

    /// <summary>Cross-flow drag, a fifth; hooks 30 %, ends 40 %, wake factor 0.7 ± 0.2.</summary>
    public double DragAcross { get; init; } = Sinking.DragModel.AcrossSd;

    public double DragHooks { get; init; } = Sinking.DragModel.HooksSd;

    public double DragEnds { get; init; } = Sinking.DragModel.EndsSd;

    public double Wake { get; init; } = Sinking.DragModel.WakeSd;

    /// <summary>The maker's own habits, in usual standard deviations; what is not among them is usual.</summary>
    public ImmutableDictionary<string, Habit> Habits { get; init; } = ImmutableDictionary<string, Habit>.Empty;

    /// <summary>The design's last weight is one that nobody sees; null: all weights are known.</summary>
    public UnseenPrior? Unseen { get; init; }

    /// <summary>Share of the wood's volume that it swells for a share of weight taken up as moisture, by table-typical shrinkage.</summary>
    public double SwellingPerMoisture { get; init; } = 0.4;
}
