using Trimwright.App.Commands;
using Trimwright.App.Scheduling;
using Trimwright.App.Sessions;
using Trimwright.App.Edits;
using Trimwright.App.Faults;
using Trimwright.App.Gate;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Faults;

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
            exit = Shell.Run(["serve", "--store", temp.Path, "--no-browser"], (_, _, _) => throw new InvalidOperationException("injected"));
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

    private sealed record Breaks(LureDesign Design, string Store) : IQuestion<int>
    {
        // As a library says it: with what it was given, and where it lies.
        public int Answer(Pace pace) => throw new InvalidOperationException($"The given key '{Design.Name}' was not present, nor \"{Design.Wood.Name}\".",
            new FileNotFoundException($"Could not find file {Store}, nor C:\\Lures\\{Design.Ballast[0].Name}.json; tried again."));
    }

    // Every text that a lure's file may hold, made one that stands nowhere else.
    private static (LureDesign Design, string[] Texts) OddlyCalled(LureDesign design)
    {
        var texts = new List<string>();
        string Odd()
        {
            texts.Add($"Zq{texts.Count}xv");
            return texts[^1];
        }
        LureDesign odd = design with
        {
            Name = Odd(),
            Kind = Odd(),
            Wood = design.Wood with { Name = Odd() },
            Ballast = [.. design.Ballast.Select(p => p with { Name = Odd() })],
            Finish = [.. design.Finish.Select(c => c with { Name = Odd() })],
            Hardware = [.. design.Hardware.Select(h => h with { Name = Odd() })],
        };
        Assert.True(LureFile.Read(LureFile.Write(odd)).IsSound);
        return (odd, [.. texts]);
    }

    [Fact]
    public async Task A_report_says_what_was_done_last_and_nothing_of_the_lure_or_of_where_it_lies()
    {
        using var temp = new TempStore();
        (LureDesign odd, string[] texts) = OddlyCalled(Lures.Demo("tidegate-185"));
        string report;
        using (Store store = temp.Open())
        using (var sessions = new LureSessions(store))
        {
            long id = ((Saved<LureDesign>.Done)store.NewLure(odd, EditId.New(), $"began {odd.Name}")).Revision.Owner;
            using var tab = new Tab(sessions.Of(id)!, Switches.InTheSea, Notation.Metric);
            for (int i = 0; i < 30; i++) tab.Preview(design => Reshape.Move(design, Line.Belly, 4, 80, -19 - 0.1 * i));
            await tab.Commit(design => design with { Name = design.Name + "!" }, $"called {texts[0]}!");
            await tab.Undo();
            using var stop = new CancellationTokenSource();
            Task<Unsure> sure = sessions.Scheduler.Ask(new HowSure(odd, Switches.InTheSea.Circumstances), Priority.Sampling, new Owner(), cancellation: stop.Token);
            await stop.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => sure);
            Exception fault = await Assert.ThrowsAsync<InvalidOperationException>(() => sessions.Scheduler.Ask(new Breaks(odd, temp.Path), Priority.Plan, new Owner()));
            report = File.ReadAllText(OurFault.Report(fault, DataFolder.Of(temp.Path), Noon, sessions.Scheduler.Operations)!);
        }
        TestContext.Current.TestOutputHelper?.WriteLine(report);
        foreach (string part in (string[])["LookAt done", "LookInHand ×30 done", "Save done", "Undo done", "Breaks failed", "InvalidOperationException: The given key … was not present", "because of ", "Could not find file …, nor …; tried again", $"Formats: lure {LureFile.Version}"])
            Assert.Contains(part, report);
        Assert.All(texts, text => Assert.DoesNotContain(text, report));
        Assert.DoesNotContain(temp.Folder, report);
        Assert.DoesNotContain(Path.GetFileName(temp.Path), report);
        // No number of the lure either: all that is in the list are times and counts.
        string list = report[report.IndexOf("What it did last", StringComparison.Ordinal)..];
        Assert.All(list.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1), line => Assert.Matches(@"^ *\d+\.\d{3} [A-Za-z]+( ×\d+)? (done|given up|failed), waited \d+\.\d, took \d+\.\d\r?$", line));
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
