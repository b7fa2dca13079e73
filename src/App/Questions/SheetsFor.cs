using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Trimwright.App.Scheduling;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.App.Questions;

/// <summary>What is laid on the wood? Paper for the bench, and the body for machines.</summary>
/// <param name="Design">Sound.</param>
/// <param name="Options">Paper, units, nose, and what was measured.</param>
/// <param name="Only">Names of sheets; none: all, and the body.</param>
/// <param name="Stem">What the names of its pieces begin with.</param>
internal sealed record SheetsFor(LureDesign Design, SheetOptions Options, ImmutableArray<string> Only, string Stem) : IQuestion<Reply<SheetsAnswer>>
{
    /// <summary>A printer that is further off than this is set to fit the page, mm.</summary>
    public const double LeastMeasured = 90;

    /// <summary>Likewise.</summary>
    public const double MostMeasured = 110;

    /// <summary>The kind of the fault of a program that was built without type for paper.</summary>
    public const string NoTypeKind = "no-type";

    /// <summary>The kind of the fault of a pocket that leaves the wood.</summary>
    internal const string PocketOutside = "geometry";

    /// <summary>Why nothing can be put on paper; null when it can.</summary>
    internal static Fault? NoType => Typefaces.AreHere ? null : new Fault(NoTypeKind, "sheets", "a program built without Node, which brings the type for paper",
        "one built where Node 20 is", "Install Node 20 and build again.");

    /// <summary>What is wrong with what was measured; null when it can be.</summary>
    public static Flaw? FlawIn(SheetOptions options)
    {
        if (options.Measured100 is not (>= LeastMeasured and <= MostMeasured))
            return new Flaw(nameof(SheetOptions.Measured100), new Fault("range", "measured", string.Create(CultureInfo.InvariantCulture, $"{options.Measured100} mm"),
                string.Create(CultureInfo.InvariantCulture, $"{LeastMeasured} to {MostMeasured} mm"), "Print at 100 %, nothing fitted to the page, and measure the 100 mm line again."));
        // The loop is larger than its pin, or just as large; three times as large is no eye any more.
        if (options.Trial is { } trial && !(trial.Pin is >= 0.5 and <= 30 && trial.Eye >= trial.Pin && trial.Eye <= 3 * trial.Pin))
            return new Flaw(nameof(SheetOptions.Trial), new Fault("range", "trial loop", string.Create(CultureInfo.InvariantCulture, $"{trial.Pin} mm, {trial.Eye} mm"),
                "a pin of 0.5 to 30 mm, and what the loop then measures inside, not less than its pin", "Bend it again, and measure pin and loop."));
        return null;
    }

    /// <summary>What is wrong with names of sheets; null when there are such.</summary>
    public static Flaw? FlawIn(ImmutableArray<string> only)
    {
        string[] known = [.. SheetSet.Known];
        return only.FirstOrDefault(word => !known.Contains(word)) is { } other
            ? new Flaw(nameof(Only), new Fault("unknown", "sheets", $"\"{other}\"", string.Join(", ", known), "Choose from these.")) : null;
    }

    public Reply<SheetsAnswer> Answer(Pace pace)
    {
        if (FlawIn(Options) is { } flaw) return flaw;
        if (FlawIn(Only) is { } unknown) return unknown;
        if (NoType is { } noType) return new Reply<SheetsAnswer>.Cannot(noType);
        if (SheetSet.PocketsLeavingTheWood(Design, Only).FirstOrDefault() is { } pocket)
            return new Reply<SheetsAnswer>.Cannot(new Fault(PocketOutside, $"ballast[{pocket.Number - 1}]",
                $"\"{pocket.Piece.Name}\", whose pocket with its clearance comes out of the wood of the {pocket.Half.ToString().ToLowerInvariant()} half",
                "pockets that stay in the wood", "Move it, choose a smaller one, or ask for other sheets."));
        IReadOnlyList<Sheet> sheets = SheetSet.Of(Design, Options, Only);
        if (sheets.Count == 0)
            return new Reply<SheetsAnswer>.Cannot(new Fault("nothing", "sheets", $"{string.Join(", ", Only)}, with nothing on this lure to draw there", "sheets of what the lure has",
                "Ask for others, or give the lure what they are about: weights, hooks, a wire."));
        (Sheet Sheet, Picture Page)[] pages = [.. Pager.Pages(sheets, Design.Name, Options)];
        var pieces = new List<SheetPiece>
        {
            new($"{Stem}.pdf", Pdf.Write([.. pages.Select(p => p.Page)], $"{Design.Name}: sheets", Options.Enlarge)),
        };
        foreach (Sheet sheet in sheets)
        {
            pace.Step();
            pieces.AddRange(Drawings(sheet));
        }
        if (Only.IsEmpty) pieces.AddRange(Bodies());
        return new SheetsAnswer(Design, Options.Measured100, [.. sheets.Select(s => (s.Id, s.Title, pages.Count(p => p.Sheet == s)))], pieces);
    }

    /// <summary>A beginning for names on any system, from a lure's name: small letters, figures and dashes.</summary>
    internal static string StemOf(string name)
    {
        string plain = new([.. name.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')]);
        plain = plain.Trim('-');
        return plain.Length == 0 ? "lure" : plain.Length > 60 ? plain[..60] : plain;
    }

    private IEnumerable<SheetPiece> Drawings(Sheet sheet)
    {
        for (int i = 0; i < sheet.Fields.Length; i++)
        {
            string name = $"{Stem}-{sheet.Id}{(i > 0 ? $"-{i + 1}" : "")}";
            yield return new($"svg/{name}.svg", Encoding.UTF8.GetBytes(Svg.WriteTrueSize(sheet.Fields[i])));
            if (sheet.Drawn) yield return new($"dxf/{name}.dxf", Encoding.ASCII.GetBytes(Dxf.Write(sheet.Fields[i])));
        }
    }

    // As carved: the outlines as drawn, without coats.
    private IEnumerable<SheetPiece> Bodies()
    {
        ClosedMesh body = BodyMesh.Of(Design.Body.Surface(), MeshSize.Live), half = HalfMesh.Right(body);
        foreach ((string name, ClosedMesh mesh) in new[] { ("body", body), ("right-half", half) })
        {
            yield return new($"solid/{Stem}-{name}.stl", Stl.Of(mesh));
            yield return new($"solid/{Stem}-{name}.3mf", ThreeMf.Of(mesh));
        }
    }
}

/// <summary>One of what is to be kept or handed on.</summary>
/// <param name="Name">What it is called, its kind before a slash.</param>
/// <param name="Bytes">All of it.</param>
internal sealed record SheetPiece(string Name, byte[] Bytes);

/// <param name="Design">As asked about.</param>
/// <param name="Measured100">What the printer's 100 mm are, that they are drawn for.</param>
/// <param name="Sheets">Title and number of pages of each.</param>
/// <param name="Pieces">First all pages in one, then each drawing, then the body.</param>
internal sealed record SheetsAnswer(LureDesign Design, double Measured100, IReadOnlyList<(string Id, string Title, int Pages)> Sheets, IReadOnlyList<SheetPiece> Pieces);
