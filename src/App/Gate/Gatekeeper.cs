namespace Trimwright.App.Gate;

/// <summary>
/// Stands before everything: who asks, from where, and with which cookie. A page on this machine's own address is
/// reachable from any site that the maker's browser visits; without this, a socket opens for any origin and a page for any
/// host name that leads here.
/// </summary>
internal sealed class Gatekeeper(PageSecret secret)
{
    /// <summary>The path that turns the link's key into the cookie.</summary>
    public const string Enter = "/enter";

    private const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; font-src 'self'; "
        + "img-src 'self' blob:; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    /// <summary>Cookies know no ports: two programs on one machine would overwrite each other's.</summary>
    public static string CookieName(int port) => $"trimwright-{port}";

    public async Task Pass(HttpContext context, RequestDelegate next)
    {
        Headers(context.Response.Headers);
        int port = context.Connection.LocalPort;
        string host = context.Request.Host.Value ?? "";
        if (!IsOurs(host, port)) await Refuse(context, "This address is not Trimwright's own.");
        else if (!IsFromUs(context.Request, host)) await Refuse(context, "This was asked by another site.");
        else if (context.Request.Path == Enter) Welcome(context, port);
        else if (context.Request.Path == ClosedGate.SheetPath) await ClosedGate.SendSheet(context);
        else if (!PageSecret.Same(secret.Cookie, context.Request.Cookies[CookieName(port)]))
            await Refuse(context, "This browser hasn't been let in yet.");
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

    private void Welcome(HttpContext context, int port)
    {
        if (!PageSecret.Same(secret.Key, context.Request.Query["key"]))
        {
            context.Response.Redirect("/");
            return;
        }
        context.Response.Cookies.Append(CookieName(port), secret.Cookie, new CookieOptions
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Path = "/",
            IsEssential = true,
            MaxAge = TimeSpan.FromDays(365),
        });
        // The key leaves the address bar at once; the page it leads to is inside.
        context.Response.Redirect(Inside(context.Request.Query["to"]));
    }

    // Only a place of our own: a second slash would name another machine.
    private static string Inside(string? to) => to is ['/', not ('/' or '\\'), ..] ? to : "/";

    internal static void Headers(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }

    private static async Task Refuse(HttpContext context, string sentence)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        await context.Response.WriteAsync(ClosedGate.Page(sentence, context.Connection.LocalPort));
    }
}
