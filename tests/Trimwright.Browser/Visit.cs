using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>How a maker looks at the page: width, hand, light.</summary>
public sealed record Way(int Width, string Hand, bool Dark)
{
    public override string ToString() => $"{Width} px, {Hand}, {(Dark ? "dark" : "light")}";
}

/// <summary>One browser on one server, with everything that went wrong in it collected.</summary>
internal sealed class Visit : IAsyncDisposable
{
    internal static readonly string[] Browsers = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/usr/bin/microsoft-edge"];

    private readonly IPlaywright playwright;
    private readonly IBrowser browser;

    private Visit(IPlaywright playwright, IBrowser browser, IBrowserContext context, IPage page)
    {
        (this.playwright, this.browser, Context, Page) = (playwright, browser, context, page);
        Listen(page);
    }

    public IBrowserContext Context { get; }

    public IPage Page { get; }

    public List<string> Errors { get; } = [];

    public static async Task<Visit> Begin(TheServer server, Way way)
    {
        string? path = Browsers.FirstOrDefault(File.Exists);
        if (path is null) Assert.Skip("no Chromium on this machine; .ci/run installs it");
        IPlaywright playwright = await Playwright.CreateAsync();
        IBrowser browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = path,
            Args = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--enable-unsafe-swiftshader"],
        });
        IBrowserContext context = await NewContext(browser, way);
        var visit = new Visit(playwright, browser, context, await context.NewPageAsync());
        await Enter(visit.Page, server);
        return visit;
    }

    /// <summary>Opens the link, and waits until it has led to the page.</summary>
    public static async Task Enter(IPage page, TheServer server)
    {
        await page.GotoAsync(await server.FreshLink());
        await page.WaitForURLAsync(server.At("/").ToString());
    }

    /// <summary>Another browser beside this one: nothing of the first is known to it.</summary>
    public Task<IBrowserContext> Another(Way way) => NewContext(browser, way);

    private static async Task<IBrowserContext> NewContext(IBrowser browser, Way way)
    {
        IBrowserContext context = await browser.NewContextAsync(new()
        {
            ViewportSize = new() { Width = way.Width, Height = way.Width < 500 ? 740 : way.Width < 1000 ? 1024 : way.Width < 3000 ? 900 : 2160 },
            ColorScheme = way.Dark ? ColorScheme.Dark : ColorScheme.Light,
            HasTouch = way.Hand == "touch",
            IsMobile = way.Hand == "touch",
        });
        context.SetDefaultTimeout(8_000);
        return context;
    }

    public async Task<IPage> AnotherTab(Uri at)
    {
        IPage page = await Context.NewPageAsync();
        Listen(page);
        await page.GotoAsync(at.ToString());
        await Ready(page);
        return page;
    }

    /// <summary>Begins a lure from a starter on the home page.</summary>
    public async Task<IPage> Start(string starter)
    {
        await Page.Locator(".swims", new() { HasText = starter }).Locator("button").ClickAsync();
        await Ready(Page);
        return Page;
    }

    /// <summary>What the page says of saving, and the revision that it shows: "Saved 7".</summary>
    public static Task<string> Standing(IPage page) => page.EvaluateAsync<string>("() => document.querySelector('.saved')?.textContent + ' ' + document.querySelector('.bench')?.dataset.revision");

    /// <summary>Waits until a revision at least as new as this is shown as saved.</summary>
    public static Task Saved(IPage page, int least = 1, float? timeout = null) => page.WaitForFunctionAsync(
        "least => document.querySelector('.saved')?.textContent === 'Saved' && Number(document.querySelector('.bench')?.dataset.revision) >= least", least, new() { Timeout = timeout });

    /// <summary>How many times a test of many rounds goes round.</summary>
    public static int Count(int ci, int longer) => Environment.GetEnvironmentVariable("TRIMWRIGHT_TIER") == "long" ? longer : ci;

    /// <summary>Waits until the page answers to hands.</summary>
    public static Task Ready(IPage page) => page.Locator(".bench[data-ready]").WaitForAsync();

    /// <summary>Collects what goes wrong on a page.</summary>
    public void Listen(IPage page)
    {
        page.Console += (_, said) =>
        {
            if (said.Type == "error") Errors.Add(said.Text);
        };
        page.PageError += (_, error) => Errors.Add(error);
    }

    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        playwright.Dispose();
    }
}
