using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What other hooks, water and leader make of a glued lure, and what is left to do to it.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="Box">Name of the maker's box; null when it was done with usual things.</param>
/// <param name="Swaps">Every hook set in every water under every leader.</param>
/// <param name="AsItIs">What remedies are held against: its own hooks, the water asked for, a slack leader.</param>
/// <param name="Remedies">What can still be done.</param>
/// <param name="Cautions">What to take care of.</param>
/// <param name="Warnings">Of both files.</param>
[Answer("swap")]
internal sealed record SwapJson(
    string Name, string? Box, ImmutableArray<SwapRowJson> Swaps, AsItIsJson AsItIs, ImmutableArray<RemedyJson> Remedies, ImmutableArray<string> Cautions,
    ImmutableArray<WarningJson> Warnings)
{
    public static SwapJson Of(SwapAnswer answer) => new(
        answer.Design.Name, answer.IsOwnBox ? answer.Box.Name : null, [.. answer.Rows.Select(row => new SwapRowJson(row, answer))],
        new(answer.AsItIs), [.. answer.Remedies.Select(remedy => new RemedyJson(remedy))],
        answer.Box.NoLead ? [SwapWords.DrillCaution] : [SwapWords.DrillCaution, SwapWords.LeadCaution], WarningJson.Of(answer.Warnings));
}

/// <summary>What a lure does, finished and rigged.</summary>
/// <param name="Does">In a few words.</param>
/// <param name="Verdict">What it does when it is let go.</param>
/// <param name="WeightG">What a scale reads, g; the leader is not included.</param>
/// <param name="SpareBuoyancyG">g to spare; negative when it sinks.</param>
/// <param name="Posture">How it lies; of a lure that sinks, how it hangs at rest under water.</param>
/// <param name="Sink">How it falls; null when it floats.</param>
internal abstract record OutcomeJson(
    string Does, [WordOf<Verdict>] string Verdict, Rounded WeightG, Rounded SpareBuoyancyG, PostureJson Posture, IDropJson? Sink)
{
    protected OutcomeJson(Prediction p)
        : this(SwapWords.Does(p, Notation.Metric), AnswerWords.Of(p.Verdict), p.Ledger.Weight, p.SpareBuoyancy, new(p.Posture), IDropJson.Of(p.Descent))
    {
    }
}

/// <summary>How a lure falls.</summary>
[JsonDerivedType(typeof(SteadyDropJson))]
[JsonDerivedType(typeof(UnsteadyDropJson))]
internal interface IDropJson
{
    public static IDropJson? Of(Descent? descent) =>
        descent is null ? null : descent.First is { } fall ? new SteadyDropJson(fall) : new UnsteadyDropJson(false);
}

/// <summary>It falls steadily: the way that it comes to first.</summary>
internal sealed record SteadyDropJson : FallJson, IDropJson
{
    public SteadyDropJson(Fall fall)
        : base(fall)
    {
    }

    /// <summary>True: there is a steady fall.</summary>
    [JsonPropertyOrder(1)]
    public bool Steady => true;
}

/// <summary>It does not fall steadily.</summary>
/// <param name="Steady">False: no steady fall holds.</param>
internal sealed record UnsteadyDropJson(bool Steady) : IDropJson;

/// <summary>The lure as it is, in one water.</summary>
internal sealed record AsItIsJson : OutcomeJson
{
    public AsItIsJson(Prediction p)
        : base(p) => Water = WaterJson.Of(p.Circumstances.Water);

    /// <summary>The water.</summary>
    [JsonPropertyOrder(-1)]
    public WaterJson Water { get; }
}

/// <summary>One hook set in one water under one leader.</summary>
internal sealed record SwapRowJson : OutcomeJson
{
    public SwapRowJson(SwapRow row, SwapAnswer answer)
        : base(row.Prediction)
    {
        Hooks = HookSetJson.Of(row.Case.Hooks, answer);
        WaterName = row.Case.WaterName;
        Water = WaterJson.Of(row.Case.Water);
        Leader = LeaderJson.Of(row.Case.Leader);
        Change = ChangeJson.Of(row.Effect);
    }

    /// <summary>What hangs on it.</summary>
    [JsonPropertyOrder(-1)]
    public HookSetJson Hooks { get; }

    /// <summary>tap, lake, brackish, ocean or reef.</summary>
    [JsonPropertyOrder(-1)]
    public string WaterName { get; }

    /// <summary>The water.</summary>
    [JsonPropertyOrder(-1)]
    public WaterJson Water { get; }

    /// <summary>The leader that it carries at rest; null: slack, so that it carries none.</summary>
    [JsonPropertyOrder(-1)]
    public LeaderJson? Leader { get; }

    /// <summary>Against its own hooks and a slack leader in the same water.</summary>
    [JsonPropertyOrder(1)]
    public ChangeJson Change { get; }
}

/// <summary>A set of hooks.</summary>
/// <param name="Change">How it differs from the lure's own.</param>
/// <param name="At">The places where it does; empty for its own.</param>
/// <param name="Set">Every hook of the set.</param>
/// <param name="Reach">Sentences on what these hooks reach and its own do not.</param>
internal sealed record HookSetJson([WordOf<HookChange>] string Change, ImmutableArray<string> At, ImmutableArray<HookJson> Set, ImmutableArray<string> Reach)
{
    public static HookSetJson Of(HookSet hooks, SwapAnswer answer) => new(
        AnswerWords.Of(hooks.Change), hooks.Changed, [.. hooks.Hooks.Select(HookJson.Of)],
        answer.Reach.GetValueOrDefault(hooks) is { } reach ? [.. StrengthWords.Of(reach, Notation.Metric)] : []);
}

/// <summary>A hook at its place.</summary>
/// <param name="HangsFrom">line_tie, a hanger's name or tail_loop.</param>
/// <param name="Hook">Its name; null: none.</param>
internal sealed record HookJson(string HangsFrom, string? Hook)
{
    public static HookJson Of(HookAt at) => new(at.Place, at.Hook);
}

/// <summary>A leader, hanging from the line tie.</summary>
/// <param name="Name">Of what it is.</param>
/// <param name="DiameterMm">mm.</param>
/// <param name="DensityGCm3">g/cm³.</param>
/// <param name="CarriedMm">How much of it the lure carries at rest, mm.</param>
internal sealed record LeaderJson(string Name, Rounded DiameterMm, Rounded DensityGCm3, Rounded CarriedMm)
{
    public static LeaderJson? Of(LeaderChoice choice) =>
        choice is { Name: { } name, Leader: { } leader } ? new(name, leader.DiameterMm, leader.DensityGPerCm3, leader.CarriedMm) : null;
}

/// <summary>What a change does to a lure.</summary>
/// <param name="WeightG">By how much more a scale reads, g.</param>
/// <param name="SpareBuoyancyG">By how much more it has to spare, g.</param>
/// <param name="TrimDeg">By how much more tail down, degrees: of the posture when both float, of the fall when both fall steadily; else null.</param>
/// <param name="RestTrimDeg">By how much more tail down at rest, degrees, both floating or both sunk; else null.</param>
/// <param name="RateMmS">By how much it falls faster, mm/s, where both fall steadily; else null.</param>
/// <param name="Text">The same in words.</param>
/// <param name="Plainly">What it has become, where it is no longer the same kind of lure; else null.</param>
internal sealed record ChangeJson(
    Rounded WeightG, Rounded SpareBuoyancyG, Rounded? TrimDeg, Rounded? RestTrimDeg, Rounded? RateMmS, string Text, string? Plainly)
{
    public static ChangeJson Of(SwapEffect effect) => new(
        effect.Weight, effect.Spare, effect.Trim is { } trim ? Units.ToDegrees(trim) : null, effect.RestTrim is { } rest ? Units.ToDegrees(rest) : null,
        effect.Rate is { } rate ? 1000 * rate : null, SwapWords.Change(effect, Notation.Metric), SwapWords.Plainly(effect.Turned));
}

/// <summary>Something that can still be done to a glued lure.</summary>
internal sealed record RemedyJson : OutcomeJson
{
    public RemedyJson(RemedyEffect effect)
        : base(effect.Prediction)
    {
        Remedy remedy = effect.Remedy;
        Kind = AnswerWords.Of(remedy.Kind);
        Text = SwapWords.Of(remedy, Notation.Metric);
        HangsFrom = remedy.Place;
        Item = remedy.Item;
        InsteadOf = remedy.Instead;
        ItemG = remedy.Grams;
        Turns = remedy.Kind == RemedyKind.ShankWire ? remedy.Turns : null;
        BreaksSeal = remedy.BreaksSeal;
        Hole = HoleJson.Of(remedy);
        Change = ChangeJson.Of(effect.Effect);
        GoodFor = GoodForJson.Of(effect);
    }

    /// <summary>What kind of thing is done.</summary>
    [JsonPropertyOrder(-1)]
    [WordOf<RemedyKind>]
    public string Kind { get; }

    /// <summary>What is done, in words.</summary>
    [JsonPropertyOrder(-1)]
    public string Text { get; }

    /// <summary>line_tie, a hanger's name or tail_loop; null for a hole.</summary>
    [JsonPropertyOrder(-1)]
    public string? HangsFrom { get; }

    /// <summary>Name of what is put on or in; the hook's, where one is taken off.</summary>
    [JsonPropertyOrder(-1)]
    public string Item { get; }

    /// <summary>Name of what it takes the place of; null: of nothing.</summary>
    [JsonPropertyOrder(-1)]
    public string? InsteadOf { get; }

    /// <summary>What the thing itself weighs, g.</summary>
    [JsonPropertyOrder(-1)]
    public Rounded ItemG { get; }

    /// <summary>Turns of wire; only where wire is wound on a shank.</summary>
    [JsonPropertyOrder(-1)]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? Turns { get; }

    /// <summary>It goes through sealer and coats, and must be sealed again.</summary>
    [JsonPropertyOrder(-1)]
    public bool BreaksSeal { get; }

    /// <summary>The hole to drill; null where none is.</summary>
    [JsonPropertyOrder(-1)]
    public HoleJson? Hole { get; }

    /// <summary>Against the lure as it is.</summary>
    [JsonPropertyOrder(1)]
    public ChangeJson Change { get; }

    /// <summary>What it is good for.</summary>
    [JsonPropertyOrder(1)]
    public GoodForJson GoodFor { get; }
}

/// <summary>A hole that misses wire, hangers and weights.</summary>
/// <param name="From">The side that the drill enters.</param>
/// <param name="AtMm">Where its axis meets the skin.</param>
/// <param name="Into">Direction of the drill, of length 1.</param>
/// <param name="DiameterMm">mm.</param>
/// <param name="DepthMm">How deep to drill, mm.</param>
/// <param name="DeepestMm">The deepest that is safe, mm.</param>
/// <param name="FillingMm">Length of what goes in, mm.</param>
/// <param name="StopperMm">Length of the stopper that closes it, mm.</param>
/// <param name="NextIs">What the drill would meet next: a thing's name, or skin.</param>
internal sealed record HoleJson(
    [WordOf<DrilledFrom>] string From, Point AtMm, Point Into, Rounded DiameterMm, Rounded DepthMm, Rounded DeepestMm, Rounded FillingMm, Rounded StopperMm,
    string NextIs)
{
    public static HoleJson? Of(Remedy remedy) => remedy.Spot is not { } spot ? null : new(
        AnswerWords.Of(spot.From), spot.Mouth, spot.Into, spot.Bit.Diameter, remedy.DrillDepth, spot.Depth, remedy.Filling!.LengthMm,
        spot.FillingFrom - spot.Rim, spot.StoppedBy ?? "skin");
}

/// <summary>How purely a remedy does what is wanted of it, 0 to 1; 0 when it does too little of that, or the opposite.</summary>
/// <param name="Lighter">To make it lighter in the water.</param>
/// <param name="Heavier">To make it heavier in the water.</param>
/// <param name="NoseUp">To bring the nose up.</param>
/// <param name="NoseDown">To bring the nose down.</param>
internal sealed record GoodForJson(Rounded Lighter, Rounded Heavier, Rounded NoseUp, Rounded NoseDown)
{
    public static GoodForJson Of(RemedyEffect effect) =>
        new(effect.For(RemedyUse.Lighter), effect.For(RemedyUse.Heavier), effect.For(RemedyUse.NoseUp), effect.For(RemedyUse.NoseDown));
}
