using Trimwright.App.Work;
using Trimwright.Workshop;

namespace Trimwright.App.Pages;

/// <summary>
/// Where a maker takes their work out when the store takes nothing any more: a lure as its page shows it, and everything that the
/// store still has open. The gatekeeper has asked for cookie and origin, as with photos.
/// </summary>
internal static class ElsewhereDoor
{
    public static void Map(WebApplication app)
    {
        app.MapPost("/elsewhere/lure", (Delegate)Lure).DisableAntiforgery();
        app.MapGet("/elsewhere/everything", Everything);
    }

    // Only what is a lure goes back out.
    private static async Task<IResult> Lure(HttpContext context)
    {
        try
        {
            IFormCollection form = await context.Request.ReadFormAsync();
            if (Elsewhere.Lure(form["lure"].ToString()) is { } file) return Results.File(file.Bytes, "application/json", file.Name);
        }
        catch (Exception e) when (e is InvalidDataException or InvalidOperationException or BadHttpRequestException)
        {
            // Said below: it is no lure, whatever it is.
        }
        return Results.Text("Not like that: something that is no lure. Go back to its page and save it from there.", statusCode: StatusCodes.Status400BadRequest);
    }

    private static IResult Everything(Store store)
    {
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
