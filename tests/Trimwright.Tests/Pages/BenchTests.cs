using System.Globalization;
using Bunit;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Trimwright.App.Gate;
using Trimwright.App.Pages;
using Trimwright.App.Scheduling;
using Trimwright.App.Sessions;
using Trimwright.App.Carried;
using Trimwright.App.Commands;
using Trimwright.App.Edits;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Tests.Workshop;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.Tests.Pages;

/// <summary>The page's components, without a browser.</summary>
public sealed class BenchTests : IDisposable
{
    private readonly TempStore temp = new();
    private readonly Store store;
    private readonly BunitContext page = new();
    private readonly long id;

    public BenchTests()
    {
        store = temp.Open();
        page.Services.AddSingleton(store).AddSingleton<LureSessions>().AddSingleton<Scheduler>().AddSingleton<Presence>().AddSingleton(TimeProvider.System).AddSingleton<PageSecret>();
        page.JSInterop.Mode = JSRuntimeMode.Loose;
        page.Renderer.SetRendererInfo(new Microsoft.AspNetCore.Components.RendererInfo("Server", isInteractive: true));
        id = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "begun")).Revision.Owner;
    }

    public void Dispose()
    {
        page.DisposeAsync().AsTask().GetAwaiter().GetResult();
        store.Dispose();
        temp.Dispose();
    }

    private IRenderedComponent<Bench> Open(string place, Switches? switches = null) => page.Render<Bench>(p => p
        .Add(b => b.Session, page.Services.GetRequiredService<LureSessions>().Of(id)!)
        .Add(b => b.Place, place)
        .Add(b => b.Switches, switches ?? Switches.InTheSea));

    private LureDesign Saved => store.Newest(id)!.Read().Value!;

    [Fact]
    public void A_name_doesn_t_steer_the_title_that_others_words_stand_beside()
    {
        long odd = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185") with { Name = "Tide\u202Egate\u2066 1\u200F85" }, EditId.New(), "begun")).Revision.Owner;
        IRenderedComponent<HeadOutlet> head = page.Render<HeadOutlet>();
        page.Render<LurePage>(p => p.Add(l => l.Id, odd));
        head.WaitForAssertion(() => Assert.Equal("Tidegate 185 · Trimwright", head.Find("title").TextContent));
    }

    [Fact]
    public void It_shows_the_sentence_the_numbers_and_the_picture_of_the_command()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        Assert.Equal("Sinks slowly, a little tail down, 8°: a metre in about 6.0 s. 4.3 g heavy in the sea.", bench.Find(".says").TextContent.Replace('\u00A0', ' '));
        Assert.Contains("104.2", bench.Find(".numbers").TextContent);
        Assert.Equal(7, bench.FindAll(".scene .tap").Count);
        Assert.Equal(30, bench.FindAll(".knob").Count);
    }

    [Fact]
    public void Every_knob_and_every_thing_on_the_picture_has_a_name_and_is_reached_by_keyboard()
    {
        foreach (var thing in Open("shape").FindAll(".knob, .tap"))
        {
            Assert.Equal("0", thing.GetAttribute("tabindex"));
            Assert.Equal("button", thing.GetAttribute("role"));
            Assert.True(thing.GetAttribute("aria-label")!.Length > 5);
        }
    }

    [Fact]
    public async Task A_move_is_shown_at_once_and_saved_when_the_hand_stops()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        var at = bench.Find("[data-key=belly-4] .dot");
        double x = double.Parse(at.GetAttribute("cx")!, System.Globalization.CultureInfo.InvariantCulture), y = double.Parse(at.GetAttribute("cy")!, System.Globalization.CultureInfo.InvariantCulture);
        await bench.InvokeAsync(() => bench.Instance.Move("belly-4", x, y + 3));
        Assert.Contains("In your hand", bench.Find(".saved").TextContent);
        Assert.Contains("more lift", bench.Find(".changed").TextContent);
        Assert.Equal(-19, Saved.Body.Belly.Points[4].Value);
        await bench.InvokeAsync(() => bench.Instance.Land("belly-4", x, y + 3));
        Assert.Contains("Saved", bench.Find(".saved").TextContent);
        Assert.Equal(-22, Saved.Body.Belly.Points[4].Value);
        bench.Find(".turns button").Click();
        bench.WaitForAssertion(() => Assert.Equal(-19, Saved.Body.Belly.Points[4].Value));
    }

    [Theory]
    [InlineData("belly-99")]
    [InlineData("belly--1")]
    [InlineData("nose-1")]
    [InlineData("")]
    [InlineData("hardware-99")]
    public async Task A_key_that_is_none_moves_nothing(string key)
    {
        IRenderedComponent<Bench> bench = Open("shape");
        await bench.InvokeAsync(() => bench.Instance.Move(key, 50, 50));
        await bench.InvokeAsync(() => bench.Instance.Land(key, double.NaN, 50));
        await bench.InvokeAsync(() => bench.Instance.Touch(key));
        Assert.Equal(1, store.Newest(id)!.N);
    }

    [Fact]
    public async Task A_touched_point_can_be_typed_with_a_comma()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        await bench.InvokeAsync(() => bench.Instance.Touch("belly-4"));
        bench.Find("#point-value").Change("20,5");
        bench.WaitForAssertion(() => Assert.Equal(-20.5, Saved.Body.Belly.Points[4].Value));
    }

    [Fact]
    public void What_is_no_number_is_refused_beside_the_field_and_stays_in_it()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        bench.Find("#length").Change("a foot");
        Assert.Equal("a foot", bench.Find("#length").GetAttribute("value"));
        Assert.Equal("true", bench.Find("#length").GetAttribute("aria-invalid"));
        Assert.Contains("12,5", bench.Find("#length-fault").TextContent);
        bench.Find("#length").Change("170");
        bench.WaitForAssertion(() => Assert.Equal(170, Saved.Body.LengthMm));
        Assert.Empty(bench.FindAll("#length-fault"));
    }

    [Fact]
    public void A_number_that_cannot_be_is_refused_beside_its_field_too_and_stays_in_it()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        bench.Find("#length").Change("-20");
        bench.WaitForAssertion(() => Assert.StartsWith("Not like that: ", bench.Find("#length-fault").TextContent));
        Assert.Equal(("-20", "true"), (bench.Find("#length").GetAttribute("value"), bench.Find("#length").GetAttribute("aria-invalid")));
        Assert.Equal(bench.Find("#length-fault").TextContent, bench.Find(".changed").TextContent);
        bench.Find("#length").Change("170");
        bench.WaitForAssertion(() => Assert.Equal(170, Saved.Body.LengthMm));
        bench.WaitForAssertion(() => Assert.Empty(bench.FindAll("#length-fault")));

        IRenderedComponent<Bench> rig = Open("rig");
        rig.Find("#grams-4").Change("9000");
        rig.WaitForAssertion(() => Assert.Contains("\u00A0g", rig.Find("#grams-4-fault").TextContent));
        Assert.Equal("9000", rig.Find("#grams-4").GetAttribute("value"));
    }

    [Fact]
    public async Task A_typed_place_that_the_points_beside_it_do_not_allow_is_refused_with_what_is_allowed()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        await bench.InvokeAsync(() => bench.Instance.Touch("belly-4"));
        var points = Saved.Body.Belly.Points;
        bench.Find("#point-x").Change("900");
        bench.WaitForAssertion(() => Assert.Contains("between the points beside it", bench.Find("#point-x-fault").TextContent));
        Assert.Equal("900", bench.Find("#point-x").GetAttribute("value"));
        Assert.Equal(points[4], Saved.Body.Belly.Points[4]);
        bench.Find("#point-x").Change(string.Create(CultureInfo.InvariantCulture, $"{points[4].X + 1.04}"));
        bench.WaitForAssertion(() => Assert.Equal(points[4].X + 1, Saved.Body.Belly.Points[4].X, 9));
        // What it was rounded to is shown back.
        bench.WaitForAssertion(() => Assert.Equal(string.Create(CultureInfo.InvariantCulture, $"{points[4].X + 1}"), bench.Find("#point-x").GetAttribute("value")));
        Assert.Empty(bench.FindAll("#point-x-fault"));

        await bench.InvokeAsync(() => bench.Instance.Touch("plan-4"));
        bench.Find("#point-value").Change("-3");
        bench.WaitForAssertion(() => Assert.Contains("0 or more", bench.Find("#point-value-fault").TextContent));

        bench.Find("#new-x").Change(string.Create(CultureInfo.InvariantCulture, $"{Saved.Body.Back.Points[3].X}"));
        bench.WaitForAssertion(() => Assert.Contains("every other point of the back", bench.Find("#new-x-fault").TextContent));
    }

    [Fact]
    public void A_size_up_is_one_press_and_says_what_it_did()
    {
        IRenderedComponent<Bench> bench = Open("rig");
        bench.FindAll("#hardware-6 button")[1].Click();
        bench.WaitForAssertion(() => Assert.Equal(9.5, Saved.Hardware[6].MassG));
        bench.WaitForAssertion(() => Assert.Contains("+2.5", bench.Find(".changed").TextContent));
        Assert.Contains("more tail down", bench.Find(".changed").TextContent);
    }

    [Fact]
    public void A_hook_is_weighed_by_hand()
    {
        IRenderedComponent<Bench> bench = Open("rig");
        bench.Find("#grams-4").Change("9,8 g");
        bench.WaitForAssertion(() => Assert.Equal(9.8, Saved.Hardware[4].MassG));
    }

    [Fact]
    public void The_switches_are_addresses_and_a_reload_is_right()
    {
        IRenderedComponent<Bench> bench = Open("shape", Switches.From("dry-fit", "bare", "tap"));
        Assert.Equal(["dry-fit", "bare", "tap"], bench.FindAll(".switches [aria-current=true]").Select(a => a.TextContent));
        Assert.Contains("in tap water", bench.Find(".says").TextContent);
        Assert.Contains($"/lure/{id}/shape?stage=dry-fit&rig=rigged&water=tap", bench.FindAll(".switches a").Select(a => a.GetAttribute("href")));
    }

    [Fact]
    public void One_switch_turns_every_number_and_field_to_inches_and_ounces_and_is_remembered()
    {
        IRenderedComponent<Chosen> all = page.Render<Chosen>(p => p.AddChildContent<Bench>(b => b
            .Add(x => x.Session, page.Services.GetRequiredService<LureSessions>().Of(id)!).Add(x => x.Place, "shape").Add(x => x.Switches, Switches.InTheSea)));
        all.FindAll(".units button")[1].Click();
        Assert.Contains("0.151\u00A0oz heavy in the sea", all.Find(".says").TextContent);
        Assert.Contains("oz", all.Find(".numbers").TextContent);
        Assert.Equal(("7.283", "in"), (all.Find("#length").GetAttribute("value"), all.Find(".field:has(#length) .unit").TextContent));
        all.Find("#length").Change("7 1/2");
        all.WaitForAssertion(() => Assert.Equal(190.5, Saved.Body.LengthMm, 9));
        all.WaitForAssertion(() => Assert.Equal("7.5", all.Find("#length").GetAttribute("value")));
        all.Find("#length").Change("180 mm");
        all.WaitForAssertion(() => Assert.Equal(180, Saved.Body.LengthMm, 9));
        Assert.Equal("in", store.Setting("units"));
        Assert.Equal("7.087", page.Render<Chosen>(p => p.AddChildContent<Bench>(b => b
            .Add(x => x.Session, page.Services.GetRequiredService<LureSessions>().Of(id)!).Add(x => x.Place, "shape").Add(x => x.Switches, Switches.InTheSea))).Find("#length").GetAttribute("value"));
    }

    [Fact]
    public async Task The_nose_points_where_the_maker_draws_it_here_at_home_and_next_time()
    {
        IRenderedComponent<Chosen> all = page.Render<Chosen>(p => p.AddChildContent<Bench>(b => b
            .Add(x => x.Session, page.Services.GetRequiredService<LureSessions>().Of(id)!).Add(x => x.Place, "shape").Add(x => x.Switches, Switches.InTheSea)));
        double X(string key) => double.Parse(all.Find($"[data-key={key}] .dot").GetAttribute("cx")!, CultureInfo.InvariantCulture);
        double nose = X("back-0"), tail = X($"back-{Saved.Body.Back.Points.Length - 1}");
        Assert.True(nose < tail);
        string sentence = all.Find(".says").TextContent, picture = all.Find(".scene").InnerHtml;
        all.FindAll("fieldset .units button")[1].Click();
        all.WaitForAssertion(() => Assert.Equal((tail, nose), (X("back-0"), X($"back-{Saved.Body.Back.Points.Length - 1}"))));
        Assert.Equal(sentence, all.Find(".says").TextContent);
        Assert.NotEqual(picture, all.Find(".scene").InnerHtml);
        Assert.Equal("true", all.FindAll("fieldset .units button")[1].GetAttribute("aria-pressed"));

        // Three millimetres to the left on the page are three towards the tail.
        Trimwright.Core.Shape.OutlinePoint before = Saved.Body.Back.Points[3];
        double y = double.Parse(all.Find("[data-key=back-3] .dot").GetAttribute("cy")!, CultureInfo.InvariantCulture);
        IRenderedComponent<Bench> bench = all.FindComponent<Bench>();
        await bench.InvokeAsync(() => bench.Instance.Land("back-3", X("back-3") - 3, y));
        Assert.Equal((before.X + 3, before.Value), (Saved.Body.Back.Points[3].X, Saved.Body.Back.Points[3].Value));

        Assert.Equal("right", store.Setting("nose"));
        Assert.Contains("--nose right", page.Render<Chosen>(p => p.AddChildContent<LaterPlace>(l => l.Add(x => x.Place, "make").Add(x => x.Id, id).Add(x => x.Name, "Tidegate"))).Markup);
        string left = page.Render<Home>().Find(".swims .picture").InnerHtml;
        Assert.NotEqual(left, page.Render<Chosen>(p => p.AddChildContent<Home>()).Find(".swims .picture").InnerHtml);
    }

    [Fact]
    public void A_comma_is_the_decimal_mark_and_what_was_read_is_shown_back()
    {
        IRenderedComponent<Bench> bench = Open("rig");
        bench.Find("#grams-4").Change("1,500");
        bench.WaitForAssertion(() => Assert.Equal(1.5, Saved.Hardware[4].MassG));
        bench.WaitForAssertion(() => Assert.Equal("1.5", bench.Find("#grams-4").GetAttribute("value")));
        bench.Find("#grams-4").Change("0,5 oz");
        bench.WaitForAssertion(() => Assert.Equal("14.175", bench.Find("#grams-4").GetAttribute("value")));
    }

    [Fact]
    public void A_mistake_of_ours_leaves_the_page_usable_and_what_is_typed_where_it_is()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        bench.Find("#new-x").Change("a hand");
        // A store closed under the page's hands is nothing that can happen to a maker: the page closes first.
        store.Dispose();
        bench.Find("#length").Change("170");
        bench.WaitForAssertion(() => Assert.Contains("our own fault", bench.Find(".mistake").TextContent));
        string report = Assert.Single(Directory.GetFiles(temp.Folder, "report-*.txt"));
        Assert.Contains(report, bench.Find(".mistake").TextContent);
        Assert.Contains(nameof(ObjectDisposedException), File.ReadAllText(report));
        Assert.DoesNotContain("Tidegate", File.ReadAllText(report));
        Assert.Equal(("a hand", "170"), (bench.Find("#new-x").GetAttribute("value"), bench.Find("#length").GetAttribute("value")));
        bench.Find(".mistake input").Change(true);
        bench.WaitForAssertion(() => Assert.Contains("Tidegate 185", File.ReadAllText(report)));
        bench.Find(".mistake button").Click();
        Assert.Empty(bench.FindAll(".mistake"));
        bench.WaitForAssertion(() => Assert.Contains("Sinks slowly", bench.Find(".says").TextContent));
    }

    [Fact]
    public void A_page_that_cant_be_drawn_says_so_and_leads_home()
    {
        IRenderedComponent<Calm> calm = page.Render<Calm>(p => p.AddChildContent(_ => throw new InvalidOperationException("injected")));
        Assert.Contains(Assert.Single(Directory.GetFiles(temp.Folder, "report-*.txt")), calm.Find("[role=alert]").TextContent);
        Assert.Equal("/", calm.Find("main a").GetAttribute("href"));
        calm.Find("button").Click();
        Assert.Contains("could not be drawn", calm.Markup);
    }

    [Fact]
    public void About_shows_every_part_with_its_licence_to_open()
    {
        IRenderedComponent<About> about = page.Render<About>();
        Assert.Equal(Notices.All.Count, about.FindAll(".parts details").Count);
        Assert.Contains("Permission is hereby granted", about.Markup);
        Assert.Contains(store.Path, about.Find(".where").TextContent);
    }

    [Fact]
    public async Task Home_shows_starters_in_water_and_begins_a_lure_from_one()
    {
        IRenderedComponent<Home> home = page.Render<Home>();
        Assert.Equal(3 + 1, home.FindAll(".swims .picture svg").Count);
        // Found and clicked in one go: the store's watch may draw the page anew in between.
        await home.InvokeAsync(() => home.FindAll(".swims button")[1].Click());
        home.WaitForAssertion(() => Assert.Equal(2, store.Lures().Count));
        home.WaitForAssertion(() => Assert.EndsWith("/lure/2/shape", page.Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().Uri));
    }

    [Fact]
    public void The_first_home_says_what_this_is_and_a_maker_with_lures_sees_those_first()
    {
        using var fresh = new TempStore();
        using Store none = fresh.Open();
        using var other = new BunitContext();
        other.Services.AddSingleton(none).AddSingleton<LureSessions>().AddSingleton(TimeProvider.System);
        other.Renderer.SetRendererInfo(new Microsoft.AspNetCore.Components.RendererInfo("Server", isInteractive: true));
        IRenderedComponent<Home> first = other.Render<Home>();
        Assert.Contains("before it is glued shut", first.Find(".welcome h1").TextContent);
        Assert.Equal(3, first.FindAll(".swims .begin button").Count);

        IRenderedComponent<Home> later = page.Render<Home>();
        Assert.Empty(later.FindAll(".welcome"));
        Assert.Equal("My lures", later.Find("main > :first-child").TextContent);
        Assert.Equal("Tidegate 185", later.FindAll(".swims h2")[0].TextContent);
    }

    [Fact]
    public void What_home_says_of_copying_names_files_that_the_demo_writes()
    {
        string command = page.Render<Home>().Find(".copied pre").TextContent.Split('\n')[1];
        string[] files = [.. command.Split(' ').Where(w => w.StartsWith("lures/", StringComparison.Ordinal)).Select(w => w["lures/".Length..])];
        Assert.Equal(2, files.Length);
        using var folder = new TempStore();
        string[] written = [.. DemoCommand.Write(folder.Folder, force: false).Select(Path.GetFileName)!];
        Assert.All(files, f => Assert.Contains(f, written));
    }

    [Fact]
    public void Each_weight_on_the_sheet_is_solid_lead_with_its_grams_in_the_units_chosen()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        Assert.Equal(4, bench.FindAll(".curves .lead").Count);
        Assert.Equal(["9.0\u00A0g", "12.9\u00A0g"], bench.FindAll(".curves text").Select(t => t.TextContent));
        Assert.DoesNotContain("mm/s", bench.Markup);
    }

    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    [InlineData("slipway-150")]
    public void Side_and_plan_lie_on_one_grid(string demo)
    {
        var sheet = new OutlineSheet(Lures.Demo(demo).Body);
        Assert.Equal(0, (sheet.Seam - sheet.Axis) % 10, 9);
        // The plan's upper edge stays clear of the belly, with room for the grams.
        LureDesign lure = Lures.Demo(demo);
        Assert.True(sheet.Plan(0, lure.Body.Plan.Points.Max(p => p.Value)).Y - sheet.Side(0, lure.Body.Belly.Points.Min(p => p.Value)).Y >= 13.9);
    }

    [Fact]
    public void A_lure_that_is_not_there_is_said_with_its_number_over_empty_water()
    {
        IRenderedComponent<LurePage> lost = page.Render<LurePage>(p => p.Add(l => l.Id, 999));
        Assert.Contains("999", lost.Find("h1").TextContent);
        Assert.Contains(store.Path, lost.Markup);
        Assert.Equal("/", lost.Find("main a").GetAttribute("href"));
        Assert.Single(lost.FindAll(".empty .wave"));
        Assert.Contains("no such page", page.Render<NotThere>().Find("h1").TextContent);
    }

    [Fact]
    public void A_lure_is_called_what_its_maker_types_and_never_nothing()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        string before = bench.Find(".says").TextContent;
        bench.Find("#called").Change("  Ebb 170 ");
        bench.WaitForAssertion(() => Assert.Equal("Ebb 170", Saved.Name));
        bench.WaitForAssertion(() => Assert.Equal("Ebb 170", bench.Find(".whose p").TextContent));
        Assert.Equal(before, bench.Find(".says").TextContent);
        bench.Find("#called").Change(" ");
        Assert.Contains("Type a name", bench.Find("#called-fault").TextContent);
        Assert.Equal(" ", bench.Find("#called").GetAttribute("value"));
        Assert.Equal("Ebb 170", Saved.Name);
        bench.Find("#called").Change("Ebb 170");
        Assert.Empty(bench.FindAll("#called-fault"));
    }

    [Fact]
    public async Task A_second_lure_from_one_starter_has_a_name_of_its_own()
    {
        IRenderedComponent<Home> home = page.Render<Home>();
        foreach (int wanted in new[] { 2, 3 })
        {
            await home.InvokeAsync(() => home.FindAll(".swims").Single(s => s.TextContent.Contains("a stickbait", StringComparison.Ordinal)).QuerySelector("button")!.Click());
            home.WaitForAssertion(() => Assert.Equal(wanted, store.Lures().Count));
        }
        Assert.Equal(["Tidegate 185", "Tidegate 185, 2", "Tidegate 185, 3"], store.Lures().Select(l => l.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_weight_that_would_come_out_of_the_wood_is_said_where_a_caliper_finds_it()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        await bench.InvokeAsync(() => bench.Instance.Touch("belly-3"));
        bench.Find("#point-value").Change("9");
        bench.WaitForAssertion(() => Assert.Matches(@"front lead rod.* comes out of the wood \d+(\.\d)? mm from the nose, \d+(\.\d)? mm below the axis", bench.Find(".changed").TextContent));
        Assert.Equal(1, store.Newest(id)!.N);
    }

    [Theory]
    [InlineData("5000", false, "5000\u00A0mm; allowed: 5\u00A0mm to 2000\u00A0mm. Type another number")]
    [InlineData("200", true, "200\u00A0in; allowed: 0.197\u00A0in to 78.74\u00A0in. Type another number")]
    public void A_number_out_of_its_range_is_said_in_the_units_it_was_typed_in(string typed, bool inches, string said)
    {
        IRenderedComponent<Chosen> all = page.Render<Chosen>(p => p.AddChildContent<Bench>(b => b
            .Add(x => x.Session, page.Services.GetRequiredService<LureSessions>().Of(id)!).Add(x => x.Place, "shape").Add(x => x.Switches, Switches.InTheSea)));
        all.FindAll(".units button")[inches ? 1 : 0].Click();
        all.Find("#length").Change(typed);
        all.WaitForAssertion(() => Assert.Contains(said, all.Find(".changed").TextContent));
        Assert.DoesNotContain("key", all.Find(".changed").TextContent);
        Assert.Equal((185, typed), (Saved.Body.LengthMm, all.Find("#length").GetAttribute("value")));
    }

    [Fact]
    public async Task A_photo_lies_behind_its_outline_where_two_marks_say_and_leaves_when_it_is_taken_away()
    {
        IRenderedComponent<Bench> bench = Open("shape");
        Assert.Empty(bench.FindAll(".behind image"));
        await Task.Run(() => store.AddPhoto(id, "side", SamplePhotos.Jpeg(), _ => new PhotoLaid(100, 300, 1500, 300, 185, 0, 0, true, 1).Text(), EditId.New()));
        bench.WaitForAssertion(() => Assert.Single(bench.FindAll(".behind image")));
        // 1400 of its points are 185 mm; the first mark lies on the nose.
        Assert.Equal((0.0, 185.0), Ends(bench));
        TraceOver trace = bench.FindComponent<TraceOver>().Instance;
        await bench.InvokeAsync(() => trace.Mark("side", false, 800, 300));
        bench.WaitForAssertion(() => Assert.Equal("800", bench.Find(".mark[data-mark=b]").GetAttribute("data-x")));
        await bench.InvokeAsync(() => bench.Find("[data-field='photo-length side']").Change("100"));
        bench.WaitForAssertion(() => Assert.Equal(100.0, Ends(bench, 100, 800).Item2 - Ends(bench, 100, 800).Item1, 3));
        await bench.InvokeAsync(() => bench.Find("[data-field='photo-length side']").Change("0"));
        Assert.Contains("more than 0", bench.Find(".trace .fault").TextContent);
        await bench.InvokeAsync(() => bench.FindAll(".trace button").First(b => b.TextContent.StartsWith("Take it away", StringComparison.Ordinal)).Click());
        bench.WaitForAssertion(() => Assert.Empty(bench.FindAll(".behind image")));
        await bench.InvokeAsync(() => bench.FindAll(".trace button").First(b => b.TextContent.StartsWith("Bring the last one back", StringComparison.Ordinal)).Click());
        bench.WaitForAssertion(() => Assert.Single(bench.FindAll(".behind image")));
        Assert.Equal(1, store.Newest(id)!.N);
    }

    [Fact]
    public async Task A_photo_from_the_side_lies_behind_the_side_and_one_from_above_behind_the_plan_only()
    {
        var sheet = new OutlineSheet(Saved.Body);
        Assert.InRange(sheet.Between, sheet.Axis - Saved.Body.Belly.Points.Min(p => p.Value), sheet.Seam - Saved.Body.Plan.Points.Max(p => p.Value));
        IRenderedComponent<Bench> bench = Open("shape");
        foreach (string view in new[] { "side", "plan" })
            await Task.Run(() => store.AddPhoto(id, view, SamplePhotos.Jpeg(), _ => new PhotoLaid(100, 300, 1500, 300, 185, 0, 0, true, 1).Text(), EditId.New()));
        bench.WaitForAssertion(() => Assert.Equal(2, bench.FindAll(".behind image").Count));
        // Told to the hundredth of a millimetre.
        Assert.Equal([(0.0, Math.Round(sheet.Between, 2)), (Math.Round(sheet.Between, 2), Math.Round(sheet.Height - sheet.Between, 2))], bench.FindAll(".behind svg").Select(s => (At(s, "y"), At(s, "height"))));

        static double At(AngleSharp.Dom.IElement element, string name) => double.Parse(element.GetAttribute(name)!, System.Globalization.CultureInfo.InvariantCulture);
    }

    // Where two points of the photo's middle line lie, from the nose.
    private (double, double) Ends(IRenderedComponent<Bench> bench, double a = 100, double b = 1500)
    {
        double[] m = [.. bench.Find(".behind image").GetAttribute("transform")!["matrix(".Length..^1].Split(' ').Select(n => double.Parse(n, System.Globalization.CultureInfo.InvariantCulture))];
        var sheet = new OutlineSheet(Saved.Body);
        return (Math.Round(sheet.Station(m[0] * a + m[2] * 300 + m[4]), 3), Math.Round(sheet.Station(m[0] * b + m[2] * 300 + m[4]), 3));
    }

    [Theory]
    [InlineData(Nose.Left)]
    [InlineData(Nose.Right)]
    public void A_photo_whose_nose_is_to_the_right_is_mirrored_for_a_sheet_whose_nose_is_to_the_left_and_one_that_lies_askew_is_turned(Nose nose)
    {
        var sheet = new OutlineSheet(Saved.Body, nose);
        // Nose right and 30 degrees down the photo: the belly stays below.
        var laid = new PhotoLaid(1500, 500, 1500 - 1000 * Math.Cos(Math.PI / 6), 500 - 1000 * 0.5, 185, 4, 2, Level: true, 1);
        var (a, b, c, d, e, f) = laid.On(sheet, "side");
        (double X, double Y) At(double u, double v) => (a * u + c * v + e, b * u + d * v + f);
        Assert.Equal((4, sheet.Axis - 2), (Math.Round(sheet.Station(At(laid.AX, laid.AY).X), 6), Math.Round(At(laid.AX, laid.AY).Y, 6)));
        Assert.Equal((189, sheet.Axis - 2), (Math.Round(sheet.Station(At(laid.BX, laid.BY).X), 6), Math.Round(At(laid.BX, laid.BY).Y, 6)));
        Assert.Equal(nose == Nose.Left, a * d - b * c < 0);
        Assert.True(At(laid.AX, laid.AY + 100).Y > At(laid.AX, laid.AY).Y, "upside down");
    }
}
