using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>How live the page is, and how fast it is there. Numbers are printed before they are judged.</summary>
// One at a time: what is measured must not compete with another browser.
[Collection("browser")]
public class LiveTests(ITestOutputHelper output)
{
    private static readonly Way Desk = new(1440, "mouse", false);

    private void Say(string text)
    {
        output.WriteLine(text);
        Console.WriteLine(text);
    }

    [Theory]
    [InlineData("Tidegate 185")]
    [InlineData("Mooring Post 210")]
    public async Task Dragging_at_125_hertz_shows_twenty_pictures_a_second_each_within_50_ms(string starter)
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, Desk);
        IPage page = await visit.Start(starter);
        ICDPSession hand = await page.Context.NewCDPSessionAsync(page);
        LocatorBoundingBoxResult box = (await page.Locator("[data-key=belly-4]").BoundingBoxAsync())!;
        double x = box.X + box.Width / 2, y = box.Y + box.Height / 2;
        Task Mouse(string type, double at, int buttons) => hand.SendAsync("Input.dispatchMouseEvent", new()
        {
            ["type"] = type, ["x"] = x, ["y"] = at, ["button"] = "left", ["buttons"] = buttons, ["clickCount"] = 1,
        });
        // After a picture is in the page: the next frame, and the task after its paint. The last picture is the last change of
        // the scene within half a second of the hand's stopping, whatever made it; odds are drawn later still, at the lure's rest.
        await page.EvaluateAsync("""
            () => { const root = document.querySelector(".bench"), seen = window.seen = [], shown = window.shown = [];
              const painted = (then) => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = then; c.port2.postMessage(0); });
              root.addEventListener("pictured", (e) => painted(() => { if (e.detail.what === "Move") seen.push([e.detail.at, performance.now()]); }));
              new MutationObserver(() => painted(() => shown.push(performance.now()))).observe(root.querySelector(".scene"), { subtree: true, childList: true, characterData: true });
              root.addEventListener("pointerup", (e) => { window.up = e.timeStamp; }, true); }
            """);
        // A maker looks first; the program uses that time (WarmUp). Then a second of dragging.
        await Task.Delay(6000);
        await Drag(60);
        // Whatever else the machine does only adds to these times, so one of six drags has to hold all three; and a drag beside others
        // who kept more than a quarter of a core busy tells nothing of the program. When all were like that, that is said.
        var drags = new List<(double Rate, double P95, double Last, double Work)>();
        int told = 0;
        for (int tries = 0; tries < 10 && told < 6; tries++)
        {
            var others = new Others();
            drags.Add(await Measured());
            double busy = others.Cores();
            Say($"others meanwhile: {busy:0.00} cores");
            if (busy <= 0.25) told++;
            await SameAsTheCommand(server, page);
            if (Live(drags[^1])) break;
        }
        Assert.Empty(visit.Errors);
        // The program's own work doesn't hang on who else is there: twenty pictures a second, and half the time left for the browser.
        Assert.InRange(drags.Min(d => d.Work), 0, 25);
        Assert.SkipWhen(told < 3 && !drags.Any(Live), "others kept the cores busy during nearly every drag: nothing can be said of times");
        Assert.Contains(drags, Live);

        static bool Live((double Rate, double P95, double Last, double Work) drag) => drag is { Rate: >= 20, P95: <= 50, Last: > 0 and <= 60 };

        async Task<(double Rate, double P95, double Last, double Work)> Measured()
        {
            await page.EvaluateAsync("() => { window.seen.length = window.shown.length = 0; }");
            using Process program = Process.GetProcessById(server.Id);
            TimeSpan worked = program.TotalProcessorTime;
            (double seconds, int moves) = await Drag(500);
            program.Refresh();
            worked = program.TotalProcessorTime - worked;
            await Task.Delay(300);
            double[][] pictures = await page.EvaluateAsync<double[][]>("() => window.seen");
            double last = await page.EvaluateAsync<double>("() => Math.max(...window.shown.map(t => t - window.up).filter(t => t < 500))");
            double[] lags = [.. pictures.Select(p => p[1] - p[0]).Order()];
            double p95 = lags[(int)(0.95 * (lags.Length - 1))];
            Say($"{starter}: {moves} moves in {seconds:0.00} s, {lags.Length} pictures, {lags.Length / seconds:0.0} a second; "
                + $"from move to after paint median {lags[lags.Length / 2]:0.0} ms, p95 {p95:0.0} ms, most {lags[^1]:0.0} ms; the last {last:0.0} ms after the hand stopped; the program worked {worked.TotalMilliseconds / lags.Length:0.0} ms a picture (load {File.ReadAllText("/proc/loadavg").Split(' ')[0]})");
            return (lags.Length / seconds, p95, last, worked.TotalMilliseconds / lags.Length);
        }

        async Task<(double Seconds, int Moves)> Drag(int count)
        {
            await Mouse("mouseMoved", y, 0);
            await Mouse("mousePressed", y, 1);
            var sent = new List<Task>();
            long from = Stopwatch.GetTimestamp();
            for (int i = 1; i <= count; i++)
            {
                while (Stopwatch.GetElapsedTime(from).TotalMilliseconds < 8 * i) await Task.Delay(1);
                sent.Add(Mouse("mouseMoved", y + 14 * Math.Sin(i * 0.05), 1));
            }
            await Task.WhenAll(sent);
            double took = Stopwatch.GetElapsedTime(from).TotalSeconds;
            await Mouse("mouseReleased", y + 14 * Math.Sin(count * 0.05), 0);
            await Assertions.Expect(page.Locator(".saved")).ToHaveTextAsync("Saved");
            await Task.Delay(300);
            return (took, count);
        }
    }

    // The page and the command line are the same program: the same revision gives the same words and numbers.
    private static async Task SameAsTheCommand(TheServer server, IPage page)
    {
        using JsonDocument told = JsonDocument.Parse(await TheServer.Ask("predict", await server.Export(TheServer.LureOf(page)), "--json"));
        Assert.Equal(told.RootElement.GetProperty("sentence").GetString(), await page.Locator(".says").EvaluateAsync<string>("e => e.textContent"));
        string weight = told.RootElement.GetProperty("weight_g").GetDouble().ToString("0.0", CultureInfo.InvariantCulture);
        Assert.StartsWith(weight, await page.Locator(".numbers dd").First.InnerTextAsync());
    }

    [Fact]
    public async Task From_a_cold_start_to_a_usable_page_takes_under_three_seconds()
    {
        using (TheServer warm = await TheServer.Start())
        {
            await using Visit first = await Visit.Begin(warm, Desk);
            await first.Start("Tidegate 185");
        }
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, Desk);
        IPage page = await visit.Start("Tidegate 185");
        string address = page.Url;
        await visit.Page.GotoAsync("about:blank");
        long from = Stopwatch.GetTimestamp();
        await server.KillAndStartAgain();
        double toLink = Stopwatch.GetElapsedTime(from).TotalSeconds;
        await Visit.Enter(page, server);
        await page.GotoAsync(address);
        await Visit.Ready(page);
        double usable = Stopwatch.GetElapsedTime(from).TotalSeconds;
        Say($"cold start: link after {toLink:0.00} s, a lure's page usable after {usable:0.00} s (load {File.ReadAllText("/proc/loadavg").Split(' ')[0]})");
        Assert.True(usable < 3, $"{usable:0.00} s");
    }

    [Fact]
    public async Task Two_tabs_see_each_other_s_edits_within_a_second()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, Desk);
        IPage page = await visit.Start("Tidegate 185");
        IPage other = await visit.AnotherTab(new Uri(page.Url));
        double worst = 0;
        for (int i = 0; i < 5; i++)
        {
            string length = $"{180 - i}";
            await page.GetByLabel("whole body").FillAsync(length);
            long from = Stopwatch.GetTimestamp();
            await page.Keyboard.PressAsync("Tab");
            await Assertions.Expect(other.GetByLabel("whole body")).ToHaveValueAsync(length);
            worst = Math.Max(worst, Stopwatch.GetElapsedTime(from).TotalSeconds);
        }
        Say($"an edit in one tab is in the other after at most {worst:0.00} s");
        Assert.True(worst < 1, $"{worst:0.00} s");
        Assert.Empty(visit.Errors);
    }
}
