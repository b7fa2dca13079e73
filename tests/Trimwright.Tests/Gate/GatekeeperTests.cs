using System.Text.Json;
using System.Text.RegularExpressions;
using Trimwright.App.Gate;
using Trimwright.Core.Design;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>Who is let in, asked of the real server by raw requests: hosts, origins, sockets, cookies, words, headers.</summary>
public class GatekeeperTests(OpenPage page) : IClassFixture<OpenPage>
{
    private static readonly string[] Places = ["/", "/lure/1/shape", "/page.css", "/ink.css", "/_framework/blazor.web.js", "/_blazor/negotiate", "/no-such-thing"];

    [Theory]
    [InlineData("evil.test")]
    [InlineData("evil.test:PORT")]
    [InlineData("127.0.0.1")]
    [InlineData("localhost")]
    [InlineData("127.0.0.1:1")]
    [InlineData("localhost.evil.test:PORT")]
    [InlineData("127.0.0.1.evil.test:PORT")]
    [InlineData("127.0.0.2:PORT")]
    [InlineData("0.0.0.0:PORT")]
    [InlineData("[::2]:PORT")]
    public async Task A_foreign_host_gets_neither_page_nor_socket_even_with_cookie_and_word(string host)
    {
        host = host.Replace("PORT", $"{page.Port}");
        foreach (string place in Places)
        {
            var (status, _, body) = await page.Ask($"GET {place}", $"Host: {host}", $"Cookie: {page.Cookie}", page.Word);
            Assert.True(status == 403, $"{place} of {host}: {status}");
            Assert.DoesNotContain("blazor", body);
        }
        Assert.Equal(403, (await page.Enter(page.Gate.Keys.New(page.Port), host)).Status);
        Assert.Equal(403, (await page.AskSocket(host, $"http://{host}", page.Cookie)).Status);
        Assert.Equal(403, (await page.AskSocket(host, $"http://{page.Host}", page.Cookie)).Status);
    }

    [Theory]
    [InlineData("127.0.0.1:PORT")]
    [InlineData("localhost:PORT")]
    [InlineData("[::1]:PORT")]
    public async Task Our_own_three_names_get_the_page_and_the_socket(string host)
    {
        host = host.Replace("PORT", $"{page.Port}");
        var (status, _, body) = await page.Ask("GET /", $"Host: {host}", $"Cookie: {page.Cookie}");
        Assert.Equal(200, status);
        Assert.Contains("blazor.web", body);
        // The gate opens; Blazor then refuses an id that it never gave out, which only an open gate lets it do.
        Assert.NotEqual(403, (await page.AskSocket(host, $"http://{host}", page.Cookie)).Status);
    }

    [Theory]
    [InlineData("http://evil.test")]
    [InlineData("http://127.0.0.1")]
    [InlineData("http://127.0.0.1:1")]
    [InlineData("https://HOST")]
    [InlineData("http://localhost:PORT")]
    [InlineData("null")]
    [InlineData("")]
    [InlineData(null)]
    public async Task A_foreign_origin_opens_no_socket_and_posts_nothing(string? origin)
    {
        origin = origin?.Replace("HOST", page.Host).Replace("PORT", $"{page.Port}");
        Assert.Equal(403, (await page.AskSocket(page.Host, origin, page.Cookie)).Status);
        string[] from = origin is null ? [] : [$"Origin: {origin}"];
        foreach (string method in new[] { "POST", "PUT", "DELETE", "PATCH", "OPTIONS" })
        {
            var (status, _, _) = await page.Ask($"{method} /_blazor/negotiate?negotiateVersion=1", [$"Host: {page.Host}", $"Cookie: {page.Cookie}", page.Word, "Content-Length: 0", .. from]);
            Assert.True(status == 403, $"{method} from {origin ?? "nowhere"}: {status}");
        }
    }

    [Fact]
    public async Task Our_own_origin_posts_and_so_does_a_browser_that_says_same_origin()
    {
        foreach (string from in new[] { $"Origin: http://{page.Host}", "Sec-Fetch-Site: same-origin" })
            Assert.Equal(200, (await page.Ask("POST /_blazor/negotiate?negotiateVersion=1", $"Host: {page.Host}", $"Cookie: {page.Cookie}", page.Word, "Content-Length: 0", from)).Status);
        foreach (string from in new[] { "Sec-Fetch-Site: cross-site", "Sec-Fetch-Site: same-site", "Sec-Fetch-Site: none" })
            Assert.Equal(403, (await page.Ask("POST /_blazor/negotiate?negotiateVersion=1", $"Host: {page.Host}", $"Cookie: {page.Cookie}", page.Word, "Content-Length: 0", from)).Status);
    }

    [Fact]
    public async Task Without_the_cookie_there_is_no_page_no_file_and_no_socket()
    {
        foreach (string place in Places)
        {
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}")).Status);
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}", $"Cookie: trimwright-{page.Port}={new string('0', 64)}")).Status);
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}", $"Cookie: trimwright-{page.Port}={page.Secret.Word}", page.Word)).Status);
            // A phone's cookie is worth nothing here, whatever it holds.
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}", $"Cookie: trimwright-phone-{page.Port}={page.Secret.Cookie}")).Status);
        }
        Assert.Equal(403, (await page.AskSocket(page.Host, $"http://{page.Host}", null)).Status);
    }

    [Fact]
    public async Task Who_is_not_let_in_reads_why_and_what_to_do_on_a_page_with_its_own_sheet()
    {
        var (status, head, body) = await page.Ask("GET /lure/1/shape", $"Host: {page.Host}");
        Assert.Equal(403, status);
        Assert.Contains("no-store", head);
        Assert.Contains("hasn't been let in", body);
        Assert.DoesNotContain(page.Secret.Word, body);
        Assert.DoesNotContain(page.Secret.Cookie, body);
        Assert.Contains("--no-browser", body);
        // The policy holds here too: nothing inside the page but words and a drawing.
        Assert.DoesNotContain(" style=\"", body);
        Assert.DoesNotContain("<style", body);
        Assert.DoesNotMatch("<script(?![^>]*src=)", body);
        // Its script and its sheet, and no other file, are given out to whoever asks.
        string script = Assert.Single(Regex.Matches(body, "src=\"([^\"]+)\"")).Groups[1].Value;
        Assert.Equal(200, (await page.Ask($"GET {script}", $"Host: {page.Host}")).Status);
        Assert.Equal(403, (await page.Ask("GET /dist/page.js", $"Host: {page.Host}")).Status);
        string sheet = Assert.Single(Regex.Matches(body, "href=\"([^\"]+)\"")).Groups[1].Value;
        var (given, type, text) = await page.Ask($"GET {sheet}", $"Host: {page.Host}");
        Assert.Equal(200, given);
        Assert.Contains("text/css", type);
        Assert.Contains("prefers-color-scheme:dark", text);
        Assert.Equal(403, (await page.Ask($"GET {sheet}", "Host: evil.test")).Status);
    }

    [Fact]
    public async Task A_key_lets_in_once_by_a_form_from_a_file_and_brings_both_halves()
    {
        string key = page.Gate.Keys.New(page.Port);
        var (status, head, body) = await page.Enter(key);
        Assert.Equal(200, status);
        string cookie = head.Split("\r\n").Single(l => l.StartsWith("Set-Cookie:", StringComparison.OrdinalIgnoreCase));
        Assert.Contains($"trimwright-{page.Port}={page.Secret.Cookie}", cookie);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        // It ends with the browser, if the program hasn't ended before.
        Assert.DoesNotContain("max-age", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("expires", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains($"data-word=\"{page.Secret.Word}\"", body);
        Assert.Contains("no-store", head);
        Assert.DoesNotContain(key, head + body);
        Assert.DoesNotContain(page.Secret.Cookie, body);
        // Nothing leads on by itself, to here or elsewhere.
        Assert.DoesNotContain("Location:", head, StringComparison.OrdinalIgnoreCase);

        await Refused(key);
        string good = page.Gate.Keys.New(page.Port);
        foreach (string wrong in new[] { "", "x", good[..^1], good + "A", "A" + good[1..], page.Secret.Cookie, page.Secret.Word, page.Gate.Keys.New(page.Port + 1), new string('A', 48) }) await Refused(wrong);
        // In an address it is worth nothing, and stays good.
        foreach (string asked in new[] { $"GET /enter?key={good}", $"POST /enter?key={good}" }) Assert.DoesNotContain(page.Secret.Word, (await page.Ask(asked, $"Host: {page.Host}", $"Origin: http://{page.Host}", "Content-Length: 0")).Body);
        foreach (string body2 in new[] { $"key={good}&key={good}", $"kee={good}", "%%%", "key", "" })
            Assert.Equal(403, (await page.Bring(body2, "POST /enter", $"Host: {page.Host}", "Content-Type: application/x-www-form-urlencoded")).Status);
        Assert.Equal(403, (await page.Bring($"{{\"key\":\"{good}\"}}", "POST /enter", $"Host: {page.Host}", "Content-Type: application/json")).Status);
        Assert.Equal(403, (await page.Bring(new string('k', 100_000), "POST /enter", $"Host: {page.Host}", "Content-Type: application/x-www-form-urlencoded")).Status);
        // Under a name, another account's server on the other kind of address could be meant.
        foreach (string name in new[] { $"localhost:{page.Port}", $"[::1]:{page.Port}" }) Assert.Equal(403, (await page.Enter(good, name)).Status);
        Assert.Equal(200, (await page.Enter(good, origin: $"Origin: http://{page.Host}")).Status);

        async Task Refused(string brought)
        {
            var (status, head, body) = await page.Enter(brought);
            Assert.Equal(403, status);
            Assert.DoesNotContain("Set-Cookie", head, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain(page.Secret.Word, body);
            Assert.Contains("older than five minutes", body);
        }
    }

    [Theory]
    [InlineData("//evil.test")]
    [InlineData("/%5Cevil.test")]
    [InlineData("/%09/evil.test")]
    [InlineData("/%0d%0aSet-Cookie:%20a=b")]
    [InlineData("%0d%0a")]
    [InlineData("/%00")]
    [InlineData("http://evil.test")]
    [InlineData("evil")]
    public async Task Whatever_its_address_says_the_way_in_leads_nowhere_else_and_answers_cleanly(string to)
    {
        foreach (string line in new[] { $"GET /enter?key={page.Gate.Keys.New(page.Port)}&to={to}", $"GET /enter?to={to}", $"GET /enter?{to}" })
        {
            var (status, head, body) = await page.Ask(line, $"Host: {page.Host}");
            Assert.True(status is 200 or 400, $"{line}: {status}");
            Assert.DoesNotContain("Location:", head, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("Set-Cookie", head, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("evil", head + body);
        }
    }

    [Fact]
    public async Task The_cookie_alone_opens_an_empty_page_and_nothing_else()
    {
        long lure = ((Saved<LureDesign>.Done)page.Store.NewLure(Lures.Demo("tidegate-185") with { Name = "Nobody's business" }, EditId.New(), "begun")).Revision.Owner;
        Photo photo = page.Store.AddPhoto(lure, "side", SamplePhotos.Jpeg(), _ => "{}", EditId.New()).Value!;
        string[] half = [$"Host: {page.Host}", $"Origin: http://{page.Host}", $"Cookie: {page.Cookie}"];
        foreach (string place in new[] { "/", $"/lure/{lure}", $"/lure/{lure}/shape", "/phone", "/about", "/not-there" })
        {
            var (status, head, body) = await page.Ask($"GET {place}", half);
            Assert.Equal(200, status);
            foreach (string word in new[] { "Nobody", "business", "Tidegate", "svg xmlns", page.Store.Path, page.Secret.Word }) Assert.DoesNotContain(word, body);
            Assert.DoesNotContain("Set-Cookie", head, StringComparison.OrdinalIgnoreCase);
        }
        foreach (string asked in new[]
        {
            "POST /_blazor/negotiate?negotiateVersion=1", "POST /_BLAZOR/negotiate?negotiateVersion=1", "POST /_blazor", "POST /_blazor?id=", "POST /_blazor?id=a&id=b", "DELETE /_blazor", "GET /_blazor", "GET /_blazor/negotiate",
            $"POST /lure/{lure}/photo/side", "POST /tab/new", "PUT /", "DELETE /", "POST /", "PATCH /lure/1", "POST /not-there", "OPTIONS /",
        })
            Assert.True((await page.Ask(asked, [.. half, "Content-Length: 0"])) is { Status: 403 }, asked);
        foreach (string at in new[] { "/_blazor", "/_blazor/", "/_Blazor", "/_blazor?", "/_blazor?id", "/_blazor?id=", "/_blazor?id=&id=", "/_blazor?id=a&ID=b", "/_blazor?transport=webSockets", "/%5fblazor" })
            Assert.True((await page.AskSocket(page.Host, $"http://{page.Host}", page.Cookie, at)).Status == 403, at);
        // A line that nobody opened isn't there; the one way to open one is refused above.
        Assert.Equal(404, (await page.AskSocket(page.Host, $"http://{page.Host}", page.Cookie)).Status);
        foreach (string mark in new[] { "", "?mark=", $"?mark={new string('A', 43)}", $"?mark={page.Secret.Mark(photo.Id + 1)}", $"?mark={page.Secret.Word}" })
            Assert.Equal(404, (await page.Ask($"GET /photo/{photo.Id}{mark}", half)).Status);

        // With the word too, all of it is there.
        var (_, _, line) = await page.Ask("POST /_blazor/negotiate?negotiateVersion=1", [.. half, page.Word, "Content-Length: 0"]);
        string token = JsonDocument.Parse(line).RootElement.GetProperty("connectionToken").GetString()!;
        Assert.Equal(101, (await page.AskSocket(page.Host, $"http://{page.Host}", page.Cookie, $"/_blazor?id={token}")).Status);
        Assert.Equal(200, (await page.Ask($"GET /photo/{photo.Id}?mark={page.Secret.Mark(photo.Id)}", half)).Status);
        Assert.Equal(200, (await page.Ask("POST /tab/new", [.. half, page.Word, "Content-Length: 0"])).Status);
        // And the word alone, or a wrong one beside the cookie, opens nothing either.
        foreach (string[] wrong in new[] { new[] { page.Word }, [$"Cookie: {page.Cookie}", $"{PageSecret.WordHeader}: {new string('A', 43)}"], [$"Cookie: {page.Cookie}", page.Word, page.Word] })
            Assert.Equal(403, (await page.Ask("POST /_blazor/negotiate?negotiateVersion=1", [$"Host: {page.Host}", $"Origin: http://{page.Host}", "Content-Length: 0", .. wrong])).Status);
        Assert.Equal(403, (await page.AskSocket(page.Host, $"http://{page.Host}", null, $"/_blazor?id={token}")).Status);
    }

    [Fact]
    public async Task A_lure_that_isn_t_there_is_404_and_so_is_every_other_place_that_isn_t()
    {
        long lure = ((Saved<LureDesign>.Done)page.Store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "begun")).Revision.Owner;
        string[] who = [$"Host: {page.Host}", $"Cookie: {page.Cookie}"];
        foreach (string place in new[] { "/lure/-1", "/lure/-1/shape", "/lure/0", "/lure/99999", "/lure/99999/rig", "/lure/x", "/lure/1.5", "/lure/99999999999999999999", "/lure/", "/no-such-thing", "/photo/1x", "/lure/1/shape/more" })
        {
            var (status, _, body) = await page.Ask($"GET {place}", who);
            Assert.True(status == 404, $"{place}: {status}");
            Assert.Contains("blazor.web", body);
        }
        foreach (string place in new[] { $"/lure/{lure}", $"/lure/{lure}/shape", "/", "/about" }) Assert.Equal(200, (await page.Ask($"GET {place}", who)).Status);
    }

    [Fact]
    public async Task A_HEAD_is_answered_as_the_GET_without_its_body()
    {
        foreach (string place in (string[])[.. Places, "/enter", "/gate.css", "/dist/gate.js", "/lure/-1", "/photo/1", "/about"])
            foreach (string[] who in new[] { new[] { $"Host: {page.Host}", $"Cookie: {page.Cookie}" }, [$"Host: {page.Host}"], ["Host: evil.test"] })
            {
                var get = await page.Ask($"GET {place}", who);
                var head = await page.Ask($"HEAD {place}", who);
                Assert.True(get.Status == head.Status, $"{place}: {get.Status} and {head.Status}");
                Assert.Equal("", head.Body);
                Assert.Equal(Kept(get.Head), Kept(head.Head));
            }

        // How a body is sent, and when, is no matter of what it is.
        static string[] Kept(string head) => [.. head.Split("\r\n").Skip(1).Where(l => !Regex.IsMatch(l, "^(Date|Content-Length|Transfer-Encoding|Connection):", RegexOptions.IgnoreCase)).Order()];
    }

    [Fact]
    public async Task Every_answer_carries_the_one_policy_and_no_other()
    {
        const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; font-src 'self'; "
            + "img-src 'self' blob:; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";
        foreach (string place in Places)
            foreach (string cookie in new[] { page.Cookie, "none=1" })
            {
                string[] head = (await page.Ask($"GET {place}", $"Host: {page.Host}", $"Cookie: {cookie}")).Head.Split("\r\n");
                Assert.Equal($"Content-Security-Policy: {Policy}", Assert.Single(head, l => l.StartsWith("Content-Security-Policy", StringComparison.OrdinalIgnoreCase)));
                Assert.Single(head, l => l == "X-Content-Type-Options: nosniff");
                Assert.Single(head, l => l == "Referrer-Policy: no-referrer");
                // One rule for frames, and no cookie but ours.
                Assert.DoesNotContain(head, l => l.StartsWith("X-Frame-Options", StringComparison.OrdinalIgnoreCase) || l.StartsWith("Set-Cookie", StringComparison.OrdinalIgnoreCase));
                Assert.DoesNotContain(head, l => l.StartsWith("Server:", StringComparison.OrdinalIgnoreCase));
            }
    }

    [Fact]
    public async Task Nothing_on_the_page_needs_what_the_policy_forbids()
    {
        string body = (await page.Ask("GET /", $"Host: {page.Host}", $"Cookie: {page.Cookie}")).Body;
        Assert.DoesNotContain(" style=\"", body);
        Assert.DoesNotContain("<style", body);
        Assert.DoesNotContain("importmap", body);
        Assert.DoesNotMatch("<script(?![^>]*src=)", body);
        Assert.DoesNotMatch("(src|href)=\"(https?:)?//", body);
    }
}
