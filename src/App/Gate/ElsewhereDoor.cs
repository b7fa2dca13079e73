using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

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

    /// <summary>
    /// A lure's file as a link that holds it whole: it is saved by the browser alone, also when the program has ended meanwhile. A
    /// form would be refused by the gate, since a page without referrers sends forms without an origin.
    /// </summary>
    public static string Link(LureDesign design) => "data:application/json;base64," + Convert.ToBase64String(LureFile.Write(design));

    /// <summary>What that file is to be called.</summary>
    public static string Name(LureDesign design) => SheetsFor.StemOf(design.Name) + ".lure.json";

    /// <summary>Everything that the open store has, as an export; it can be read long after its file's name is gone.</summary>
    public static byte[] EverythingIn(Store store)
    {
        using var all = new MemoryStream();
        store.Export(all);
        return all.ToArray();
    }

    private static IResult Everything(HttpContext context, Store store, PageSecret secret)
    {
        if (!PageSecret.Same(secret.Mark(Path), context.Request.Query["mark"])) return Results.NotFound();
        // It is another at the next asking, and nobody else's business.
        context.Response.Headers.CacheControl = "no-store";
        try
        {
            return Results.File(EverythingIn(store), "application/json", "trimwright-everything.json");
        }
        catch (StoreRefusal refusal)
        {
            return Results.Text($"{refusal.Fault}", statusCode: StatusCodes.Status500InternalServerError);
        }
    }
}
