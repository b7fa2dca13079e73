using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Finish;

/// <summary>Where and how a lure is built.</summary>
public sealed record BuildConditions
{
    /// <summary>When the first step begins; null: the plan counts hours and names no dates.</summary>
    public DateTimeOffset? Start { get; init; }

    /// <summary>The wall clock that days are told by; null: the start's own offset, throughout.</summary>
    public TimeZoneInfo? Zone { get; init; }

    /// <summary>In the shop, °C, where resin cures.</summary>
    public double TemperatureC { get; init; } = 20;

    /// <summary>Relative, a fraction; null: not known.</summary>
    public double? Humidity { get; init; }

    /// <summary>Pockets are cut in the square boards, before carving.</summary>
    public bool PocketsBefore { get; init; }

    /// <summary>How far apart the sheets mark stations, mm: what is measured is measured at a mark.</summary>
    public double StationStep { get; init; } = Stations.Centimetre;

    public MeshSize Mesh { get; init; } = MeshSize.Live;
}

/// <summary>Everything from boards to fishing for one lure: steps with their amounts, readings, dates and cautions; what to buy.</summary>
/// <param name="Design">The lure.</param>
/// <param name="Conditions">Where and how.</param>
/// <param name="Box">What the maker has; null: nobody said.</param>
/// <param name="InTheSea">What it is to be: finished, rigged, in the sea.</param>
/// <param name="Steps">In their order.</param>
/// <param name="Shopping">What it takes, what is there, what it costs.</param>
public sealed record BuildPlan(
    LureDesign Design, BuildConditions Conditions, MakersBox? Box, Prediction InTheSea, ImmutableArray<BuildStep> Steps, ShoppingList Shopping)
{
    // Such work hardens badly below, the data sheets say; from memory.
    private const double Coldest = 18;
    private const double Dampest = 0.65;

    /// <summary>The plan for a sound design.</summary>
    public static BuildPlan Of(LureDesign design, MakersBox? box, BuildConditions conditions)
    {
        var order = new BuildOrder(design, box, conditions);
        ImmutableArray<BuildStep> steps = Schedule.Of(order.Steps(), conditions.Start, conditions.Zone);
        return new(design, conditions, box, order.InTheSea, steps, ShoppingList.Of(design, box, steps));
    }

    /// <summary>The mark that syringes are read by, ml.</summary>
    public double SyringeStepMl => Mixing.SyringeStepMl(Box);

    /// <summary>The digit of the scale that mixes are weighed on, g.</summary>
    public double ResinDigitG(double grams) => Mixing.ResinDigitG(grams, Box);

    /// <summary>Of the air, °C; null: its humidity is not known.</summary>
    public double? Dew => Conditions.Humidity is { } humidity ? DewPoint.Of(Conditions.TemperatureC, humidity) : null;

    /// <summary>Work as warm as the air is nearer to the dew point than it may be: nothing is coated or glued.</summary>
    public bool IsTooDamp => Dew is { } dew && Conditions.TemperatureC - dew < DewPoint.Margin;

    /// <summary>It can be coated, but is damper than clear coats like.</summary>
    public bool IsDamp => Conditions.Humidity > Dampest;

    public bool IsCold => Conditions.TemperatureC < Coldest;

    /// <summary>All hands-on time.</summary>
    public TimeSpan Hands => Steps.Aggregate(TimeSpan.Zero, (sum, step) => sum + step.Hands);

    /// <summary>When the last step begins, from the start.</summary>
    public TimeSpan Lasts => Steps[^1].Visit.From;

    /// <summary>A moment of the plan on the wall clock; null without a start.</summary>
    public DateTimeOffset? At(TimeSpan elapsed) =>
        Conditions.Start is { } start ? Schedule.Local(start + elapsed, Conditions.Zone) : null;
}
