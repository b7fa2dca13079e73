using Trimwright.App.Work;
using Trimwright.Workshop;

namespace Trimwright.App.Pages;

/// <summary>Where a maker takes out everything that the store still has open, when it takes nothing in any more. The gatekeeper has asked for the cookie.</summary>
internal static class ElsewhereDoor
{
    public static void Map(WebApplication app) => app.MapGet("/elsewhere/everything", Everything);

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
