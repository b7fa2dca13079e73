using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>The way into the page in a real browser: what is left of a key, whom a tab believes, what others' servers catch.</summary>
[Collection("browser")]
public class GateTests(ITestOutputHelper output)
{
    private static readonly Way Desk = new(1440, "mouse", false);

    [Fact]
    public async Task A_key_comes_by_a_file_and_is_in_no_command_line_and_no_history()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "looks at what is called as xdg-open is on Linux");
        string? path = Visit.Browsers.FirstOrDefault(File.Exists);
        if (path is null) Assert.Skip("no Chromium on this machine; .ci/run installs it");
        string folder = Directory.CreateTempSubdirectory("trimwright-gate").FullName;
        string called = Path.Combine(folder, "called"), profile = Path.Combine(folder, "profile");
        string opener = Path.Combine(folder, "bin", "xdg-open");
        Directory.CreateDirectory(Path.Combine(folder, "bin"));
        await File.WriteAllTextAsync(opener, $"#!/bin/sh\nprintf '%s\\n' \"$@\" >> {called}\n");
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(opener, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        ProcessStartInfo how = TheServer.How("serve", "--store", Path.Combine(folder, "workshop.trimwright"));
        how.Environment["PATH"] = Path.Combine(folder, "bin") + ":" + Environment.GetEnvironmentVariable("PATH");
        how.Environment["XDG_DATA_HOME"] = Path.Combine(folder, "data");
        using Process program = Process.Start(how)!;
        using IPlaywright playwright = await Playwright.CreateAsync();
        try
        {
            string link = (await program.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(30)))!;
            await Until(() => File.Exists(called) && new FileInfo(called).Length > 0);
            string note = (await File.ReadAllTextAsync(called)).Trim();
            string key = Regex.Match(await File.ReadAllTextAsync(note), "name=\"key\" value=\"([^\"]+)\"").Groups[1].Value;
            Assert.Equal(48, key.Length);
            string home = new Uri(new Uri(link), "/").ToString();
            await using (IBrowserContext context = await playwright.Chromium.LaunchPersistentContextAsync(profile, new()
            {
                ExecutablePath = path, Args = ["--no-sandbox", "--no-first-run", "--disable-background-networking"],
            }))
            {
                IPage page = await context.NewPageAsync();
                await page.GotoAsync("file://" + note);
                await page.WaitForURLAsync(home);
                await Assertions.Expect(page.Locator(".swims button").First).ToBeEnabledAsync();
                Assert.False(File.Exists(note), "the note is still there");
                // Back leads to no page that would bring a key again.
                Assert.DoesNotContain("enter", await page.EvaluateAsync<string>("location.href"));
                IPage other = await context.NewPageAsync();
                await other.GotoAsync(link);
                await other.WaitForURLAsync(home);
                await Assertions.Expect(other.Locator(".swims button").First).ToBeEnabledAsync();
            }
            string[] noted = With(key), printed = With(new Uri(link).Fragment[1..]);
            output.WriteLine($"files of the browser with the note's key: {string.Join(", ", noted)}");
            output.WriteLine($"and with the printed link's: {string.Join(", ", printed)}");
            string history = Directory.GetFiles(profile, "History", SearchOption.AllDirectories).Single();
            Assert.True(Holds(history, home), "the history doesn't know the page: it isn't the right file");
            Assert.DoesNotContain(noted, f => Path.GetFileName(f).StartsWith("History", StringComparison.Ordinal));
        }
        finally
        {
            program.Kill();
            await program.WaitForExitAsync();
            Directory.Delete(folder, recursive: true);
        }

        string[] With(string text) =>
            [.. Directory.GetFiles(profile, "*", SearchOption.AllDirectories).Where(f => Holds(f, text)).Select(f => f[profile.Length..])];
    }

    private static bool Holds(string file, string text) => File.ReadAllBytes(file).AsSpan().IndexOf(Encoding.ASCII.GetBytes(text)) >= 0;

    [Fact]
    public async Task A_tab_killed_in_mid_edit_is_back_with_its_text_within_five_seconds()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, Desk);
        IPage page = await visit.Start("Tidegate 185");
        string lure = TheServer.LureOf(page);
        await page.GotoAsync(server.At($"/lure/{lure}/rig").ToString());
        await Visit.Ready(page);
        double slowest = 0;
        for (int round = 0; round < 3; round++)
        {
            string text = $"{7.1 + round / 10.0:0.0}", cookie = await Cookie(page), key = await Key(page);
            // Typed, not entered: nobody but the tab knows of it.
            await page.Locator("[data-field=grams-6]").FillAsync(text);
            await server.Kill();
            await Assertions.Expect(page.Locator("#components-reconnect-modal.shown .unheard")).ToBeVisibleAsync();
            await server.StartAgain();
            long from = Stopwatch.GetTimestamp();
            await page.WaitForFunctionAsync($"text => {Up} && document.querySelector('[data-field=grams-6]')?.value === text", text, Long);
            double took = Stopwatch.GetElapsedTime(from).TotalSeconds;
            slowest = Math.Max(slowest, took);
            output.WriteLine($"back with its text {took:0.00} s after the program answered again");
            await Visit.Saved(page, 2 + round);
            // Another secret, and another key.
            Assert.NotEqual(cookie, await Cookie(page));
            Assert.NotEqual(key, await Key(page));
        }
        Assert.True(slowest <= 5, $"{slowest:0.00} s");
        Console.WriteLine($"A tab killed in mid-edit is back with its text at most {slowest:0.00} s after the program answers again");

        // Loaded again while nobody answered, or brought back by the browser: it comes back all the same, by itself.
        await server.Kill();
        await Assert.ThrowsAsync<PlaywrightException>(() => page.ReloadAsync());
        await server.StartAgain();
        await page.GotoAsync(server.At($"/lure/{lure}/rig").ToString());
        await Visit.Ready(page);
        // A tab that never was in, in the same browser, is in by the browser's two halves; in another browser nobody is.
        await visit.AnotherTab(server.At($"/lure/{lure}/rig"));
        IPage stranger = await (await visit.Another(Desk)).NewPageAsync();
        IResponse? closed = await stranger.GotoAsync(server.At($"/lure/{lure}/rig").ToString());
        Assert.Equal(403, closed!.Status);
        await Assertions.Expect(stranger.Locator("h1")).ToHaveTextAsync("This page opens by a link of its own");
    }

    private const string Up = "!document.documentElement.classList.contains('lost') && document.querySelector('.bench[data-ready]')";

    private static readonly PageWaitForFunctionOptions Long = new() { Timeout = 20_000 };

    private static async Task<string> Cookie(IPage page) =>
        (await page.Context.CookiesAsync()).Single(c => c.Name.StartsWith("trimwright-", StringComparison.Ordinal)).Value;

    private static Task<string> Key(IPage page) => page.EvaluateAsync<string>("sessionStorage.getItem('trimwright key')");

    [Fact]
    public async Task Somebody_else_at_the_port_is_told_nothing_and_shown_nothing_and_the_program_is_known_again()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, Desk);
        IPage page = await visit.Start("Tidegate 185");
        await page.EvaluateAsync("window.mark = 'here'");
        int port = new Uri(server.Link).Port;
        string address = page.Url, cookie = await Cookie(page);
        string word = await page.EvaluateAsync<string>("localStorage.getItem('trimwright word')");
        string secret = Regex.Match(await Key(page), "\"secret\":\"([^\"]+)\"").Groups[1].Value;
        Assert.Equal((43, 43), (word.Length, secret.Length));

        await server.Kill();
        await using (var somebody = new Somebody(port, (_, _) => Task.FromResult<string?>("""{"run":"x","proof":"y"}""")))
        {
            await Assertions.Expect(page.Locator("#components-reconnect-modal .unknown")).ToBeVisibleAsync(new() { Timeout = 20_000 });
            await Until(() => somebody.Heard.Count >= 3);
            Told(somebody);
        }
        // The same store's program runs elsewhere, and somebody at our port passes on whatever is asked.
        await server.StartAgain(0);
        int elsewhere = new Uri(server.Link).Port;
        Assert.NotEqual(port, elsewhere);
        await using (var relay = new Somebody(port, async (path, body) =>
        {
            using var client = new HttpClient();
            using var request = new HttpRequestMessage(HttpMethod.Post, $"http://127.0.0.1:{elsewhere}{path}");
            request.Content = new StringContent(body, Encoding.UTF8, "application/json");
            request.Headers.Add("Origin", $"http://127.0.0.1:{elsewhere}");
            using HttpResponseMessage answer = await client.SendAsync(request);
            return answer.IsSuccessStatusCode ? await answer.Content.ReadAsStringAsync() : null;
        }))
        {
            await Until(() => relay.Answered >= 3);
            Told(relay);
        }
        await server.Kill();
        await server.StartAgain(port);
        await page.WaitForFunctionAsync($"() => {Up} && !window.mark", null, Long);
        Assert.Equal(address, page.Url);

        void Told(Somebody who)
        {
            Assert.Equal("here", page.EvaluateAsync<string>("window.mark").Result);
            Assert.All(who.Heard, asked =>
            {
                Assert.StartsWith("POST /tab/ask ", asked);
                foreach (string never in new[] { word, secret, cookie, "Cookie:" })
                    Assert.DoesNotContain(never, asked, StringComparison.OrdinalIgnoreCase);
            });
            output.WriteLine($"{who.Heard.Count} times asked, {who.Answered} times answered; the last: {who.Heard.Last().Split('\n')[^1]}");
        }
    }

    private static async Task Until(Func<bool> so)
    {
        for (int tries = 0; !so(); tries++)
        {
            Assert.True(tries < 600, "it never came to that");
            await Task.Delay(50);
        }
    }

    /// <summary>Somebody's server at a port of this machine, that answers everything and keeps what it heard.</summary>
    private sealed class Somebody : IAsyncDisposable
    {
        private readonly TcpListener listener;
        private readonly Task serving;
        private int answered;

        public Somebody(int port, Func<string, string, Task<string?>> answer)
        {
            listener = new TcpListener(IPAddress.Loopback, port);
            listener.Start();
            serving = Serve(answer);
        }

        public ConcurrentQueue<string> Heard { get; } = new();

        public int Answered => answered;

        private async Task Serve(Func<string, string, Task<string?>> answer)
        {
            try
            {
                for (; ; )
                {
                    using TcpClient client = await listener.AcceptTcpClientAsync();
                    await using NetworkStream stream = client.GetStream();
                    var bytes = new byte[16384];
                    var asked = new StringBuilder();
                    int length = 0, cut = -1;
                    while (cut < 0 || asked.Length < cut + 4 + length)
                    {
                        int n = await stream.ReadAsync(bytes);
                        if (n == 0) break;
                        asked.Append(Encoding.UTF8.GetString(bytes, 0, n));
                        cut = asked.ToString().IndexOf("\r\n\r\n", StringComparison.Ordinal);
                        if (Regex.Match(asked.ToString(), "content-length: (\\d+)\r", RegexOptions.IgnoreCase) is { Success: true } told)
                            length = int.Parse(told.Groups[1].Value, CultureInfo.InvariantCulture);
                    }
                    // A browser opens lines that it doesn't use.
                    if (cut < 0) continue;
                    Heard.Enqueue(asked.ToString());
                    string? said = await answer(asked.ToString().Split(' ')[1], asked.ToString()[(cut + 4)..]);
                    if (said is not null) Interlocked.Increment(ref answered);
                    string body = said ?? "";
                    string status = said is null ? "404 Not Found" : "200 OK", size = $"Content-Length: {Encoding.UTF8.GetByteCount(body)}";
                    string head = $"HTTP/1.1 {status}\r\nContent-Type: application/json\r\nConnection: close\r\n{size}\r\n\r\n";
                    await stream.WriteAsync(Encoding.UTF8.GetBytes(head + body));
                }
            }
            catch (Exception e) when (e is SocketException or ObjectDisposedException or InvalidOperationException)
            {
                // It was stopped.
            }
        }

        public async ValueTask DisposeAsync()
        {
            listener.Stop();
            await serving;
        }
    }

    [Fact]
    public async Task A_server_of_another_account_catches_the_cookie_and_gets_nothing_for_it()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess, "only root can serve as another account");
        Assert.SkipUnless(File.Exists("/usr/bin/setpriv") && File.Exists("/usr/bin/perl"), "setpriv (util-linux) or perl is missing");
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, Desk);
        IPage page = await visit.Start("Tidegate 185");
        string cookie = await Cookie(page), lure = TheServer.LureOf(page);
        int port = new Uri(server.Link).Port;
        // A page of theirs, that tries from inside the maker's own browser what it can; what it is sent is printed.
        string tries = $$"""
            <!doctype html><meta charset="utf-8"><iframe src="http://127.0.0.1:{{port}}/lure/{{lure}}/shape"></iframe>
            <img id="i" src="http://127.0.0.1:{{port}}/mark.svg"><script type="module">
            const at = "http://127.0.0.1:{{port}}", said = {};
            const tell = async (name, what) => { try { said[name] = await what(); } catch (e) { said[name] = "refused"; } };
            await tell("read", async () => (await fetch(at + "/lure/{{lure}}/shape", { credentials: "include" })).status);
            const post = async (path) => (await fetch(at + path, { method: "POST", credentials: "include" })).status;
            await tell("post", () => post("/_blazor/negotiate?negotiateVersion=1"));
            await tell("tab", () => post("/tab/new"));
            await tell("socket", () => new Promise((yes) => {
              const s = new WebSocket(at.replace("http", "ws") + "/_blazor");
              s.onopen = () => yes("open");
              s.onerror = () => yes("refused");
            }));
            await tell("script", () => import(at + "/dist/gate.js").then(() => "ran"));
            await tell("frame", () => { const d = document.querySelector("iframe").contentDocument; return d ? "seen" : "refused"; });
            const waited = new Promise((r) => setTimeout(r, 500));
            await tell("picture", async () => { await waited; return document.getElementById("i").naturalWidth > 0 ? "seen" : "refused"; });
            await tell("storage", () => JSON.stringify([{ ...localStorage }, { ...sessionStorage }]));
            document.title = JSON.stringify(said);
            </script>
            """;
        const string Serving = """
            use IO::Socket::INET; $| = 1; my $page = do { local $/; <STDIN> };
            my $head = "HTTP/1.1 200 OK\r\nContent-Type: text/html\r\nConnection: close\r\n\r\n";
            my $s = IO::Socket::INET->new(LocalAddr => "127.0.0.1", LocalPort => 0, Listen => 9, ReuseAddr => 1) or die;
            print $s->sockport, "\n";
            while (my $c = $s->accept) { while (<$c>) { print if /^cookie:/i; last if /^\r?\n$/ } print $c $head . $page; close $c }
            """;
        using Process theirs = AsAnother("perl", "-e", Serving);
        try
        {
            await theirs.StandardInput.WriteAsync(tries);
            theirs.StandardInput.Close();
            string? told = await theirs.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(20));
            int other = int.Parse(told!, CultureInfo.InvariantCulture);
            IPage lured = await page.Context.NewPageAsync();
            await lured.GotoAsync($"http://127.0.0.1:{other}/");
            await lured.WaitForFunctionAsync("() => document.title.startsWith('{')");
            string said = await lured.TitleAsync();
            output.WriteLine(said);
            foreach (string name in new[] { "read", "post", "tab", "socket", "script", "frame", "picture" })
                Assert.Contains($"\"{name}\":\"refused\"", said);
            Assert.Contains("\"storage\":\"[{},{}]\"", said);
            string caught = (await theirs.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(20)))!;
            Assert.Contains(cookie, caught);
        }
        finally
        {
            theirs.Kill();
            await theirs.WaitForExitAsync();
        }
        // As they would ask with it themselves: the system tells who they are. Asked as if it didn't: an empty page, no line for a socket.
        foreach (string line in new[] { "GET /", $"GET /lure/{lure}/shape", "POST /_blazor/negotiate?negotiateVersion=1" })
        {
            string at = $"127.0.0.1:{port}";
            string[] head =
            [
                $"{line} HTTP/1.1", $"Host: {at}", $"Origin: http://{at}", $"Cookie: trimwright-{port}={cookie}", "Content-Length: 0",
                "Connection: close", "",
            ];
            string quoted = string.Join(' ', head.Select(h => $"'{h}'"));
            string script = $"exec 3<>/dev/tcp/127.0.0.1/{port} && printf '%s\\r\\n' {quoted} >&3 && cat <&3";
            using Process asks = AsAnother("/bin/bash", "-c", script);
            string got = await asks.StandardOutput.ReadToEndAsync();
            Assert.StartsWith("HTTP/1.1 403", got);
            Assert.Contains("Another account of this machine", got);
        }
        using var own = new HttpClient(new SocketsHttpHandler { UseCookies = false, UseProxy = false });
        own.DefaultRequestHeaders.Add("Cookie", $"trimwright-{port}={cookie}");
        own.DefaultRequestHeaders.Add("Origin", $"http://127.0.0.1:{port}");
        Assert.DoesNotContain("Tidegate", await own.GetStringAsync(server.At($"/lure/{lure}/shape")));
        Assert.Equal(HttpStatusCode.Forbidden, (await own.PostAsync(server.At("/_blazor/negotiate?negotiateVersion=1"), null)).StatusCode);
        // And the maker's page goes on.
        await page.ReloadAsync();
        await Visit.Ready(page);

        static Process AsAnother(params string[] what) => Process.Start(
            new ProcessStartInfo("setpriv", ["--reuid=65534", "--regid=65534", "--clear-groups", "--", .. what])
            {
                RedirectStandardInput = true,
                RedirectStandardOutput = true,
                WorkingDirectory = "/",
            })!;
    }
}
