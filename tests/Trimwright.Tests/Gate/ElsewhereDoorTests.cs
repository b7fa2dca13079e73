using System.Text.Json;
using Trimwright.App.Gate;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>Everything that the store has, saved as a file: for a page that is in, and for nobody who holds the cookie alone.</summary>
public sealed class ElsewhereDoorTests(OpenPage page) : IClassFixture<OpenPage>
{
    [Fact]
    public async Task It_goes_out_to_who_was_told_its_address_and_to_nobody_with_the_cookie_alone()
    {
        page.Store.NewLure(Lures.Demo("slipway-150"), EditId.New(), "new");
        string cookie = $"Cookie: {page.Cookie}", host = $"Host: {page.Host}", path = ElsewhereDoor.Address(page.Secret).Split('?')[0];
        foreach (string mark in new[] { "", "?mark=", $"?mark={page.Secret.Mark(1)}", $"?mark={page.Secret.Word}", $"?mark={page.Secret.Cookie}" })
            Assert.Equal(404, (await page.Ask($"GET {path}{mark}", host, cookie)).Status);
        Assert.Equal(403, (await page.Ask($"GET {ElsewhereDoor.Address(page.Secret)}", host)).Status);

        (int status, string head, string body) = await page.Ask($"GET {ElsewhereDoor.Address(page.Secret)}", host, cookie);
        Assert.Equal(200, status);
        Assert.Contains("attachment; filename=trimwright-everything.json", head);
        Assert.Contains("Cache-Control: no-store", head);
        using JsonDocument everything = JsonDocument.Parse(body);
        Assert.Equal("Slipway 150", everything.RootElement.GetProperty("lures")[0].GetProperty("revisions")[0].GetProperty("design").GetProperty("name").GetString());
    }
}
