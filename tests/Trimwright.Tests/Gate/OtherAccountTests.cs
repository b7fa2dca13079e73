using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using Trimwright.App.Gate;
using Trimwright.Core.Design;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>
/// Another account of the same machine, and another program of this one: what they can see and reach is tried as them. Those tries
/// need root, to become somebody else, and a Linux's own programs; elsewhere they are skipped and say so.
/// </summary>
public class OtherAccountTests(ITestOutputHelper output)
{
    // As the account that owns nothing.
    private async Task<string> As(string script)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess, "only root can try as another account");
        Assert.SkipUnless(File.Exists("/usr/bin/setpriv") && File.Exists("/bin/bash"), "setpriv (util-linux) or bash is missing");
        var how = new ProcessStartInfo("setpriv", ["--reuid=65534", "--regid=65534", "--clear-groups", "--", "/bin/bash", "-c", script])
        { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = "/" };
        using Process other = Process.Start(how)!;
        Task<string> error = other.StandardError.ReadToEndAsync();
        string said = await other.StandardOutput.ReadToEndAsync();
        await other.WaitForExitAsync();
        output.WriteLine($"{script.Split('\n')[0]}: {said.Length} letters, {(await error).Trim()}");
        return said;
    }

    private Task<string> Asks(int port, string line, params string[] headers)
    {
        string[] said = [$"{line} HTTP/1.1", $"Host: 127.0.0.1:{port}", "Connection: close", .. headers, ""];
        return As($"exec 3<>/dev/tcp/127.0.0.1/{port} && printf '%s\\r\\n' {string.Join(' ', said.Select(h => $"'{h}'"))} >&3 && cat <&3");
    }

    private Task<string> Brings(int port, string key) =>
        Asks(port, "POST /enter", "Content-Type: application/x-www-form-urlencoded", $"Content-Length: {key.Length + 4}", "", $"key={key}");

    [Fact]
    public async Task It_sees_no_key_while_the_browser_runs_and_gets_no_page()
    {
        using var temp = new TempStore();
        using Process program = ServeCommandTests.Start(temp, browser: true);
        try
        {
            string link = (await ServeCommandTests.Line(program))!, printed = new Uri(link).Fragment[1..];
            int port = new Uri(link).Port;
            (string note, string key) = await ServeCommandTests.Opened(temp, 1);
            string secret = KeptSecrets.OfTheFirst(temp.Path)!;

            // Every command line of the machine: that of the stand-in for a browser is among them.
            string lines = await As("cat /proc/[0-9]*/cmdline | tr '\\0' ' '");
            Assert.Contains(note, lines);
            Assert.DoesNotContain(key, lines);
            Assert.DoesNotContain(printed, lines);
            // Its surroundings, and every file where it could lie.
            string files = $"/proc/{program.Id}/environ '{note}' '{KeptSecrets.FileOf(temp.Path)}' '{temp.Path}'";
            Assert.Equal("none", (await As($"cat {files} 2>/dev/null || echo none")).Trim());
            Assert.Equal("", await As($"ls '{temp.Folder}' '{Path.GetDirectoryName(note)}'"));
            Assert.Equal("", await As($"grep -rlsF -e '{key}' -e '{printed}' -e '{secret}' /tmp /var/tmp /run /dev/shm"));

            // The port: without a key, with guessed ones, with a cookie. The system tells who asks, so nothing else is looked at.
            foreach (string[] asked in new string[][]
            {
                ["GET /"], ["GET /lure/1/shape", $"Cookie: trimwright-{port}={new string('A', 43)}"], ["GET /enter"],
                ["POST /tab/ask", "Content-Length: 0"],
            })
            {
                string got = await Asks(port, asked[0], asked[1..]);
                Assert.StartsWith("HTTP/1.1 403", got);
                Assert.Contains("Another account of this machine", got);
            }
            // Even with a key that it somehow had; and the key stays good for whom it is.
            Assert.StartsWith("HTTP/1.1 403", await Brings(port, key));
            Assert.True(File.Exists(note));
        }
        finally
        {
            program.Kill();
            await program.WaitForExitAsync();
        }
    }

    [Fact]
    public async Task Where_the_system_doesn_t_tell_who_asks_a_caught_cookie_and_an_old_one_are_worth_nothing_to_it()
    {
        using var temp = new TempStore();
        string old;
        int port;
        await using (OpenPage page = await OpenPage.On(temp.Path))
        {
            LureDesign design = Lures.Demo("tidegate-185") with { Name = "Nobody's business" };
            long lure = ((Saved<LureDesign>.Done)page.Store.NewLure(design, EditId.New(), "begun")).Revision.Owner;
            (old, port) = (page.Cookie, page.Port);
            string from = $"Origin: http://{page.Host}";
            // Without it, or with a guessed one.
            Assert.StartsWith("HTTP/1.1 403", await Asks(port, "GET /"));
            Assert.StartsWith("HTTP/1.1 403", await Asks(port, "GET /", $"Cookie: trimwright-{port}={PageSecret.Random()}"));
            Assert.StartsWith("HTTP/1.1 403", await Brings(port, page.Gate.Keys.New(port)[..^4] + "AAAA"));
            // As a server of theirs on another port is given it by the maker's browser.
            foreach (string line in new[] { "GET /", $"GET /lure/{lure}/shape", "GET /about" })
            {
                string got = await Asks(port, line, $"Cookie: {old}");
                Assert.StartsWith("HTTP/1.1 200", got);
                foreach (string word in new[] { "Nobody", "business", "Tidegate", page.Secret.Word }) Assert.DoesNotContain(word, got);
            }
            foreach (string line in new[] { "POST /_blazor/negotiate?negotiateVersion=1", "POST /tab/new", "POST /lure/1/photo/side" })
                Assert.StartsWith("HTTP/1.1 403", await Asks(port, line, $"Cookie: {old}", from, "Content-Length: 0"));
            string[] socket = ["Upgrade: websocket", "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ=="];
            Assert.StartsWith("HTTP/1.1 403", await Asks(port, "GET /_blazor", [$"Cookie: {old}", from, .. socket]));
        }
        await using (OpenPage again = await OpenPage.On(temp.Path, port))
        {
            Assert.Equal(port, again.Port);
            Assert.StartsWith("HTTP/1.1 403", await Asks(port, "GET /", $"Cookie: {old}"));
            Assert.StartsWith("HTTP/1.1 200", await Asks(port, "GET /", $"Cookie: {again.Cookie}"));
        }
        // Where it does tell, not even that.
        await using OpenPage looks = await OpenPage.On(temp.Path, isAnothers: OtherAccounts.Ask);
        Assert.StartsWith("HTTP/1.1 403", await Asks(looks.Port, "GET /", $"Cookie: {looks.Cookie}", looks.Word));
        Assert.Equal(200, (await looks.Ask("GET /", $"Host: {looks.Host}", $"Cookie: {looks.Cookie}")).Status);
    }

    [Fact]
    public async Task Two_programs_of_one_account_on_two_ports_don_t_open_each_other()
    {
        using TempStore one = new(), two = new();
        await using OpenPage a = await OpenPage.On(one.Path), b = await OpenPage.On(two.Path);
        string[] own = [$"Host: {b.Host}", $"Origin: http://{b.Host}", "Content-Length: 0", a.Word];
        foreach (string line in new[] { "GET /", "POST /_blazor/negotiate?negotiateVersion=1", "POST /tab/new", "GET /photo/1" })
            Assert.Equal(403, (await b.Ask(line, [.. own, $"Cookie: {a.Cookie}; trimwright-{b.Port}={a.Secret.Cookie}"])).Status);
        // Both cookies, as the browser sends them to both; one's word.
        foreach (string line in new[] { "POST /_blazor/negotiate?negotiateVersion=1", "POST /tab/new" })
            Assert.Equal(403, (await b.Ask(line, [.. own, $"Cookie: {a.Cookie}; {b.Cookie}"])).Status);
        Assert.Equal(403, (await b.Enter(a.Gate.Keys.New(a.Port))).Status);
        Assert.Equal(403, (await b.Enter(a.Gate.Keys.New(b.Port))).Status);
        TabKey tab = a.Gate.Tabs.New(a.Port);
        string ask = $$"""{"run":"{{tab.Run}}","id":"{{tab.Id}}","until":{{tab.Until}},"word":"{{PageSecret.Random()}}"}""";
        Assert.Equal(404, (await b.Say("/tab/ask", ask)).Status);
        Assert.Equal(200, (await a.Say("/tab/ask", ask)).Status);
        Assert.NotEqual(a.Secret.Mark(1), b.Secret.Mark(1));
    }

    [Fact]
    public async Task A_tab_comes_back_after_a_restart_at_its_port_by_proofs_alone()
    {
        using var temp = new TempStore();
        TabKey key;
        string cookie, word;
        int port;
        await using (OpenPage page = await OpenPage.On(temp.Path))
        {
            (cookie, word, port) = (page.Cookie, page.Word, page.Port);
            (int status, _, string body) = await page.Say("/tab/new", "", $"Cookie: {cookie}", word, "Content-Length: 0");
            Assert.Equal(200, status);
            key = Json<TabKey>(body);
        }
        await using OpenPage again = await OpenPage.On(temp.Path, port);
        // The old halves are worth nothing.
        Assert.Equal(403, (await again.Say("/tab/new", "", $"Cookie: {cookie}", word, "Content-Length: 0")).Status);
        string said = PageSecret.Random();
        string about = $"\"run\":\"{key.Run}\",\"id\":\"{key.Id}\",\"until\":{key.Until}";
        TabKeys.Answer answer = Json<TabKeys.Answer>((await again.Say("/tab/ask", $"{{{about},\"word\":\"{said}\"}}")).Body);
        Assert.Equal(PageSecret.Proof(key.Secret, "program", said, answer.Run), answer.Proof);
        string back = $"{{{about},\"proof\":\"{PageSecret.Proof(key.Secret, "tab", answer.Run)}\"}}";
        // From another site, under a name, or with the wrong proof: nothing, and the key stays good.
        Assert.Equal(403, (await again.Bring(back, "POST /tab/back", $"Host: {again.Host}", "Origin: http://127.0.0.1:1")).Status);
        string[] named = [$"Host: localhost:{port}", $"Origin: http://localhost:{port}"];
        Assert.Equal(403, (await again.Bring(back, "POST /tab/back", named)).Status);
        Assert.Equal(403, (await again.Say("/tab/back", $"{{{about},\"proof\":\"{answer.Proof}\"}}")).Status);
        foreach (string odd in new[] { "", "{", "null", "[]", "{\"run\":1}", "{\"until\":\"x\"}", new string('x', 5000) })
        {
            Assert.Equal(403, (await again.Say("/tab/back", odd, odd.Length == 0 ? ["Content-Length: 0"] : [])).Status);
            Assert.Equal(404, (await again.Say("/tab/ask", odd, odd.Length == 0 ? ["Content-Length: 0"] : [])).Status);
        }
        var (got, head, halves) = await again.Say("/tab/back", back);
        Assert.Equal(200, got);
        Assert.Contains(again.Cookie, head);
        Assert.Contains(again.Secret.Word, halves);
        Assert.DoesNotContain(key.Secret, halves);
        // Once.
        Assert.Equal(403, (await again.Say("/tab/back", back)).Status);
    }

    private static T Json<T>(string text) => JsonSerializer.Deserialize<T>(text, JsonSerializerOptions.Web)!;

    [Theory]
    [InlineData(AddressFamily.InterNetwork)]
    [InlineData(AddressFamily.InterNetworkV6)]
    public async Task The_system_tells_whose_a_connection_is_by_whichever_kind_of_socket_it_was_made(AddressFamily kind)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux is asked");
        Assert.SkipUnless(kind == AddressFamily.InterNetwork || Socket.OSSupportsIPv6, "no IPv6 here");
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        using var client = new Socket(kind, SocketType.Stream, ProtocolType.Tcp);
        if (kind == AddressFamily.InterNetworkV6) client.DualMode = true;
        IPAddress address = kind == AddressFamily.InterNetwork ? IPAddress.Loopback : IPAddress.Loopback.MapToIPv6();
        await client.ConnectAsync(address, ((IPEndPoint)listener.LocalEndpoint).Port);
        using Socket accepted = await listener.AcceptSocketAsync();
        (IPEndPoint here, IPEndPoint there) = ((IPEndPoint)accepted.LocalEndPoint!, (IPEndPoint)accepted.RemoteEndPoint!);
        string status = File.ReadLines("/proc/self/status").First(l => l.StartsWith("Uid:", StringComparison.Ordinal));
        uint own = uint.Parse(status.Split('\t')[2], CultureInfo.InvariantCulture);
        Assert.Equal(own, OtherAccounts.AccountOf(there, here));
        Assert.False(OtherAccounts.Ask(here, there));
        Assert.Null(OtherAccounts.AccountOf(new IPEndPoint(IPAddress.Loopback, 1), here));
    }
}
