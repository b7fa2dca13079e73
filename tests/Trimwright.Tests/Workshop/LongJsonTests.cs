using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>An export is read through a window that slides over it: wherever the window ends, the same is read.</summary>
public class LongJsonTests
{
    private const string Sample = """
        {"a": [{"n": 1, "t": "one, ] } \" \\ ü 𝄞"}, [], {}, -12.5e3, true, null, "π", [[1,[2]],{"x":{"y":[3]}}]] , "b":{"c":{"d":[ 7 ]},
         "e":"aVeryLongTextThatIsWiderThanTheWindowItself_aVeryLongTextThatIsWiderThanTheWindowItself"},"f":17}
        """;

    [Fact]
    public void Wherever_the_window_ends_the_same_pieces_are_read()
    {
        using JsonDocument whole = JsonDocument.Parse(Sample);
        string[] items = [.. whole.RootElement.GetProperty("a").EnumerateArray().Select(i => i.GetRawText())];
        foreach (string before in (string[])["", "\uFEFF", " \n "])
            // Every size up to the whole file, and every place at which the file may begin in it.
            for (int size = 3; size <= Encoding.UTF8.GetByteCount(Sample) + 8; size++)
            {
                var json = new LongJson(new Trickle(Encoding.UTF8.GetBytes(before + Sample), 1 + size % 7), size);
                LongJson.Piece root = json.Whole();
                Assert.Equal(JsonTokenType.StartObject, root.Kind);
                Assert.Equal(["a", "b", "f"], root.Members.Keys.Order());
                Assert.Equal(items, json.Items(root.Members["a"]).Select(at => Encoding.UTF8.GetString(json.Raw(at))));
                // And without asking for any: they are walked over.
                Assert.Equal(items.Length, json.Items(root.Members["a"]).Count());
                LongJson.Piece b = json.Look(root.Members["b"]);
                Assert.Equal("""{"d":[ 7 ]}""", Encoding.UTF8.GetString(json.Raw(b.Members["c"])));
                Assert.Equal("\"aVeryLong…", json.Shown(b.Members["e"], 10));
                Assert.Equal("17", Encoding.UTF8.GetString(json.Raw(root.Members["f"])));
            }
    }

    [Fact]
    public void What_is_no_JSON_or_says_a_name_twice_is_found_in_its_line_whatever_the_window()
    {
        foreach ((string text, int line) in new[]
        {
            ("", 0), ("{", 0), ("{\"a\":1", 0), ("{\"a\":1}x", 0), ("{\n\"a\":[1,\n2,]}", 2), ("{\"a\":\n{\"b\":1,\n\"b\":2}}", 2), ("[{\"b\":1},{\"b\":1,\"c\":{\"b\":1}}", 0),
            (new string('[', 70) + new string(']', 70), 0), ("{\"a\":1,\n\"\\u0061\":2}", 1),
        })
            for (int size = 3; size < 40; size++)
                Assert.Equal(line, Assert.ThrowsAny<JsonException>(() => new LongJson(new MemoryStream(Encoding.UTF8.GetBytes(text)), size).Whole()).LineNumber);
        new LongJson(new MemoryStream("[{\"b\":1},{\"b\":1,\"c\":{\"b\":1}}]"u8.ToArray()), 3).Whole();
    }

    [Fact]
    public void An_export_is_taken_in_the_same_with_any_window_any_order_of_its_sections_and_a_stream_that_cannot_go_back()
    {
        using var temp = new TempStore();
        using Store from = temp.Open();
        for (int i = 1; i <= 3; i++)
        {
            long lure = ((Saved<LureDesign>.Done)from.NewLure(LoadDesign.Of($"lure-{i}-001"), $"lure-{i}-001", "new")).Revision.Owner;
            for (int n = 1; n < 4; n++) from.Save(lure, n, LoadDesign.Of($"lure-{i}-00{n + 1}"), $"lure-{i}-00{n + 1}", "more");
            Build build = from.NewBuild(lure, 2, "the first", $"build-{i}-01")!;
            LogEntry wrong = from.Log(build.Id, "weight", "1.5", $"entry-{i}-1")!;
            from.Log(build.Id, "weight", "[2]", $"entry-{i}-2", strikes: wrong.Id);
            from.AddPhoto(lure, "side", SamplePhotos.Jpeg(inside: new string('p', 3000)), _ => """{"k":1}""", $"photo-{i}-01");
        }
        string good = Export(from);
        for (int i = 0; i < Tier.Count(6, 40); i++)
        {
            int size = 16 + 977 * i % 20_000;
            AssertSame(good, to => to.Import(new LongJson(new Trickle(Encoding.UTF8.GetBytes(good), 1 + 311 * i), size)));
        }
        JsonObject turned = [];
        foreach ((string key, JsonNode? value) in JsonNode.Parse(good)!.AsObject().Reverse()) turned[key] = value!.DeepClone();
        // Inside a lure and a build too: what is long may stand before what is short.
        foreach (string list in (string[])["lures", "builds"])
            turned[list] = new JsonArray([.. turned[list]!.AsArray().Select(item => (JsonNode?)new JsonObject(item!.AsObject().Reverse().Select(m => KeyValuePair.Create(m.Key, m.Value?.DeepClone()))))]);
        AssertSame(good, to => to.Import(new MemoryStream(Encoding.UTF8.GetBytes(turned.ToJsonString()))));
        AssertSame(good, to => to.Import(new OneWay(Encoding.UTF8.GetBytes(good))));
    }

    [Fact]
    public void A_fault_in_the_last_record_undoes_all_before_it_also_behind_a_lure_that_went_another_way()
    {
        using var temp = new TempStore();
        using var second = new TempStore();
        using Store from = temp.Open(), to = second.Open();
        from.NewLure(LoadDesign.Of("lure-1-001"), "lure-1-001", "new");
        string first = Export(from);
        Assert.True(to.Import(new MemoryStream(Encoding.UTF8.GetBytes(first))).IsSound);
        from.Save(1, 1, LoadDesign.Of("lure-1-002"), "lure-1-002", "more");
        from.Save(1, 2, LoadDesign.Of("lure-1-003"), "lure-1-003", "more");
        from.NewLure(LoadDesign.Of("lure-2-001"), "lure-2-001", "new");
        to.Save(1, 1, LoadDesign.Of("mine-1-002"), "mine-1-002", "mine");
        string before = Export(to), good = Export(from);
        foreach (string edit in (string[])["lure-1-003", "lure-2-001"])
        {
            string bad = good.Replace($"\"edit_id\":\"{edit}\"", "\"edit_id\":\"no\"", StringComparison.Ordinal);
            Assert.NotEqual(good, bad);
            Assert.EndsWith(".edit_id", to.Import(new MemoryStream(Encoding.UTF8.GetBytes(bad))).Faults[0].Path);
            Assert.Equal(before, Export(to));
        }
        Imported done = to.Import(new MemoryStream(Encoding.UTF8.GetBytes(good))).Value!;
        Assert.Equal((1, 1), (done.Lures, done.Revisions));
        Assert.Equal(["lure-1-003"], done.Differing);
        Assert.Equal("mine-1-002", to.Newest(1)!.Name);
        Assert.Null(to.Check());
    }

    [Fact]
    public void A_lure_whose_later_edit_is_already_another_lures_here_leaves_nothing_of_itself()
    {
        using var temp = new TempStore();
        using var second = new TempStore();
        using Store from = temp.Open(), to = second.Open();
        from.NewLure(LoadDesign.Of("theirs-001"), "theirs-001", "new");
        from.Save(1, 1, LoadDesign.Of("theirs-002"), "theirs-002", "more");
        from.Save(1, 2, LoadDesign.Of("twice-0001"), "twice-0001", "more");
        from.NewBuild(1, 1, "theirs", "build-theirs");
        from.NewLure(LoadDesign.Of("theirs-b-1"), "theirs-b-1", "new");
        to.NewLure(LoadDesign.Of("twice-0001"), "twice-0001", "new");
        Imported done = to.Import(new MemoryStream(Encoding.UTF8.GetBytes(Export(from)))).Value!;
        Assert.Equal((1, 1, 0), (done.Lures, done.Revisions, done.Builds));
        Assert.Equal(["twice-0001"], done.Differing);
        Assert.Equal(["twice-0001", "theirs-b-1"], to.Lures(withPutAway: true).Select(l => l.Name));
        Assert.Null(to.Check());
    }

    [Fact]
    public void A_long_export_is_taken_in_with_little_memory()
    {
        using var temp = new TempStore();
        string design;
        using (Store store = temp.Open())
        {
            store.NewLure(LoadDesign.Of("lure-0001"), "lure-0001", "new");
            design = store.Newest(1)!.Text.TrimEnd('\n');
        }
        // Held whole, an export took five times its length: forty million bytes would be found out.
        long bytes = Tier.Count(40_000_000, 40_000_000, 100_000_000), most = 120_000_000;
        int revisions = 0, lures = 0;
        string file = temp.In("long.json"), empty = temp.In("empty.json");
        using (var text = new StreamWriter(file))
        {
            text.Write("{\"trimwright_store\":2,\"lures\":[");
            while (text.BaseStream.Position < bytes)
            {
                text.Write($"{(lures++ > 0 ? "," : "")}{{\"id\":{lures},\"revisions\":[");
                for (int n = 1; n <= 500; n++, revisions++)
                    text.Write(string.Create(CultureInfo.InvariantCulture, $"{(n > 1 ? "," : "")}{{\"n\":{n},\"edit_id\":\"edit-{revisions:D8}\",\"at\":\"2026-03-29T03:00:00.0000000+02:00\",\"cause\":\"more\",\"made_by\":\"0.1.0\",\"design\":{design}}}"));
                text.Write("]}");
            }
            text.Write("]}");
        }
        File.WriteAllText(empty, "{\"trimwright_store\":2}");
        long[] Import(string what, string into)
        {
            using var child = new Writer("import", temp.In(into), what);
            return [.. child.End().Single().Split(' ').Select(n => long.Parse(n, CultureInfo.InvariantCulture))];
        }
        long[] nothing = Import(empty, "a.trimwright"), all = Import(file, "b.trimwright");
        TestContext.Current.TestOutputHelper?.WriteLine($"{new FileInfo(file).Length / 1e6:F0} MB of {revisions} revisions: peak {all[2] / 1e6:F0} MB, of nothing {nothing[2] / 1e6:F0} MB");
        Assert.Equal([lures, revisions], all[..2]);
        Assert.True(all[2] - nothing[2] < most, $"{(all[2] - nothing[2]) / 1e6:F0} MB more than for nothing");
    }

    private static void AssertSame(string good, Func<Store, Reading<Imported>> import)
    {
        using var fresh = new TempStore();
        using Store to = fresh.Open();
        Reading<Imported> reading = import(to);
        Assert.True(reading.IsSound, reading.IsSound ? "" : reading.Faults[0].ToString());
        Assert.Equal(good, Export(to));
    }

    private static string Export(Store store)
    {
        using var text = new MemoryStream();
        store.Export(text);
        JsonObject json = JsonNode.Parse(text.ToArray())!.AsObject();
        json.Remove("exported");
        return json.ToJsonString();
    }

    // As a slow disk gives it: a few bytes at a time.
    private sealed class Trickle(byte[] bytes, int most) : MemoryStream(bytes)
    {
        public override int Read(byte[] buffer, int offset, int count) => base.Read(buffer, offset, Math.Min(count, most));
    }

    private sealed class OneWay(byte[] bytes) : MemoryStream(bytes)
    {
        public override bool CanSeek => false;
    }
}
