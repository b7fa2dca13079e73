using System.Globalization;
using System.Text.RegularExpressions;

namespace Trimwright.Tests.Pages;

/// <summary>The page's colours: the pictures' own, and far enough apart to be read (WCAG 2.2, success criteria 1.4.3 and 1.4.11).</summary>
public partial class PaletteTests
{
    private static readonly string Css = File.ReadAllText(Path.Combine(Here.Root, "src", "App", "wwwroot", "palette.css"));

    // Colours that no picture has: they are words, rules and marks of choice.
    private static readonly string[] OfThePageAlone = ["quiet", "rust", "on-rust", "line"];

    public static TheoryData<bool> Lights => [false, true];

    private static Dictionary<string, string> Colours(bool dark)
    {
        string[] roots = [.. Root().Matches(Css).Select(m => m.Groups[1].Value)];
        Assert.Equal(2, roots.Length);
        return Variable().Matches(roots[dark ? 1 : 0]).ToDictionary(m => m.Groups[1].Value, m => m.Groups[2].Value);
    }

    [Theory]
    [MemberData(nameof(Lights))]
    public void It_has_the_same_colours_as_pictures(bool dark)
    {
        string pictures = File.ReadAllText(Path.Combine(Here.Root, "src", "Drawing", "Svg.cs"));
        foreach ((string name, string colour) in Colours(dark).Where(c => !OfThePageAlone.Contains(c.Key)))
            Assert.True(pictures.Contains(colour, StringComparison.Ordinal), $"--{name} is {colour}, which no picture has; src/Drawing/Svg.cs is the place where colours are chosen");
    }

    [Fact]
    public void The_page_of_who_is_not_let_in_has_the_same_colours()
    {
        string gate = File.ReadAllText(Path.Combine(Here.Root, "src", "App", "Gate", "Porch.cs"));
        MatchCollection own = GateVariable().Matches(gate);
        Assert.Equal(12, own.Count);
        for (int i = 0; i < own.Count; i++)
        {
            (string name, string colour) = (own[i].Groups[1].Value, own[i].Groups[2].Value);
            // Steel is a picture's ink; the page itself has no use for it.
            if (name == "steel") Assert.Contains(colour, File.ReadAllText(Path.Combine(Here.Root, "src", "Drawing", "Svg.cs")));
            else Assert.Equal(Colours(dark: i >= 6)[name], colour);
        }
    }

    [Theory]
    [MemberData(nameof(Lights))]
    public void Words_can_be_read_on_what_they_stand_on(bool dark)
    {
        Dictionary<string, string> colour = Colours(dark);
        (string Words, string On)[] pairs =
        [
            ("ink", "paper"), ("quiet", "paper"), ("deep", "paper"), ("rust", "paper"),
            ("ink", "water"), ("quiet", "water"), ("deep", "water"), ("rust", "water"), ("on-rust", "rust"),
        ];
        foreach ((string words, string on) in pairs)
        {
            double contrast = Contrast(colour[words], colour[on]);
            Assert.True(contrast >= 4.5, $"{words} on {on}: {contrast:0.00}, at least 4.5");
        }
    }

    [Theory]
    [MemberData(nameof(Lights))]
    public void What_bounds_a_thing_can_be_seen(bool dark)
    {
        Dictionary<string, string> colour = Colours(dark);
        foreach ((string line, string on) in new[] { ("wire", "paper"), ("rust", "paper"), ("surface", "paper"), ("surface", "water"), ("quiet", "paper") })
            Assert.True(Contrast(colour[line], colour[on]) >= 3, $"{line} on {on}: {Contrast(colour[line], colour[on]):0.00}, at least 3");
    }

    // WCAG 2.2, definitions of contrast ratio and relative luminance.
    private static double Contrast(string a, string b)
    {
        (double x, double y) = (Luminance(a), Luminance(b));
        return (Math.Max(x, y) + 0.05) / (Math.Min(x, y) + 0.05);
    }

    private static double Luminance(string colour)
    {
        double Part(int at)
        {
            double c = int.Parse(colour.AsSpan(at, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
            return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        }
        return 0.2126 * Part(1) + 0.7152 * Part(3) + 0.0722 * Part(5);
    }

    [GeneratedRegex(@":root \{([^}]*)\}")]
    private static partial Regex Root();

    [GeneratedRegex("--([a-z-]+):(#[0-9A-F]{6})")]
    private static partial Regex GateVariable();

    [GeneratedRegex("--([a-z-]+): (#[0-9A-F]{6})")]
    private static partial Regex Variable();
}
