using System.Net;
using System.Text.Json;

namespace Trimwright.App.Gate;

/// <summary>
/// Stands before everything: which account asks, for which host, from where, and with which halves of the secret.
/// </summary>
/// <remarks>
/// Who could want in, and what stands against each:
/// <list type="bullet">
/// <item>A page of the web in the maker's browser reaches this machine's own address, under any name that leads here. Host and origin
/// are asked, of the socket too; nothing is framed or embedded; no answer is for another origin.</item>
/// <item>Another account of this machine can reach the port, read every command line and every file that isn't private, serve on other
/// ports and make the maker's browser visit them, where it brings our cookie along, and take our port when the program has ended.
/// It is turned away by its account where the system tells it (<see cref="OtherAccounts"/>); everywhere it lacks the key
/// (<see cref="EntryKeys"/>), the word (<see cref="PageSecret"/>) and a tab's key (<see cref="TabKeys"/>).</item>
/// <item>Another program of this account, on another port: its secrets are its own, and its storage in the browser is apart.</item>
/// </list>
/// With the cookie alone one gets the empty page, its script and its sheets, and learns at most whether a number is a lure's. Names,
/// pictures and numbers come over the socket, which opens only after a request that said the word; photos only by marked addresses
/// that were told over the socket. What stays open: root, programs of this account, and, on one machine with somebody else, a browser
/// that was made to visit this very port while it was theirs: what such a page leaves behind in the browser (a worker, a cache) meets
/// us there again. So the port is another at each start unless its maker asks for one.
/// </remarks>
/// <param name="kept">The secrets of this run and those before.</param>
/// <param name="clock">For how long keys are good.</param>
/// <param name="isAnothers">Whether our end and theirs of a connection are known to be of two accounts; null: never asked.</param>
internal sealed class Gatekeeper(KeptSecrets kept, TimeProvider clock, Func<IPEndPoint, IPEndPoint, bool>? isAnothers)
{
    /// <summary>Where a key is brought: by the note in the body of a form, by the printed link's page likewise.</summary>
    public const string Enter = "/enter";

    /// <summary>Where a tab that is in asks for a key of its own.</summary>
    public const string TabNew = "/tab/new";

    /// <summary>Where a tab asks whether this is the program.</summary>
    public const string TabAsk = "/tab/ask";

    /// <summary>Where a tab comes back.</summary>
    public const string TabBack = "/tab/back";

    private const string Socket = "/_blazor";

    private const int MostBytes = 4096;

    private const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; font-src 'self'; "
        + "img-src 'self' blob:; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    public PageSecret Secret { get; } = new();

    public EntryKeys Keys { get; } = new(kept.Secret, clock);

    public TabKeys Tabs { get; } = new(kept, clock);

    /// <summary>A key let a browser in.</summary>
    public event Action<string>? Entered;

    public async Task Pass(HttpContext context, RequestDelegate next)
    {
        HttpRequest asked = context.Request;
        Headers(context.Response.Headers);
        AsGet(asked);
        int port = context.Connection.LocalPort;
        string host = asked.Host.Value ?? "";
        bool posts = HttpMethods.IsPost(asked.Method), enters = asked.Path == Enter && posts;
        if (IsAnothers(context.Connection)) await Refuse(context, "Another account of this machine asked for it.");
        else if (!IsOurs(host, port)) await Refuse(context, "This address is not Trimwright's own.");
        // A note is a file: it comes from nowhere, and brings a key.
        else if (!enters && !IsFromUs(asked, host)) await Refuse(context, "This was asked by another site.");
        else if (asked.Path == Porch.SheetPath) await Porch.SendSheet(context);
        else if (asked.Path == Porch.ScriptPath && HttpMethods.IsGet(asked.Method)) await next(context);
        else if (asked.Path == Enter && HttpMethods.IsGet(asked.Method)) await Send(context, Porch.FromLink);
        // Only under the address that we give out: under a name, somebody else's server of the other kind of address could be meant.
        else if ((enters || asked.Path.StartsWithSegments("/tab")) && host != $"127.0.0.1:{port}")
            await Refuse(context, $"The page is let in under http://127.0.0.1:{port} only.");
        else if (enters) await Welcome(context, port);
        else if (posts && asked.Path == TabAsk) await Prove(context, port);
        else if (posts && asked.Path == TabBack) await TakeBack(context, port);
        else if (!PageSecret.Same(Secret.Cookie, asked.Cookies[PageSecret.CookieName(port)]))
            await Refuse(context, "This browser hasn't been let in yet.");
        else if (NeedsWord(asked) && !PageSecret.Same(Secret.Word, asked.Headers[PageSecret.WordHeader]))
            await Refuse(context, "This tab hasn't been let in yet.");
        else if (posts && asked.Path == TabNew) await SendJson(context, Tabs.New(port));
        else await next(context);
    }

    internal static bool IsOurs(string host, int port) =>
        host == $"127.0.0.1:{port}" || host == $"localhost:{port}" || host == $"[::1]:{port}";

    // GET and HEAD change nothing, but a socket begins as a GET: it is asked too, and must name its origin.
    internal static bool IsFromUs(HttpRequest request, string host)
    {
        bool socket = request.HttpContext.WebSockets.IsWebSocketRequest
            || request.Headers.Upgrade.Count > 0 || request.Headers.SecWebSocketKey.Count > 0;
        bool reads = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
        if (reads && !socket) return true;
        if (request.Headers.Origin.Count > 0) return request.Headers.Origin.Count == 1 && request.Headers.Origin[0] == $"http://{host}";
        return !socket && request.Headers["Sec-Fetch-Site"] == "same-origin";
    }

    /// <summary>A HEAD is answered as the GET would be; the server itself keeps the body back.</summary>
    internal static void AsGet(HttpRequest request)
    {
        if (HttpMethods.IsHead(request.Method)) request.Method = HttpMethods.Get;
    }

    /// <summary>
    /// Everything that brings or changes something. A socket's own request can't carry the word; it must name a line that was opened
    /// for it, under a secret name, by a request that said the word. Without a name the framework would open a line for it.
    /// </summary>
    internal static bool NeedsWord(HttpRequest request)
    {
        if (!request.Path.StartsWithSegments(Socket, out PathString rest)) return !HttpMethods.IsGet(request.Method);
        bool line = rest.Value is null or "" or "/";
        if (line) return request.Query["id"] is not [{ Length: > 0 }];
        // The list of scripts to begin with, which is empty, and a tab's last word, which names its circuit by a secret name.
        return !(HttpMethods.IsGet(request.Method) && rest == "/initializers")
            && !(HttpMethods.IsPost(request.Method) && rest == "/disconnect");
    }

    private bool IsAnothers(ConnectionInfo line) => isAnothers is not null
        && line.LocalIpAddress is { } here && line.RemoteIpAddress is { } there
        && isAnothers(new IPEndPoint(here, line.LocalPort), new IPEndPoint(there, line.RemotePort));

    private async Task Welcome(HttpContext context, int port)
    {
        string? key = await Key(context.Request);
        if (!Keys.Take(key, port))
        {
            await Refuse(context, "This link was used, or is older than five minutes.");
            return;
        }
        Entered?.Invoke(key!);
        LetIn(context.Response, port);
        // Not sent on from here: asked for by a file, the next page would count as another site's wish and get no cookie.
        await Send(context, Porch.Welcome(Secret.Word));
    }

    private static async Task<string?> Key(HttpRequest request)
    {
        if (!request.HasFormContentType || request.ContentLength is null or > MostBytes) return null;
        try
        {
            return (await request.ReadFormAsync(request.HttpContext.RequestAborted))["key"] is [{ } one] ? one : null;
        }
        catch (Exception e) when (e is InvalidDataException or IOException)
        {
            return null;
        }
    }

    private async Task Prove(HttpContext context, int port)
    {
        if (await Said(context.Request) is { } said && Tabs.Prove(said, port) is { } answer) await SendJson(context, answer);
        else context.Response.StatusCode = StatusCodes.Status404NotFound;
    }

    private async Task TakeBack(HttpContext context, int port)
    {
        if (await Said(context.Request) is not { } said || !Tabs.TakeBack(said, port))
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return;
        }
        LetIn(context.Response, port);
        await SendJson(context, new { word = Secret.Word, key = Tabs.New(port) });
    }

    private static async Task<TabKeys.Said?> Said(HttpRequest request)
    {
        if (request.ContentLength is null or > MostBytes) return null;
        try
        {
            return await JsonSerializer.DeserializeAsync<TabKeys.Said>(request.Body, Web, request.HttpContext.RequestAborted);
        }
        catch (Exception e) when (e is JsonException or IOException)
        {
            return null;
        }
    }

    // Without an age: it ends with the browser, or with this run, whichever is first.
    private void LetIn(HttpResponse response, int port)
    {
        var how = new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true };
        response.Cookies.Append(PageSecret.CookieName(port), Secret.Cookie, how);
    }

    internal static void Headers(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }

    private static Task Refuse(HttpContext context, string sentence)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return Send(context, Porch.Closed(sentence));
    }

    private static Task Send(HttpContext context, string page)
    {
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsync(page);
    }

    private static Task SendJson<T>(HttpContext context, T answer)
    {
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsJsonAsync(answer, Web);
    }
}
