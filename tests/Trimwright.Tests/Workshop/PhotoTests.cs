using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Photos in the store: judged by their structure, kept with their places, never removed, and carried by an export.</summary>
public class PhotoTests
{
    private const string Place = """{"k":1}""";

    private static (TempStore Temp, Store Store, long Lure) Open()
    {
        var temp = new TempStore();
        Store store = temp.Open();
        return (temp, store, ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "begun")).Revision.Owner);
    }

    [Fact]
    public void What_is_no_photo_is_refused_in_words_and_leaves_nothing()
    {
        (TempStore temp, Store store, long lure) = Open();
        using (temp)
        using (store)
        {
            foreach ((string what, byte[] file, string why) in SamplePhotos.Hostile())
            {
                Reading<Photo> reading = store.AddPhoto(lure, "side", file, _ => Place, EditId.New());
                Assert.True(reading.Value is null, $"{what}: taken in");
                Assert.Contains(why, reading.Faults[0].Got);
                Assert.NotEqual("", reading.Faults[0].Allowed);
            }
            // Every prefix of a sound one is none, and one byte changed in its structure ends in words or in a photo, never in an exception.
            byte[] jpeg = SamplePhotos.Jpeg(), png = SamplePhotos.Png();
            for (int n = 0; n < jpeg.Length; n++) Assert.NotNull(PhotoHeader.Of(jpeg.AsSpan(0, n)).Fault);
            for (int n = 0; n < png.Length; n++) Assert.NotNull(PhotoHeader.Of(png.AsSpan(0, n)).Fault);
            var random = new Random(11);
            for (int i = 0; i < Tier.Count(2000, 20_000); i++)
            {
                byte[] torn = i % 2 == 0 ? [.. jpeg] : [.. png];
                torn[random.Next(torn.Length)] = (byte)random.Next(256);
                (PhotoHeader? header, Fault? fault) = PhotoHeader.Of(torn);
                Assert.True(header is null != fault is null);
            }
            Assert.Contains("number 99", store.AddPhoto(99, "side", SamplePhotos.Jpeg(), _ => Place, EditId.New()).Faults[0].Got);
            Assert.Empty(store.PhotosOf(lure));
        }
    }

    [Fact]
    public void A_photo_is_kept_laid_covered_taken_away_and_brought_back()
    {
        (TempStore temp, Store store, long lure) = Open();
        using (temp)
        {
            using (store)
            {
                var told = new List<StoreChange>();
                using IDisposable watch = store.Watch(told.Add);
                Photo first = store.AddPhoto(lure, "side", SamplePhotos.Jpeg(), _ => Place, "photo-0001").Value!;
                Assert.Equal(first, store.AddPhoto(lure, "side", SamplePhotos.Jpeg(), _ => Place, "photo-0001").Value);
                Photo plan = store.AddPhoto(lure, "plan", SamplePhotos.Png(), _ => Place, "photo-0002").Value!;
                Assert.Equal([("side", "jpeg", 1600, 600), ("plan", "png", 1600, 600)], store.PhotosOf(lure).Select(p => (p.View, p.Type, p.Width, p.Height)));
                Photo second = store.AddPhoto(lure, "side", SamplePhotos.Jpeg(inside: "another"), _ => Place, "photo-0003").Value!;
                Assert.Equal([second.Id, plan.Id], store.PhotosOf(lure).Select(p => p.Id));
                Assert.True(store.LayPhoto(second.Id, """{"k":2}""", away: false));
                Assert.Equal("""{"k":2}""", Last(store, lure, "side").Place);
                Assert.True(store.LayPhoto(second.Id, """{"k":2}""", away: true));
                Assert.True(Last(store, lure, "side").IsAway);
                Assert.True(store.LayPhoto(second.Id, """{"k":2}""", away: false));
                Assert.False(store.LayPhoto(99, Place, away: false));
                Assert.Null(store.PhotoFile(99));
                Patience.Until(() => told.Count(c => c.Of == ChangeOf.Photo && c.Owner == lure) == 6, $"{told.Count} changes told");
            }
            using Store again = temp.Open();
            Assert.Equal(2, again.PhotosOf(lure).Count);
            Assert.Equal(SamplePhotos.Jpeg(inside: "another"), again.PhotoFile(3)!.Value.Bytes);
            Assert.Null(again.Check());
        }
    }

    [Fact]
    public void An_export_carries_photos_and_one_from_before_them_is_still_read()
    {
        (TempStore temp, Store store, long lure) = Open();
        using var fresh = new TempStore();
        using (temp)
        using (store)
        using (Store to = fresh.Open())
        {
            store.AddPhoto(lure, "side", SamplePhotos.Jpeg(), _ => Place, "photo-0001");
            store.LayPhoto(store.AddPhoto(lure, "plan", SamplePhotos.Png(), _ => Place, "photo-0002").Value!.Id, """{"k":7}""", away: true);
            using var text = new MemoryStream();
            store.Export(text);
            string json = Encoding.UTF8.GetString(text.ToArray());
            Assert.Equal((2, 0), (Import(to, json).Value!.Photos, Import(to, json).Value!.Photos));
            Assert.Equal(store.PhotosOf(lure), to.PhotosOf(lure));
            Assert.Equal(("""{"k":7}""", true), (Last(to, lure, "plan").Place, Last(to, lure, "plan").IsAway));
            Assert.Equal(store.PhotoFile(1)!.Value.Bytes, to.PhotoFile(1)!.Value.Bytes);

            using var other = new TempStore();
            using Store third = other.Open();
            JsonObject old = JsonNode.Parse(json)!.AsObject();
            old["trimwright_store"] = 1;
            old.Remove("photos");
            Assert.True(Import(third, old.ToJsonString()).IsSound);
            foreach ((string key, JsonNode put, string at) in new (string, JsonNode, string)[]
                { ("bytes", "bm8gcGhvdG8=", "photos[0].bytes"), ("bytes", "?", "photos[0].bytes"), ("view", "above", "photos[0].view"), ("lure", 9, "photos"), ("place", 3, "photos[0].place") })
            {
                JsonObject bad = JsonNode.Parse(json)!.AsObject();
                bad["photos"]![0]![key] = put;
                Reading<Imported> reading = Import(third, bad.ToJsonString());
                Assert.False(reading.IsSound, key);
                Assert.StartsWith(at, reading.Faults[0].Path);
            }
        }
    }

    private static Photo Last(Store store, long lure, string view) => store.PhotosOf(lure).Single(p => p.View == view);

    private static Reading<Imported> Import(Store store, string json) => store.Import(new MemoryStream(Encoding.UTF8.GetBytes(json)));

    [Fact]
    public void A_bit_that_flips_in_a_photo_or_its_place_is_found()
    {
        foreach ((string text, string table) in new[] { ("some stubborn picture", "photo"), ("stubborn place", "photo_place") })
        {
            (TempStore temp, Store store, long lure) = Open();
            using (temp)
            {
                using (store) store.AddPhoto(lure, "side", SamplePhotos.Jpeg(inside: "some stubborn picture"), _ => """{"at":"a stubborn place"}""", "photo-0001");
                byte[] file = File.ReadAllBytes(temp.Path);
                int at = file.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text));
                Assert.True(at > 0);
                file[at + 2] ^= 1;
                File.WriteAllBytes(temp.Path, file);
                using Store again = temp.Open();
                Assert.Contains($"of {table} that is not as it was written", again.Check()!.Got);
                if (table == "photo") Assert.Throws<StoreRefusal>(() => again.PhotoFile(1));
                else Assert.Throws<StoreRefusal>(() => again.PhotosOf(lure));
            }
        }
    }
}
