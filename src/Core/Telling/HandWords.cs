using Trimwright.Core.Doubt;

namespace Trimwright.Core.Telling;

/// <summary>The words for a maker's own habits.</summary>
public static class HandWords
{
    /// <summary>What a habit is.</summary>
    public static string Of(string habit) => habit switch
    {
        "carving.mean" => "carved fat, all over",
        "carving.slope" => "fatter at the tail than at the nose",
        "carving.ends" => "fatter at both ends than in the middle",
        "carving.tall" => "taller rather than wider",
        "sanding" => "sanded off after gluing, beyond the plan",
        "glue_line" => "thickness of the glue line",
        "filler" => "filler in slots and pockets",
        "sealer" => "sealer soaked in",
        _ => "thickness of the coats",
    };

    /// <summary>A habit's middle or spread in the maker's units: "+0.22 mm" for carving, "+18 %" for what is a share.</summary>
    /// <param name="habit">Which.</param>
    /// <param name="usual">In usual standard deviations.</param>
    /// <param name="sign">With its sign.</param>
    /// <param name="notation">Units.</param>
    public static string Size(string habit, double usual, bool sign, Notation notation)
    {
        Priors p = Priors.Usual;
        (double Sd, bool Share) of = habit switch
        {
            "carving.mean" => (p.CarvingMeanMm, false),
            "carving.slope" => (p.CarvingSlopeMm, false),
            "carving.ends" => (p.CarvingEndsMm, false),
            "carving.tall" => (p.CarvingTallMm, false),
            "sanding" => (p.SandingMm, false),
            "glue_line" => (p.GlueLine, true),
            "filler" => (p.Filler, true),
            "sealer" => (p.Sealer, true),
            _ => (p.CoatThickness, true),
        };
        double value = of.Share ? 100 * Math.Abs(Math.Exp(of.Sd * usual) - 1) : of.Sd * Math.Abs(usual);
        string shown = of.Share ? notation.Number(value, 0) + "\u00A0%" : notation.Film(value);
        return sign ? (usual < 0 ? "−" : "+") + shown : "±" + shown;
    }
}
