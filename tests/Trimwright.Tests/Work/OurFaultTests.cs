using Trimwright.App.Commands;
using Trimwright.App.Work;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Work;

/// <summary>A mistake of ours: a report beside the store, one calm sentence, nothing sent.</summary>
[Collection(nameof(Alone))]
public class OurFaultTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void The_command_line_says_one_sentence_with_the_reports_path_and_ends_with_70()
    {
        using var temp = new TempStore();
        TextWriter usual = Console.Error;
        var error = new StringWriter();
        int exit;
        try
        {
            Console.SetError(error);
            exit = Shell.Run(["serve", "--store", temp.Path, "--no-browser"], _ => throw new InvalidOperationException("injected"));
        }
        finally
        {
            Console.SetError(usual);
        }
        Assert.Equal(70, exit);
        string report = Assert.Single(Directory.GetFiles(temp.Folder, "report-*.txt"));
        string said = error.ToString().ReplaceLineEndings(" ");
        Assert.StartsWith("This is our own fault, not yours.", said);
        Assert.Contains(report, said);
        Assert.Contains("Nothing was sent.", said);
        Assert.DoesNotContain("   at ", said);
        string text = File.ReadAllText(report);
        foreach (string part in (string[])[$"Trimwright {Store.Program}", Environment.OSVersion.Version.Major.ToString(), "InvalidOperationException: injected", "OurFaultTests"])
            Assert.Contains(part, text);
    }

    [Fact]
    public void A_lure_is_in_the_report_only_when_it_was_put_in()
    {
        using var temp = new TempStore();
        string report = OurFault.Report(new InvalidOperationException("injected"), DataFolder.Of(temp.Path), Noon)!;
        Assert.DoesNotContain("Tidegate", File.ReadAllText(report));
        OurFault.PutIn(report, Lures.Demo("tidegate-185"));
        Assert.Contains("Tidegate 185", File.ReadAllText(report));
    }

    [Fact]
    public void Reports_dont_fill_the_disk()
    {
        using var temp = new TempStore();
        for (int i = 0; i < 50; i++) OurFault.Report(new InvalidOperationException($"injected {i}"), DataFolder.Of(temp.Path), Noon.AddMilliseconds(i));
        string[] kept = [.. Directory.GetFiles(temp.Folder, "report-*.txt").Order()];
        Assert.Equal(20, kept.Length);
        Assert.Contains("injected 49", File.ReadAllText(kept[^1]));
    }

    [Fact]
    public void A_folder_that_takes_no_report_still_gets_a_calm_sentence()
    {
        string? report = OurFault.Report(new InvalidOperationException("injected"), new DataFolder("/proc/none"), Noon);
        Assert.StartsWith(Path.GetTempPath(), report);
        File.Delete(report!);
        Assert.Contains("could not be written", OurFault.Said(null));
    }
}
