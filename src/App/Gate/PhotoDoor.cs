using Microsoft.AspNetCore.Http.Features;
using Trimwright.App.Sessions;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

/// <summary>
/// Where photos come in and go out. The gatekeeper has asked for the cookie and, of what comes in, for origin and word; that is all
/// that a token in a form would prove. What goes out is asked for by the browser itself, which says no word: its address carries a
/// mark instead. What comes in is looked at by its structure and never decoded here.
/// </summary>
internal static class PhotoDoor
{
    public static void Map(WebApplication app)
    {
        app.MapPost("/lure/{lure:long}/photo/{view:regex(^(side|plan)$)}", TakeIn).DisableAntiforgery();
        app.MapGet("/photo/{id:long}", Show);
    }

    /// <summary>Where a photo is shown, for a page whose socket is open.</summary>
    public static string Address(PageSecret secret, long photo) => $"/photo/{photo}?mark={secret.Mark(photo)}";

    private static async Task<IResult> TakeIn(HttpContext context, long lure, string view, Store store, LureSessions sessions)
    {
        // One byte more than is allowed, so that what is too large is said in a sentence and not by a torn connection.
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = 2L * PhotoHeader.MostBytes;
        if (context.Request.ContentLength is > PhotoHeader.MostBytes and var said) return Refused(PhotoHeader.TooLarge(said), StatusCodes.Status413PayloadTooLarge);
        using var bytes = new MemoryStream();
        byte[] part = new byte[64 * 1024];
        try
        {
            for (int got; (got = await context.Request.Body.ReadAsync(part)) > 0;)
            {
                bytes.Write(part, 0, got);
                if (bytes.Length > PhotoHeader.MostBytes) return Refused(PhotoHeader.TooLarge(bytes.Length), StatusCodes.Status413PayloadTooLarge);
            }
        }
        catch (BadHttpRequestException e)
        {
            return Refused(new Fault("photo", "", "one that broke off on its way", "a whole photo", "Choose it again."), e.StatusCode);
        }
        if (sessions.Of(lure) is not { } session) return Refused(new Fault("photo", "", $"lure {lure}", "a lure of this store", "Open it again from the home page."), StatusCodes.Status404NotFound);
        try
        {
            Reading<Photo> kept = store.AddPhoto(lure, view, bytes.ToArray(), found => PhotoLaid.First(found, session.Design).Text(), EditId.New());
            return kept.Value is { } photo ? Results.Text($"{photo.Id}") : Refused(kept.Faults[0], StatusCodes.Status415UnsupportedMediaType);
        }
        catch (StoreRefusal refusal)
        {
            return Refused(refusal.Fault, StatusCodes.Status507InsufficientStorage);
        }
    }

    private static IResult Show(HttpContext context, long id, Store store, PageSecret secret)
    {
        if (!PageSecret.Same(secret.Mark(id), context.Request.Query["mark"])) return Results.NotFound();
        if (store.PhotoFile(id) is not var (type, bytes)) return Results.NotFound();
        // A photo of a number never changes.
        context.Response.Headers.CacheControl = "private, max-age=604800, immutable";
        return Results.Bytes(bytes, type == "png" ? "image/png" : "image/jpeg");
    }

    private static IResult Refused(Fault fault, int status) => Results.Text($"Not like that: {fault.Got}; allowed: {fault.Allowed}. {fault.Next}", statusCode: status);
}
