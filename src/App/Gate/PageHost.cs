using System.Globalization;
using System.Net;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Trimwright.App.Faults;
using Trimwright.App.Scheduling;
using Trimwright.App.Sessions;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

/// <summary>Serves the page on this machine's own address until it is stopped. The page's own root is handed in: the gate knows no page.</summary>
internal static class PageHost
{
    // The first page comes first.
    private static readonly TimeSpan AfterTheFirstPage = TimeSpan.FromSeconds(1.5);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    public static int Serve<TRoot>(ServeRequest request)
        where TRoot : IComponent
    {
        try
        {
            return Run<TRoot>(request);
        }
        catch (StoreRefusal e)
        {
            throw new Refusal(Exit.MachineRefused, [e.Fault]);
        }
    }

    private static int Run<TRoot>(ServeRequest request)
        where TRoot : IComponent
    {
        Machine.NeedsOpenSsl();
        string file = request.Store;
        DataFolder folder = DataFolder.Of(file).Make();
        using FirstStart? first = FirstStart.Take(file);
        if (first is null) return PointToTheFirst(file, request);
        using Store store = Open(file);
        Machine.KeepThreadsFree();
        KeptSecrets kept = KeptSecrets.Begin(file, TimeProvider.System);
        var gate = new Gatekeeper(kept, TimeProvider.System, OtherAccounts.Ask);
        gate.Entered += EntryNote.Remove;
        WebApplication app = Build<TRoot>(request, folder, gate, store);
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
        string? note = Announce(gate.Keys, port, request.OpenBrowser);
        if (!kept.AreKept)
            Console.Error.WriteLine($"Nothing can be kept from other accounts beside {file}: a second start can't open this page, "
                + "and open tabs won't know the program again after a restart.");
        WarmUp.Start(app.Services.GetRequiredService<Scheduler>(), AfterTheFirstPage, app.Lifetime.ApplicationStopping);
        if (FolderDoubt.Of(file) is { } doubt) Console.Error.WriteLine(doubt);
        // A note whose key nobody brought ends with the key, or with the program.
        using var old = new Timer(_ => EntryNote.Sweep(EntryKeys.GoodFor), null, EntryKeys.GoodFor, EntryKeys.GoodFor);
        app.WaitForShutdown();
        if (note is not null) PrivateFile.Remove(note);
        return (int)Exit.Done;
    }

    /// <summary>The program's page with all that stands before it; not started yet.</summary>
    internal static WebApplication Build<TRoot>(ServeRequest request, DataFolder folder, Gatekeeper gate, Store store)
        where TRoot : IComponent
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
        // What the framework seals, circuits among it, ends with the program as everything of the gate does.
        builder.Services.AddDataProtection().UseEphemeralDataProtectionProvider();
        builder.Services.AddSingleton(store).AddSingleton(gate.Secret).AddSingleton(scheduler).AddSingleton<LureSessions>()
            .AddSingleton(TimeProvider.System).AddSingleton<PhoneHost>();
        builder.Services.AddScoped<Presence>().AddScoped<CircuitHandler>(services => services.GetRequiredService<Presence>());
        builder.Services.AddRazorComponents().AddInteractiveServerComponents(DroppedTabs.Keep);
        builder.Services.AddSingleton<IAntiforgery, NoTokens>();
        WebApplication app = builder.Build();
        app.Use(next => context => gate.Pass(context, next));
        app.Use(next => context => SayIfNotThere(context, next, store));
        app.UseWebSockets();
        app.UseStatusCodePagesWithReExecute("/not-there");
        // Said here, or the framework would look for the place before the gatekeeper is asked.
        app.UseRouting();
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapGet("/ink.css", () => Results.Text(Svg.StyleUnder(".picture"), "text/css; charset=utf-8"));
        PhotoDoor.Map(app);
        ElsewhereDoor.Map(app);
        app.MapRazorComponents<TRoot>().AddInteractiveServerRenderMode(options =>
        {
            // The gatekeeper's policy is the only one; the framework would add a header of its own.
            options.ContentSecurityFrameAncestorsPolicy = null;
            // The page stays on this machine: packing each picture would only cost time under the hand.
            options.DisableWebSocketCompression = true;
        });
        return app;
    }

    private static Store Open(string file)
    {
        try
        {
            return Store.Open(file);
        }
        catch (StoreRefusal e)
        {
            throw Refusal.Of(e);
        }
    }

    // The page itself says that there is no such lure, once its socket is open; the status says it at once.
    private static Task SayIfNotThere(HttpContext context, RequestDelegate next, Store store)
    {
        if (HttpMethods.IsGet(context.Request.Method) && context.Request.Path.StartsWithSegments("/lure", out PathString rest)
            && rest.Value?.Split('/') is ["", var number, ..]
            && long.TryParse(number, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long lure) && store.Newest(lure) is null)
            context.Response.OnStarting(() =>
            {
                if (context.Response.StatusCode == StatusCodes.Status200OK) context.Response.StatusCode = StatusCodes.Status404NotFound;
                return Task.CompletedTask;
            });
        return next(context);
    }

    internal static int PortOf(WebApplication app) =>
        new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;

    /// <summary>A link with a key behind its #, which no browser sends.</summary>
    internal static string Link(int port, EntryKeys keys) => $"http://127.0.0.1:{port}{Gatekeeper.Enter}#{keys.New(port)}";

    private static int PointToTheFirst(string store, ServeRequest request)
    {
        int port = FirstStart.PortOfFirst(store, Patience)
            ?? throw new Refusal(Exit.MachineRefused, "store", store, "another Trimwright that holds this store and doesn't answer", "one program for each store", "End the other one, or choose another store with --store FILE.");
        string secret = KeptSecrets.OfTheFirst(store)
            ?? throw new Refusal(Exit.MachineRefused, "store", store,
                "another Trimwright that holds this store, and no secret beside it that this account alone can read",
                "a start by the same account", "End the other one, and start again.");
        // The first has never seen this key; it knows it by the secret that both can read.
        Announce(new EntryKeys(secret, TimeProvider.System), port, request.OpenBrowser);
        Console.Out.WriteLine("Trimwright was running already; this is its page.");
        return (int)Exit.Done;
    }

    // Prints a link and, unless it isn't wanted, opens the page by a note: its path, when one was written.
    private static string? Announce(EntryKeys keys, int port, bool open)
    {
        Console.Out.WriteLine(Link(port, keys));
        string? note = open ? EntryNote.Write(keys.New(port), port) : null;
        if (open && (note is null || !Browser.Open(note))) Console.Out.WriteLine("No browser opened by itself: open this link in yours.");
        Console.Out.WriteLine("The link lets one browser in, once, within five minutes; start Trimwright again for another.");
        Console.Out.WriteLine("Ctrl+C ends it; everything is saved as you go.");
        Console.Out.Flush();
        return note;
    }
}
