using System.Globalization;
using System.Reflection;
using System.Runtime.Loader;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;

namespace Trimwright.Benchmarks;

/// <summary>
/// Files of nearly five million bytes of every kind that we could think of, read or refused by this Core and by that of an older
/// program, turn by turn in one run. Both must say the same, word for word.
/// </summary>
internal static class LargeFiles
{
    private const int Size = 4_990_000;

    private delegate object Reader(ReadOnlySpan<byte> utf8);

    /// <param name="folder">Where the older program's Trimwright.Core.dll lies.</param>
    /// <param name="rounds">How often each file is read by each.</param>
    /// <param name="only">Kinds whose names hold this; empty for all.</param>
    public static int Run(string folder, int rounds, string only)
    {
        Assembly older = new AssemblyLoadContext("older").LoadFromAssemblyPath(Path.GetFullPath(Path.Combine(folder, "Trimwright.Core.dll")));
        Console.WriteLine("| file of nearly 5 MB | older, ms | now, ms | now, of older's time | said |");
        Console.WriteLine("| --- | --- | --- | --- | --- |");
        double worst = 0;
        int unlike = 0;
        foreach ((string name, Type of, Func<byte[]> make) in All().Where(f => f.Name.Contains(only, StringComparison.Ordinal)))
        {
            byte[] file = make();
            Reader old = ReadOf(older.GetType(of.FullName!, throwOnError: true)!), now = ReadOf(of);
            double best = double.MaxValue, bestOld = double.MaxValue;
            string said = "", saidOld = "";
            for (int round = 0; round < rounds; round++)
            {
                bestOld = Math.Min(bestOld, Time(old, file, ref saidOld));
                best = Math.Min(best, Time(now, file, ref said));
            }
            if (said != saidOld) unlike++;
            worst = Math.Max(worst, best / bestOld);
            string start = said[..Math.Min(said.Length, 60)].ReplaceLineEndings(" ");
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {name} | {bestOld:0.0} | {best:0.0} | {best / bestOld:0.000} | {(said == saidOld ? start : "UNLIKE: " + start + " / " + saidOld[..Math.Min(saidOld.Length, 60)])} |"));
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"worst {worst:0.000} of the older time; {unlike} said otherwise"));
        return unlike == 0 && worst <= 0.1 ? 0 : 1;
    }

    private static Reader ReadOf(Type file) => file.GetMethod("Read", [typeof(ReadOnlySpan<byte>)])!.CreateDelegate<Reader>();

    private static double Time(Reader reader, byte[] file, ref string said)
    {
        GC.Collect();
        // Of the processor, all threads: what else runs on the machine takes none of it.
        TimeSpan from = Environment.CpuUsage.TotalTime;
        object reading = reader(file);
        double took = (Environment.CpuUsage.TotalTime - from).TotalMilliseconds;
        said = Said(reading);
        return took;
    }

    // What was wrong with it. What it was taken for and how it is written again may differ: the older program wrote another version.
    private static string Said(object reading) =>
        $"{(reading.GetType().GetProperty("Value")!.GetValue(reading) is null ? "refused" : "read")} "
        + string.Join('\n', ((System.Collections.IEnumerable)reading.GetType().GetProperty("Faults")!.GetValue(reading)!).Cast<object>());

    private static IEnumerable<(string Name, Type Of, Func<byte[]> Make)> All()
    {
        string lure = Older(LureFile.Write(Demo.Lure("tidegate-185")));
        foreach (string one in (string[])["[]", "[[[[[[[[[[[[]]]]]]]]]]]]", "1", "\"ü\"", "{}", "{\"a\":{\"b\":null}}", "1e-300"])
            foreach (string key in (string[])["x-notes", "notes", "ballast", "hardware"])
                yield return ($"{key}: [{one}, …]", typeof(LureFile), () => With(lure, key, List(one)));
        foreach ((string file, Type of, string text) in Others())
            foreach (string key in (string[])["x-notes", file switch { "want" => "does", "log" => "readings", "hand" => "builds", _ => "weights" }])
                yield return ($"{file}, {key}: [{{}}, …]", of, () => With(text, key, List("{}")));
        foreach ((string name, Type of, Func<byte[]> make) in Full()) yield return (name, of, make);
        foreach ((string name, Func<byte[]> make) in Odd(lure)) yield return (name, typeof(LureFile), make);
    }

    // As version 1, which both read.
    private static string Older(byte[] file)
    {
        JsonNode lure = JsonNode.Parse(file)!;
        lure["trimwright"] = 1;
        foreach (JsonNode? item in lure["hardware"]!.AsArray()) item!.AsObject().Remove("kind");
        foreach (JsonNode? item in lure["hardware"]!.AsArray()) item!.AsObject().Remove("size");
        foreach (JsonNode? coat in lure["finish"]!.AsArray()) coat!.AsObject().Remove("use");
        return lure.ToJsonString();
    }

    private static IEnumerable<(string Name, Type Of, string Text)> Others()
    {
        yield return ("box", typeof(BoxFile), """{"trimwright_box":1,"name":"b"}""");
        yield return ("want", typeof(WantFile), """{"trimwright_want":1,"does":"suspends"}""");
        yield return ("log", typeof(LogFile), """{"trimwright_log":1,"name":"l"}""");
        yield return ("hand", typeof(HandFile), """{"trimwright_hand":1,"version":1}""");
    }

    // Nothing hostile: as much as each kind of file may hold, or five million bytes of it.
    private static IEnumerable<(string Name, Type Of, Func<byte[]> Make)> Full()
    {
        static string Each(int count, Func<int, string> one) => "[" + string.Join(',', Enumerable.Range(0, count).Select(one)) + "]";
        yield return ("a full hand", typeof(HandFile), () => Bytes("""{"trimwright_hand":1,"version":1,"builds":""" + Each(480, i => $$"""{"name":"lure {{i}}","finished":"2026-03-01","lessons":"""
            + Each(180, _ => """{"habit":"carving.mean","mean":0.123,"variance":0.25}""") + "}") + "}"));
        yield return ("a full box", typeof(BoxFile), () => Bytes("""{"trimwright_box":1,"name":"b",""" + string.Join(',', ((string[])["hooks", "rings", "swivels"]).Select(list => $"\"{list}\":"
            + Each(1000, i => $$"""{"id":"{{list}}-{{i}}","name":"{{list}} {{i}}","mass_g":1.5,"length_mm":12,"x-note":"{{new string('n', 1500)}}"}"""))) + "}"));
        yield return ("a full log", typeof(LogFile), () => Bytes("""{"trimwright_log":1,"name":"l","readings":""" + Each(500, i => $$"""{"kind":"weight","mass_g":{{i + 1}},"x-note":"{{new string('n', 9_800)}}"}""") + "}"));
    }

    private static IEnumerable<(string Name, Func<byte[]> Make)> Odd(string lure)
    {
        string Many(Func<int, string> one)
        {
            var text = new StringBuilder();
            for (int i = 0; text.Length < Size - 40_000; i++) text.Append(i == 0 ? "" : ",").Append(one(i));
            return text.ToString();
        }
        yield return ("spaces at the end", () => Bytes(lure + new string(' ', Size - 10_000)));
        yield return ("lines at the start", () => Bytes(new string('\n', Size - 10_000) + lure));
        yield return ("lines, then a slip", () => Bytes(new string('\n', Size - 10_000) + "?" + lure));
        yield return ("indented", () => With(lure, "x-notes", "[" + Many(i => "\n      1") + "]"));
        yield return ("a long name", () => With(lure, "name", "\"" + new string('n', Size - 10_000) + "\""));
        yield return ("a long name of other letters", () => With(lure, "name", "\"" + new string('ü', (Size - 10_000) / 2) + "\""));
        yield return ("a long name of escapes", () => With(lure, "name", "\"" + Repeat("\\u00fc", Size - 10_000) + "\""));
        yield return ("a long text kept", () => With(lure, "x-notes", "\"" + new string('n', Size - 10_000) + "\""));
        yield return ("a long text kept, of escapes", () => With(lure, "x-notes", "\"" + Repeat("\\n\\\"", Size - 10_000) + "\""));
        yield return ("texts of escapes", () => With(lure, "x-notes", List("\"\\u00fc\"")));
        yield return ("texts of pairs", () => With(lure, "x-notes", List("\"\\ud83d\\ude00\"")));
        yield return ("texts of halves of pairs", () => With(lure, "x-notes", List("\"\\ud800\"")));
        yield return ("keys of halves of pairs", () => With(lure, "x-notes", "{" + Many(i => "\"\\ud800\":1") + "}"));
        yield return ("a number of many digits", () => With(lure, "x-notes", "1" + new string('0', Size - 10_000)));
        yield return ("a number of many decimals", () => With(lure, "soaked_g", "0." + new string('3', Size - 10_000)));
        yield return ("numbers of 17 digits", () => With(lure, "x-notes", List("0.12345678901234567")));
        yield return ("numbers too large", () => With(lure, "x-notes", List("1e999")));
        yield return ("notes of own", () => Inside(lure, Many(i => $"\"x-{i}\":1")));
        yield return ("unknown keys", () => Inside(lure, Many(i => $"\"key{i}\":{{}}")));
        yield return ("keys of escapes", () => Inside(lure, Many(i => $"\"x-\\u00fc{i}\":1")));
        yield return ("keys in a note", () => With(lure, "x-notes", "{" + Many(i => $"\"{i}\":1") + "}"));
        yield return ("one key again and again", () => Inside(lure, Many(i => "\"x-a\":1")));
        yield return ("each key twice", () => Inside(lure, Many(i => $"\"x-{i / 2}\":1")));
        yield return ("many objects with a key twice", () => With(lure, "x-notes", List("""{"a":1,"a":2}""")));
        yield return ("many objects with eight keys", () => With(lure, "x-notes", List("""{"a":1,"b":2,"c":3,"d":4,"e":5,"f":6,"g":7,"h":8}""")));
        yield return ("too deep", () => Bytes("{\"x\":" + new string('[', Size)));
        yield return ("cut off", () => Bytes(Encoding.UTF8.GetString(With(lure, "x-notes", List("\"ü\"")))[..^9000]));
        yield return ("a comma too many at the end", () => Bytes(Encoding.UTF8.GetString(With(lure, "x-notes", List("[]"))).TrimEnd()[..^1] + ",}"));
        yield return ("a byte that is no letter at the end", () => [.. With(lure, "x-notes", List("[]")), 0xFF]);
        yield return ("points", () => With(lure, "body", """{"length_mm":100,"back":{"points_mm":""" + List("[1,2]") + "}}"));
        yield return ("weights with notes", () => With(lure, "ballast", "[" + string.Join(',', Enumerable.Repeat("{\"x-note\":\"" + new string('n', 24_000) + "\"}", 200)) + "]"));
        yield return ("weights with lists", () => With(lure, "ballast", "[" + string.Join(',', Enumerable.Repeat("{\"at_mm\":[" + Repeat("1,", 24_000) + "1]}", 200)) + "]"));
        yield return ("weights with unknown keys", () => With(lure, "ballast", "[" + string.Join(',', Enumerable.Repeat("{" + string.Join(',', Enumerable.Range(0, 2300).Select(i => $"\"k{i}\":1")) + "}", 200)) + "]"));
        yield return ("stations with notes", () => With(lure, "body", """{"length_mm":100,"section":[""" + string.Join(',', Enumerable.Repeat("{\"x-note\":[" + Repeat("[],", 9_800) + "1]}", 500)) + "]}"));
        yield return ("a list at the top", () => Bytes(List(lure.Trim())));
        yield return ("a newer version", () => Bytes("{\"trimwright\":2,\"x\":" + List("[]") + "}"));
    }

    private static string Repeat(string one, int size) => string.Concat(Enumerable.Repeat(one, size / one.Length));

    private static string List(string one) => "[" + string.Join(",", Enumerable.Repeat(one, (Size - 10_000) / (Encoding.UTF8.GetByteCount(one) + 1))) + "]";

    private static byte[] With(string file, string key, string value)
    {
        JsonObject design = JsonNode.Parse(file)!.AsObject();
        design[key] = "@value@";
        return Bytes(design.ToJsonString().Replace("\"@value@\"", value, StringComparison.Ordinal));
    }

    private static byte[] Inside(string file, string members) => Bytes(file.TrimEnd()[..^1] + "," + members + "}");

    private static byte[] Bytes(string text)
    {
        byte[] file = Encoding.UTF8.GetBytes(text);
        return file.Length <= 5_000_000 ? file : throw new InvalidOperationException($"{file.Length} bytes");
    }
}
