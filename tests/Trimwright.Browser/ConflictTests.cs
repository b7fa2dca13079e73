using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>Two tabs on one lure at once: the one that comes too late is asked, sees both, and neither is lost.</summary>
[Collection("browser")]
public class ConflictTests(ITestOutputHelper output)
{
    [Fact]
    public async Task A_drag_that_meets_another_tab_s_edit_shows_both_and_keeps_both()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(1440, "mouse", false));
        IPage mine = await visit.Start("Tidegate 185");
        string lure = TheServer.LureOf(mine);
        IPage other = await visit.AnotherTab(server.At($"/lure/{lure}/rig"));
        int rounds = Visit.Count(ci: 4, longer: 20);
        double worst = 0;
        for (int round = 0; round < rounds; round++)
        {
            await mine.BringToFrontAsync();
            double depth = await Point(server, lure);
            LocatorBoundingBoxResult box = (await mine.Locator("[data-key=back-4]").BoundingBoxAsync())!;
            float x = box.X + box.Width / 2, y = box.Y + box.Height / 2;
            float to = depth > 17 ? y + 9 : y - 9;
            await mine.Mouse.MoveAsync(x, y);
            await mine.Mouse.DownAsync();
            await mine.Mouse.MoveAsync(x, to, new() { Steps = 3 });
            await Assertions.Expect(mine.Locator(".saved")).ToHaveTextAsync("In your hand");
            string shown = await mine.Locator(".changed").InnerTextAsync();

            int before = int.Parse((await Visit.Standing(other)).Split(' ')[^1], CultureInfo.InvariantCulture);
            string grams = (7 + 0.1 * (round + 1)).ToString("0.##", CultureInfo.InvariantCulture);
            await other.Locator("[data-field=grams-6]").FillAsync(grams);
            await other.Keyboard.PressAsync("Enter");
            await Visit.Saved(other, before + 1);
            await Assertions.Expect(mine.Locator(".saved")).ToHaveTextAsync("In your hand");
            await mine.Mouse.UpAsync();
            try
            {
                await mine.Locator(".versions").WaitForAsync(new() { Timeout = 3000 });
            }
            catch (TimeoutException)
            {
                Assert.Fail($"round {round}: no question; {await Visit.Standing(mine)}, {await mine.Locator(".changed").InnerTextAsync()} (under the hand: {shown})");
            }
            Assert.Equal(2, await mine.Locator(".versions figure svg").CountAsync());
            await Assertions.Expect(mine.Locator(".versions")).ToContainTextAsync($"weighs {grams}");
            await Assertions.Expect(mine.Locator(".versions")).ToContainTextAsync("a point of the back moved");
            await Assertions.Expect(mine.Locator(".saved")).ToHaveTextAsync("Not saved");
            // On the disk already: theirs, mine, and theirs again as what is saved.
            Assert.Equal(before + 3, await server.Revision());
            Assert.Equal(depth, await Point(server, lure));

            bool keepMine = round % 2 == 1;
            await mine.GetByRole(AriaRole.Button, new() { Name = keepMine ? "Take yours instead" : "Keep what is saved" }).ClickAsync();
            await Assertions.Expect(mine.Locator(".versions")).ToHaveCountAsync(0);
            await Visit.Saved(mine, before + 3);
            if (keepMine)
            {
                Assert.Equal(before + 4, await server.Revision());
                Assert.NotEqual(depth, await Point(server, lure));
                // Theirs is one undo away, and mine one redo.
                await mine.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
                await Visit.Saved(mine, before + 5);
                Assert.Equal(depth, await Point(server, lure));
            }
            else
            {
                Assert.Equal(depth, await Point(server, lure));
                await mine.GetByRole(AriaRole.Button, new() { Name = "Redo" }).ClickAsync();
                await Visit.Saved(mine, before + 4);
                Assert.NotEqual(depth, await Point(server, lure));
            }
            // And the other tab has it within a second.
            int now = await server.Revision();
            long from = Stopwatch.GetTimestamp();
            await Visit.Saved(other, now);
            worst = Math.Max(worst, Stopwatch.GetElapsedTime(from).TotalSeconds);
        }
        output.WriteLine($"{rounds} conflicts, both versions shown and kept in each; the other tab had the choice within {worst:0.00} s");
        Assert.True(worst < 1, $"{worst:0.00} s");
        Assert.Empty(visit.Errors);
    }

    private static async Task<double> Point(TheServer server, string lure) =>
        (await server.Lure(lure)).GetProperty("body").GetProperty("back").GetProperty("points_mm")[4][1].GetDouble();
}
