using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Box;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.Box;

/// <summary>A box read, written and read again is the same box, digit for digit.</summary>
public class BoxRoundTripTests
{
    private static MakersBox ThereAndBack(MakersBox box)
    {
        byte[] once = BoxFile.Write(box);
        MakersBox again = SampleBoxes.Sound(once);
        Assert.Null(SampleBoxes.Difference(box, again));
        Assert.Equal(once, BoxFile.Write(again));
        return again;
    }

    [Fact]
    public void The_box_of_every_key_the_demo_box_and_the_starter_come_back_the_same()
    {
        ThereAndBack(SampleBoxes.Sound(Examiner.Bytes(SampleBoxes.Everything().ToJsonString())));
        ThereAndBack(SampleBoxes.Sound(SampleBoxes.DemoFile));
        ThereAndBack(Catalogue.Starter);
    }

    [Fact]
    public void What_is_written_holds_every_key_that_was_read_with_its_very_value()
    {
        JsonObject whole = SampleBoxes.Everything();
        JsonNode written = JsonNode.Parse(BoxFile.Write(SampleBoxes.Read(whole).Value!))!;
        int compared = 0;
        foreach (JsonValue value in SampleDesigns.Nodes(whole).OfType<JsonValue>())
        {
            Assert.Equal(value.ToJsonString(), SampleBoxes.At(written, value.GetPath()[2..]).ToJsonString());
            compared++;
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{compared} values");
        Assert.True(compared > 150);
    }

    [Fact]
    public void Every_digit_of_any_number_survives()
    {
        var random = new Random(11);
        for (int i = 0; i < Tier.Count(quick: 100, ci: 2000); i++)
        {
            JsonObject whole = SampleBoxes.Everything();
            double mass = 1 + 30 * random.NextDouble(), price = random.NextDouble() * Math.Pow(10, random.Next(-12, 5)), ratio = 0.01 + random.NextDouble();
            (whole["hooks"]![0]!["mass_g"], whole["hooks"]![0]!["price"]) = (mass, price);
            SampleBoxes.Put(SampleBoxes.At(whole, "finishes[0].ratio_by_volume[1]"), ratio);
            MakersBox again = ThereAndBack(SampleBoxes.Read(whole).Value!);
            Assert.Equal((mass, price, ratio), (again.Hooks[0].MassG, again.Hooks[0].Price, again.Finishes[0].RatioByVolume!.Value[1]));
        }
    }

    [Fact]
    public void Every_number_that_is_nudged_changes_the_box_that_is_read()
    {
        // A key that the reader asks for and then forgets would pass every other round trip.
        MakersBox whole = SampleBoxes.Read(SampleBoxes.Everything()).Value!;
        int changed = 0;
        foreach (string path in SampleDesigns.Numbers(SampleBoxes.Everything()).Select(n => n.GetPath()[2..]).Where(p => p != "trimwright_box").ToList())
        {
            JsonObject box = SampleBoxes.Everything();
            JsonNode number = SampleBoxes.At(box, path);
            double value = number.GetValue<double>();
            SampleBoxes.Put(number, path.EndsWith(".count", StringComparison.Ordinal) ? value + 1 : value * 1.001);
            MakersBox read = SampleBoxes.Sound(Examiner.Bytes(box.ToJsonString()));
            Assert.True(SampleBoxes.Difference(whole, read) is not null, $"{path} has no effect");
            changed++;
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{changed} numbers nudged");
        Assert.True(changed > 90);
    }

    [Fact]
    public void Unknown_keys_are_kept_in_every_object_and_reported_with_the_nearest_known_one()
    {
        JsonObject box = SampleBoxes.Everything();
        JsonObject[] objects = [.. SampleDesigns.Nodes(box).OfType<JsonObject>()];
        foreach (JsonObject o in objects) (o["x-note"], o["namee"]) = ("mine", 1.50);
        byte[] file = Examiner.Bytes(box.ToJsonString());
        var reading = BoxFile.Read(file);
        string written = Encoding.UTF8.GetString(BoxFile.Write(reading.Value!));
        Assert.Equal(objects.Length, written.Split("\"x-note\"").Length - 1);
        Assert.Equal(objects.Length, written.Split("\"namee\"").Length - 1);
        Assert.Equal(objects.Length, reading.Warnings.Length);
        Assert.All(reading.Warnings, w => Assert.Contains("did you mean \"name\"?", w.Text));
        Assert.Contains(reading.Warnings, w => w.Path == "woods[0].boards[1].namee");
    }
}
