using System.Text.Json;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>The store's file taken away under the page: said in a sentence, what was made stays in sight and can be laid elsewhere.</summary>
[Collection("browser")]
public class TakenAwayTests(ITestOutputHelper output)
{
    private static readonly string? Shots = Environment.GetEnvironmentVariable("TRIMWRIGHT_SHOTS");

    [Theory]
    [InlineData(1440, "mouse", false)]
    [InlineData(360, "touch", true)]
    public async Task What_is_made_after_it_was_taken_away_is_not_called_saved_and_not_lost(int width, string hand, bool dark)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(width, hand, dark));
        IPage page = await visit.Start("Tidegate 185");
        string lure = TheServer.LureOf(page);
        await page.GotoAsync(server.At($"/lure/{lure}/rig").ToString());
        await Visit.Ready(page);
        ILocator grams = page.Locator("[data-field=grams-6]"), offer = page.Locator(".elsewhere");
        await grams.FillAsync("9.25");
        await grams.PressAsync("Enter");
        await Visit.Saved(page, 2);

        File.Move(server.Store, server.Store + ".away");
        await grams.FillAsync("11.5");
        await grams.PressAsync("Enter");
        await offer.WaitForAsync();

        string said = await offer.Locator("p").InnerTextAsync();
        output.WriteLine(said);
        Assert.Contains("deleted, renamed or replaced while Trimwright had it open", said);
        Assert.Contains("What you made is still here.", said);
        Assert.Equal("Not saved 2", await Visit.Standing(page));
        await Assertions.Expect(grams).ToHaveValueAsync("11.5");
        // On a phone's width the reason is out of sight; a word beside the picture leads to it.
        if (Shots is not null) await page.ScreenshotAsync(new() { Path = Path.Combine(Shots, $"taken-away-{width}-field.png") });
        await page.Locator(".changed button").ClickAsync();
        await Assertions.Expect(offer.Locator("p")).ToBeInViewportAsync();
        if (Shots is not null) await page.ScreenshotAsync(new() { Path = Path.Combine(Shots, $"taken-away-{width}.png"), FullPage = false });

        // The lure as the page shows it, and everything that was acknowledged, as files.
        IDownload file = await page.RunAndWaitForDownloadAsync(() => offer.Locator("a[download$=\".lure.json\"]").ClickAsync());
        Assert.Equal("tidegate-185.lure.json", file.SuggestedFilename);
        using (JsonDocument mine = JsonDocument.Parse(await File.ReadAllTextAsync(await file.PathAsync())))
            Assert.Equal(11.5, mine.RootElement.GetProperty("hardware")[6].GetProperty("mass_g").GetDouble());
        IDownload all = await page.RunAndWaitForDownloadAsync(() => offer.Locator("a[href^=\"/elsewhere/everything\"]").ClickAsync());
        using (JsonDocument everything = JsonDocument.Parse(await File.ReadAllTextAsync(await all.PathAsync())))
            Assert.Equal(9.25, everything.RootElement.GetProperty("lures")[0].GetProperty("revisions")[1].GetProperty("design").GetProperty("hardware")[6].GetProperty("mass_g").GetDouble());
        string taken = Path.Combine(server.Folder, "taken.trimwright");
        await TheServer.Ask("store", "import", await all.PathAsync(), "--new", "--store", taken);
        Assert.Contains("Tidegate 185, 2 revisions", await TheServer.Ask("store", "list", "--store", taken));

        // Units are chosen all the same, for this tab; the page stays.
        await page.Locator(".units button", new() { HasText = "in, oz" }).ClickAsync();
        await Assertions.Expect(grams).Not.ToHaveValueAsync("11.5");
        await page.Locator(".units button", new() { HasText = "mm, g" }).ClickAsync();
        await offer.WaitForAsync();

        File.Move(server.Store + ".away", server.Store);
        await offer.Locator("button", new() { HasText = "Try again" }).ClickAsync();
        await Visit.Saved(page, 3);
        Assert.Equal(0, await offer.CountAsync());
        Assert.Equal(11.5, (await server.Lure(lure)).GetProperty("hardware")[6].GetProperty("mass_g").GetDouble());
        Assert.Empty(visit.Errors);
    }
}
