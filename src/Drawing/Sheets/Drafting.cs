using System.Collections.Immutable;
using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing.Sheets;

/// <summary>What every sheet of one lure is drawn from, and how body places become places on paper.</summary>
internal sealed class Drafting
{
    public LureDesign Design { get; }

    public Body Body { get; }

    /// <summary>The bent wire; null without one.</summary>
    public WireShape? Wire { get; }

    public SheetOptions Options { get; }

    /// <summary>What is cut into the glue faces.</summary>
    public GlueFace Glue { get; }

    public ImmutableArray<double> Stations { get; }

    /// <summary>Highest and lowest of the body, and its greatest half-breadth, mm.</summary>
    public double Top { get; }

    public double Bottom { get; }

    public double HalfBreadth { get; }

    private readonly double[] fine;

    public Drafting(LureDesign design, SheetOptions options)
    {
        Design = design;
        Options = options;
        Body = design.Body.Surface();
        Wire = design.Wire is { } wire ? new WireShape(wire, Body) : null;
        Glue = GlueFace.Of(design, Body);
        Stations = Core.Shape.Stations.Even(Body, options.Step);
        fine = Core.Shape.Stations.Fine(Body);
        Top = fine.Max(Body.BackAt);
        Bottom = fine.Min(Body.BellyAt);
        HalfBreadth = fine.Max(Body.HalfBreadthAt);
    }

    public Notation Notation => Options.Notation;

    public double Length => Body.Length;

    // Room for the eyes and the words at both ends; under a short lure the notes need more than it does.
    private const double Ends = 22;
    private const double Least = 190;

    /// <summary>Width of a drawing of the whole lure, and where the lure begins on it, mm.</summary>
    public double Wide => Math.Max(Length + 2 * Ends, Math.Min(Least, Options.Room.Width));

    public double Left => (Wide - Length) / 2;

    /// <summary>Two places on the axis that every view shows, so that sheets can be laid true on the wood.</summary>
    public (double A, double B) Index => (Stations.Length > 1 ? Stations[1] : 0.2 * Length, Stations.Length > 1 ? Stations[^2] : 0.8 * Length);

    /// <summary>The seam's outline from the lower nose over the back to the lower tail and along the belly, closed: (x, z), mm.</summary>
    public IEnumerable<(double X, double Z)> Profile()
    {
        double[] cut = [.. fine];
        foreach (double x in cut)
            if (x >= Body.FacePlaneAt(Body.BackAt(x)) || x > 0.2 * Length) yield return (x, Body.BackAt(x));
        foreach (double x in cut.Reverse())
            if (x >= Body.FacePlaneAt(Body.BellyAt(x)) || x > 0.2 * Length) yield return (x, Body.BellyAt(x));
    }

    /// <summary>The outline seen from above, closed: (x, y), mm.</summary>
    public IEnumerable<(double X, double Y)> Plan() =>
        fine.Select(x => (x, Body.HalfBreadthAt(x))).Concat(fine.Reverse().Select(x => (x, -Body.HalfBreadthAt(x))));

    public IEnumerable<double> Along => fine;

    /// <summary>A station's number as it stands on the sheets: whole mm, or inches.</summary>
    public string Station(double x) => Notation.Inches
        ? Notation.Number(x / 25.4, 1)
        : Notation.Number(x, 0);

    /// <summary>A length to a tenth of a mm, without its unit.</summary>
    public string Fine(double mm) => Notation.Inches ? Notation.Number(mm / 25.4, 3) : Notation.Number(mm, 1);

    /// <summary>The same with its unit.</summary>
    public string FineWithUnit(double mm) => Fine(mm) + (Notation.Inches ? "\u00A0in" : "\u00A0mm");

    /// <summary>Nose to the left unless chosen otherwise.</summary>
    public View View(double left, double baseline) => new(left, baseline, Length, Options.Nose == Nose.Right, false);
}

/// <summary>Body places on paper: x along, nose to the left unless turned; the other way up.</summary>
/// <param name="Left">Of the lure, on the drawing.</param>
/// <param name="Axis">Height on the drawing of the body's axis.</param>
/// <param name="Length">Of the lure, mm.</param>
/// <param name="NoseRight">Mirrored.</param>
/// <param name="BackDown">Turned over.</param>
internal readonly record struct View(double Left, double Axis, double Length, bool NoseRight, bool BackDown)
{
    public PagePoint At(double x, double up) => new(Left + (NoseRight ? Length - x : x), Axis + (BackDown ? up : -up));

    public PagePoint At((double X, double Up) p) => At(p.X, p.Up);

    /// <summary>Where the nose's side is: −1 left, 1 right.</summary>
    public double Forward => NoseRight ? 1 : -1;
}
