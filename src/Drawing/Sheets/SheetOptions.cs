using Trimwright.Core.Box;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing.Sheets;

/// <summary>A paper lying on its long side, mm.</summary>
public sealed record PaperSize(string Name, double Width, double Height)
{
    public static readonly PaperSize A4 = new("A4", 297, 210);
    public static readonly PaperSize Letter = new("Letter", 279.4, 215.9);
}

/// <summary>How sheets are to be made.</summary>
/// <param name="Paper">What lies in the printer.</param>
/// <param name="Notation">Millimetres or inches.</param>
/// <param name="Nose">On every sheet; null: left, but on glue faces as they lie with the back up.</param>
/// <param name="Trial">A loop bent round a pin and its inside diameter then, mm; null: none was bent.</param>
/// <param name="Measured100">What the printer's 100 mm line measures on paper, mm.</param>
/// <param name="Box">What the maker mixes and measures with; null: nobody said.</param>
public sealed record SheetOptions(
    PaperSize Paper, Notation Notation, Nose? Nose = null, double Measured100 = 100, (double Pin, double Eye)? Trial = null, MakersBox? Box = null)
{
    // Nearer the edge than this many home printers leave white; 6.35 mm is usual, common practice, no source.
    private const double White = 10;

    /// <summary>What the paper must be drawn larger by to come out true.</summary>
    public double Enlarge => 100 / Measured100;

    // The page in true mm, which the enlargement brings back to the paper's size.
    public double Width => Paper.Width / Enlarge;

    public double Height => Paper.Height / Enlarge;

    public double Margin => White / Enlarge;

    /// <summary>Room for a drawing under the head and over the check lines.</summary>
    public (double Left, double Top, double Width, double Height) Room =>
        (Margin, Margin + Head, Width - 2 * Margin, Height - 2 * Margin - Head - Foot);

    /// <summary>
    /// What the printer's 100 mm are, when a sheet that was made for 100 mm of <paramref name="inForce"/> shows its line at <paramref name="measured"/>, mm.
    /// </summary>
    public static double GoneOn(double inForce, double measured) => inForce * measured / 100;

    internal const double Head = 28;
    internal const double Foot = 26;

    /// <summary>Between stations, mm.</summary>
    public double Step => Notation.Inches ? Stations.HalfInch : Stations.Centimetre;
}
