using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Trimwright.App.Work;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>The steps from boards to fishing, with amounts, weights to expect and dates.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="Start">When the first step begins; null: hours are counted.</param>
/// <param name="TemperatureC">In the shop, °C.</param>
/// <param name="HumidityPct">In the shop, %; null when it was not given.</param>
/// <param name="DewPointC">Of the shop's air, °C; null without humidity.</param>
/// <param name="TooDamp">Too near the dew point for a finish.</param>
/// <param name="Pockets">"before" carving, in the square boards, or "after" it.</param>
/// <param name="HandsOnH">Hours of work.</param>
/// <param name="LastsH">Hours from the first step to the last.</param>
/// <param name="Steps">In their order.</param>
/// <param name="Shopping">What it takes, what there is, what it costs.</param>
/// <param name="Caution">What goes before anything said here.</param>
/// <param name="Warnings">Of lure and box.</param>
[Answer("buildplan")]
internal sealed record BuildPlanJson(
    string Name, Moment? Start, Rounded TemperatureC, Rounded? HumidityPct, Rounded? DewPointC, bool TooDamp, string Pockets, Rounded HandsOnH, Rounded LastsH,
    ImmutableArray<StepJson> Steps, ShoppingJson Shopping, string Caution, ImmutableArray<WarningJson> Warnings)
{
    public static BuildPlanJson Of(BuildPlanAnswer answer)
    {
        BuildPlan plan = answer.Plan;
        var words = new BuildWords(plan, answer.Notation);
        return new(
            plan.Design.Name, Moment.Of(plan.Conditions.Start), plan.Conditions.TemperatureC, 100 * plan.Conditions.Humidity, plan.Dew, plan.IsTooDamp,
            plan.Conditions.PocketsBefore ? "before" : "after", plan.Hands.TotalHours, plan.Lasts.TotalHours,
            [.. plan.Steps.Select((step, i) => StepJson.Of(i + 1, step, plan, words.Of(step)))], ShoppingJson.Of(plan.Shopping), CautionWords.Last,
            WarningJson.Of(answer.Warnings));
    }
}

/// <summary>One step.</summary>
[JsonDerivedType(typeof(PlainStepJson))]
[JsonDerivedType(typeof(CoatStepJson))]
internal abstract record StepJson
{
    protected StepJson(int number, BuildStep step, BuildPlan plan, ToldStep told)
    {
        Number = number;
        Kind = JsonNamingPolicy.SnakeCaseLower.ConvertName(step.GetType().Name[..^"Step".Length]);
        Phase = AnswerWords.Of(step.Phase);
        Title = told.Title;
        FromH = step.Visit.From.TotalHours;
        ToH = step.Visit.To.TotalHours;
        From = Moment.Of(plan.Conditions.Start + step.Visit.From);
        To = Moment.Of(plan.Conditions.Start + step.Visit.To);
        Mix = MixJson.Of(step, plan);
        Weigh = [.. step.Weighings.Select(WeighJson.Of)];
        Do = Plain(told.Do);
        Ticks = Plain(told.Ticks);
        Cautions = [.. step.Cautions.Select(caution => AnswerWords.Of(caution))];
    }

    /// <summary>From 1.</summary>
    public int Number { get; }

    /// <summary>What is done, in one word: boards, pockets, tack, saw, coat, cure, fish …</summary>
    public string Kind { get; }

    /// <summary>Which part of the build it belongs to.</summary>
    [WordOf<Phase>]
    public string Phase { get; }

    /// <summary>What is done, in a few words.</summary>
    public string Title { get; }

    /// <summary>Hands on, hours from the start.</summary>
    public Rounded FromH { get; }

    /// <summary>Hands off, hours from the start.</summary>
    public Rounded ToH { get; }

    /// <summary>Hands on; null without a start.</summary>
    public Moment? From { get; }

    /// <summary>Hands off; null without a start.</summary>
    public Moment? To { get; }

    /// <summary>What to mix; only where something is.</summary>
    [JsonPropertyOrder(2)]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public MixJson? Mix { get; }

    /// <summary>What to weigh at its end, and what to expect.</summary>
    [JsonPropertyOrder(2)]
    public ImmutableArray<WeighJson> Weigh { get; }

    /// <summary>Sentences, in the order of work.</summary>
    [JsonPropertyOrder(2)]
    public ImmutableArray<string> Do { get; }

    /// <summary>What is ticked off before going on.</summary>
    [JsonPropertyOrder(2)]
    public ImmutableArray<string> Ticks { get; }

    /// <summary>What can hurt.</summary>
    [JsonPropertyOrder(2)]
    [WordOf<Caution>]
    public ImmutableArray<string> Cautions { get; }

    public static StepJson Of(int number, BuildStep step, BuildPlan plan, ToldStep told) =>
        step is CoatStep coat ? new CoatStepJson(number, coat, plan, told) : new PlainStepJson(number, step, plan, told);

    // What keeps a number and its unit on one line is of no use to a program.
    private static ImmutableArray<string> Plain(IEnumerable<string> lines) => [.. lines.Select(line => line.Replace('\u00A0', ' '))];
}

/// <summary>Any step but a coat.</summary>
internal sealed record PlainStepJson : StepJson
{
    public PlainStepJson(int number, BuildStep step, BuildPlan plan, ToldStep told)
        : base(number, step, plan, told)
    {
    }
}

/// <summary>A coat goes on.</summary>
internal sealed record CoatStepJson : StepJson
{
    public CoatStepJson(int number, CoatStep coat, BuildPlan plan, ToldStep told)
        : base(number, coat, plan, told)
    {
        WindowOpensH = coat.Visit.Opens?.TotalHours;
        WindowClosesH = coat.Visit.Closes?.TotalHours;
        SandFirst = coat.SandFirst;
        DryMm = coat.Film.Thickness;
        AreaCm2 = coat.Film.Area / 100;
        DryG = coat.Film.Mass;
    }

    /// <summary>The earliest that it can go on, hours from the start; null: any time.</summary>
    [JsonPropertyOrder(1)]
    public Rounded? WindowOpensH { get; }

    /// <summary>The latest that it may go on unsanded, hours from the start; null: it doesn't matter.</summary>
    [JsonPropertyOrder(1)]
    public Rounded? WindowClosesH { get; }

    /// <summary>The coat under it is past its window and is sanded first.</summary>
    [JsonPropertyOrder(1)]
    public bool SandFirst { get; }

    /// <summary>Thickness of the dry film, mm.</summary>
    [JsonPropertyOrder(1)]
    public Rounded DryMm { get; }

    /// <summary>Its area, cm².</summary>
    [JsonPropertyOrder(1)]
    public Rounded AreaCm2 { get; }

    /// <summary>What the dry film weighs, g.</summary>
    [JsonPropertyOrder(1)]
    public Rounded DryG { get; }
}

/// <summary>How much of a liquid to mix.</summary>
/// <param name="Product">Its id in the box; null: nobody's box names it.</param>
/// <param name="MixedG">To measure out, g.</param>
/// <param name="OnG">Of that goes on, g.</param>
/// <param name="LostG">Stays in brush, pot and cup, g.</param>
/// <param name="LeftOverG">Is left over, g: spread it out flat, a full cup heats up.</param>
/// <param name="DryG">What the dry film weighs, g.</param>
/// <param name="Solids">Share by weight that stays when dry.</param>
/// <param name="SyringesMl">In syringe marks, ml; null without a ratio by volume.</param>
/// <param name="ScaleG">On a scale, g; null without a ratio by weight.</param>
internal sealed record MixJson(
    string? Product, Rounded MixedG, Rounded OnG, Rounded LostG, Rounded LeftOverG, Rounded DryG, Rounded Solids, PortionsJson? SyringesMl, PortionsJson? ScaleG)
{
    public static MixJson? Of(BuildStep step, BuildPlan plan)
    {
        Mix? mix = step switch
        {
            CoatStep coat => coat.Mix,
            GlueStep glue => glue.Mix,
            SealStep seal => seal.Mix,
            _ => null,
        };
        return mix is null ? null : new(
            mix.Product?.Id, mix.MixedG, mix.OnG, mix.LostG, mix.LeftOverG, mix.FilmG, mix.Solids, PortionsJson.Of(mix.Syringes(plan.SyringeStepMl)),
            PortionsJson.Of(mix.Weighed(plan.ResinDigitG(mix.MixedG))));
    }
}

/// <summary>The two parts of a mix, in the unit that the key names.</summary>
/// <param name="Resin">Of the resin.</param>
/// <param name="Hardener">Of the hardener.</param>
internal sealed record PortionsJson(Rounded Resin, Rounded Hardener)
{
    public static PortionsJson? Of(Portions? portions) => portions is null ? null : new(portions.Resin, portions.Hardener);
}

/// <summary>A weigh point.</summary>
/// <param name="What">What is weighed.</param>
/// <param name="Name">Which of them; empty where there is one only.</param>
/// <param name="ExpectedG">What the scale reads, g.</param>
/// <param name="GainG">By how much more than at the weigh point before, g; null where that says nothing.</param>
/// <param name="Scale">Id of the finest scale of the box that bears it; null: no box, or none does.</param>
internal sealed record WeighJson([WordOf<WeighPoint>] string What, string Name, Rounded ExpectedG, Rounded? GainG, string? Scale)
{
    public static WeighJson Of(Weighing weighing) =>
        new(AnswerWords.Of(weighing.Point), weighing.Name, weighing.Expected, weighing.Gain, weighing.Scale?.Id);
}

/// <summary>What a build takes, and what it costs.</summary>
/// <param name="Needs">One line for each thing.</param>
/// <param name="Currency">The maker's own word; null: the box names none.</param>
/// <param name="Materials">Sum of the known costs; null: no price is known.</param>
/// <param name="Labour">Hours of work at the maker's rate; null: no rate is known.</param>
internal sealed record ShoppingJson(ImmutableArray<NeedJson> Needs, string? Currency, Rounded? Materials, Rounded? Labour)
{
    public static ShoppingJson Of(ShoppingList list) => new([.. list.Needs.Select(NeedJson.Of)], list.Currency, list.Materials, list.Labour);
}

/// <summary>One thing that a build takes.</summary>
/// <param name="Name">As the design calls it.</param>
/// <param name="BoxId">Of the box's own item; null: the box has none such.</param>
/// <param name="In">What the amounts are in.</param>
/// <param name="Needed">How much it takes.</param>
/// <param name="ToBuy">How much of that the box lacks.</param>
/// <param name="Cost">Of what is used, in the box's currency; null: no price is known.</param>
internal sealed record NeedJson(string Name, string? BoxId, [WordOf<Counted>] string In, Rounded Needed, Rounded ToBuy, Rounded? Cost)
{
    public static NeedJson Of(Need need) => new(need.Name, need.Item?.Id, AnswerWords.Of(need.In), need.Needed, need.ToBuy, need.Cost);
}
