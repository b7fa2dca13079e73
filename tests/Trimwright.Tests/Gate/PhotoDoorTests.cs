using System.Globalization;
using System.Net;
using Trimwright.App.Gate;
using Trimwright.Core.Design;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>Photos at the door: who may bring one, what is taken, and how it goes out.</summary>
public class PhotoDoorTests(OpenPage page) : IClassFixture<OpenPage>
{
    private static readonly HttpClient Client = new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false });

    private async Task<HttpResponseMessage> Bring(string path, byte[] file, bool cookie = true, string? origin = "own", bool word = true)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"http://{page.Host}{path}") { Content = new ByteArrayContent(file) };
        if (cookie) request.Headers.Add("Cookie", page.Cookie);
        if (word) request.Headers.Add(PageSecret.WordHeader, page.Secret.Word);
        if (origin is not null) request.Headers.Add("Origin", origin == "own" ? $"http://{page.Host}" : origin);
        return await Client.SendAsync(request);
    }

    private long Lure() => ((Saved<LureDesign>.Done)page.Store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "begun")).Revision.Owner;

    [Fact]
    public async Task A_photo_goes_in_and_comes_out_with_a_fixed_type_to_whoever_is_let_in()
    {
        long lure = Lure();
        HttpResponseMessage answer = await Bring($"/lure/{lure}/photo/side", SamplePhotos.Jpeg());
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        string id = await answer.Content.ReadAsStringAsync();
        using var ask = new HttpRequestMessage(HttpMethod.Get, $"http://{page.Host}/photo/{id}?mark={page.Secret.Mark(long.Parse(id, CultureInfo.InvariantCulture))}");
        ask.Headers.Add("Cookie", page.Cookie);
        HttpResponseMessage photo = await Client.SendAsync(ask);
        Assert.Equal("image/jpeg", photo.Content.Headers.ContentType!.ToString());
        Assert.Equal("nosniff", Assert.Single(photo.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal(SamplePhotos.Jpeg(), await photo.Content.ReadAsByteArrayAsync());
        Assert.Equal(403, (await page.Ask($"GET /photo/{id}?mark={page.Secret.Mark(long.Parse(id, CultureInfo.InvariantCulture))}", $"Host: {page.Host}")).Status);
        foreach (string other in new[] { "/photo/99999", "/photo/x", "/photo/../workshop.trimwright", "/photo/1.5" })
            Assert.NotEqual(200, (await page.Ask($"GET {other}", $"Host: {page.Host}", $"Cookie: {page.Cookie}")).Status);
    }

    [Fact]
    public async Task Another_site_or_nobody_brings_none()
    {
        long lure = Lure();
        foreach (string? origin in new[] { "http://evil.test", "null", null })
            Assert.Equal(HttpStatusCode.Forbidden, (await Bring($"/lure/{lure}/photo/side", SamplePhotos.Jpeg(), origin: origin)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Bring($"/lure/{lure}/photo/side", SamplePhotos.Jpeg(), cookie: false)).StatusCode);
        // The browser brings the cookie by itself; the word is said by our page alone.
        Assert.Equal(HttpStatusCode.Forbidden, (await Bring($"/lure/{lure}/photo/side", SamplePhotos.Jpeg(), word: false)).StatusCode);
        Assert.Empty(page.Store.PhotosOf(lure));
    }

    [Fact]
    public async Task What_is_no_photo_is_refused_in_a_sentence()
    {
        long lure = Lure();
        foreach ((string what, byte[] file, string why) in SamplePhotos.Hostile())
        {
            HttpResponseMessage answer = await Bring($"/lure/{lure}/photo/plan", file);
            string said = await answer.Content.ReadAsStringAsync();
            Assert.True((int)answer.StatusCode is 413 or 415, $"{what}: {(int)answer.StatusCode} {said}");
            Assert.StartsWith("Not like that: ", said);
            Assert.Contains(why, said);
            Assert.DoesNotContain("   at ", said);
        }
        Assert.Equal(HttpStatusCode.NotFound, (await Bring("/lure/99999/photo/side", SamplePhotos.Jpeg())).StatusCode);
        Assert.NotEqual(HttpStatusCode.OK, (await Bring($"/lure/{lure}/photo/front", SamplePhotos.Jpeg())).StatusCode);
        Assert.Empty(page.Store.PhotosOf(lure));
    }
}
