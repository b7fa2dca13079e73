namespace Trimwright.Tests.Gate;

/// <summary>Who is let in, asked of the real server by raw requests: hosts, origins, sockets, cookies, headers.</summary>
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
    public async Task A_foreign_host_gets_neither_page_nor_socket_even_with_the_cookie(string host)
    {
        host = host.Replace("PORT", $"{page.Port}");
        foreach (string place in Places)
        {
            var (status, _, body) = await page.Ask($"GET {place}", $"Host: {host}", $"Cookie: {page.Cookie}");
            Assert.True(status == 403, $"{place} of {host}: {status}");
            Assert.DoesNotContain("waterline", body);
        }
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
        Assert.Contains("Tidegate 185", body);
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
            var (status, _, _) = await page.Ask($"{method} /_blazor/negotiate?negotiateVersion=1", [$"Host: {page.Host}", $"Cookie: {page.Cookie}", "Content-Length: 0", .. from]);
            Assert.True(status == 403, $"{method} from {origin ?? "nowhere"}: {status}");
        }
    }

    [Fact]
    public async Task Our_own_origin_posts_and_so_does_a_browser_that_says_same_origin()
    {
        foreach (string from in new[] { $"Origin: http://{page.Host}", "Sec-Fetch-Site: same-origin" })
            Assert.Equal(200, (await page.Ask("POST /_blazor/negotiate?negotiateVersion=1", $"Host: {page.Host}", $"Cookie: {page.Cookie}", "Content-Length: 0", from)).Status);
        foreach (string from in new[] { "Sec-Fetch-Site: cross-site", "Sec-Fetch-Site: same-site", "Sec-Fetch-Site: none" })
            Assert.Equal(403, (await page.Ask("POST /_blazor/negotiate?negotiateVersion=1", $"Host: {page.Host}", $"Cookie: {page.Cookie}", "Content-Length: 0", from)).Status);
    }

    [Fact]
    public async Task Without_the_cookie_there_is_no_page_no_file_and_no_socket()
    {
        foreach (string place in Places)
        {
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}")).Status);
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}", $"Cookie: trimwright-{page.Port}={new string('0', 64)}")).Status);
            Assert.Equal(403, (await page.Ask($"GET {place}", $"Host: {page.Host}", $"Cookie: trimwright-{page.Port}={page.Secret.Key}")).Status);
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
        Assert.Contains($"http://127.0.0.1:{page.Port}", body);
        Assert.DoesNotContain(page.Secret.Key, body);
        // The policy holds here too: nothing inside the page but words and a drawing.
        Assert.DoesNotContain(" style=\"", body);
        Assert.DoesNotContain("<style", body);
        Assert.DoesNotContain("<script", body);
        string sheet = Assert.Single(System.Text.RegularExpressions.Regex.Matches(body, "href=\"([^\"]+)\"")).Groups[1].Value;
        var (given, type, text) = await page.Ask($"GET {sheet}", $"Host: {page.Host}");
        Assert.Equal(200, given);
        Assert.Contains("text/css", type);
        Assert.Contains("prefers-color-scheme:dark", text);
        Assert.Equal(403, (await page.Ask($"GET {sheet}", "Host: evil.test")).Status);
    }

    [Fact]
    public async Task The_link_gives_the_cookie_once_and_leaves_the_address_bar()
    {
        var (status, head, _) = await page.Ask($"GET /enter?key={page.Secret.Key}", $"Host: {page.Host}");
        Assert.Equal(302, status);
        string cookie = head.Split("\r\n").Single(l => l.StartsWith("Set-Cookie:", StringComparison.OrdinalIgnoreCase)).ToLowerInvariant();
        Assert.Contains($"trimwright-{page.Port}={page.Secret.Cookie}", cookie);
        Assert.Contains("httponly", cookie);
        Assert.Contains("samesite=strict", cookie);
        Assert.Contains("Location: /\r\n", head + "\r\n");
        Assert.DoesNotContain(page.Secret.Key, head);
        foreach (string wrong in new[] { "", "x", page.Secret.Key[..^1], page.Secret.Key + "0", page.Secret.Cookie })
            Assert.DoesNotContain("Set-Cookie", (await page.Ask($"GET /enter?key={wrong}", $"Host: {page.Host}")).Head, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("//evil.test")]
    [InlineData("/%5Cevil.test")]
    [InlineData("http://evil.test")]
    [InlineData("evil")]
    public async Task The_link_leads_to_no_other_machine(string to) =>
        Assert.Contains("Location: /\r\n", (await page.Ask($"GET /enter?key={page.Secret.Key}&to={to}", $"Host: {page.Host}")).Head + "\r\n");

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
