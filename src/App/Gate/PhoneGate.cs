namespace Trimwright.App.Gate;

/// <summary>
/// Stands before everything that a phone may ask: only the one address, only from our own page, and for anything of lures only
/// with a cookie and its word of <see cref="PhoneDoor"/>. The desk's are worth nothing here, and a phone's nothing there.
/// </summary>
internal sealed class PhoneGate(PhoneDoor door, string host)
{
    /// <summary>Reached without a cookie: the page that brings the code, its sheet and its script.</summary>
    public static readonly string[] Porch = ["/", "/palette.css", "/phone.css", "/phone.js", "/ink.css", "/mark.svg", "/join"];

    public static string CookieName(string host) => $"trimwright-phone-{PortOf(host)}";

    public static string PortOf(string host) => host[(host.LastIndexOf(':') + 1)..];

    public async Task Pass(HttpContext context, RequestDelegate next)
    {
        Gatekeeper.Headers(context.Response.Headers);
        HttpRequest asked = context.Request;
        Gatekeeper.AsGet(asked);
        JoinedPhone? phone = door.Of(asked.Cookies[CookieName(host)], asked.Headers[PageSecret.WordHeader]);
        if (asked.Host.Value != host || !Gatekeeper.IsFromUs(asked, host))
            await Refuse(context, "This was asked from elsewhere. Open the address that Trimwright shows on the desk.");
        else if (!Porch.Contains(asked.Path.Value) && phone is null)
            await Refuse(context,
                "This phone isn't let in, or was sent away. On the desk choose “Let a phone join”, and scan the new code.");
        else
        {
            // For whoever asks further in which phone it is.
            context.Features.Set(phone);
            await next(context);
        }
    }

    private static Task Refuse(HttpContext context, string sentence)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        context.Response.ContentType = "text/plain; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsync(sentence);
    }
}
