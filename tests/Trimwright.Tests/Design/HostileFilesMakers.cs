using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>A class of hostile files.</summary>
/// <param name="Name">What is wrong with them.</param>
/// <param name="Make">Makes one.</param>
/// <param name="Kind">The fault that each of them must be refused with; empty: must be read; null: either.</param>
internal sealed record HostileClass(string Name, Func<Random, byte[]> Make, string? Kind = null);

/// <summary>Makes files that a maker's slip, another program or an attacker might hand in. Everything is seeded.</summary>
internal static class HostileFilesMakers
{
    public static readonly IReadOnlyList<HostileClass> All =
    [
        new("truncated", Truncated, "syntax"),
        new("wrong types", r => Replaced(r, r.Next(1, 4), WrongType)),
        new("not a number", r => Raw(r, One(r, "NaN", "Infinity", "-Infinity", "nan", "1.#INF", "0x10", ".5", "01", "+1")), "syntax"),
        new("overflow", r => Raw(r, One(r, "1e999", "-1e999", "1e309", "-2E+308", "9" + new string('9', 320))), "not-finite"),
        new("huge", r => Numbers(r, n => (n < 0 ? -1 : 1) * Math.Pow(10, 3 + 300 * r.NextDouble() * r.NextDouble()))),
        new("negative", r => Numbers(r, n => n == 0 ? -1 : -n * (0.2 + 2 * r.NextDouble()))),
        new("zero", r => Numbers(r, _ => 0)),
        new("tiny", r => Numbers(r, n => n * Math.Pow(10, -20 * r.NextDouble() - 1))),
        new("scaled", r => Numbers(r, n => n * Math.Pow(10, 2.4 * r.NextDouble() - 1.2))),
        new("crossing outlines", Crossing),
        new("back below belly", BackBelow),
        new("x not rising", XNotRising),
        new("duplicate keys", DuplicateKey, "duplicate-key"),
        new("unknown keys", UnknownKey),
        new("missing keys", MissingKey),
        new("deep nesting", Deep, "too-deep"),
        new("over 5 MB", TooLarge, "too-large"),
        new("nearly 5 MB", NearlyTooLarge),
        new("lone surrogates", LoneSurrogate, "encoding"),
        new("byte-order mark", r => [0xEF, 0xBB, 0xBF, .. Text(Base(r))], ""),
        new("byte-order mark misplaced", MarkMisplaced, "syntax"),
        new("other encodings", OtherEncoding, "encoding"),
        new("newer version", NewerVersion, "newer-version"),
        new("pieces outside the body", PieceOutside, "geometry"),
        new("hardware on no hanger", HardwareOnNothing, "reference"),
        new("flipped bytes", FlippedBytes),
        new("shuffled tokens", ShuffledTokens),
        new("nearly JSON", NearlyJson, "syntax"),
        new("long lists and texts", LongLists),
    ];

    private static string One(Random r, params string[] words) => words[r.Next(words.Length)];

    private static JsonNode Pick(Random r, IEnumerable<JsonNode> nodes)
    {
        JsonNode[] all = [.. nodes];
        return all[r.Next(all.Length)];
    }

    public static JsonObject Base(Random r) => r.Next(3) switch
    {
        0 => SampleDesigns.Everything(),
        1 => JsonNode.Parse(File.ReadAllText(Path.Combine(Here.Root, "demo",
            One(r, "tidegate-185", "mooring-post-210", "slipway-150") + ".lure.json")))!.AsObject(),
        _ => SampleDesigns.Plausible(r),
    };

    private static double Number(JsonNode node) => double.Parse(node.ToJsonString(), CultureInfo.InvariantCulture);

    private static byte[] Text(JsonNode node) => Encoding.UTF8.GetBytes(node.ToJsonString());

    private static byte[] Truncated(Random r)
    {
        byte[] whole = Text(Base(r));
        return whole[..r.Next(whole.Length)];
    }

    private static byte[] Replaced(Random r, int times, Func<Random, JsonNode?> by)
    {
        JsonObject design = Base(r);
        for (int i = 0; i < times; i++) Put(Pick(r, SampleDesigns.Nodes(design).Skip(1)), by(r));
        return Text(design);
    }

    private static void Put(JsonNode old, JsonNode? by)
    {
        if (old.Parent is JsonObject o) o[old.GetPropertyName()] = by;
        else if (old.Parent is JsonArray a) a[old.GetElementIndex()] = by;
    }

    private static JsonNode? WrongType(Random r) => r.Next(9) switch
    {
        0 => null,
        1 => JsonValue.Create(true),
        2 => JsonValue.Create("a text"),
        3 => new JsonArray(),
        4 => new JsonObject(),
        5 => new JsonArray(1, "two", null, new JsonObject()),
        6 => new JsonObject { ["points_mm"] = "none" },
        7 => JsonValue.Create("12"),
        _ => JsonValue.Create(3.5),
    };

    private static byte[] Raw(Random r, string token)
    {
        JsonObject design = Base(r);
        Put(Pick(r, SampleDesigns.Numbers(design)), "@raw@");
        return Encoding.UTF8.GetBytes(design.ToJsonString().Replace("\"@raw@\"", token, StringComparison.Ordinal));
    }

    private static byte[] Numbers(Random r, Func<double, double> change)
    {
        JsonObject design = Base(r);
        for (int i = r.Next(1, 5); i > 0; i--)
        {
            JsonNode number = Pick(r, SampleDesigns.Numbers(design));
            Put(number, change(Number(number)));
        }
        return Text(design);
    }

    private static JsonArray Points(JsonObject design, string outline) => design["body"]![outline]!["points_mm"]!.AsArray();

    private static byte[] Crossing(Random r)
    {
        JsonObject design = Base(r);
        JsonArray points = Points(design, One(r, "back", "belly", "plan"));
        for (int i = r.Next(1, 3); i > 0; i--)
        {
            JsonArray point = points[r.Next(points.Count)]!.AsArray();
            point[1] = -3 * r.NextDouble() * Number(point[1]!) + r.Next(-3, 4);
        }
        return Text(design);
    }

    private static byte[] BackBelow(Random r)
    {
        JsonObject design = Base(r);
        JsonNode back = design["body"]!["back"]!.DeepClone(), belly = design["body"]!["belly"]!.DeepClone();
        if (r.Next(2) == 0) (back, belly) = (belly, back);
        else foreach (JsonNode? point in back["points_mm"]!.AsArray()) point![1] = Number(point[1]!) - 60 * r.NextDouble();
        (design["body"]!["back"], design["body"]!["belly"]) = (back, belly);
        return Text(design);
    }

    private static byte[] XNotRising(Random r)
    {
        JsonObject design = Base(r);
        JsonArray points = Points(design, One(r, "back", "belly", "plan"));
        int i = r.Next(1, points.Count);
        double before = Number(points[i - 1]![0]!);
        points[i]![0] = r.Next(4) switch { 0 => before, 1 => before - 5 * r.NextDouble(), 2 => before + 1e-9, _ => before + 1.01e-3 };
        return Text(design);
    }

    private static byte[] DuplicateKey(Random r)
    {
        JsonObject design = Base(r);
        JsonObject[] objects = [.. SampleDesigns.Nodes(design).OfType<JsonObject>().Where(o => o.Count > 0)];
        JsonObject o = objects[r.Next(objects.Length)];
        string key = o.ElementAt(r.Next(o.Count)).Key;
        // A key may be spelled with escapes: it is the same key all the same.
        string again = r.Next(2) == 0 ? key : string.Concat(key.Select(c => string.Create(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}")));
        o["@again@"] = r.Next(2) == 0 ? 1 : o[key]?.DeepClone();
        return Encoding.UTF8.GetBytes(design.ToJsonString().Replace("\"@again@\"", $"\"{again}\"", StringComparison.Ordinal));
    }

    private static byte[] UnknownKey(Random r)
    {
        JsonObject design = Base(r);
        JsonObject[] objects = [.. SampleDesigns.Nodes(design).OfType<JsonObject>().Where(o => o.Count > 0)];
        JsonObject o = objects[r.Next(objects.Length)];
        (string key, JsonNode? value) = o.ElementAt(r.Next(o.Count));
        if (r.Next(3) > 0) o.Remove(key);
        string typo = r.Next(5) switch
        {
            0 => key.Remove(r.Next(key.Length), 1), 1 => key + "s", 2 => "x-" + key, 3 => key.ToUpperInvariant(), _ => "\u202Ekey " + new string('k', r.Next(300)),
        };
        o[typo] = value?.DeepClone();
        return Text(design);
    }

    private static byte[] MissingKey(Random r)
    {
        JsonObject design = Base(r);
        for (int i = r.Next(1, 4); i > 0; i--)
        {
            JsonObject[] objects = [.. SampleDesigns.Nodes(design).OfType<JsonObject>().Where(o => o.Count > 0)];
            JsonObject o = objects[r.Next(objects.Length)];
            o.Remove(o.ElementAt(r.Next(o.Count)).Key);
        }
        return Text(design);
    }

    private static byte[] Deep(Random r)
    {
        int depth = r.Next(4) == 0 ? r.Next(10_000, 400_000) : r.Next(33, 200);
        bool lists = r.Next(2) == 0, closed = r.Next(2) == 0 || depth < 60;
        string open = lists ? "[" : "{\"a\":", close = lists ? "]" : "}";
        var text = new StringBuilder("{\"trimwright\":1,\"x-deep\":");
        for (int i = 0; i < depth; i++) text.Append(open);
        text.Append('1');
        for (int i = 0; closed && i < depth; i++) text.Append(close);
        return Encoding.UTF8.GetBytes(text.Append(closed ? "}" : "").ToString());
    }

    private static byte[] TooLarge(Random r)
    {
        byte[] whole = Text(Base(r)), padded = new byte[5_000_001 + r.Next(300_000)];
        Array.Fill(padded, (byte)One(r, " ", "\n", "[", "9", "\"")[0]);
        whole.CopyTo(padded, 0);
        return padded;
    }

    // One in twenty is really large: they take their time to make.
    private static byte[] NearlyTooLarge(Random r)
    {
        int size = r.Next(20) == 0 ? 4_900_000 : 40_000;
        string one = One(r, "[]", "[[[[[[[[[[[[]]]]]]]]]]]]", "1", "\"ü\"", "{}", "{\"a\":{\"b\":null}}", "1e-300");
        string many = "[" + string.Join(",", Enumerable.Repeat(one, size / (one.Length + 2))) + "]";
        string key = One(r, "x-notes", "notes", "ballast", "hardware");
        JsonObject design = Base(r);
        design[key] = "@many@";
        return Encoding.UTF8.GetBytes(design.ToJsonString().Replace("\"@many@\"", many, StringComparison.Ordinal));
    }

    private static byte[] LoneSurrogate(Random r)
    {
        JsonObject design = Base(r);
        string half = One(r, "\\ud800", "\\uDC00 x", "\\ud83d", "ok \\ude00", "\\udbff\\u0041");
        if (r.Next(2) == 0) Pick(r, SampleDesigns.Nodes(design).OfType<JsonObject>())["@half@"] = 1;
        else design["name"] = "@half@";
        return Encoding.UTF8.GetBytes(design.ToJsonString().Replace("@half@", half, StringComparison.Ordinal));
    }

    private static byte[] MarkMisplaced(Random r)
    {
        byte[] whole = Text(Base(r)), mark = [0xEF, 0xBB, 0xBF];
        // After a brace or a comma between tokens; inside a text it would be a character like any other.
        return r.Next(2) == 0 ? [.. mark, .. mark, .. whole] : [whole[0], .. mark, .. whole[1..]];
    }

    private static byte[] OtherEncoding(Random r)
    {
        JsonObject design = Base(r);
        design["name"] = "épinoche äöü";
        string text = design.ToJsonString(new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        Encoding encoding = r.Next(6) switch
        {
            0 => new UnicodeEncoding(false, true), 1 => new UnicodeEncoding(true, true), 2 => new UnicodeEncoding(false, false),
            3 => new UnicodeEncoding(true, false), 4 => new UTF32Encoding(r.Next(2) == 0, r.Next(2) == 0), _ => Encoding.Latin1,
        };
        return [.. encoding.GetPreamble(), .. encoding.GetBytes(text)];
    }

    private static byte[] NewerVersion(Random r)
    {
        JsonObject design = Base(r);
        design["trimwright"] = r.Next(3) switch { 0 => LureFile.Version + 1, 1 => r.Next(LureFile.Version + 1, 1_000_000), _ => LureFile.Version + r.NextDouble() + 1e-6 };
        design["body"] = "something that only the newer version knows";
        return Text(design);
    }

    private static byte[] PieceOutside(Random r)
    {
        JsonObject design = Base(r);
        double length = Number(design["body"]!["length_mm"]!);
        var piece = new JsonObject
        {
            ["name"] = "stray", ["form"] = One(r, "rod", "ball", "barrel", "strip", "plug"), ["axis"] = One(r, "x", "y", "z"), ["density_g_cm3"] = 11.3,
            ["diameter_mm"] = 4, ["length_mm"] = 8, ["width_mm"] = 4, ["thickness_mm"] = 2,
            ["at_mm"] = r.Next(4) switch
            {
                0 => new JsonArray(length * (1 + r.NextDouble()), 0, 0), 1 => new JsonArray(-length * r.NextDouble(), 0, 0),
                2 => new JsonArray(length / 2, 0.15 * length + length * r.NextDouble(), 0), _ => new JsonArray(length / 2, 0, -0.2 * length - length * r.NextDouble()),
            },
        };
        if (r.Next(3) == 0) (piece["at_mm"], piece["diameter_mm"], piece["length_mm"], piece["width_mm"], piece["thickness_mm"]) =
            (new JsonArray(length / 2, 0, 0), 400, 400, 400, 400);
        design["ballast"] = new JsonArray(piece);
        return Text(design);
    }

    private static byte[] HardwareOnNothing(Random r)
    {
        JsonObject design = Base(r);
        string place = One(r, "keel", "Belly", "line_tie ", "tail", "", "belly\u0000", "line-tie");
        design["hardware"] = new JsonArray(new JsonObject { ["name"] = "hook", ["hangs_from"] = place, ["mass_g"] = 5 });
        if (r.Next(3) == 0) (design["wire"], design["hardware"]![0]!["hangs_from"], design["ballast"]) = (null, "line_tie", null);
        return Text(design);
    }

    private static byte[] FlippedBytes(Random r)
    {
        byte[] whole = Text(Base(r));
        for (int i = r.Next(1, 6); i > 0; i--) whole[r.Next(whole.Length)] ^= (byte)(1 << r.Next(8));
        return whole;
    }

    private static byte[] ShuffledTokens(Random r)
    {
        var text = new StringBuilder();
        for (int i = r.Next(1, 80); i > 0; i--)
            text.Append(One(r, "{", "}", "[", "]", ",", ":", "\"body\"", "\"trimwright\"", "1", "-", "null", "true", "\"", "\\", "1e5", "\"name\":\"a\"", "\0", "/*", "//"));
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static byte[] NearlyJson(Random r)
    {
        string text = Base(r).ToJsonString();
        return Encoding.UTF8.GetBytes(r.Next(8) switch
        {
            0 => text[..^1] + ",}",
            1 => "// a lure\n" + text,
            2 => text + text,
            3 => text.Replace('"', '\''),
            4 => text.Replace(":", "=", StringComparison.Ordinal),
            5 => text + "]",
            6 => text.Replace("\"name\"", "name", StringComparison.Ordinal),
            _ => text.Replace("\"name\":\"", "\"name\":\"\t\n", StringComparison.Ordinal),
        });
    }

    private static byte[] LongLists(Random r)
    {
        JsonObject design = Base(r);
        switch (r.Next(5))
        {
            case 0:
                design["name"] = new string('n', r.Next(150, 100_000));
                break;
            case 1:
                design["ballast"] = new JsonArray([.. Enumerable.Range(0, r.Next(150, 5000)).Select(i => (JsonNode)i)]);
                break;
            case 2:
                for (int i = 0; i < 3000; i++) design[string.Create(CultureInfo.InvariantCulture, $"ballas{i}")] = i;
                break;
            case 3:
                design["finish"] = new JsonArray([.. Enumerable.Range(0, 190).Select(i => (JsonNode)new JsonObject { ["name"] = "c", ["thickness_mm"] = -1 })]);
                break;
            default:
                JsonArray points = Points(design, "back");
                double length = Number(design["body"]!["length_mm"]!);
                JsonNode first = points[0]!.DeepClone(), last = points[^1]!.DeepClone();
                int count = r.Next(100, 700);
                points.Clear();
                points.Add(first);
                for (int i = 1; i < count; i++) points.Add(new JsonArray(length * i / count, 10 + 4 * r.NextDouble()));
                points.Add(last);
                break;
        }
        return Text(design);
    }
}
