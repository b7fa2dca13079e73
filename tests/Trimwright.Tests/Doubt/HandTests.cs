using System.Collections.Concurrent;
using System.Text;
using Json.Schema;
using System.Text.Json.Nodes;
using Trimwright.App.Commands;
using Trimwright.App.Faults;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Doubt;

/// <summary>A maker's own habits, learned from finished builds: simulated makers who carve fat and coat thick.</summary>
public class HandTests
{
    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    private static readonly string[] Lure = ["tidegate-185", "mooring-post-210", "slipway-150"];
    private static readonly BuildModel[] Models = [.. Lure.Select(n => new BuildModel(Lures.Demo(n)))];

    // Carves 0.25 mm fat, give or take 0.15; coats a fifth thicker, give or take a tenth.
    private const double Fat = 0.25 / 0.3, FatSpread = 0.15 / 0.3, Thick = 0.182 / 0.2, ThickSpread = 0.1 / 0.2;

    private static double[] Build(BuildModel model, int seed, bool usual = false)
    {
        double[] xi = Simulation.Truth(model, seed, 1);
        if (usual) return xi;
        xi[Unknowns.Mean] = Fat + FatSpread * xi[Unknowns.Mean];
        for (int c = 0; c < model.Design.Finish.Length; c++) xi[model.Unknowns.Coat(c)] = Thick + ThickSpread * xi[model.Unknowns.Coat(c)];
        return xi;
    }

    // The same builds are asked about again and again.
    private static readonly ConcurrentDictionary<(int Seed, bool Usual), Lazy<Taught>> All = new();

    private static Taught Finished(int seed, bool usual = false) => All.GetOrAdd((seed, usual), b => new Lazy<Taught>(() => Finish(b.Seed, b.Usual))).Value;

    private static Taught Finish(int seed, bool usual)
    {
        BuildModel model = Models[seed % 3];
        LureDesign design = model.Design;
        LogReading sealedUp = new() { Kind = ReadingKind.Weight, Stage = Stage.Sealed, Scale = "s", TemperatureC = 15, MassG = 0 };
        LogReading[] readings =
        [
            .. Simulation.Readings(design, 3), sealedUp, sealedUp with { Kind = ReadingKind.UnderWater, MassG = null, SinkerG = 300, WithLureG = 0 },
            sealedUp with { Kind = ReadingKind.Boards, Stage = Stage.Blank, SizeMm = [200, 45, 36], MassG = 0 },
        ];
        TubLog log = Simulation.Log(model, readings, Build(model, seed, usual), seed, 1);
        return new Taught($"{design.Name} {seed}", new DateOnly(2026, 1, 1).AddDays(10 * seed), Hand.Of(design, log));
    }

    private static Hand Learned(int from, int builds, bool usual = false) =>
        Enumerable.Range(from, builds).Aggregate(Hand.Unknown, (hand, seed) => hand.With(Finished(seed, usual)));

    [Fact]
    public void Before_any_build_it_is_the_usual_hand_and_one_build_barely_moves_it()
    {
        foreach (string habit in Hand.Habits) Assert.Equal(new Habit(0, 1, 0), Hand.Unknown[habit] with { Spread = Math.Round(Hand.Unknown[habit].Spread, 12) });
        Assert.Empty(Hand.Unknown.Priors.Habits);
        Hand one = Hand.Unknown.With(new Taught("one", new DateOnly(2026, 1, 1), [new Lesson("carving.mean", 1, 1e-6)]));
        Assert.InRange(one["carving.mean"].Mean, 0.2, 0.26);
        Assert.InRange(one["carving.mean"].Spread, 0.85, 1.05);
        // Told by nothing, it stays where it was.
        Hand vague = Hand.Unknown.With(new Taught("one", new DateOnly(2026, 1, 1), [new Lesson("carving.mean", 1, 100)]));
        Assert.InRange(vague["carving.mean"].Mean, 0, 0.02);
    }

    [Fact]
    public void Three_coats_weighed_together_are_not_charged_with_three_times_the_film()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        Coat coat = design.Finish[0];
        design = design with { Finish = [coat with { ThicknessMm = coat.ThicknessMm / 3, Name = "one" }, coat with { ThicknessMm = coat.ThicknessMm / 3, Name = "two" }, coat with { ThicknessMm = coat.ThicknessMm / 3, Name = "three" }] };
        var model = new BuildModel(design);
        Hand hand = Hand.Unknown;
        for (int i = 0; i < Tier.Count(4, 12); i++)
        {
            double[] xi = Simulation.Truth(model, 70 + i, 1);
            for (int c = 0; c < 3; c++) xi[model.Unknowns.Coat(c)] = Thick;
            LogReading sealedUp = new() { Kind = ReadingKind.Weight, Stage = Stage.Sealed, Scale = "s", TemperatureC = 15, MassG = 0 };
            TubLog log = Simulation.Log(model, [.. Simulation.Readings(design, 3), sealedUp], xi, 70 + i, 1);
            hand = hand.With(new Taught($"{i}", new DateOnly(2026, 1, 1), Hand.Of(design, log)));
        }
        Say($"three coats of {Thick:F2}: told {hand[Hand.Coats].Mean:F2} ± {hand[Hand.Coats].Spread:F2}");
        Assert.InRange(hand[Hand.Coats].Mean, 0.1, Thick + 0.15);
        Assert.All(hand.Builds, b => Assert.InRange(b.Lessons.Count(l => l.Habit == Hand.Coats), 0, 1));
        Assert.Contains(hand.Builds, b => b.Lessons.Any(l => l.Habit == Hand.Coats));
    }

    [Fact]
    public void Many_sharp_lessons_give_their_own_mean_and_spread()
    {
        var draws = new NormalDraws(5, 5);
        Hand hand = Hand.Unknown;
        double[] x = [.. Enumerable.Range(0, 400).Select(_ => 0.8 + 0.4 * draws.Normal())];
        foreach ((int i, double v) in x.Index()) hand = hand.With(new Taught($"{i:000}", new DateOnly(2026, 1, 1), [new Lesson("carving.mean", v, 1e-8)]));
        double mean = x.Average(), sd = Math.Sqrt(x.Average(v => (v - mean) * (v - mean)));
        Assert.Equal(mean, hand["carving.mean"].Mean, 0.02);
        Assert.Equal(sd, hand["carving.mean"].Spread, 0.03);
    }

    [Fact]
    public void Twelve_builds_of_a_maker_who_carves_fat_are_learned_and_the_next_prediction_narrows()
    {
        Hand hand = Learned(100, 12);
        Habit fat = hand["carving.mean"], coat = hand[Hand.Coats];
        Say($"fat {0.3 * fat.Mean:F2} ± {0.3 * fat.Spread:F2} mm of {fat.Builds} builds; coats {coat.Mean:F2} ± {coat.Spread:F2} usual deviations of {coat.Builds}");
        Assert.InRange(fat.Mean, Fat - 0.45, Fat + 0.3);
        Assert.InRange(fat.Spread, 0.3, 0.95);
        LureDesign design = Lures.Demo("tidegate-185");
        Forecast usual = Drawn(new BuildModel(design)), own = Drawn(new BuildModel(design, hand.Priors));
        double truth = Enumerable.Range(0, 40).Select(i => Simulation.Sea(Models[0], Build(Models[0], 900 + i)).Spare).Order().ElementAt(20);
        Say($"grams to spare: usual {usual.Spare.Median:F1} ± {usual.Spare.GiveOrTake:F2}, own {own.Spare.Median:F1} ± {own.Spare.GiveOrTake:F2}; middle of the maker's builds {truth:F1}");
        Assert.True(own.Spare.GiveOrTake < usual.Spare.GiveOrTake);
        Assert.True(Math.Abs(own.Spare.Median - truth) < Math.Abs(usual.Spare.Median - truth));
    }

    private static Forecast Drawn(BuildModel model) => Knowing.Of(model, new TubLog { Name = "" }, Circumstances.InTheSea, 1000).Before;

    [Fact]
    public void Ranges_of_the_next_build_hold_as_often_as_they_say_for_makers_of_either_kind()
    {
        int makers = Tier.Count(1, 12, 60);
        foreach (bool usual in new[] { false, true })
        {
            int held = 0, asked = 0;
            for (int m = 0; m < makers; m++)
            {
                Hand hand = Learned(1000 * (m + 1), Tier.Count(3, 8), usual);
                Forecast[] drawn = [.. Lure.Select(n => Drawn(new BuildModel(Lures.Demo(n), hand.Priors, Simulation.Mesh)))];
                for (int i = 0; i < 12; i++, asked++)
                {
                    Outcome sea = Simulation.Sea(Models[i % 3], Build(Models[i % 3], 1000 * (m + 1) + 500 + i, usual));
                    if (sea.Spare >= drawn[i % 3].Spare.Low95 && sea.Spare <= drawn[i % 3].Spare.High95) held++;
                }
            }
            Say($"{(usual ? "usual makers" : "fat carvers")}: 95 % ranges of the next build held {held} of {asked}");
            Assert.True(held >= 0.86 * asked - 1);
        }
    }

    [Fact]
    public void A_later_build_changes_nothing_of_what_was_known_before()
    {
        Hand hand = Learned(100, 4), more = hand.With(Finished(104)).With(Finished(105));
        DateOnly then = hand.Builds[^1].Finished.AddDays(1);
        byte[] before = HandFile.Write(hand.On(then) with { Version = 0 }), after = HandFile.Write(more.On(then) with { Version = 0 });
        Assert.Equal(before, after);
        foreach (string habit in Hand.Habits) Assert.Equal(hand.On(then)[habit], more.On(then)[habit]);
        Assert.NotEqual(hand["carving.mean"], more["carving.mean"]);
        // Nor does a lure teach of itself.
        Assert.DoesNotContain(more.On(null, but: more.Builds[0].Name).Builds, b => b.Name == more.Builds[0].Name);
    }

    [Fact]
    public void The_file_comes_back_as_it_was_and_agrees_with_its_schema()
    {
        JsonSchema schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Doubt", "hand.schema.json")));
        Hand hand = Learned(100, 2);
        byte[] file = HandFile.Write(hand);
        Assert.True(schema.Evaluate(System.Text.Json.JsonDocument.Parse(file).RootElement).IsValid);
        Assert.Equal(file, HandFile.Write(HandFile.Read(file).Value!));
        foreach ((string from, string to) in new[] { ("\"finished\": \"20", "\"finished\": \""), ("carving.mean", "humming"), ("\"variance\": ", "\"variance\": -"), ("\"name\"", "\"nome\"") })
        {
            Reading<Hand> read = HandFile.Read(Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(file).Replace(from, to)));
            Assert.Null(read.Value);
            Assert.NotEmpty(read.Faults[0].Next);
        }
    }

    [Fact]
    public void Learning_writes_versions_keeps_the_one_before_and_forgets_when_told()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-hand").FullName, file = Path.Combine(folder, "my.hand.json");
        try
        {
            LureDesign design = Lures.Demo("tidegate-185");
            TubLog log = Simulation.Log(Models[0], Simulation.Readings(design, 3), Build(Models[0], 3), 3, 1);
            File.WriteAllBytes(Path.Combine(folder, "a.lure.json"), LureFile.Write(design));
            File.WriteAllBytes(Path.Combine(folder, "a.log.json"), LogFile.Write(log with { Name = design.Name, Begun = "2026-03-01", Finished = "2026-04-02" }));
            File.WriteAllBytes(Path.Combine(folder, "b.lure.json"), LureFile.Write(design with { Name = "no day" }));
            File.WriteAllBytes(Path.Combine(folder, "b.log.json"), LogFile.Write(log));
            LearnCommand.Settings Settings(string? from, string? day = null, bool forget = false) => new() { Folder = from, Hand = file, Before = day, Forget = forget };
            Learned learned = LearnCommand.Learn(Settings(folder), default).Learned;
            Assert.Equal([design.Name], learned.New);
            Assert.Equal("no day", Assert.Single(learned.Untaught).Name);
            Assert.Equal(1, learned.Hand.Version);
            Assert.Empty(LearnCommand.Learn(Settings(null, "2026-04-01"), default).Learned.Told.Builds);
            (Learned forgotten, string? before, _) = LearnCommand.Learn(Settings(null, forget: true), default);
            Assert.Empty(forgotten.Hand.Builds);
            Assert.Equal(2, forgotten.Hand.Version);
            Assert.Single(HandFile.Read(File.ReadAllBytes(before!)).Value!.Builds);
            Assert.Equal(Exit.CommandLineWrong, Assert.Throws<Refusal>(() => LearnCommand.Learn(Settings(null, "tomorrow"), default)).Exit);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void The_demo_hand_is_what_the_demo_s_finished_builds_teach()
    {
        string folder = Path.Combine(Here.Root, "demo", "finished");
        Hand kept = HandFile.Read(File.ReadAllBytes(Path.Combine(folder, "harbour.hand.json"))).Value!, learned = LearnCommand.Learn(new() { Folder = folder }, default).Learned.Hand;
        Assert.Equal(kept.Builds.Select(b => b.Name), learned.Builds.Select(b => b.Name));
        foreach (string habit in Hand.Habits) Assert.Equal(kept[habit].Mean, learned[habit].Mean, 1e-3);
    }
}
