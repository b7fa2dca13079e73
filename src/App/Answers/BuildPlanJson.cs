using System.Collections.Immutable;
using System.Text.Json;
using Trimwright.Core.Design;
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
    string Name, DateTimeOffset? Start, double TemperatureC, double? HumidityPct, double? DewPointC, bool TooDamp, string Pockets, double HandsOnH, double LastsH,
    ImmutableArray<StepJson> Steps, ShoppingJson Shopping, string Caution, ImmutableArray<WarningJson> Warnings)
{
    public static BuildPlanJson Of(BuildPlan plan, Notation notation, IReadOnlyList<Warning> warnings)
    {
        var words = new BuildWords(plan, notation);
        return new(
            plan.Design.Name, plan.Conditions.Start, plan.Conditions.TemperatureC, 100 * plan.Conditions.Humidity, plan.Dew, plan.IsTooDamp,
            plan.Conditions.PocketsBefore ? "before" : "after", plan.Hands.TotalHours, plan.Lasts.TotalHours,
            [.. plan.Steps.Select((step, i) => StepJson.Of(i + 1, step, plan, words.Of(step)))], ShoppingJson.Of(plan.Shopping), CautionWords.Last,
            WarningJson.Of(warnings));
    }
}

/// <summary>One step.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Kind">What is done, in one word: boards, pockets, tack, saw, coat, cure, fish …</param>
/// <param name="Phase">Which part of the build it belongs to.</param>
/// <param name="Title">What is done, in a few words.</param>
/// <param name="FromH">Hands on, hours from the start.</param>
/// <param name="ToH">Hands off, hours from the start.</param>
/// <param name="From">Hands on; null without a start.</param>
/// <param name="To">Hands off; null without a start.</param>
/// <param name="Coat">The coat that goes on; only of such a step.</param>
/// <param name="Mix">What to mix; only where something is.</param>
/// <param name="Weigh">What to weigh at its end, and what to expect.</param>
/// <param name="Do">Sentences, in the order of work.</param>
/// <param name="Ticks">What is ticked off before going on.</param>
/// <param name="Cautions">What can hurt.</param>
internal sealed record StepJson(
    int Number, string Kind, Phase Phase, string Title, double FromH, double ToH, DateTimeOffset? From, DateTimeOffset? To,
    [property: Inline] CoatJson? Coat, [property: LeftOut] MixJson? Mix, ImmutableArray<WeighJson> Weigh, ImmutableArray<string> Do,
    ImmutableArray<string> Ticks, ImmutableArray<Caution> Cautions)
{
    public static StepJson Of(int number, BuildStep step, BuildPlan plan, ToldStep told) => new(
        number, JsonNamingPolicy.SnakeCaseLower.ConvertName(step.GetType().Name[..^"Step".Length]), step.Phase, told.Title,
        step.Visit.From.TotalHours, step.Visit.To.TotalHours, plan.Conditions.Start + step.Visit.From, plan.Conditions.Start + step.Visit.To,
        CoatJson.Of(step), MixJson.Of(step, plan), [.. step.Weighings.Select(WeighJson.Of)], Plain(told.Do), Plain(told.Ticks), step.Cautions);

    // What keeps a number and its unit on one line is of no use to a program.
    private static ImmutableArray<string> Plain(IEnumerable<string> lines) => [.. lines.Select(line => line.Replace('\u00A0', ' '))];
}

/// <summary>A coat.</summary>
/// <param name="WindowOpensH">The earliest that it can go on, hours from the start; null: any time.</param>
/// <param name="WindowClosesH">The latest that it may go on unsanded, hours from the start; null: it doesn't matter.</param>
/// <param name="SandFirst">The coat under it is past its window and is sanded first.</param>
/// <param name="DryMm">Thickness of the dry film, mm.</param>
/// <param name="AreaCm2">Its area, cm².</param>
/// <param name="DryG">What the dry film weighs, g.</param>
/// <param name="Hung">By which end it hangs while it sets, or that it is turned; only where the lure's file says it.</param>
internal sealed record CoatJson(double? WindowOpensH, double? WindowClosesH, bool SandFirst, double DryMm, double AreaCm2, double DryG, [property: LeftOut] HowHung? Hung)
{
    public static CoatJson? Of(BuildStep step) => step is not CoatStep coat ? null : new(
        coat.Visit.Opens?.TotalHours, coat.Visit.Closes?.TotalHours, coat.SandFirst, coat.Film.Thickness, coat.Film.Area / 100, coat.Film.Mass, coat.Film.Hung);
}

/// <summary>How much of a liquid to mix.</summary>
/// <param name="Product">Its id in the box; null: nobody's box names it.</param>
/// <param name="MixedG">What to measure out, g.</param>
/// <param name="OnG">What of it goes on, g.</param>
/// <param name="LostG">What stays in brush, pot and cup, g.</param>
/// <param name="LeftOverG">What is left over, g: spread it out flat, a full cup heats up.</param>
/// <param name="DryG">What the dry film weighs, g.</param>
/// <param name="Solids">Share by weight that stays when dry.</param>
/// <param name="SyringesMl">In syringe marks, ml; null without a ratio by volume.</param>
/// <param name="ScaleG">On a scale, g; null without a ratio by weight.</param>
internal sealed record MixJson(
    string? Product, double MixedG, double OnG, double LostG, double LeftOverG, double DryG, double Solids, PortionsJson? SyringesMl, PortionsJson? ScaleG)
{
    public static MixJson? Of(BuildStep step, BuildPlan plan)
    {
        Mix? mix = step.Mixed;
        return mix is null ? null : new(
            mix.Product?.Id, mix.MixedG, mix.OnG, mix.LostG, mix.LeftOverG, mix.FilmG, mix.Solids, PortionsJson.Of(mix.Syringes(plan.SyringeStepMl)),
            PortionsJson.Of(mix.Weighed(plan.ResinDigitG(mix.MixedG))));
    }
}

/// <summary>The two parts of a mix, in the unit that the key names.</summary>
/// <param name="Resin">Of the resin.</param>
/// <param name="Hardener">Of the hardener.</param>
internal sealed record PortionsJson(double Resin, double Hardener)
{
    public static PortionsJson? Of(Portions? portions) => portions is null ? null : new(portions.Resin, portions.Hardener);
}

/// <summary>A weigh point.</summary>
/// <param name="What">What is weighed.</param>
/// <param name="Name">Which of them; empty where there is one only.</param>
/// <param name="ExpectedG">What the scale reads, g.</param>
/// <param name="GainG">By how much more than at the weigh point before, g; null where that says nothing.</param>
/// <param name="Scale">Id of the finest scale of the box that bears it; null: no box, or none does.</param>
internal sealed record WeighJson(WeighPoint What, string Name, double ExpectedG, double? GainG, string? Scale)
{
    public static WeighJson Of(Weighing weighing) =>
        new(weighing.Point, weighing.Name, weighing.Expected, weighing.Gain, weighing.Scale?.Id);
}

/// <summary>What a build takes, and what it costs.</summary>
/// <param name="Needs">One line for each thing.</param>
/// <param name="Currency">The maker's own word; null: the box names none.</param>
/// <param name="Materials">Sum of the known costs; null: no price is known.</param>
/// <param name="Labour">Hours of work at the maker's rate; null: no rate is known.</param>
internal sealed record ShoppingJson(ImmutableArray<NeedJson> Needs, string? Currency, double? Materials, double? Labour)
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
internal sealed record NeedJson(string Name, string? BoxId, Counted In, double Needed, double ToBuy, double? Cost)
{
    public static NeedJson Of(Need need) => new(need.Name, need.Item?.Id, need.In, need.Needed, need.ToBuy, need.Cost);
}
