using System.Net;
using System.Text;
using System.Text.Json;
using Trimwright.Core.Numerics;
using Trimwright.App.Scheduling;
using Trimwright.App.Gate;
using Trimwright.App.Pages;
using Trimwright.App.Sessions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Tests.App;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>The phone's own listener, asked as a phone and as others would: lures and readings, and nothing else of the program.</summary>
public sealed class PhoneHostTests : IAsyncLifetime
{
    private static readonly HttpClient Client = new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false });

    private readonly TempStore temp = new();
    private Store store = null!;
    private LureSessions sessions = null!;
    private PhoneHost phone = null!;
    private long lure;

    public async ValueTask InitializeAsync()
    {
        store = temp.Open();
        sessions = new LureSessions(store);
        lure = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "begun")).Revision.Owner;
        phone = new PhoneHost(store, sessions, TimeProvider.System);
        Assert.Null(await phone.Open(IPAddress.Loopback));
    }

    public async ValueTask DisposeAsync()
    {
        await phone.DisposeAsync();
        sessions.Dispose();
        store.Dispose();
        temp.Dispose();
    }

    private async Task<(HttpStatusCode Status, string Body, HttpResponseMessage Answer)> Ask(
        HttpMethod method, string path, (string Cookie, string Word)? joined = null, object? body = null, string? origin = "own", string? host = null)
    {
        using var request = new HttpRequestMessage(method, $"http://{phone.Host}{path}");
        if (host is not null) request.Headers.Host = host;
        if (joined?.Cookie is { Length: > 0 } cookie) request.Headers.Add("Cookie", $"{PhoneGate.CookieName(phone.Host!)}={cookie}");
        if (joined?.Word is { Length: > 0 } word) request.Headers.Add(PageSecret.WordHeader, word);
        if (origin is not null && method != HttpMethod.Get) request.Headers.Add("Origin", origin == "own" ? $"http://{phone.Host}" : origin);
        if (body is not null) request.Content = new StringContent(body as string ?? JsonSerializer.Serialize(body), Encoding.UTF8, "application/json");
        HttpResponseMessage answer = await Client.SendAsync(request);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(), answer);
    }

    private async Task<(string Cookie, string Word)> Join()
    {
        (HttpStatusCode status, string word, HttpResponseMessage answer) = await Ask(HttpMethod.Post, "/join", body: new { code = phone.Door.NewCode(), name = "Android" });
        Assert.Equal(HttpStatusCode.OK, status);
        string cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie")).ToLowerInvariant();
        Assert.Contains("httponly", cookie);
        Assert.Contains("samesite=strict", cookie);
        Assert.Equal(22, word.Length);
        return (Assert.Single(answer.Headers.GetValues("Set-Cookie")).Split('=', 2)[1].Split(';')[0], word);
    }

    private static object Weight(string editId, string grams, string kind = "weight") => new { editId, reading = new { kind, stage = "blank", rig = "bare", numbers = new Dictionary<string, string> { ["mass_g"] = grams } } };

    [Fact]
    public async Task A_phone_reads_a_lure_and_its_reading_is_kept_once_also_when_it_is_sent_again()
    {
        var cookie = await Join();
        Assert.Contains("Tidegate 185", (await Ask(HttpMethod.Get, "/lures", cookie)).Body);
        using JsonDocument seen = JsonDocument.Parse((await Ask(HttpMethod.Get, $"/lure/{lure}", cookie)).Body);
        Assert.Contains("Sinks slowly", seen.RootElement.GetProperty("sentence").GetString());
        Assert.StartsWith("<svg", seen.RootElement.GetProperty("picture").GetString());
        for (int i = 0; i < 3; i++) Assert.Equal((HttpStatusCode.OK, "kept"), (await Ask(HttpMethod.Post, $"/lure/{lure}/reading", cookie, Weight("reading-0001", "45,5"))) is var a ? (a.Status, a.Body) : default);
        Build build = Assert.Single(store.Builds(lure));
        Assert.Equal("""{"kind":"weight","stage":"blank","rig":"bare","mass_g":45.5}""", Assert.Single(store.LogOf(build.Id)).Entry.Json);
        string said = (await Ask(HttpMethod.Get, $"/lure/{lure}/said", cookie)).Body;
        Assert.Contains("In the sea, finished and rigged: ", said);
        Assert.Contains("Before any reading: 4.3\u00A0g heavy as drawn, give or take 4.6\u00A0g", said);

        // And out as a log file, which the commands read.
        string file = temp.In("tidegate.log.json");
        TheProgram.Ran ran = TheProgram.Run("store", "export", file, "--readings", $"{lure}", "--store", temp.Path);
        Assert.Equal(0, ran.Exit);
        Assert.Equal(45.5, Assert.Single(LogFile.Read(File.ReadAllBytes(file)).Value!.Readings).MassG);
        Assert.Equal(1, TheProgram.Run("store", "export", temp.In("none.json"), "--readings", "99", "--store", temp.Path).Exit);
        TheProgram.Ran both = TheProgram.Run("store", "export", temp.In("both.json"), "--lure", $"{lure}", "--readings", $"{lure}", "--store", temp.Path);
        Assert.Equal(2, both.Exit);
        Assert.Contains("one of the two", both.Error);
        Assert.False(File.Exists(temp.In("both.json")));
    }

    [Fact]
    public async Task What_is_no_reading_is_refused_in_a_sentence_and_nothing_is_begun()
    {
        var cookie = await Join();
        foreach ((object body, HttpStatusCode status, string why) in new (object, HttpStatusCode, string)[]
        {
            (Weight("reading-0001", "heavy"), HttpStatusCode.UnprocessableEntity, "“heavy”"),
            (Weight("reading-0001", "-3"), HttpStatusCode.UnprocessableEntity, "mass_g"),
            (Weight("reading-0001", ""), HttpStatusCode.UnprocessableEntity, "mass_g"),
            (Weight("reading-0001", "45", kind: "delete"), HttpStatusCode.UnprocessableEntity, "delete"),
            (Weight("a b", "45"), HttpStatusCode.BadRequest, "no reading"),
            ("{", HttpStatusCode.BadRequest, "no reading"),
            ("[]", HttpStatusCode.BadRequest, "no reading"),
            ("null", HttpStatusCode.BadRequest, "no reading"),
        })
        {
            var answer = await Ask(HttpMethod.Post, $"/lure/{lure}/reading", cookie, body);
            Assert.Equal(status, answer.Status);
            Assert.StartsWith("Not like that: ", answer.Body);
            Assert.Contains(why, answer.Body);
        }
        Assert.Equal(HttpStatusCode.NotFound, (await Ask(HttpMethod.Post, "/lure/99/reading", cookie, Weight("reading-0001", "45"))).Status);
        Assert.Empty(store.Builds());
    }

    [Fact]
    public async Task Foreign_host_foreign_origin_no_cookie_one_half_and_the_desk_s_cookie_get_nothing()
    {
        var cookie = await Join();
        string[] inside = ["/lures", $"/lure/{lure}", $"/lure/{lure}/said"];
        var secret = new PageSecret();
        foreach (string path in inside)
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, path)).Status);
            Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, path, (secret.Cookie, secret.Word))).Status);
            // One half without the other.
            Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, path, (cookie.Cookie, ""))).Status);
            Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, path, ("", cookie.Word))).Status);
            Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, path, (cookie.Cookie, secret.Word))).Status);
            foreach (string host in new[] { "evil.test", $"localhost:{phone.Host!.Split(':')[1]}", "127.0.0.1", "127.0.0.1:1" })
                Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, path, cookie, host: host)).Status);
        }
        foreach (string? origin in new[] { "http://evil.test", "null", "https://" + phone.Host, null })
            foreach (string path in new[] { "/join", $"/lure/{lure}/reading" })
                Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Post, path, cookie, Weight("reading-0001", "45"), origin)).Status);
        Assert.Empty(store.Builds());
    }

    [Fact]
    public async Task Nothing_of_the_desk_is_behind_the_phone_s_door()
    {
        var cookie = await Join();
        foreach (string path in new[] { "/lure/1/shape", "/phone", "/about", "/enter", "/_blazor", "/_blazor/negotiate", "/_framework/blazor.web.js", "/page.css", "/photo/1", "/store", "/export", "/settings", "/../workshop.trimwright" })
        {
            Assert.Equal(HttpStatusCode.NotFound, (await Ask(HttpMethod.Get, path, cookie)).Status);
            Assert.NotEqual(HttpStatusCode.OK, (await Ask(HttpMethod.Post, path, cookie, "{}")).Status);
        }
        foreach (HttpMethod method in new[] { HttpMethod.Delete, HttpMethod.Put, HttpMethod.Patch })
            foreach (string path in new[] { $"/lure/{lure}", $"/lure/{lure}/reading", "/lures" })
                Assert.Equal(HttpStatusCode.MethodNotAllowed, (await Ask(method, path, cookie, "{}")).Status);
        (HttpStatusCode status, string page, HttpResponseMessage answer) = await Ask(HttpMethod.Get, "/");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.DoesNotContain("style=\"", page);
        Assert.StartsWith("default-src 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")));
    }

    [Fact]
    public async Task Readings_quicker_than_hands_are_slowed_stay_on_the_phone_and_leave_the_desk_quick()
    {
        var joined = await Join();
        var second = await Join();
        var answers = new List<(HttpStatusCode Status, string Body, HttpResponseMessage Answer)>();
        // 65 at a stretch. Where an answer takes more than a second, none is too quick: then as many more as it takes.
        for (int i = 0; i < 65 || (i < 2000 && answers.All(a => a.Status == HttpStatusCode.OK)); i++) answers.Add(await Ask(HttpMethod.Post, $"/lure/{lure}/reading", joined, Weight($"reading-{i:0000}", "45.5")));
        int kept = answers.Count(a => a.Status == HttpStatusCode.OK);
        Assert.All(answers.Take(10), a => Assert.Equal(HttpStatusCode.OK, a.Status));
        Assert.InRange(answers.Count(a => a.Status == HttpStatusCode.TooManyRequests), 1, answers.Count - kept);
        Assert.Equal(kept, store.LogOf(Assert.Single(store.Builds(lure)).Id).Count);
        foreach (var slowed in answers.Where(a => a.Status == HttpStatusCode.TooManyRequests))
        {
            Assert.Equal("1", Assert.Single(slowed.Answer.Headers.GetValues("Retry-After")));
            Assert.StartsWith("The desk takes 10 readings in 10 seconds.", slowed.Body);
        }
        // One phone's haste is no other's.
        Assert.Equal(HttpStatusCode.OK, (await Ask(HttpMethod.Post, $"/lure/{lure}/reading", second, Weight("reading-other", "45.5"))).Status);
        // What was slowed is taken when it is sent again, as the phone does until it is.
        int last = answers.FindLastIndex(a => a.Status == HttpStatusCode.TooManyRequests);
        await Patience.Until(async () => (await Ask(HttpMethod.Post, $"/lure/{lure}/reading", joined, Weight($"reading-{last:0000}", "45.5"))) is (HttpStatusCode.OK, "kept", _), "it was never taken");
    }

    [Fact]
    public async Task However_quickly_readings_come_what_they_say_is_worked_out_one_after_the_other_and_only_the_last_to_its_end()
    {
        int working = 0, most = 0, begun = 0, ended = 0;
        await using var desk = new PhoneHost(store, sessions, TimeProvider.System)
        {
            Asks = (_, log, _) => new Slowly(pace =>
            {
                most = Math.Max(most, Interlocked.Increment(ref working));
                Interlocked.Increment(ref begun);
                try
                {
                    // As the real one: looks up from its work only now and then.
                    for (int i = 0; i < 10; i++)
                    {
                        Patience.Moment(20);
                        pace.Step();
                    }
                    Interlocked.Increment(ref ended);
                    return $"{log.Readings.Length} readings";
                }
                finally
                {
                    Interlocked.Decrement(ref working);
                }
            }),
        };
        Assert.Null(await desk.Open(IPAddress.Loopback));
        (string cookie, string word) = desk.Door.Join(desk.Door.NewCode(), "Android")!.Value;
        var asked = new List<Task<string>>();
        for (int i = 0; i < 10; i++)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, $"http://{desk.Host}/lure/{lure}/reading") { Content = new StringContent(JsonSerializer.Serialize(Weight($"reading-{i:0000}", "45.5")), Encoding.UTF8, "application/json") };
            Dress(request);
            Assert.Equal(HttpStatusCode.OK, (await Client.SendAsync(request)).StatusCode);
            // Several at once, as several phones would.
            asked.AddRange([Say(), Say(), Say()]);
        }
        string[] said = await Task.WhenAll(asked);
        Assert.Equal("10 readings", said[^1]);
        Assert.All(said, s => Assert.Matches("^(|[0-9]+ readings)$", s));
        Assert.Equal(1, most);
        Assert.InRange(begun, 1, 10);
        Assert.InRange(ended, 1, begun);
        Assert.Equal("10 readings", await Say());
        Assert.InRange(begun, 1, 10);

        async Task<string> Say()
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, $"http://{desk.Host}/lure/{lure}/said");
            Dress(request);
            using HttpResponseMessage answer = await Client.SendAsync(request);
            return await answer.Content.ReadAsStringAsync();
        }

        void Dress(HttpRequestMessage request)
        {
            request.Headers.Add("Cookie", $"{PhoneGate.CookieName(desk.Host!)}={cookie}");
            request.Headers.Add(PageSecret.WordHeader, word);
            if (request.Method != HttpMethod.Get) request.Headers.Add("Origin", $"http://{desk.Host}");
        }
    }

    [Fact]
    public async Task A_HEAD_is_answered_as_the_GET_without_its_body()
    {
        var joined = await Join();
        foreach (string path in new[] { "/", "/phone.js", "/lures", $"/lure/{lure}", "/lure/-1", "/none" })
        {
            var get = await Ask(HttpMethod.Get, path, joined);
            var head = await Ask(HttpMethod.Head, path, joined);
            Assert.Equal((get.Status, ""), (head.Status, head.Body));
            Assert.Equal(get.Answer.Content.Headers.ContentType, head.Answer.Content.Headers.ContentType);
        }
    }

    [Fact]
    public async Task Sent_away_or_shut_out_a_phone_is_a_stranger_at_once()
    {
        var first = await Join();
        var second = await Join();
        phone.Door.SendAway(phone.Door.Of(first.Cookie, first.Word)!.Id);
        var refused = await Ask(HttpMethod.Get, "/lures", first);
        Assert.Equal(HttpStatusCode.Forbidden, refused.Status);
        Assert.Contains("sent away", refused.Body);
        Assert.Equal(HttpStatusCode.OK, (await Ask(HttpMethod.Get, "/lures", second)).Status);
        string was = phone.Host!;
        await phone.Shut();
        Assert.Null(phone.Host);
        await Assert.ThrowsAsync<HttpRequestException>(() => Client.GetAsync($"http://{was}/"));
        Assert.Null(await phone.Open(IPAddress.Loopback));
        // What waits in a phone's browser belongs to address and port: they are the same again.
        Assert.Equal(was, phone.Host);
        Assert.Equal(HttpStatusCode.Forbidden, (await Ask(HttpMethod.Get, "/lures", second)).Status);
    }

    [Fact]
    public async Task An_address_that_isn_t_this_machine_s_is_said_in_a_sentence_and_a_port_in_use_is_left_for_another()
    {
        await using var other = new PhoneHost(store, sessions, TimeProvider.System);
        Assert.Contains("Choose another of this machine's addresses", await other.Open(IPAddress.Parse("192.0.2.1")));
        Assert.Null(other.Host);
        Assert.Null(await other.Open(IPAddress.Loopback));
        Assert.NotEqual(phone.Host, other.Host);
    }

    private sealed record Slowly(Func<Pace, string> Work) : IQuestion<string>
    {
        public string Answer(Pace pace) => Work(pace);
    }
}
