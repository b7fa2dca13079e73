using System.Net;
using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Trimwright.App.Gate;
using Trimwright.App.Scheduling;
using Trimwright.App.Sessions;
using Trimwright.App.Work;
using Trimwright.Workshop;

namespace Trimwright.App.Pages;

/// <summary>Serves the page on this machine's own address until it is stopped.</summary>
internal static class PageHost
{
    // The first page comes first.
    private static readonly TimeSpan AfterTheFirstPage = TimeSpan.FromSeconds(1.5);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    public static int Serve(ServeRequest request)
    {
        try
        {
            return Run(request);
        }
        catch (StoreRefusal e)
        {
            throw new Refusal(Exit.MachineRefused, [e.Fault]);
        }
    }

    private static int Run(ServeRequest request)
    {
        Machine.NeedsOpenSsl();
        string file = Keep.FileOf(request.Store);
        DataFolder folder = DataFolder.Of(file).Make();
        var secret = new PageSecret(folder.Secret());
        using FirstStart? first = FirstStart.Take(file);
        if (first is null) return PointToTheFirst(file, secret, request);
        using Store store = Keep.Open(file);
        Machine.KeepThreadsFree();
        WebApplication app = Build(request, folder, secret, store);
        try
        {
            app.Start();
        }
        catch (IOException e)
        {
            throw new Refusal(Exit.MachineRefused, "port", "--port", $"{request.Port}: {e.Message}", "a port that is free", "Leave --port out and take any that is free.");
        }
        int port = PortOf(app);
        first.Announce(port);
        Announce(Link(port, secret), request.OpenBrowser);
        WarmUp.Start(app.Services.GetRequiredService<Scheduler>(), AfterTheFirstPage, app.Lifetime.ApplicationStopping);
        if (Keep.Doubt(request.Store) is { } doubt) Console.Error.WriteLine(doubt);
        app.WaitForShutdown();
        return (int)Exit.Done;
    }

    /// <summary>The program's page with all that stands before it; not started yet.</summary>
    internal static WebApplication Build(ServeRequest request, DataFolder folder, PageSecret secret, Store store)
    {
        // The page's files lie beside the program, wherever it is started from and whatever the environment is called.
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { ApplicationName = "trimwright", ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Listen(IPAddress.Loopback, request.Port);
        });
        var scheduler = new Scheduler();
        builder.Logging.ClearProviders().AddProvider(new Reports(folder, scheduler.Operations));
        builder.Services.AddDataProtection().SetApplicationName("trimwright").PersistKeysToFileSystem(new DirectoryInfo(folder.KeysFolder));
        builder.Services.AddSingleton(store).AddSingleton(scheduler).AddSingleton<LureSessions>().AddSingleton(TimeProvider.System).AddSingleton<PhoneHost>();
        builder.Services.AddScoped<Presence>().AddScoped<CircuitHandler>(services => services.GetRequiredService<Presence>());
        builder.Services.AddRazorComponents().AddInteractiveServerComponents(DroppedTabs.Keep);
        WebApplication app = builder.Build();
        var gate = new Gatekeeper(secret);
        app.Use(next => context => gate.Pass(context, next));
        app.UseWebSockets();
        app.UseStatusCodePagesWithReExecute("/not-there");
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapGet("/ink.css", () => Results.Text(Drawn.StyleUnder(".picture"), "text/css; charset=utf-8"));
        PhotoDoor.Map(app);
        ElsewhereDoor.Map(app);
        app.MapRazorComponents<Root>().AddInteractiveServerRenderMode(options =>
        {
            // The gatekeeper's policy is the only one; the framework would add a header of its own.
            options.ContentSecurityFrameAncestorsPolicy = null;
            // The page stays on this machine: packing each picture would only cost time under the hand.
            options.DisableWebSocketCompression = true;
        });
        return app;
    }

    internal static int PortOf(WebApplication app) =>
        new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;

    internal static string Link(int port, PageSecret secret) => $"http://127.0.0.1:{port}{Gatekeeper.Enter}?key={secret.Key}";

    private static int PointToTheFirst(string store, PageSecret secret, ServeRequest request)
    {
        int port = FirstStart.PortOfFirst(store, Patience)
            ?? throw new Refusal(Exit.MachineRefused, "store", store, "another Trimwright that holds this store and doesn't answer", "one program for each store", "End the other one, or choose another store with --store FILE.");
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
