using System.Diagnostics;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>A long day at the page: thousands of edits in three tabs leave the program as small as it was.</summary>
[Collection("browser")]
public class SteadyTests(ITestOutputHelper output)
{
    private const double MostMb = 300, MostSlope = 1;

    // Of a run of half a minute a slope says nothing (one sample's scatter is some megabytes); what it may have kept does.
    private const double MostGrownMb = 5;

    [Fact]
    public async Task Thousands_of_edits_in_three_tabs_leave_the_live_heap_flat()
    {
        bool whole = Visit.Count(ci: 0, longer: 1) == 1;
        (int edits, double seconds, double every) = whole ? (4000, 300.0, 15.0) : (300, 30.0, 5.0);
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(1440, "mouse", false));
        IPage first = await visit.Start("Tidegate 185");
        string lure = TheServer.LureOf(first);
        await visit.AnotherTab(server.At($"/lure/{lure}/shape"));
        IPage page = await visit.AnotherTab(server.At($"/lure/{lure}/rig"));
        // What is made once is made before: compiled code, caches, the warm-up of the start.
        await Edit(page, 60, 60 * 0.07);
        await Task.Delay(3000);

        using Process program = Process.GetProcessById(server.Id);
        var samples = new List<(double Minute, double Live, double Resident)>();
        long from = Stopwatch.GetTimestamp();
        Task<double> editing = Edit(page, edits, seconds);
        while (!editing.IsCompleted)
        {
            await Sample();
            await Task.WhenAny(editing, Task.Delay(TimeSpan.FromSeconds(every)));
        }
        double took = await editing;
        await Sample();
        double slope = Slope(samples), most = samples.Max(s => s.Resident), grown = samples[^1].Live - samples[0].Live;
        Say($"{edits} edits acknowledged in {took:0.0} s, three tabs: live heap {samples.Min(s => s.Live):0.0} to {samples.Max(s => s.Live):0.0} MB, {slope:+0.00;-0.00} MB a minute, at the end {grown:+0.0;-0.0} MB; resident at most {most:0} MB");
        Assert.Empty(visit.Errors);
        Assert.True(took <= seconds + 5, $"{edits} edits took {took:0.0} s");
        Assert.True(most < MostMb, $"{most:0} MB resident");
        if (whole) Assert.True(slope < MostSlope, $"the live heap grows by {slope:0.00} MB a minute");
        else Assert.True(grown < MostGrownMb, $"the live heap grew by {grown:0.0} MB");

        async Task Sample()
        {
            double live = await LiveHeap.Megabytes(server.Id);
            program.Refresh();
            samples.Add((Stopwatch.GetElapsedTime(from).TotalMinutes, live, program.WorkingSet64 / 1e6));
            output.WriteLine($"{samples[^1].Minute * 60:0} s: live {live:0.0} MB, resident {samples[^1].Resident:0} MB");
        }
    }

    // By the page's own field, as fast as the pace asks or as the disk acknowledges; seconds that it took.
    private static Task<double> Edit(IPage page, int count, double seconds) => page.EvaluateAsync<double>("""
        async ([count, seconds]) => {
          const bench = document.querySelector(".bench"), begun = performance.now(), soon = () => new Promise((then) => setTimeout(then, 3));
          for (let i = 0; i < count; i++) {
            while (performance.now() < begun + i * 1000 * seconds / count) await soon();
            const before = Number(bench.dataset.revision), field = document.querySelector('[data-field="grams-6"]'), limit = performance.now() + 8000;
            field.value = (7 + 0.05 * (1 + (i % 40))).toFixed(2);
            field.dispatchEvent(new Event("input", { bubbles: true }));
            field.dispatchEvent(new Event("change", { bubbles: true }));
            while (!(Number(bench.dataset.revision) > before && document.querySelector(".saved").textContent === "Saved")) {
              if (performance.now() > limit) throw new Error(`edit ${i} was never acknowledged`);
              await soon();
            }
          }
          return (performance.now() - begun) / 1000;
        }
        """, new object[] { count, seconds });

    // Least squares, MB a minute.
    private static double Slope(List<(double Minute, double Live, double Resident)> samples)
    {
        double t = samples.Average(s => s.Minute), m = samples.Average(s => s.Live);
        return samples.Sum(s => (s.Minute - t) * (s.Live - m)) / samples.Sum(s => (s.Minute - t) * (s.Minute - t));
    }

    private void Say(string text)
    {
        output.WriteLine(text);
        Console.WriteLine(text);
    }
}
