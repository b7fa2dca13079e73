using System.Net;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Trimwright.App.Gate;
using Trimwright.App.Work;
using Trimwright.Drawing;

namespace Trimwright.App.Pages;

/// <summary>Serves the page on this machine's own address until it is stopped.</summary>
internal static class PageHost
{
    public static int Serve(ServeRequest request)
    {
        var folder = new DataFolder(request.Store);
        Make(folder);
        var secret = PageSecret.Of(folder.File("page-secret"));
        using RunningOne? place = RunningOne.Take(folder);
        if (place is null) return PointToTheOther(folder, secret, request);
        WebApplication app = Build(request, folder, secret);
        try
        {
            app.Start();
        }
        catch (IOException e)
        {
            throw new Refusal(Exit.MachineRefused, "port", "--port", $"{request.Port}: {e.Message}", "a port that is free", "Leave --port out and take any that is free.");
        }
        int port = PortOf(app);
        place.ServesAt(port);
        Announce(Link(port, secret), request.OpenBrowser);
        app.WaitForShutdown();
        return (int)Exit.Done;
    }

    /// <summary>The program's page with all that stands before it; not started yet.</summary>
    internal static WebApplication Build(ServeRequest request, DataFolder folder, PageSecret secret)
    {
        // The page's files lie beside the program, wherever it is started from and whatever the environment is called.
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Listen(IPAddress.Loopback, request.Port);
        });
        builder.Logging.ClearProviders();
        builder.Services.AddDataProtection().SetApplicationName("trimwright").PersistKeysToFileSystem(Directory.CreateDirectory(folder.File("keys")));
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        WebApplication app = builder.Build();
        var gate = new Gatekeeper(secret);
        app.Use(next => context => gate.Pass(context, next));
        app.UseWebSockets();
        app.UseStatusCodePagesWithReExecute("/not-there");
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapGet("/ink.css", () => Results.Text(Svg.StyleUnder(".picture"), "text/css; charset=utf-8"));
        // The gatekeeper's policy is the only one; the framework would add a header of its own.
        app.MapRazorComponents<Root>().AddInteractiveServerRenderMode(options => options.ContentSecurityFrameAncestorsPolicy = null);
        return app;
    }

    internal static int PortOf(WebApplication app) =>
        new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;

    internal static string Link(int port, PageSecret secret) => $"http://127.0.0.1:{port}{Gatekeeper.Enter}?key={secret.Key}";

    private static void Make(DataFolder folder)
    {
        try
        {
            folder.Make();
            string trial = folder.File("serving.trial");
            File.WriteAllBytes(trial, [1]);
            File.Delete(trial);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new Refusal(Exit.MachineRefused, "store", folder.Path, e.Message, "a folder that this account may write to", "Check its permissions and free room, or choose another with --store FILE.");
        }
    }

    private static int PointToTheOther(DataFolder folder, PageSecret secret, ServeRequest request)
    {
        int port = RunningOne.PortOfTheOther(folder).GetAwaiter().GetResult()
            ?? throw new Refusal(Exit.MachineRefused, "store", folder.Path, "another Trimwright that holds this folder and doesn't answer", "one program for each folder", "End the other one, or choose another folder with --store FILE.");
        Announce(Link(port, secret), request.OpenBrowser);
        Console.Out.WriteLine("Trimwright was running already; this is its page.");
        return (int)Exit.Done;
    }

    private static void Announce(string link, bool open)
    {
        Console.Out.WriteLine(link);
        if (open && !Browser.Open(link)) Console.Out.WriteLine("No browser opened by itself: open this link in yours.");
        Console.Out.WriteLine("The link is yours alone. Ctrl+C ends it; everything is saved as you go.");
        Console.Out.Flush();
    }
}
