using System.Globalization;

namespace Trimwright.Drawing;

/// <summary>How each ink looks on paper: black, without fills, in four weights of line.</summary>
internal static class Pens
{
    // mm: 3, 2, 1.2 and 0.6 of the look's quarter millimetres.
    public const double Wire = 0.75;
    public const double Thing = 0.5;
    public const double Choice = 0.3;
    public const double Grid = 0.15;

    /// <summary>Dash and gap of a mark of a later step, mm.</summary>
    public const double Dash = 2.2;
    public const double Gap = 1.3;

    /// <summary>Width, mm, and whether dashed.</summary>
    public static (double Width, bool Dashed) Of(Ink ink) => ink switch
    {
        Ink.Wire => (Wire, false),
        Ink.Cut or Ink.Wood or Ink.Steel or Ink.Lead => (Thing, false),
        Ink.Later => (Choice, true),
        Ink.Grid or Ink.Grain => (Grid, false),
        Ink.Paper or Ink.Water or Ink.Surface or Ink.Veil or Ink.Line or Ink.Pencil or Ink.Bob or Ink.Bubble or Ink.Measure or Ink.Mark or Ink.Axis
            or Ink.Past => (Choice, false),
    };

    /// <summary>The style sheet of a sheet as SVG.</summary>
    public static readonly string Style = string.Create(CultureInfo.InvariantCulture, $$"""
        svg{background:#fff}path,circle,rect{fill:none;stroke:#000;stroke-width:{{Choice}};stroke-linecap:round;stroke-linejoin:round}
        .wire{stroke-width:{{Wire}}}.cut,.wood,.steel,.lead{stroke-width:{{Thing}}}
        .later{stroke-dasharray:{{Dash}} {{Gap}}}.grid,.grain{stroke-width:{{Grid}}}
        text{fill:#000;font-variant-numeric:tabular-nums}
        .maker,.title{font-family:"DejaVu Serif",Georgia,"Times New Roman",serif}
        .label,.wetlabel{font-family:"DejaVu Sans",Verdana,Arial,sans-serif}
        """);
}
