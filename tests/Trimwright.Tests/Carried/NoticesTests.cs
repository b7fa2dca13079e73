using System.Text.Json;
using Trimwright.App.Carried;
using Trimwright.Tests.App;

namespace Trimwright.Tests.Carried;

/// <summary>Nothing ships without its licence.</summary>
public class NoticesTests
{
    // What was restored and what was locked, read here on its own, not by the list's own script.
    private static IEnumerable<string> Restored()
    {
        using JsonDocument assets = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Here.Root, "src", "App", "obj", "project.assets.json")));
        return [.. assets.RootElement.GetProperty("libraries").EnumerateObject().Where(l => l.Value.GetProperty("type").GetString() == "package").Select(l => l.Name.Replace('/', ' '))];
    }

    private static IEnumerable<string> Locked(params string[] folder)
    {
        using JsonDocument locks = JsonDocument.Parse(File.ReadAllBytes(Path.Combine([Here.Root, "src", .. folder, "package-lock.json"])));
        const string Modules = "node_modules/";
        return [.. locks.RootElement.GetProperty("packages").EnumerateObject().Where(m => m.Name.StartsWith(Modules, StringComparison.Ordinal) && !m.Value.TryGetProperty("dev", out _))
            .Select(m => $"{m.Name[Modules.Length..]} {m.Value.GetProperty("version").GetString()}")];
    }

    [Fact]
    public void Every_package_and_module_that_ships_has_an_entry_with_its_licence_in_full()
    {
        string[] wanted = [.. Restored(), .. Locked("App", "Client"), .. Locked("Drawing")];
        Assert.True(wanted.Length > 12, $"only {wanted.Length} found");
        foreach (string one in wanted)
        {
            ShippedPart? part = Notices.All.FirstOrDefault(p => $"{p.Name} {p.Version}" == one);
            Assert.True(part is not null, $"{one} ships without a notice");
            Assert.True(part.Licence.Length > 0, $"{one} names no licence: add it to src/App/Notices");
        }
        foreach (ShippedPart part in Notices.All)
            Assert.True(part.Texts.Count > 0 && part.Texts.All(t => t.Length > 60), $"{part.Name} has no text of its licence ({part.Licence}): add it to src/App/Notices/texts");
    }

    [Fact]
    public void What_lies_inside_a_package_under_its_own_licence_is_told_too()
    {
        Assert.Contains(Notices.All, p => p is { Name: "SQLite", Within: "SQLitePCLRaw.lib.e_sqlite3" });
        Assert.All(Notices.All.Where(p => p.Within is not null), p => Assert.Contains(Notices.All, outer => outer.Name == p.Within));
        ShippedPart runtime = Assert.Single(Notices.All, p => p.Name.StartsWith(".NET", StringComparison.Ordinal));
        Assert.Contains(runtime.Texts, t => t.StartsWith(".NET Runtime uses third-party", StringComparison.Ordinal));
        Assert.Contains(Assert.Single(Notices.All, p => p.Name == "dejavu-fonts-ttf").Texts, t => t.Contains("Bitstream", StringComparison.Ordinal));
    }

    [Fact]
    public void The_bundle_for_the_browser_keeps_the_legal_comments_of_its_modules()
    {
        string dist = Path.Combine(Here.Root, "src", "App", "wwwroot", "dist");
        Assert.Contains("three.js", string.Concat(Directory.GetFiles(dist, "*LEGAL.txt").Select(File.ReadAllText)), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void The_command_lists_the_parts_and_prints_one_licence()
    {
        var list = TheProgram.Run("notices");
        Assert.Equal(0, list.Exit);
        foreach (ShippedPart part in Notices.All) Assert.Contains(part.Name, list.Out);
        var one = TheProgram.Run("notices", "mathnet");
        Assert.Contains("Permission is hereby granted", one.Out);
        Assert.Contains("Copyright Math.NET Project", one.Out);
        var none = TheProgram.Run("notices", "no-such-part");
        Assert.Equal(1, none.Exit);
        Assert.Contains("trimwright notices", none.Error);
    }
}
