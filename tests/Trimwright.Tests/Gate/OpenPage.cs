using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Trimwright.App.Gate;
using Trimwright.App.Pages;
using Trimwright.App.Commands;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>The page served as the program serves it, on a free port of this machine, over a store of its own or a given one.</summary>
public sealed class OpenPage : IAsyncLifetime
{
    private readonly TempStore? temp;
    private readonly string path;
    private readonly Func<IPEndPoint, IPEndPoint, bool>? isAnothers;
    private WebApplication app = null!;

    public OpenPage() => path = (temp = new TempStore()).Path;

    private OpenPage(string path, int port, Func<IPEndPoint, IPEndPoint, bool>? isAnothers) =>
        (this.path, Port, this.isAnothers) = (path, port, isAnothers);

    /// <summary>One run of the program on a store.</summary>
    internal static async Task<OpenPage> On(string store, int port = 0, Func<IPEndPoint, IPEndPoint, bool>? isAnothers = null)
    {
        var page = new OpenPage(store, port, isAnothers);
        await page.InitializeAsync();
        return page;
    }

    internal Store Store { get; private set; } = null!;

    internal Gatekeeper Gate { get; private set; } = null!;

    internal PageSecret Secret => Gate.Secret;

    public int Port { get; private set; }

    public string Host => $"127.0.0.1:{Port}";

    internal string Cookie => $"{PageSecret.CookieName(Port)}={Secret.Cookie}";

    /// <summary>The header with the other half.</summary>
    internal string Word => $"{PageSecret.WordHeader}: {Secret.Word}";

    /// <summary>One of the page's own.</summary>
    internal T Service<T>()
        where T : notnull => app.Services.GetRequiredService<T>();

    public async ValueTask InitializeAsync()
    {
        Store = Store.Open(path);
        Gate = new Gatekeeper(KeptSecrets.Begin(path, TimeProvider.System), TimeProvider.System, isAnothers);
        app = PageHost.Build<Root>(new ServeRequest(Port, false, path), DataFolder.Of(path), Gate, Store);
        await app.StartAsync();
        Port = PageHost.PortOf(app);
    }

    public async ValueTask DisposeAsync()
    {
        await app.DisposeAsync();
        Store.Dispose();
        temp?.Dispose();
    }

    /// <summary>What comes back, byte for byte: no client library sets or mends a header here.</summary>
    public Task<(int Status, string Head, string Body)> Ask(string line, params string[] headers) => Bring("", line, headers);

    /// <summary>The same with a body.</summary>
    public async Task<(int Status, string Head, string Body)> Bring(string body, string line, params string[] headers)
    {
        using var client = new TcpClient();
        await client.ConnectAsync("127.0.0.1", Port);
        await using NetworkStream stream = client.GetStream();
        string close = headers.Any(h => h.StartsWith("Connection:", StringComparison.OrdinalIgnoreCase)) ? "" : "Connection: close\r\n";
        string length = body.Length > 0 ? $"Content-Length: {Encoding.UTF8.GetByteCount(body)}\r\n" : "";
        string head = string.Concat(headers.Select(h => h + "\r\n"));
        await stream.WriteAsync(Encoding.UTF8.GetBytes($"{line} HTTP/1.1\r\n{head}{close}{length}\r\n{body}"));
        var all = new MemoryStream();
        var buffer = new byte[65536];
        using var patience = new CancellationTokenSource(Patience.ForAHang);
        for (int n; (n = await stream.ReadAsync(buffer, patience.Token)) > 0;)
        {
            all.Write(buffer, 0, n);
            // Asked for a socket, the server leaves the line open either way: the head is the answer.
            if (close.Length == 0 && Encoding.ASCII.GetString(all.ToArray()).Contains("\r\n\r\n", StringComparison.Ordinal)) break;
        }
        byte[] bytes = all.ToArray();
        int cut = bytes.AsSpan().IndexOf("\r\n\r\n"u8);
        head = Encoding.UTF8.GetString(bytes, 0, cut);
        byte[] said = bytes[(cut + 4)..];
        if (head.Contains("Transfer-Encoding: chunked", StringComparison.OrdinalIgnoreCase)) said = Joined(said);
        return (int.Parse(head.Split(' ')[1], CultureInfo.InvariantCulture), head, Encoding.UTF8.GetString(said));
    }

    // A body may come in pieces, each with its length before it, cut anywhere.
    private static byte[] Joined(byte[] body)
    {
        var whole = new MemoryStream();
        for (int at = 0; body.AsSpan(at).IndexOf("\r\n"u8) is >= 0 and var line;)
        {
            int length = int.Parse(Encoding.ASCII.GetString(body, at, line), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
            if (length == 0) break;
            whole.Write(body, at + line + 2, Math.Min(length, body.Length - at - line - 2));
            at += line + 2 + length + 2;
            if (at >= body.Length) break;
        }
        return whole.ToArray();
    }

    /// <summary>Brings a key as the note's form does: from a file, which is no origin.</summary>
    public Task<(int Status, string Head, string Body)> Enter(string key, string? host = null, string origin = "Origin: null") =>
        Bring($"key={Uri.EscapeDataString(key)}", "POST /enter",
            $"Host: {host ?? Host}", origin, "Sec-Fetch-Site: cross-site", "Content-Type: application/x-www-form-urlencoded");

    /// <summary>Says something as the page's script does.</summary>
    public Task<(int Status, string Head, string Body)> Say(string path, string json, params string[] headers) =>
        Bring(json, $"POST {path}", [$"Host: {Host}", $"Origin: http://{Host}", "Content-Type: application/json", .. headers]);

    /// <summary>Asks for the page's socket; without a line of its own unless one is named.</summary>
    public Task<(int Status, string Head, string Body)> AskSocket(
        string host, string? origin, string? cookie, string at = "/_blazor?id=none", params string[] more) => Ask($"GET {at}",
        [
            $"Host: {host}", "Connection: Upgrade", "Upgrade: websocket", "Sec-WebSocket-Version: 13",
            "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==", .. origin is null ? (string[])[] : [$"Origin: {origin}"],
            .. cookie is null ? (string[])[] : [$"Cookie: {cookie}"], .. more,
        ]);
}
