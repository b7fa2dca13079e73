using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>
/// A maker's first session as far as the page goes: home, a starter, its shape, another water, its hooks, back again; by
/// mouse, finger or keys, narrow to wide, light and dark. Every screen is audited, and nothing may be said on the console.
/// </summary>
// One at a time: what is measured must not compete with another browser.
[Collection("browser")]
public class FirstSessionTests
{
    private static readonly int[] Widths = [360, 768, 1440];
    private static readonly string[] Hands = ["touch", "keyboard", "mouse"];

    private static string Tier => Environment.GetEnvironmentVariable("TRIMWRIGHT_TIER") ?? "ci";

    /// <summary>Four ways cover every pair of width, hand and light but those that don't go together; all eighteen in the long tier.</summary>
    public static TheoryData<Way> Ways => Tier == "long"
        ? [.. from width in Widths from hand in Hands from dark in new[] { false, true } select new Way(width, hand, dark)]
        : [new Way(360, "touch", true), new Way(768, "keyboard", false), new Way(1440, "mouse", false), new Way(1440, "keyboard", true)];

    [Fact]
    public async Task About_and_the_places_done_by_command_are_readable_and_the_units_stay_chosen()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(360, "touch", false));
        IPage page = visit.Page;
        ILocator begin = page.Locator(".swims", new() { HasText = "Tidegate 185" }).Locator("button");
        await Assertions.Expect(begin).ToBeEnabledAsync();
        await begin.TapAsync();
        await Visit.Ready(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "in, oz" }).TapAsync();
        await Expect(page, ".says", "oz heavy in the sea");
        await page.GotoAsync(server.At("/lure/1/weights").ToString());
        await Visit.Ready(page);
        await Expect(page, ".says", "oz heavy in the sea");
        await Audit(page, "weights, by command");
        await page.GotoAsync(server.At("/about").ToString());
        await Expect(page, "h1", "About Trimwright");
        await Audit(page, "about");
        Assert.Empty(visit.Errors);
    }

    [Theory]
    [InlineData(360, "touch")]
    [InlineData(1440, "mouse")]
    public async Task Each_small_thing_on_the_picture_is_met_where_it_is_drawn(int width, string hand)
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(width, hand, false));
        IPage page = visit.Page;
        await Press(page, page.Locator(".swims", new() { HasText = "Tidegate 185" }).Locator("button"), hand);
        await Visit.Ready(page);
        await page.GetByRole(AriaRole.Link, new() { Name = "Rig", Exact = true }).ClickAsync();
        await page.Locator("#hardware-0").WaitForAsync();
        // Rings hang closer together than a finger is wide: the one that is nearest is meant.
        foreach (int i in Enumerable.Range(0, 7).Reverse())
        {
            LocatorBoundingBoxResult box = (await page.Locator($".scene [data-key=hardware-{i}] .reach").BoundingBoxAsync())!;
            (float x, float y) = (box.X + box.Width / 2, box.Y + box.Height / 2);
            if (hand == "touch") await page.Touchscreen.TapAsync(x, y);
            else await page.Mouse.ClickAsync(x, y);
            await page.Locator($"#hardware-{i}.chosen").WaitForAsync();
        }
        Assert.Empty(visit.Errors);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_screen_of_3840_px_is_filled_and_its_type_grows(bool dark)
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(3840, "mouse", dark));
        IPage page = visit.Page;
        ILocator begin = page.Locator(".swims", new() { HasText = "Tidegate 185" }).Locator("button");
        await Assertions.Expect(begin).ToBeEnabledAsync();
        await Audit(page, "home, 4K");
        await Press(page, begin, "mouse");
        await Visit.Ready(page);
        await Audit(page, "shape, 4K");
        Assert.True(await page.EvaluateAsync<double>("parseFloat(getComputedStyle(document.body).fontSize)") >= 24);
        LocatorBoundingBoxResult sheet = (await page.Locator(".curves svg").BoundingBoxAsync())!, choices = (await page.Locator(".choices").BoundingBoxAsync())!;
        Assert.True(sheet.Width + choices.Width > 0.9 * 3840, $"sheet {sheet.Width:0}, choices {choices.Width:0} px");
        Assert.True(sheet.Height > 0.45 * 2160, $"the sheet is {sheet.Height:0} px high");
        // All that can be chosen is in view beside the sheet, over the water.
        Assert.True(choices.Y + choices.Height < (await page.Locator(".wet .wave").BoundingBoxAsync())!.Y);
        Assert.Empty(visit.Errors);
    }

    [Theory]
    [InlineData(360, 740)]
    [InlineData(1440, 900)]
    public async Task Type_at_twice_its_size_cuts_nothing_off(int width, int height)
    {
        string? browser = Visit.Browsers.FirstOrDefault(File.Exists);
        if (browser is null) Assert.Skip("no Chromium on this machine; .ci/run installs it");
        using TheServer server = await TheServer.Start();
        string profile = Directory.CreateTempSubdirectory("trimwright-type").FullName;
        Directory.CreateDirectory(Path.Combine(profile, "Default"));
        // As a viewer sets it in the browser: pages that are folded by em fold by it too, which a style laid over the page would not show.
        await File.WriteAllTextAsync(Path.Combine(profile, "Default", "Preferences"), """{"webkit":{"webprefs":{"default_font_size":32}}}""", TestContext.Current.CancellationToken);
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using (IBrowserContext context = await playwright.Chromium.LaunchPersistentContextAsync(profile, new()
        {
            ExecutablePath = browser, Args = ["--no-sandbox", "--no-first-run", "--disable-background-networking"], ViewportSize = new() { Width = width, Height = height },
        }))
        {
            IPage page = await context.NewPageAsync();
            await Visit.Enter(page, server);
            ILocator begin = page.Locator(".swims", new() { HasText = "Tidegate 185" }).Locator("button");
            await Assertions.Expect(begin).ToBeEnabledAsync();
            Assert.Equal("32px", await page.EvaluateAsync<string>("getComputedStyle(document.documentElement).fontSize"));
            await begin.ClickAsync();
            await Visit.Ready(page);
            foreach (string place in new[] { "/", "/about", "/lure/1/shape", "/lure/1/rig", "/lure/1/make", "/lure/9/shape" })
            {
                await page.GotoAsync(server.At(place).ToString());
                if (place.StartsWith("/lure/1", StringComparison.Ordinal)) await Visit.Ready(page);
                string[] cut = await page.EvaluateAsync<string[]>("""
                    () => [...document.querySelectorAll("a, button, input, select, label, h1, h2, p, legend, dt, dd")]
                      .filter((e) => !e.closest(".unseen, [hidden], pre, [aria-hidden]") && getComputedStyle(e).textOverflow !== "ellipsis")
                      .map((e) => [e, e.getBoundingClientRect()]).filter(([, b]) => b.width > 2 && (b.right > innerWidth + 1 || b.left < -1))
                      .map(([e, b]) => `${Math.round(b.left)} to ${Math.round(b.right)} px: ${e.outerHTML.slice(0, 100)}`)
                    """);
                Assert.True(cut.Length == 0, $"{place} at {width} px\n{string.Join('\n', cut.Take(6))}");
                Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), $"{place} at {width} px is wider than the screen");
            }
        }
        Directory.Delete(profile, recursive: true);
    }

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task It_goes_from_home_to_a_changed_lure_and_back(Way way)
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, way);
        IPage page = visit.Page;
        ILocator begin = page.Locator(".swims", new() { HasText = "Tidegate 185" }).Locator("button");
        // Enabled once the page answers; until then its head is still being handed over.
        await Assertions.Expect(begin).ToBeEnabledAsync();
        await Audit(page, $"home, {way}");
        await Press(page, begin, way.Hand);
        await Visit.Ready(page);
        await Audit(page, $"shape, {way}");
        Assert.EndsWith("/shape", page.Url);

        string before = await page.Locator(".says").InnerTextAsync();
        await MovePoint(page, "belly-4", 20, way.Hand);
        await Expect(page, ".saved", "Saved");
        await Expect(page, ".changed", "more lift");
        Assert.NotEqual(before, await page.Locator(".says").InnerTextAsync());
        Assert.Equal("In", (await page.Locator(".knob.chosen").GetAttributeAsync("data-key")) == "belly-4" ? "In" : "Out");
        await Press(page, page.GetByRole(AriaRole.Button, new() { Name = "Undo" }), way.Hand);
        await Expect(page, ".says", before);

        await page.GetByLabel("whole body").FillAsync("170");
        await page.Keyboard.PressAsync("Enter");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page, ".changed", "less lift");
        await page.ReloadAsync();
        await Visit.Ready(page);
        Assert.Equal("170", await page.GetByLabel("whole body").InputValueAsync());

        await Switch(page, way, "Rig", "bare");
        await Expect(page, ".says", "in the sea");
        await Expect(page, ".changed", "g");
        string there = page.Url;
        Assert.Contains("rig=bare", there);
        await page.ReloadAsync();
        await Visit.Ready(page);
        Assert.Equal(there, page.Url);
        // Nothing hangs there but the swivel, which is on the wire for good.
        Assert.Contains("swivel", await Assert.Single(await page.Locator(".scene .tap").AllAsync()).InnerHTMLAsync() + await page.Locator(".scene .tap").First.GetAttributeAsync("aria-label"));
        await Switch(page, way, "Rig", "rigged");

        // The swivel hangs there in either rig; the hook comes with the new picture.
        ILocator hook = page.Locator(".scene .tap[aria-label*='treble 2/0']").Last;
        await hook.WaitForAsync();
        Assert.Equal(await page.Locator(".scene .tap").Last.GetAttributeAsync("aria-label"), await hook.GetAttributeAsync("aria-label"));
        await Press(page, hook, way.Hand);
        await page.Locator("#grams-6").WaitForAsync();
        await Audit(page, $"rig, {way}");
        await Press(page, page.Locator("#hardware-6").GetByRole(AriaRole.Button, new() { NameRegex = new("size up") }), way.Hand);
        await Expect(page, ".changed", "+2.5");
        await Expect(page, ".changed", "more tail down");

        await page.GetByRole(AriaRole.Link, new() { Name = "Shape" }).ClickAsync();
        await Press(page, page.GetByRole(AriaRole.Button, new() { Name = "Turn it in your hands" }), way.Hand);
        await page.Locator("canvas[data-drawn]").WaitForAsync();
        await page.Locator(".round input").CheckAsync();
        await Audit(page, $"in the round, {way}");
        await page.GetByRole(AriaRole.Link, new() { Name = "All lures" }).ClickAsync();
        await page.GetByRole(AriaRole.Heading, new() { Name = "My lures" }).WaitForAsync();
        await Audit(page, $"home with a lure, {way}");
        Assert.Empty(visit.Errors);
    }

    internal static async Task Audit(IPage page, string where)
    {
        AxeResult result = await page.RunAxe();
        Assert.True(result.Violations.Length == 0, where + "\n" + string.Join("\n", result.Violations.Select(v =>
            $"{v.Id}: {v.Help}\n" + string.Join("\n", v.Nodes.Take(4).Select(n => "  " + n.Html + " " + string.Join("; ", n.Any.Select(a => a.Message)))))));
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), $"{where}: the page is wider than the screen");
        string[] small = await page.EvaluateAsync<string[]>(TooSmall);
        Assert.True(small.Length == 0, $"{where}: smaller than 24 px\n{string.Join('\n', small.Take(6))}");
    }

    // WCAG 2.2, 2.5.8. A link within a sentence is as high as its line; a box to tick is pressed by its words too.
    private const string TooSmall = """
        () => [...document.querySelectorAll("a[href], button, select, summary, input, .tap > .reach, .knob > .reach")]
          .map((e) => [e, (e.type === "checkbox" ? e.closest("label") ?? e : e).getBoundingClientRect()])
          .filter(([e, box]) => box.width > 0 && box.height > 0 && !e.matches("p:not(.foot) a") && (box.width < 23.9 || box.height < 23.9))
          .map(([e, box]) => `${Math.round(box.width)}×${Math.round(box.height)} ${e.outerHTML.slice(0, 120)}`)
        """;

    private static Task Expect(IPage page, string where, string text) => Assertions.Expect(page.Locator(where)).ToContainTextAsync(text);

    private static Task Press(IPage page, ILocator what, string hand) => hand switch
    {
        "mouse" => what.ClickAsync(new() { Force = what.ToString()!.Contains(".tap", StringComparison.Ordinal) }),
        "touch" => what.TapAsync(new() { Force = what.ToString()!.Contains(".tap", StringComparison.Ordinal) }),
        _ => PressKey(page, what),
    };

    // Found by walking there, not by pointing at it: what Tab never reaches is not there for who has only keys.
    private static async Task PressKey(IPage page, ILocator what)
    {
        await WalkTo(page, what);
        await page.Keyboard.PressAsync("Enter");
    }

    private static async Task WalkTo(IPage page, ILocator what)
    {
        await what.WaitForAsync();
        for (int i = 0; i < 160; i++)
        {
            if (await what.EvaluateAsync<bool>("e => e === document.activeElement")) return;
            await page.Keyboard.PressAsync("Tab");
        }
        Assert.Fail($"Tab never reaches {what}");
    }

    private static async Task MovePoint(IPage page, string key, double down, string hand)
    {
        ILocator knob = page.Locator($"[data-key={key}]");
        if (hand == "keyboard")
        {
            await WalkTo(page, knob);
            for (int i = 0; i < 6; i++) await page.Keyboard.PressAsync("ArrowDown");
            return;
        }
        LocatorBoundingBoxResult box = (await knob.BoundingBoxAsync())!;
        double x = box.X + box.Width / 2, y = box.Y + box.Height / 2;
        if (hand == "mouse")
        {
            await page.Mouse.MoveAsync((float)x, (float)y);
            await page.Mouse.DownAsync();
            await page.Mouse.MoveAsync((float)x, (float)(y + down), new() { Steps = 8 });
            await page.Mouse.UpAsync();
            return;
        }
        ICDPSession finger = await page.Context.NewCDPSessionAsync(page);
        async Task Touch(string type, double? at) => await finger.SendAsync("Input.dispatchTouchEvent", new()
        {
            ["type"] = type,
            ["touchPoints"] = at is { } place ? new[] { new Dictionary<string, object> { ["x"] = x, ["y"] = place } } : Array.Empty<object>(),
        });
        await Touch("touchStart", y);
        for (int i = 1; i <= 8; i++) await Touch("touchMove", y + down * i / 8);
        await Touch("touchEnd", null);
    }

    private static async Task Switch(IPage page, Way way, string which, string to)
    {
        if (way.Width < 620) await page.GetByRole(AriaRole.Combobox, new() { Name = which, Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = to });
        else await Press(page, page.GetByRole(AriaRole.Link, new() { Name = to, Exact = true }), way.Hand);
    }
}
