using Trimwright.App.Edits;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>Points moved under a hand are judged without a file, and as a file would be.</summary>
public class MovedLureTests
{
    [Fact]
    public void A_moved_point_is_judged_as_the_reader_judges_the_file_of_it()
    {
        int sound = 0, faulty = 0, warned = 0;
        for (int seed = 0, count = Tier.Count(quick: 12, ci: 60); seed < count; seed++)
        {
            LureDesign design = LureFile.Read(LureFile.Write(RandomLures.Of(seed).Design)).Value!;
            var moves = new MovedLure(design);
            var random = new Random(seed);
            for (int i = 0; i < 12; i++)
            {
                Line line = (Line)random.Next(3);
                int index = random.Next(Reshape.Of(design.Body, line).Points.Length);
                Core.Shape.OutlinePoint point = Reshape.Of(design.Body, line).Points[index];
                // A millimetre as a hand does, half the lure, and beyond what a file may say.
                double far = (i % 3) switch { 0 => 1, 1 => 60, _ => 3000 };
                LureDesign moved = Reshape.Move(design, line, index, point.X + far * (random.NextDouble() - 0.5), point.Value + far * (random.NextDouble() - 0.5));
                Reading<LureDesign> told = LureFile.Read(LureFile.Write(moved)), judged = moves.Read(moved);
                Assert.Equal(told.Faults, judged.Faults);
                Assert.Equal(told.Warnings, judged.Warnings);
                Assert.Equal(told.Value is { } a ? LureFile.Write(a) : null, judged.Value is { } b ? LureFile.Write(b) : null);
                if (judged.IsSound) sound++;
                else faulty++;
                if (!judged.Warnings.IsEmpty) warned++;
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{sound} sound, {faulty} not, {warned} with warnings");
        Assert.True(sound > 20 && faulty > 20, $"{sound} sound, {faulty} not: too few of either to mean anything");
    }

    [Fact]
    public void Notes_on_keys_that_are_unknown_stay_with_the_lure_that_is_moved()
    {
        string text = System.Text.Encoding.UTF8.GetString(LureFile.Write(Lures.Demo("tidegate-185"))).Replace("\"name\":", "\"colour\": \"green\", \"name\":", StringComparison.Ordinal);
        Reading<LureDesign> read = LureFile.Read(System.Text.Encoding.UTF8.GetBytes(text));
        Assert.Contains(read.Warnings, w => w.ToString().Contains("colour", StringComparison.Ordinal));
        LureDesign moved = Reshape.Move(read.Value!, Line.Back, 2, 60, 16);
        Assert.Equal(LureFile.Read(LureFile.Write(moved)).Warnings, new MovedLure(read.Value!).Read(moved).Warnings);
    }

    [Fact]
    public void Under_a_hand_no_file_is_written_and_another_change_goes_the_long_way()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        var moves = new MovedLure(design);
        LureDesign moved = Reshape.Move(design, Line.Back, 2, 60, 16);
        // What comes back is the very design that was moved; a file would have made another.
        Assert.Same(moved, moves.Read(moved).Value);
        LureDesign renamed = moved with { Name = "another" };
        Reading<LureDesign> read = moves.Read(renamed);
        Assert.NotSame(renamed, read.Value);
        Assert.Equal("another", read.Value!.Name);
    }
}
