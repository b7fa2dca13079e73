using System.Buffers;
using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http.Connections;
using Microsoft.AspNetCore.SignalR;
using Microsoft.AspNetCore.SignalR.Client;
using Microsoft.AspNetCore.SignalR.Protocol;
using Microsoft.Extensions.DependencyInjection;
using Trimwright.App.Gate;
using Trimwright.Tests.Gate;

namespace Trimwright.Tests.Pages;

/// <summary>
/// A tab without a browser: it loads the page, opens its socket, and answers what the framework's script would answer. So hundreds
/// of tabs can be opened, moved and dropped where a browser would need a minute for ten.
/// </summary>
internal sealed partial class PlainTab : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    // What a call to the page's script may hand back, as the framework numbers it.
    private const int AnObject = 1;

    private readonly HubConnection line;
    private readonly ConcurrentDictionary<string, TaskCompletionSource<string>> calls = new();
    private readonly TaskCompletionSource ready = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly string root;
    private readonly (string Name, string Value)[] headers;
    private string circuit = "";
    private long bench;
    private int called, objects;

    private PlainTab(string root, (string Name, string Value)[] headers)
    {
        (this.root, this.headers) = (root, headers);
        IHubConnectionBuilder builder = new HubConnectionBuilder().WithUrl(root + "_blazor", options =>
        {
            foreach ((string name, string value) in headers) options.Headers[name] = value;
            // First asked for a line, as a browser does: the gate knows a socket by it.
            options.Transports = HttpTransportType.WebSockets;
        });
        builder.Services.AddSingleton<IHubProtocol>(new Pack());
        line = builder.Build();
        line.On<long, byte[]>("JS.RenderBatch", (id, _) => line.SendAsync("OnRenderCompleted", id, (string?)null));
        line.On<int, string>("JS.AttachComponent", (_, _) => { });
        line.On<long>("JS.EndUpdateRootComponents", _ => { });
        line.On<string>("JS.Error", error => ready.TrySetException(new InvalidOperationException(error)));
        line.On<string, bool, string>("JS.EndInvokeDotNet", (id, well, result) =>
        {
            if (!calls.TryRemove(id, out TaskCompletionSource<string>? call)) return;
            if (well) call.SetResult(result);
            else call.SetException(new InvalidOperationException(result));
        });
        line.On("JS.BeginInvokeJS", [typeof(long), typeof(string), typeof(string), typeof(int), typeof(long), typeof(int)], (args, _) => Answer((long)args[0]!, (string)args[1]!, (string?)args[2], (int)args[3]!), this);
    }

    /// <summary>Opens a place of the page and waits until it answers to hands.</summary>
    public static async Task<PlainTab> Open(OpenPage page, string path)
    {
        string root = $"http://{page.Host}/";
        (string, string)[] headers = [("Cookie", page.Cookie), ("Origin", root.TrimEnd('/')), (PageSecret.WordHeader, page.Secret.Word)];
        var tab = new PlainTab(root, headers);
        using var http = new HttpClient(new HttpClientHandler { UseCookies = false }) { BaseAddress = new Uri(root) };
        http.DefaultRequestHeaders.Add("Cookie", page.Cookie);
        string html = await http.GetStringAsync(path);
        var operations = new JsonArray([.. Marker().Matches(html).Select(m => JsonNode.Parse(m.Groups[1].Value)!.AsObject()).Where(m => m.ContainsKey("descriptor"))
            .Select((marker, i) => new JsonObject { ["type"] = "add", ["ssrComponentId"] = i + 1, ["marker"] = marker })]);
        await tab.line.StartAsync();
        tab.circuit = await tab.line.InvokeAsync<string>("StartCircuit", root, root.TrimEnd('/') + path, "[]", "");
        await tab.line.SendAsync("UpdateRootComponents", new JsonObject { ["batchId"] = 1, ["operations"] = operations }.ToJsonString(), State().Match(html).Groups[1].Value);
        await tab.ready.Task.WaitAsync(Patience);
        return tab;
    }

    /// <summary>Calls the bench as the page's script does, and waits for the answer.</summary>
    public async Task Call(string method, params object?[] args)
    {
        string id = $"{Interlocked.Increment(ref called)}";
        TaskCompletionSource<string> call = calls[id] = new(TaskCreationOptions.RunContinuationsAsynchronously);
        await line.SendAsync("BeginInvokeDotNetFromJS", id, (string?)null, method, bench, JsonSerializer.Serialize(args));
        await call.Task.WaitAsync(Patience);
    }

    /// <summary>Closes it as a browser does, which says so when a tab is closed.</summary>
    public async Task Close()
    {
        using var http = new HttpClient(new HttpClientHandler { UseCookies = false });
        using var form = new MultipartFormDataContent { { new StringContent(circuit), "circuitId" } };
        using var post = new HttpRequestMessage(HttpMethod.Post, root + "_blazor/disconnect") { Content = form };
        foreach ((string name, string value) in headers) post.Headers.Add(name, value);
        using HttpResponseMessage answer = await http.SendAsync(post);
        Assert.True(answer.IsSuccessStatusCode, $"closing a tab was answered {answer.StatusCode}");
        await DisposeAsync();
    }

    /// <summary>Drops it without a word, as a killed browser does.</summary>
    public ValueTask DisposeAsync() => line.DisposeAsync();

    private async Task Answer(long call, string what, string? args, int result)
    {
        if (what == "hands") bench = JsonNode.Parse(args!)![1]!["__dotNetObject"]!.GetValue<long>();
        string answer = result == AnObject ? $"[{call},true,{{\"__jsObjectId\":{Interlocked.Increment(ref objects)}}}]" : $"[{call},true,null]";
        await line.SendAsync("EndInvokeJSFromDotNet", call, true, answer);
        // The last that the bench asks of its script before it takes hands.
        if (what == "restore") ready.TrySetResult();
    }

    [GeneratedRegex(@"<!--Blazor:(\{.*?\})-->")]
    private static partial Regex Marker();

    [GeneratedRegex("<!--Blazor-Server-Component-State:(.*?)-->")]
    private static partial Regex State();

    /// <summary>The socket's own packing is MessagePack under another name.</summary>
    private sealed class Pack : IHubProtocol
    {
        private readonly MessagePackHubProtocol inner = new();

        public string Name => "blazorpack";

        public int Version => inner.Version;

        public TransferFormat TransferFormat => inner.TransferFormat;

        public bool TryParseMessage(ref ReadOnlySequence<byte> input, IInvocationBinder binder, [NotNullWhen(true)] out HubMessage? message) => inner.TryParseMessage(ref input, binder, out message);

        public void WriteMessage(HubMessage message, IBufferWriter<byte> output) => inner.WriteMessage(message, output);

        public ReadOnlyMemory<byte> GetMessageBytes(HubMessage message) => inner.GetMessageBytes(message);

        public bool IsVersionSupported(int version) => inner.IsVersionSupported(version);
    }
}
