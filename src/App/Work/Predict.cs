using System.Globalization;
using System.Text;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;
using Trimwright.Drawing;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>predict</c>: how this lure sits, in these circumstances.</summary>
internal sealed record PredictRequest(string File, string Stage, string Rig, string Water, string? Picture, bool Force);

internal sealed record PredictAnswer(
    LureDesign Design, Prediction Prediction, IReadOnlyList<Touch> Touches, IReadOnlyList<Warning> Warnings);

internal static class Predict
{
    public static PredictAnswer Run(PredictRequest request)
    {
        Circumstances circumstances = Where(request.Stage, request.Rig, request.Water);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        Prediction prediction = Prediction.Of(design, circumstances);
        if (request.Picture is { } picture)
            Files.Save(picture, Encoding.UTF8.GetBytes(Svg.Write(LureInWater.Draw(design, prediction, Notation.Metric))), request.Force);
        IReadOnlyList<Touch> touches = prediction.Descent?.First is { } fall
            ? Touch.Of(design, FallingBody.Of(design, prediction.Ledger, circumstances.Water), prediction.Ledger, fall)
            : [];
        return new PredictAnswer(design, prediction, touches, warnings);
    }

    /// <summary>Circumstances from the words of the command line.</summary>
    internal static Circumstances Where(string stage, string rig, string water) => new(
        One("--stage", stage, ("blank", Stage.Blank), ("dry-fit", Stage.DryFit), ("glued", Stage.Glued),
            ("sealed", Stage.Sealed), ("finished", Stage.Finished)),
        One("--rig", rig, ("bare", Rig.Bare), ("standins", Rig.StandIns), ("rigged", Rig.Rigged)),
        ParseWater(water));

    /// <summary>An option that is one of a few words.</summary>
    internal static T One<T>(string option, string word, params (string Word, T Value)[] words)
    {
        foreach ((string known, T value) in words)
            if (known == word) return value;
        throw new Refusal(Exit.CommandLineWrong, "command-line", option, $"\"{word}\"",
            string.Join(", ", words.Select(w => w.Word)), "Choose one of these words.");
    }

    internal static WaterState ParseWater(string text)
    {
        foreach ((string name, WaterState water) in WaterState.Named)
            if (name == text) return water;
        string[] parts = text.Split(',');
        if (parts.Length == 2
            && double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double salinity)
            && double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out double temperature)
            && salinity is >= 0 and <= WaterState.SaltiestAllowed
            && temperature is >= WaterState.ColdestAllowed and <= WaterState.WarmestAllowed)
            return new WaterState(salinity, temperature);
        string names = string.Join(", ", WaterState.Named.Select(w => w.Name));
        throw new Refusal(Exit.CommandLineWrong, "command-line", "--water", $"\"{text}\"",
            $"{names}, or S,T with salinity 0 to 42 and temperature −2 to 40 °C", "Write for example --water 35,24.");
    }
}
