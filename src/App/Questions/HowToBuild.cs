using System.Globalization;
using Trimwright.App.Scheduling;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.App.Questions;

/// <summary>How is it built, step by step from boards to fishing?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Box">What the maker has: finishes, scales, prices; null: nobody said.</param>
/// <param name="Conditions">When, and in what a shop.</param>
internal sealed record HowToBuild(LureDesign Design, MakersBox? Box, BuildConditions Conditions) : IQuestion<Reply<BuildPlan>>
{
    /// <summary>°C, in the shop.</summary>
    public const double Coldest = 0;

    /// <summary>°C, in the shop.</summary>
    public const double Warmest = 45;

    /// <summary>% in the shop.</summary>
    public const double Driest = 1;

    /// <summary>% in the shop.</summary>
    public const double Dampest = 100;

    /// <summary>What is wrong with a shop; null when it can be worked in.</summary>
    public static Flaw? FlawIn(BuildConditions conditions)
    {
        if (conditions.TemperatureC is not (>= Coldest and <= Warmest))
            return new Flaw(nameof(BuildConditions.TemperatureC), OutOf("temperature", conditions.TemperatureC, Coldest, Warmest, "°C"));
        if (100 * conditions.Humidity is { } humidity && humidity is not (>= Driest and <= Dampest))
            return new Flaw(nameof(BuildConditions.Humidity), OutOf("humidity", humidity, Driest, Dampest, "%"));
        return null;
    }

    public Reply<BuildPlan> Answer(Pace pace) => FlawIn(Conditions) is { } flaw ? flaw : BuildPlan.Of(Box?.Cut(Design) ?? Design, Box, Conditions);

    private static Fault OutOf(string what, double got, double least, double most, string unit) => new("range", what,
        string.Create(CultureInfo.InvariantCulture, $"{got} {unit}"), string.Create(CultureInfo.InvariantCulture, $"{least} to {most} {unit}"), "Say what it is in the shop.");
}

/// <summary>What is that plan on paper? A PDF.</summary>
/// <param name="Plan">As worked out.</param>
/// <param name="Notation">The maker's units.</param>
/// <param name="Paper">What lies in the printer.</param>
internal sealed record BuildPlanOnPaper(BuildPlan Plan, Notation Notation, PaperSize Paper) : IQuestion<Reply<byte[]>>
{
    public Reply<byte[]> Answer(Pace pace) => SheetsFor.NoType is { } fault ? new Reply<byte[]>.Cannot(fault)
        : Pdf.Write(BuildPages.Of(Plan, Notation, Paper), $"{Plan.Design.Name}: build plan");
}
