using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Strength;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>strength</c>: what holds a fish, and what lets go first.</summary>
internal sealed record StrengthRequest(string File, string? Drag);

/// <param name="Design">As read.</param>
/// <param name="Strength">Its chain.</param>
/// <param name="Drag">The reel's setting, N; null when none was given.</param>
/// <param name="Warnings">Of the file.</param>
internal sealed record StrengthAnswer(LureDesign Design, LureStrength Strength, double? Drag, IReadOnlyList<Warning> Warnings);

internal static class Strength
{
    private const double LeastDrag = 0.1;
    private const double MostDrag = 200;

    public static StrengthAnswer Run(StrengthRequest request)
    {
        double? drag = request.Drag is { } text ? Parse(text) * Units.KilogramForce : null;
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        LureStrength strength = LureStrength.Of(design) ?? throw new Refusal(Exit.CannotBeMet, "missing", "wire", "a lure without wire",
            "a lure with wire, whose eyes and hangers carry the hooks", "Add \"wire\" to the file.");
        return new StrengthAnswer(design, strength, drag, warnings);
    }

    private static double Parse(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double kgf) && kgf is >= LeastDrag and <= MostDrag
            ? kgf
            : throw new Refusal(Exit.CommandLineWrong, "command-line", "--drag", $"\"{text}\"",
                $"a number of kgf with a dot, {LeastDrag.ToString(CultureInfo.InvariantCulture)} to {MostDrag}", "Write for example --drag 10.");
}
