using System.Net.Sockets;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Trimwright.App.Gate;
using Trimwright.App.Pages;
using Trimwright.App.Work;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>The page served as the program serves it, on a free port of this machine, over a store of its own.</summary>
public sealed class OpenPage : IAsyncLifetime
{
    private readonly TempStore temp = new();
    private WebApplication app = null!;

    internal Store Store { get; private set; } = null!;

    internal PageSecret Secret { get; private set; } = null!;

    public int Port { get; private set; }

    public string Host => $"127.0.0.1:{Port}";

    internal string Cookie => $"{Gatekeeper.CookieName(Port)}={Secret.Cookie}";

    /// <summary>One of the page's own.</summary>
    internal T Service<T>()
        where T : notnull => app.Services.GetRequiredService<T>();

    public async ValueTask InitializeAsync()
    {
        Store = temp.Open();
        Secret = new PageSecret(DataFolder.Of(temp.Path).Make().Secret());
        app = PageHost.Build(new ServeRequest(0, false, temp.Path), DataFolder.Of(temp.Path), Secret, Store);
        await app.StartAsync();
        Port = PageHost.PortOf(app);
    }

    public async ValueTask DisposeAsync()
    {
        await app.DisposeAsync();
        Store.Dispose();
        temp.Dispose();
    }

    /// <summary>What comes back, byte for byte: no client library sets or mends a header here.</summary>
    public async Task<(int Status, string Head, string Body)> Ask(string line, params string[] headers)
    {
        using var client = new TcpClient();
        await client.ConnectAsync("127.0.0.1", Port);
        await using NetworkStream stream = client.GetStream();
        string close = headers.Any(h => h.StartsWith("Connection:", StringComparison.OrdinalIgnoreCase)) ? "" : "Connection: close\r\n";
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"{line} HTTP/1.1\r\n{string.Concat(headers.Select(h => h + "\r\n"))}{close}\r\n"));
        var all = new MemoryStream();
        var buffer = new byte[65536];
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        for (int n; (n = await stream.ReadAsync(buffer, patience.Token)) > 0;)
        {
            all.Write(buffer, 0, n);
            // Asked for a socket, the server leaves the line open either way: the head is the answer.
            if (close.Length == 0 && Encoding.ASCII.GetString(all.ToArray()).Contains("\r\n\r\n", StringComparison.Ordinal)) break;
        }
        byte[] bytes = all.ToArray();
        int cut = bytes.AsSpan().IndexOf("\r\n\r\n"u8);
        string head = Encoding.UTF8.GetString(bytes, 0, cut);
        byte[] body = bytes[(cut + 4)..];
        if (head.Contains("Transfer-Encoding: chunked", StringComparison.OrdinalIgnoreCase)) body = Joined(body);
        return (int.Parse(head.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture), head, Encoding.UTF8.GetString(body));
    }

    // A body may come in pieces, each with its length before it, cut anywhere.
    private static byte[] Joined(byte[] body)
    {
        var whole = new MemoryStream();
        for (int at = 0; body.AsSpan(at).IndexOf("\r\n"u8) is >= 0 and var line;)
        {
            int length = int.Parse(Encoding.ASCII.GetString(body, at, line), System.Globalization.NumberStyles.HexNumber, System.Globalization.CultureInfo.InvariantCulture);
            if (length == 0) break;
            whole.Write(body, at + line + 2, Math.Min(length, body.Length - at - line - 2));
            at += line + 2 + length + 2;
            if (at >= body.Length) break;
        }
        return whole.ToArray();
    }

    /// <summary>Asks for the page's socket.</summary>
    public Task<(int Status, string Head, string Body)> AskSocket(string host, string? origin, string? cookie) => Ask("GET /_blazor?id=none",
        [$"Host: {host}", "Connection: Upgrade", "Upgrade: websocket", "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==",
            .. origin is null ? (string[])[] : [$"Origin: {origin}"], .. cookie is null ? (string[])[] : [$"Cookie: {cookie}"]]);
}
