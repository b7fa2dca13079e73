using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>A phone at the tub: joins by the code, saves a reading in a few taps, and keeps it while the desk doesn't answer.</summary>
[Collection("browser")]
public class PhoneTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_phone_joins_and_saves_a_reading_within_twelve_taps_also_when_the_desk_is_away_for_a_while(bool dark)
    {
        Environment.SetEnvironmentVariable("TRIMWRIGHT_PHONE_HERE", "1");
        using TheServer server = await TheServer.Start();
        await using Visit desk = await Visit.Begin(server, new Way(1440, "mouse", !dark));
        await desk.Start("Tidegate 185");
        await desk.Page.GotoAsync(server.At("/phone").ToString());
        await desk.Page.Locator("#address").SelectOptionAsync("127.0.0.1");
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Open it to phones" }).ClickAsync();
        await desk.Page.Locator(".code .module").WaitForAsync();
        await Sound(desk.Page);
        string address = await desk.Page.Locator(".code .typed").First.InnerTextAsync(), code = await desk.Page.Locator(".code .typed").Last.InnerTextAsync();

        // As the camera opens it: the code behind the #. Another browser, which holds nothing of the desk's.
        await using Visit phone = await Visit.Begin(server, new Way(360, "touch", dark));
        IBrowserContext own = await phone.Another(new Way(360, "touch", dark));
        IPage page = await own.NewPageAsync();
        phone.Listen(page);
        phone.Errors.Clear();
        int taps = 0;
        async Task Tap(ILocator what)
        {
            LocatorBoundingBoxResult box = (await what.BoundingBoxAsync())!;
            Assert.True(box.Height >= 44, $"{await what.InnerTextAsync()}: {box.Height} high");
            await what.TapAsync();
            taps++;
        }
        await page.GotoAsync($"{address}#{code}");
        await Tap(page.GetByRole(AriaRole.Button, new() { Name = "Tidegate 185" }));
        Assert.Equal(address, page.Url);
        await Assertions.Expect(desk.Page.Locator(".phones li")).ToHaveCountAsync(1);
        await Sound(page);
        await Assertions.Expect(page.Locator(".says")).ToContainTextAsync("Sinks slowly");
        // A select on a phone: one tap to open, one to choose.
        await Tap(page.Locator("#stage"));
        await page.Locator("#stage").SelectOptionAsync("blank");
        taps++;
        await Tap(page.Locator("#mass_g"));
        Assert.Equal("decimal", await page.Locator("#mass_g").GetAttributeAsync("inputmode"));
        await page.Keyboard.TypeAsync("45,5");
        await Tap(page.GetByRole(AriaRole.Button, new() { Name = "Save this reading" }));
        await Assertions.Expect(page.Locator("#note")).ToContainTextAsync("Kept.");
        output.WriteLine($"{taps} taps from the scanned code to the saved reading");
        Assert.True(taps <= 12, $"{taps} taps");
        await Assertions.Expect(page.Locator("#note")).ToContainTextAsync("In the sea, finished and rigged: ", new() { Timeout = 60_000 });

        // The desk doesn't answer: the reading waits here, through a reload too, and arrives once.
        await own.RouteAsync("**/reading", route => route.AbortAsync());
        await page.Locator("#mass_g").FillAsync("45.6");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save this reading" }).TapAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToHaveTextAsync("One reading waits here until the desk answers.");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToHaveTextAsync("One reading waits here until the desk answers.");
        await own.UnrouteAsync("**/reading");
        await Assertions.Expect(page.Locator("#waiting")).ToBeHiddenAsync(new() { Timeout = 10_000 });
        string file = Path.Combine(server.Folder, "read.log.json");
        await TheServer.Ask("store", "export", file, "--readings", "1", "--store", server.Store, "--force");
        Assert.Equal(["45.5", "45.6"], Regex.Matches(await File.ReadAllTextAsync(file), "\"mass_g\":([0-9.]+)").Select(m => m.Groups[1].Value));

        // Typed wrongly: said beside it, and nothing kept.
        await page.GetByRole(AriaRole.Button, new() { Name = "Tidegate 185" }).TapAsync();
        await page.Locator("#mass_g").FillAsync("much");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save this reading" }).TapAsync();
        await Assertions.Expect(page.Locator("#note")).ToContainTextAsync("“much”; allowed: a number such as 12.5 or 12,5");
        await Assertions.Expect(page.Locator("#mass_g")).ToHaveValueAsync("much");

        // Sent away.
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Send away" }).ClickAsync();
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("main .fault")).ToContainTextAsync("was sent away");
        await Sound(page);
        Assert.Empty(desk.Errors);
        // What is said of the seconds without a desk, of the wrong reading and of the phone that was sent away.
        Assert.All(phone.Errors, e => Assert.Matches("ERR_FAILED|status of (422|403)", e));
    }

    private static async Task Sound(IPage page)
    {
        AxeResult found = await page.RunAxe();
        Assert.True(found.Violations.Length == 0, string.Join("\n", found.Violations.Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}")));
    }
}
