using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>The program killed in mid-edit: what the page showed as saved is kept, by its content, and what was only typed comes back.</summary>
[Collection("browser")]
public class KillTests(ITestOutputHelper output)
{
    [Fact]
    public async Task Killed_in_mid_edit_it_loses_nothing_that_was_acknowledged_and_nothing_that_was_typed()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(1440, "mouse", false));
        IPage page = await visit.Start("Tidegate 185");
        string lure = TheServer.LureOf(page);
        var random = new Random(7);
        int kills = Visit.Count(ci: 4, longer: 50), edits = 0, inFlight = 0, acknowledged = 0;
        // What each thing was last acknowledged as, and what was last asked for it.
        var kept = new Dictionary<string, double>();
        var asked = new Dictionary<string, double>();
        for (int k = 0; k < kills; k++)
        {
            bool rig = k % 2 == 0;
            await page.GotoAsync(server.At($"/lure/{lure}/{(rig ? "rig" : "shape")}").ToString());
            await Visit.Ready(page);
            int delay = random.Next(50, 1200);
            Task kill = Task.Run(async () =>
            {
                await Task.Delay(delay);
                await server.KillAndStartAgain();
            });
            while (!kill.IsCompleted)
                try
                {
                    int before = int.Parse((await Visit.Standing(page)).Split(' ')[^1], CultureInfo.InvariantCulture);
                    int steps = rig ? await Type() : await Draw();
                    edits += steps;
                    await Visit.Saved(page, before + steps, timeout: 1500);
                    foreach ((string what, double value) in asked) kept[what] = value;
                    acknowledged = before + steps;
                }
                catch (Exception e) when (e is TimeoutException or PlaywrightException or FormatException)
                {
                    // Nobody listens, or the page is loading the same address again.
                    await Task.Delay(20);
                }
            await kill;
            string[] open = [.. asked.Where(a => !kept.TryGetValue(a.Key, out double was) || was != a.Value).Select(a => a.Key)];
            inFlight += open.Length;
            JsonElement saved = await server.Lure(lure);
            int revision = await server.Revision();
            output.WriteLine($"kill {k + 1} after {delay} ms on {(rig ? "rig" : "shape")}: revision {acknowledged} acknowledged, {revision} kept; in flight {string.Join(", ", open)}");
            Assert.True(revision >= acknowledged, $"revision {acknowledged} was acknowledged, {revision} is the newest kept");
            foreach ((string what, double value) in kept)
                Assert.True(Value(saved, what) is var now && (now == value || open.Contains(what)), $"{what} was acknowledged as {value} and is {now}");

            // The cover goes by itself, by a new connection or by loading the same address again; then what was typed arrives.
            await page.WaitForFunctionAsync("() => !document.documentElement.classList.contains('lost') && document.querySelector('.bench[data-ready]')", null, new() { Timeout = 20_000 });
            await Visit.Saved(page);
            foreach (string typed in open.Where(w => w.StartsWith("grams", StringComparison.Ordinal)))
            {
                await Assertions.Expect(page.Locator($"[data-field={typed}]")).ToHaveValueAsync(asked[typed].ToString(CultureInfo.InvariantCulture));
                for (int tries = 0; Value(await server.Lure(lure), typed) != asked[typed]; tries++)
                {
                    Assert.True(tries < 20, $"{typed} was typed as {asked[typed]} and never arrived");
                    await Task.Delay(100);
                }
            }
            // Asked for and gone, or kept unheard: either is right for a point on its way, and from here on what is kept holds.
            saved = await server.Lure(lure);
            foreach (string what in asked.Keys.ToArray()) kept[what] = asked[what] = Value(saved, what);
        }
        Assert.True(acknowledged > 2 * kills, $"only {acknowledged} revisions in {kills} kills: too few edits to mean anything");
        output.WriteLine($"{kills} kills, {edits} edits begun, {acknowledged} revisions acknowledged, {inFlight} texts and points in flight; nothing lost");
        Console.WriteLine($"{kills} kills in mid-edit: {edits} edits begun, {acknowledged} revisions acknowledged, {inFlight} texts and points in flight, nothing lost");
        // Only the seconds without a program may leave words on the console.
        Assert.All(visit.Errors, e => Assert.Matches("WebSocket|ERR_CONNECTION_(REFUSED|RESET|CLOSED)|ERR_EMPTY_RESPONSE|Failed to (start|complete)|connection|fetch|circuit", e));

        // Two fields one after the other and the second twice, without waiting for the disk.
        async Task<int> Type()
        {
            double first = Math.Round(5 + 4 * random.NextDouble(), 3), then = Math.Round(5 + 4 * random.NextDouble(), 3), last = Math.Round(1 + random.NextDouble(), 3);
            await Fill("grams-6", first);
            await Fill("grams-5", last);
            await Fill("grams-6", then);
            return 3;
        }

        async Task Fill(string field, double value)
        {
            await page.Locator($"[data-field={field}]").FillAsync(value.ToString(CultureInfo.InvariantCulture), new() { Timeout = 300 });
            asked[field] = value;
            await page.Keyboard.PressAsync("Enter");
        }

        // A point by its arrow keys, let go by Enter.
        async Task<int> Draw()
        {
            ILocator knob = page.Locator("[data-key=back-4]");
            await knob.FocusAsync(new() { Timeout = 300 });
            double at = await page.EvaluateAsync<double>("() => Number(document.querySelector('[data-field=\"point-value back-4\"]')?.value ?? NaN)");
            if (double.IsNaN(at)) return 0;
            bool up = at < 18;
            asked["back-4"] = Math.Round(up ? at + 0.5 : at - 0.5, 1);
            await page.Keyboard.PressAsync(up ? "ArrowUp" : "ArrowDown");
            await page.Keyboard.PressAsync("Enter");
            return 1;
        }
    }

    private static double Value(JsonElement lure, string what) => what.StartsWith("grams-", StringComparison.Ordinal)
        ? lure.GetProperty("hardware")[int.Parse(what[6..], CultureInfo.InvariantCulture)].GetProperty("mass_g").GetDouble()
        : Math.Round(lure.GetProperty("body").GetProperty("back").GetProperty("points_mm")[4][1].GetDouble(), 1);
}
