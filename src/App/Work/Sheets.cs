using System.Globalization;
using System.Text;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>sheets</c>: paper to lay on the wood.</summary>
internal sealed record SheetsRequest(string File, string Out, string Paper, string Units, string? Only, string? Nose, string? Measured100, string? Trial, bool Force);

/// <param name="Design">As read.</param>
/// <param name="Sheets">Title and number of pages of each.</param>
/// <param name="Files">Written, in order.</param>
/// <param name="Warnings">Of the file.</param>
internal sealed record SheetsAnswer(
    LureDesign Design, IReadOnlyList<(string Id, string Title, int Pages)> Sheets, IReadOnlyList<string> Files, IReadOnlyList<Warning> Warnings);

internal static class Sheets
{
    // A printer that is further off than this is set to fit the page.
    private const double LeastMeasured = 90;
    private const double MostMeasured = 110;

    public static SheetsAnswer Run(SheetsRequest request)
    {
        Files.Named(request.Out, "--out");
        SheetOptions options = Options(request);
        string[] only = Only(request.Only);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        if (!Typefaces.AreHere)
            throw new Refusal(Exit.MachineRefused, "no-type", "sheets", "a program built without Node, which brings the type for paper",
                "one built where Node 20 is", "Install Node 20 and build again.");
        if (SheetSet.PocketsLeavingTheWood(design, only).FirstOrDefault() is { } pocket)
            throw new Refusal(Exit.CannotBeMet, "geometry", $"ballast[{pocket.Number - 1}]",
                $"\"{pocket.Piece.Name}\", whose pocket with its clearance comes out of the wood of the {pocket.Half.ToString().ToLowerInvariant()} half",
                "pockets that stay in the wood", "Move it, choose a smaller one, or ask for other sheets with --only.");
        IReadOnlyList<Sheet> sheets = SheetSet.Of(design, options, only);
        (Sheet Sheet, Picture Page)[] pages = [.. Pager.Pages(sheets, design.Name, options)];
        string stem = Stem(request.File);
        var files = new List<(string Path, byte[] Bytes)>
        {
            ($"{stem}.pdf", Pdf.Write([.. pages.Select(p => p.Page)], $"{design.Name}: sheets", options.Enlarge)),
        };
        foreach (Sheet sheet in sheets) files.AddRange(Drawings(sheet, stem));
        if (only.Length == 0) files.AddRange(Bodies(design, stem));
        return new SheetsAnswer(design, [.. sheets.Select(s => (s.Id, s.Title, pages.Count(p => p.Sheet == s)))],
            Save(request.Out, files, request.Force), warnings);
    }

    private static IEnumerable<(string, byte[])> Drawings(Sheet sheet, string stem)
    {
        for (int i = 0; i < sheet.Fields.Length; i++)
        {
            string name = $"{stem}-{sheet.Id}{(i > 0 ? $"-{i + 1}" : "")}";
            yield return ($"svg/{name}.svg", Encoding.UTF8.GetBytes(Svg.WriteTrueSize(sheet.Fields[i])));
            if (sheet.Drawn) yield return ($"dxf/{name}.dxf", Encoding.ASCII.GetBytes(Dxf.Write(sheet.Fields[i])));
        }
    }

    // As carved: the outlines as drawn, without coats.
    private static IEnumerable<(string, byte[])> Bodies(LureDesign design, string stem)
    {
        ClosedMesh body = BodyMesh.Of(design.Body.Surface(), MeshSize.Live), half = HalfMesh.Right(body);
        foreach ((string name, ClosedMesh mesh) in new[] { ("body", body), ("right-half", half) })
        {
            yield return ($"solid/{stem}-{name}.stl", Stl.Of(mesh));
            yield return ($"solid/{stem}-{name}.3mf", ThreeMf.Of(mesh));
        }
    }

    private static List<string> Save(string folder, List<(string Path, byte[] Bytes)> files, bool force)
    {
        (string Path, byte[] Bytes)[] there = [.. files.Select(f => (Path.Combine(folder, f.Path), f.Bytes))];
        Files.Save(there, force);
        return [.. there.Select(f => f.Path)];
    }

    // A file's name on any system: small letters, figures and dashes.
    internal static string Stem(string file)
    {
        string name = Path.GetFileName(file);
        int lure = name.IndexOf(".lure.", StringComparison.OrdinalIgnoreCase);
        if (lure > 0) name = name[..lure];
        string plain = new([.. name.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')]);
        plain = plain.Trim('-');
        return plain.Length == 0 ? "lure" : plain.Length > 60 ? plain[..60] : plain;
    }

    private static SheetOptions Options(SheetsRequest request) => new(
        One("--paper", request.Paper, ("a4", PaperSize.A4), ("letter", PaperSize.Letter)),
        One("--units", request.Units, ("mm", Notation.Metric), ("in", new Notation(Inches: true))),
        request.Nose is { } nose ? One("--nose", nose, ("left", (Nose?)Nose.Left), ("right", Nose.Right)) : null,
        request.Measured100 is { } measured ? Measured(measured) : 100,
        request.Trial is { } trial ? Trial(trial) : null);

    // The loop is larger than its pin, or just as large; three times as large is no eye any more.
    private static (double Pin, double Eye) Trial(string text)
    {
        string[] parts = text.Split(',');
        if (parts.Length == 2
            && double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double pin)
            && double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out double eye)
            && pin is >= 0.5 and <= 30 && eye >= pin && eye <= 3 * pin) return (pin, eye);
        throw new Refusal(Exit.CommandLineWrong, "command-line", "--trial-loop", $"\"{text}\"",
            "PIN,EYE in mm: a pin of 0.5 to 30, and what the loop then measures inside, not less than its pin", "Write for example --trial-loop 5,5.4.");
    }

    private static double Measured(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double mm) && mm is >= LeastMeasured and <= MostMeasured
            ? mm
            : throw new Refusal(Exit.CommandLineWrong, "command-line", "--measured-100", $"\"{text}\"",
                $"a number of mm with a dot, {LeastMeasured} to {MostMeasured}", "Print at 100 %, nothing fitted to the page, and measure the 100 mm line again.");

    private static string[] Only(string? words)
    {
        if (words is null) return [];
        string[] asked = words.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        string[] known = [.. SheetSet.Known];
        if (asked.Length == 0 || asked.FirstOrDefault(word => !known.Contains(word)) is not null)
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--only", $"\"{asked.FirstOrDefault(w => !known.Contains(w)) ?? words}\"",
                string.Join(", ", known), "Choose from these words, with commas between.");
        return asked;
    }

    private static T One<T>(string option, string word, params (string Word, T Value)[] words)
    {
        foreach ((string known, T value) in words)
            if (known == word) return value;
        throw new Refusal(Exit.CommandLineWrong, "command-line", option, $"\"{word}\"",
            string.Join(" or ", words.Select(w => w.Word)), "Choose one of these words.");
    }
}
