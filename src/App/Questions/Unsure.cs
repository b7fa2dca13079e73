using System.Collections.Immutable;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.App.Questions;

/// <summary>How sure is it, from the drawing alone?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Where">In which circumstances.</param>
public sealed record HowSure(LureDesign Design, Circumstances Where) : IQuestion<Unsure>
{
    public bool IsWide => true;

    public Unsure Answer(Pace pace) => Unsure.Of(Design, Where, pace);
}

/// <summary>How sure a prediction is: what the command <c>readings</c> says before anything was read.</summary>
/// <param name="Forecast">With its ranges and chances.</param>
/// <param name="Ladder">Give or take now, and what each further measurement would buy.</param>
public sealed record Unsure(Forecast Forecast, ImmutableArray<Rung> Ladder)
{
    // Where 10, 30 … 90 of 100 lie: enough strokes to see a spread, few enough to see the lure.
    private static readonly double[] Strokes = [0.1, 0.3, 0.5, 0.7, 0.9];

    /// <summary>Takes seconds.</summary>
    public static Unsure Of(LureDesign design, Circumstances where, Pace pace)
    {
        var log = new TubLog { Name = "" };
        var build = new BuildModel(design);
        Knowing knowing = Knowing.Of(build, log, where, pace: pace.Part(0, 0.9));
        return new Unsure(knowing.After, Candidates.Ladder(build, log, where, pace));
    }

    /// <param name="drawn">What is predicted of that drawing, in the same circumstances.</param>
    /// <param name="notation">The maker's units.</param>
    public string Said(Prediction drawn, Notation notation) => DoubtWords.Told(Forecast, drawn.Circumstances.Water, notation, drawn);

    /// <summary>What would buy the most sureness next, in a sentence.</summary>
    public string Next(Notation notation) => Ladder.Length > 1
        ? $"Give or take {notation.Weight(Ladder[0].Grams)} from the drawing alone; with the {Ladder[1].What}, {notation.Weight(Ladder[1].Grams)}." : "";

    /// <summary>How builds of this drawing could lie that do as it does, float or fall; from the least to the most tail down.</summary>
    internal IReadOnlyList<Vec3> CouldBe(Prediction prediction)
    {
        bool sunk = prediction.SpareBuoyancy <= 0;
        Outcome[] alike = [.. Forecast.Outcomes.Where(o => sunk ? o.Spare <= 0 && double.IsFinite(o.FallTrim) : o.Spare > 0).OrderBy(o => o.SeenTrim)];
        return alike.Length < Strokes.Length ? [] : [.. Strokes.Select(s => alike[(int)(s * alike.Length)]).Select(o => sunk ? WaterPlane.Up(o.FallTrim, 0) : o.Up)];
    }
}
