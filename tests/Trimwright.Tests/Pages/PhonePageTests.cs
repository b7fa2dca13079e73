using System.Net;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Trimwright.App.Gate;
using Trimwright.App.Pages;
using Trimwright.App.Sessions;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Pages;

/// <summary>The desk's side of a phone at the tub: the code, who is in, and sending away.</summary>
public sealed class PhonePageTests : IAsyncLifetime
{
    private readonly TempStore temp = new();
    private readonly BunitContext page = new();
    private Store store = null!;
    private LureSessions sessions = null!;
    private PhoneHost phone = null!;

    public async ValueTask InitializeAsync()
    {
        store = temp.Open();
        sessions = new LureSessions(store);
        phone = new PhoneHost(store, sessions, TimeProvider.System);
        Assert.Null(await phone.Open(IPAddress.Loopback));
        page.Services.AddSingleton(store).AddSingleton(phone).AddSingleton(TimeProvider.System);
        page.Renderer.SetRendererInfo(new Microsoft.AspNetCore.Components.RendererInfo("Server", isInteractive: true));
    }

    public async ValueTask DisposeAsync()
    {
        await page.DisposeAsync();
        await phone.DisposeAsync();
        sessions.Dispose();
        store.Dispose();
        temp.Dispose();
    }

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<PhonePage> desk, string says) => desk.FindAll("button").Single(b => b.TextContent.StartsWith(says, StringComparison.Ordinal));

    [Fact]
    public void A_code_is_shown_until_a_phone_took_it_and_that_phone_can_be_sent_away()
    {
        IRenderedComponent<PhonePage> desk = page.Render<PhonePage>();
        Assert.Contains("None yet", desk.Markup);
        Button(desk, "Let a phone join").Click();
        Assert.Contains("2 minutes", desk.Find(".code .hint").TextContent);
        Assert.Equal($"http://{phone.Host}/", desk.FindAll(".code .typed")[0].TextContent);
        Assert.NotEmpty(desk.Find(".code .module").GetAttribute("d")!);
        string ticket = desk.FindAll(".code .typed")[1].TextContent;
        Assert.Null(phone.Door.Join("another code than that", "Stranger"));
        (string cookie, string word) = phone.Door.Join(ticket, "Pocket <b>phone</b>")!.Value;
        Assert.NotNull(phone.Door.Of(cookie, word));
        desk.WaitForAssertion(() => Assert.Empty(desk.FindAll(".code")));
        desk.WaitForAssertion(() => Assert.StartsWith("Pocket bphoneb, since", desk.Find(".phones li span").TextContent));
        Button(desk, "Send away").Click();
        desk.WaitForAssertion(() => Assert.Contains("None yet", desk.Markup));
        Assert.Null(phone.Door.Of(cookie, word));
    }

    [Fact]
    public void Another_code_makes_the_one_before_it_void_and_a_shut_door_is_said_at_once()
    {
        IRenderedComponent<PhonePage> desk = page.Render<PhonePage>();
        Button(desk, "Let a phone join").Click();
        string first = desk.FindAll(".code .typed")[1].TextContent;
        (string cookie, string word) = phone.Door.Join(first, "One")!.Value;
        desk.WaitForAssertion(() => Assert.Empty(desk.FindAll(".code")));
        Button(desk, "Let a phone join").Click();
        Assert.NotEqual(first, desk.FindAll(".code .typed")[1].TextContent);
        Assert.Null(phone.Door.Join(first, "Two"));
        Button(desk, "Shut it").Click();
        desk.WaitForAssertion(() => Assert.Empty(desk.FindAll(".code, .phones")));
        Assert.Null(phone.Host);
        Assert.Null(phone.Door.Of(cookie, word));
    }
}
