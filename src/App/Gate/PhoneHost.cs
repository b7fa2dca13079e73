using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Reflection;
using System.Text;
using System.Text.Json;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Http.Features;
using Trimwright.App.Scheduling;
using Trimwright.App.Sessions;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

/// <summary>
/// A second listener on the one address that the maker chose, for phones at the tub. It shares store and sessions with the desk
/// and serves a page of its own: lures, their picture and sentence, and readings. Nothing else of the program is behind it.
/// </summary>
internal sealed class PhoneHost(Store store, LureSessions sessions, TimeProvider clock) : IAsyncDisposable
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    private const string PortSetting = "phone-port";

    // A page of text and a few numbers; anything larger is no reading.
    private const int MostBytes = 64 * 1024;

    // A hand types one reading in half a minute; a phone that was out of reach brings more at once. What is quicker waits on the phone,
    // which sends it again: each reading is worked out with all before it, and that takes the desk a while.
    private const int AtOnce = 10;

    private static readonly TimeSpan Within = TimeSpan.FromSeconds(10);

    private readonly PartitionedRateLimiter<int> readings = PartitionedRateLimiter.Create<int, int>(phone =>
        RateLimitPartition.GetSlidingWindowLimiter(phone, _ =>
            new SlidingWindowRateLimiterOptions { PermitLimit = AtOnce, Window = Within, SegmentsPerWindow = AtOnce, QueueLimit = 0 }));

    private readonly SemaphoreSlim turn = new(1);
    private readonly Lock telling = new();
    private readonly Dictionary<long, (string Log, Task<string> Said, CancellationTokenSource Cancel)> told = [];
    private readonly ConcurrentDictionary<int, Owner> owners = new();
    private WebApplication? app;

    public PhoneDoor Door { get; } = new(clock);

    /// <summary>What works out what a log says of a lure.</summary>
    internal Func<LureDesign, TubLog, Notation, IQuestion<string>> Asks { get; init; } = (design, log, notation) => new WhatReadingsSay(design, log, notation);

    /// <summary>The host and port that phones reach, null while the door is shut.</summary>
    public string? Host { get; private set; }

    /// <summary>
    /// Opens on one of this machine's own addresses; a sentence when it can't. The port of last time if it is free: what waits in a
    /// phone's browser belongs to that address.
    /// </summary>
    public async Task<string?> Open(IPAddress address)
    {
        await turn.WaitAsync();
        try
        {
            if (Host is not null) return null;
            _ = int.TryParse(store.Setting(PortSetting), NumberStyles.None, CultureInfo.InvariantCulture, out int before);
            return before is > 0 and <= ushort.MaxValue && await Open(address, before) is null ? null : await Open(address, 0);
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task<string?> Open(IPAddress address, int port)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ApplicationName = "trimwright", ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MostBytes;
            kestrel.Listen(address, port);
        });
        builder.Logging.ClearProviders();
        WebApplication made = builder.Build();
        // Known only when it listens; before that nobody can ask.
        string host = "";
        PhoneGate? gate = null;
        made.Use(next => context => gate is null ? NotYet(context) : gate.Pass(context, next));
        made.UseRouting();
        Map(made);
        try
        {
            await made.StartAsync();
        }
        catch (Exception e) when (e is IOException or SocketException)
        {
            await made.DisposeAsync();
            return $"No phone can reach {address}: {e.Message} Choose another of this machine's addresses.";
        }
        host = $"{address}:{PageHost.PortOf(made).ToString(CultureInfo.InvariantCulture)}";
        gate = new PhoneGate(Door, host);
        (app, Host) = (made, host);
        try
        {
            store.Choose(PortSetting, PhoneGate.PortOf(host));
        }
        catch (StoreRefusal)
        {
            // Another port next time, then; this time it is open.
        }
        return null;
    }

    private static Task NotYet(HttpContext context)
    {
        context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
        return Task.CompletedTask;
    }

    /// <summary>Ends it: every phone is a stranger from now on.</summary>
    public async Task Shut()
    {
        await turn.WaitAsync();
        try
        {
            Door.Shut();
            if (app is not null) await app.DisposeAsync();
            (app, Host) = (null, null);
        }
        finally
        {
            turn.Release();
        }
    }

    private void Map(WebApplication phone)
    {
        phone.MapGet("/", () => Own("phone.html", "text/html"));
        phone.MapGet("/palette.css", () => Own("palette.css", "text/css"));
        phone.MapGet("/phone.css", () => Own("phone.css", "text/css"));
        phone.MapGet("/phone.js", () => Own("phone.js", "text/javascript"));
        phone.MapGet("/mark.svg", () => Own("mark.svg", "image/svg+xml"));
        phone.MapGet("/ink.css", () => Results.Text(Svg.StyleUnder(".picture"), "text/css; charset=utf-8"));
        phone.MapPost("/join", (Delegate)Join);
        phone.MapGet("/lures", () => Results.Json(store.Lures().Where(l => l.Newest.Read().IsSound).Select(l => new { id = l.Id, name = l.Name }), Web));
        phone.MapGet("/lure/{id:long}", Lure);
        phone.MapPost("/lure/{id:long}/reading", TakeIn);
        phone.MapGet("/lure/{id:long}/said", Said);
    }

    private static IResult Own(string name, string type)
    {
        using Stream file = Assembly.GetExecutingAssembly().GetManifestResourceStream("phone/" + name)!;
        using var text = new StreamReader(file);
        return Results.Text(text.ReadToEnd(), type + "; charset=utf-8");
    }

    private sealed record Brought(string? Code, string? Name);

    private async Task<IResult> Join(HttpContext context)
    {
        if (await Read<Brought>(context) is not { } brought || Door.Join(brought.Code, brought.Name) is not var (cookie, word))
            return Results.Text("This code doesn't let in any more: each is good for one phone and two minutes. On the desk choose “Let a phone join” again.", statusCode: StatusCodes.Status403Forbidden);
        context.Response.Cookies.Append(PhoneGate.CookieName(Host!), cookie, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true });
        context.Response.Headers.CacheControl = "no-store";
        return Results.Text(word);
    }

    // Each phone waits its own turn.
    private Owner Whose(HttpContext context) => owners.GetOrAdd(Door.Of(context.Request.Cookies[PhoneGate.CookieName(Host!)], context.Request.Headers[PageSecret.WordHeader])?.Id ?? 0, _ => new Owner());

    private IResult Lure(long id, HttpContext context)
    {
        if (sessions.Of(id) is not { } session) return Gone(id);
        Choices chosen = Choices.Of(store);
        Newest newest = session.Newest;
        Card card = sessions.Looks.CardOf(id, newest.EditId, newest.Design, chosen.Notation, chosen.Nose, Whose(context));
        Build? build = store.Builds(id).LastOrDefault();
        return Results.Json(new
        {
            id,
            name = card.Name,
            picture = card.Picture,
            sentence = card.Sentence,
            kinds = TubReadings.Kinds.Select(k => new { kind = k.Kind, word = k.Word, numbers = k.Numbers.Select(n => new { key = n.Key, word = n.Word, unit = n.Unit }) }),
            read = build is null ? [] : store.LogOf(build.Id).Where(e => !e.IsStruckOut && e.Entry.Kind == BuildLog.Entry).Select(e => e.Entry.EditId).ToArray(),
        }, Web);
    }

    private sealed record Sent(string? EditId, DateTimeOffset? At, TypedReading? Reading);

    // Acknowledged only when it is on the disk; the same reading sent again is kept once.
    private async Task<IResult> TakeIn(HttpContext context, long id)
    {
        using RateLimitLease turnOfThis = readings.AttemptAcquire(context.Features.GetRequiredFeature<JoinedPhone>().Id);
        if (!turnOfThis.IsAcquired)
        {
            context.Response.Headers.RetryAfter = "1";
            return Results.Text(
                $"The desk takes {AtOnce} readings in {Within.TotalSeconds} seconds. This one stays on the phone and is sent again.",
                statusCode: StatusCodes.Status429TooManyRequests);
        }
        if (await Read<Sent>(context) is not { EditId: { } edit, Reading: { } typed } sent || !EditId.IsOne(edit))
            return Results.Text("Not like that: something that is no reading. Load this page again and type it anew.", statusCode: StatusCodes.Status400BadRequest);
        if (sessions.Of(id) is not { } session) return Gone(id);
        (string? json, Fault? fault) = TubReadings.Judge(typed);
        if (json is null) return Results.Text($"Not like that: {fault!.Path} {fault.Got}; allowed: {fault.Allowed}. {fault.Next}", statusCode: StatusCodes.Status422UnprocessableEntity);
        try
        {
            if (BuildLog.Begun(store, id, session.N, "for-" + edit[..Math.Min(edit.Length, 60)]) is not { } build
                || store.Log(build.Id, BuildLog.Entry, json, edit, sent.At is { } at && at <= clock.GetUtcNow() ? at : null) is null) return Gone(id);
            return Results.Text("kept");
        }
        catch (StoreRefusal refusal) when (refusal.Cause == RefusalCause.UsedId)
        {
            return Results.Text($"Not like that: {refusal.Fault.Got}. {refusal.Fault.Next}", statusCode: StatusCodes.Status422UnprocessableEntity);
        }
        catch (StoreRefusal refusal)
        {
            return Results.Text($"The desk couldn't keep it: {refusal.Fault.Got}. {refusal.Fault.Next} It stays on this phone and is sent again.", statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }

    // Seconds of work, so it is asked for apart, done once for each log, and given up when another reading comes. What is given up takes
    // a moment to end, and the next begins after it: readings that come quickly never work beside each other.
    private async Task<IResult> Said(long id, HttpContext context)
    {
        if (sessions.Of(id) is not { } session) return Gone(id);
        Task<string> said;
        lock (telling)
        {
            // Read inside: whoever read earlier must not come later with less.
            if (store.Builds(id) is not [.., var build]) return Results.Text("");
            string log = BuildLog.Of(store, build, session.Design.Name);
            LureDesign design = store.Revision(id, build.N)?.Read().Value ?? session.Design;
            Notation notation = Choices.Of(store).Notation;
            Reading<TubLog> reading = LogFile.Read(Encoding.UTF8.GetBytes(log));
            if (reading.Value is not { } read) return Results.Text(reading.Faults[0].ToString());
            if (!told.TryGetValue(id, out var now) || now.Log != log || now.Said.IsFaulted || now.Said.IsCanceled)
            {
                now.Cancel?.Cancel();
                var cancel = new CancellationTokenSource();
                told[id] = now = (log, After(now.Said, () => sessions.Scheduler.Ask(
                    Asks(design, read, notation), Priority.Sampling, Whose(context), cancellation: cancel.Token)), cancel);
            }
            said = now.Said;
        }
        try
        {
            return Results.Text(await said);
        }
        catch (OperationCanceledException)
        {
            return Results.Text("");
        }
    }

    private static async Task<string> After(Task? before, Func<Task<string>> ask)
    {
        if (before is not null)
            await before.ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        return await ask();
    }

    private static async Task<T?> Read<T>(HttpContext context)
        where T : class
    {
        try
        {
            return await JsonSerializer.DeserializeAsync<T>(context.Request.Body, Web, context.RequestAborted);
        }
        catch (Exception e) when (e is JsonException or BadHttpRequestException)
        {
            return null;
        }
    }

    private static IResult Gone(long id) => Results.Text($"There is no lure {id} any more. Go back to the list.", statusCode: StatusCodes.Status404NotFound);

    public async ValueTask DisposeAsync()
    {
        await Shut();
        await readings.DisposeAsync();
        turn.Dispose();
    }
}
