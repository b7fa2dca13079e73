using Trimwright.App.Gate;
using Trimwright.App.Work;
using Trimwright.Workshop;

namespace Trimwright.App.Pages;

/// <summary>
/// Where a maker takes out everything that the store still has open, when it takes nothing in any more. The gatekeeper has asked for the
/// cookie, which is not enough: as with photos the address carries a mark, told over the socket only.
/// </summary>
internal static class ElsewhereDoor
{
    private const string Path = "/elsewhere/everything";

    public static void Map(WebApplication app) => app.MapGet(Path, Everything);

    /// <summary>Where it is saved from, for a page whose socket is open.</summary>
    public static string Address(PageSecret secret) => $"{Path}?mark={secret.Mark(Path)}";

    private static IResult Everything(HttpContext context, Store store, PageSecret secret)
    {
        if (!PageSecret.Same(secret.Mark(Path), context.Request.Query["mark"])) return Results.NotFound();
        // It is another at the next asking, and nobody else's business.
        context.Response.Headers.CacheControl = "no-store";
        try
        {
            return Results.File(Elsewhere.Everything(store), "application/json", "trimwright-everything.json");
        }
        catch (StoreRefusal refusal)
        {
            return Results.Text($"{refusal.Fault}", statusCode: StatusCodes.Status500InternalServerError);
        }
    }
}
