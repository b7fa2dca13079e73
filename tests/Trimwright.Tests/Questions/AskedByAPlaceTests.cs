using System.Text.RegularExpressions;
using Trimwright.App.Questions;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;
using Trimwright.Drawing.Sheets;

namespace Trimwright.Tests.Questions;

/// <summary>What a place of the page asks: records in, a closed answer out, through the scheduler; no file, option or exit status.</summary>
public partial class AskedByAPlaceTests
{
    private static readonly LureDesign Lure = Lures.Demo("tidegate-185");
    private static readonly TubLog Log = LogFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo/tidegate-185.log.json"))).Value!;
    private static readonly MakersBox Box = BoxFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo/kitchen.box.json"))).Value!;
    private static readonly TubLog Nothing = new() { Name = "" };
    private static readonly SheetOptions A4 = new(PaperSize.A4, Notation.Metric);

    private static readonly FinishedBuild Ebb = new(
        LureFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo/finished/ebb.lure.json"))).Value!, LogFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo/finished/ebb.log.json"))).Value!);

    private static WhichWeights Weights => new(Lure, Box, WantWords.Parse("sinks slowly, level").Want!);

    private static WhatIsKnown Known => new(Lure, Log, Hand.Unknown, Circumstances.InTheSea);

    private static TubLog Unknown => Nothing with { Readings = [new LogReading { Kind = ReadingKind.Part, Part = "no such thing", MassG = 5 }] };

    [Fact]
    public async Task A_place_asks_through_the_scheduler_and_gets_what_it_draws()
    {
        var scheduler = new Scheduler();
        var place = new Owner();
        Task<T> Ask<T>(IQuestion<T> question) => scheduler.Ask(question, Priority.Plan, place);
        Assert.Equal(Lure, (await Ask(new HowItSits(Lure, Circumstances.InTheSea))).Design);
        Reply<PlanMade> plan = await Ask(Weights with { TrimHoleOf = 1 });
        Assert.NotEmpty(plan.Match(made => made.Answer.Plans, _ => [], _ => []));
        BuildPlan build = Found(await Ask(new HowToBuild(Lure, Box, new BuildConditions { Start = new(2026, 11, 28, 18, 0, 0, TimeSpan.Zero) })));
        Assert.StartsWith("BEGIN:VCALENDAR", Found(await Ask(new BuildPlanAsCalendar(build, Notation.Metric))), StringComparison.Ordinal);
        Assert.NotNull(Found(await Ask(new WhatHolds(Lure, 8))).Strength.Weakest);
        Assert.True((await Ask(new IsItSound(LureFile.Write(Lure), Notation.Metric))).IsSound);
        Learned learned = Found(await Ask(new WhatBuildsTeach(Hand.Unknown, [new FinishedBuild(Lure, null)])));
        Assert.Equal("it has no log", Assert.Single(learned.Untaught).Why);
        Assert.Equal(6, scheduler.Operations.Last.Count(o => o.Ending == Ending.Done && o.Name is not nameof(HowItSits)));
    }

    [Fact]
    public async Task Sheets_come_as_pieces_with_names_and_bytes()
    {
        Outside.NeedType();
        SheetsAnswer sheets = Found(await new Scheduler().Ask(new SheetsFor(Lure, A4, [SheetSet.FirstEvening], "tidegate"), Priority.Plan, new Owner()));
        Assert.Equal("tidegate.pdf", sheets.Pieces[0].Name);
        Assert.All(sheets.Pieces, p => Assert.NotEmpty(p.Bytes));
        Assert.Contains(sheets.Pieces, p => p.Name.StartsWith("svg/tidegate-", StringComparison.Ordinal));
    }

    public static TheoryData<string, string> Wrong => new()
    {
        { "pockets", nameof(WhichWeights.Pockets) }, { "wall", nameof(WhichWeights.WallMm) }, { "keep", nameof(WhichWeights.Keep) }, { "plan's log", nameof(WhichWeights.Log) },
        { "plan", nameof(WhichWeights.TrimHoleOf) }, { "drag", nameof(WhatHolds.DragKgf) }, { "readings", nameof(WhatIsKnown.Log) }, { "next", nameof(WhatIsKnown.Log) },
        { "copy", nameof(WhatIsUnseen.Log) }, { "builds", nameof(WhatBuildsTeach.Builds) }, { "sheets", nameof(SheetsFor.Only) }, { "measured", nameof(SheetOptions.Measured100) },
        { "trial", nameof(SheetOptions.Trial) }, { "cold", nameof(BuildConditions.TemperatureC) }, { "damp", nameof(BuildConditions.Humidity) }, { "calendar", nameof(BuildPlanAsCalendar.Plan) },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void What_is_wrong_is_said_of_the_part_of_the_question_and_in_no_command_s_words(string what, string part)
    {
        Flaw flaw = what switch
        {
            "pockets" => FlawOf((Weights with { Pockets = 9 }).Answer(Pace.Free)),
            "wall" => FlawOf((Weights with { WallMm = double.NaN }).Answer(Pace.Free)),
            "keep" => FlawOf((Weights with { Keep = ["no such weight"] }).Answer(Pace.Free)),
            "plan's log" => FlawOf((Weights with { Log = Unknown }).Answer(Pace.Free)),
            "plan" => FlawOf((Weights with { TrimHoleOf = 99 }).Answer(Pace.Free)),
            "drag" => FlawOf(new WhatHolds(Lure, 500).Answer(Pace.Free)),
            "readings" => FlawOf((Known with { Log = Unknown }).Answer(Pace.Free)),
            "next" => FlawOf(new WhatToMeasureNext(Known with { Log = Unknown }, null, null).Answer(Pace.Free)),
            "copy" => FlawOf(new WhatIsUnseen(Lure, Nothing, Circumstances.InTheSea, null).Answer(Pace.Free)),
            "builds" => FlawOf(new WhatBuildsTeach(Hand.Unknown, [new FinishedBuild(Lure, Unknown)]).Answer(Pace.Free)),
            "sheets" => FlawOf(new SheetsFor(Lure, A4, ["no such sheet"], "x").Answer(Pace.Free)),
            "measured" => FlawOf(new SheetsFor(Lure, A4 with { Measured100 = 80 }, [], "x").Answer(Pace.Free)),
            "trial" => FlawOf(new SheetsFor(Lure, A4 with { Trial = (5, 4) }, [], "x").Answer(Pace.Free)),
            "cold" => FlawOf(new HowToBuild(Lure, null, new BuildConditions { TemperatureC = -3 }).Answer(Pace.Free)),
            "damp" => FlawOf(new HowToBuild(Lure, null, new BuildConditions { Humidity = 1.2 }).Answer(Pace.Free)),
            _ => FlawOf(new BuildPlanAsCalendar(BuildPlan.Of(Lure, null, new BuildConditions()), Notation.Metric).Answer(Pace.Free)),
        };
        Assert.Equal(part, flaw.Part);
        Assert.All((string[])[flaw.Fault.Got, flaw.Fault.Allowed, flaw.Fault.Next], said =>
        {
            Assert.NotEmpty(said);
            Assert.DoesNotMatch(OfTheCommandLine(), said);
        });
    }

    [Fact]
    public void What_cannot_be_says_what_stands_in_the_way_and_keeps_what_was_worked_out()
    {
        Reply<PlanMade>.Cannot noPlan = Assert.IsType<Reply<PlanMade>.Cannot>((Weights with { Want = WantWords.Parse("floats level, 40 g to spare").Want! }).Answer(Pace.Free));
        Assert.NotNull(noPlan.Sought!.Answer.WhyNot);
        Reply<StrengthAnswer>.Cannot noWire = Assert.IsType<Reply<StrengthAnswer>.Cannot>(new WhatHolds(Lure with { Wire = null, Hardware = [] }, null).Answer(Pace.Free));
        Assert.Equal("wire", noWire.Because.Path);
        Assert.Null(noWire.Sought);
    }

    [Theory]
    [InlineData("weights")]
    [InlineData("known")]
    [InlineData("next")]
    [InlineData("unseen")]
    [InlineData("swaps")]
    [InlineData("builds")]
    public void What_takes_long_ends_between_two_steps(string what)
    {
        using var stop = new CancellationTokenSource();
        int steps = 0;
        var pace = new Pace(stop.Token, cores: 1, turn: () =>
        {
            if (++steps == 30) stop.Cancel();
        });
        Assert.ThrowsAny<OperationCanceledException>(() =>
        {
            object? unused = what switch
            {
                "weights" => Weights.Answer(pace),
                "known" => Known.Answer(pace),
                "next" => new WhatToMeasureNext(Known, null, Box).Answer(pace),
                "unseen" => new WhatIsUnseen(Lure, Log, Circumstances.InTheSea, Box).Answer(pace),
                "swaps" => new WhatSwapsDo(Lure, Box, WaterState.Ocean, Everything: true).Answer(pace),
                _ => new WhatBuildsTeach(Hand.Unknown, [Ebb]).Answer(pace),
            };
        });
        Assert.InRange(steps, 30, 40);
    }

    private static T Found<T>(Reply<T> reply)
        where T : class => reply.Match(value => value, cannot => throw new InvalidOperationException(cannot.Because.ToString()), wrong => throw new InvalidOperationException(wrong.Flaw.Fault.ToString()));

    private static Flaw FlawOf<T>(Reply<T> reply)
        where T : class => Assert.IsType<Reply<T>.Wrong>(reply).Flaw;

    [GeneratedRegex(@"--\w|\.json|\btrimwright\b|\bexit\b")]
    private static partial Regex OfTheCommandLine();
}
