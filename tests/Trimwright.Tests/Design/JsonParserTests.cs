using System.Text;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>The parser, which makes next to nothing of what nobody asks for, against one that makes everything: the same faults in the same order, the same values.</summary>
public class JsonParserTests
{
    private static void Same(byte[] file, string what)
    {
        PlainParser plain = PlainParser.Of(file);
        var findings = new Findings();
        JsonTree? tree = JsonParser.Parse(file, findings);
        string shown = $"{what}: {Encoding.UTF8.GetString(file[..Math.Min(file.Length, 2000)])}";
        // Of files in other encodings, of none, and with a mark the parser says more than a reader of JSON could.
        if (findings.Faults is [{ Kind: "encoding", Path: "" }] || file.AsSpan().StartsWith(Encoding.UTF8.Preamble)) return;
        Assert.True(plain.Findings.Faults.SequenceEqual(findings.Faults), $"{shown}\nplainly:\n{string.Join('\n', plain.Findings.Faults)}\nhere:\n{string.Join('\n', findings.Faults)}");
        Assert.Equal(plain.Tree is null, tree is null);
        if (tree is not null) Same(plain.Tree!, tree, shown);
    }

    private static void Same(PlainTree plain, JsonTree tree, string what)
    {
        Assert.True((plain.Kind, plain.Path, plain.Raw, plain.Text, plain.Number, plain.Truth) == (tree.Kind, tree.Path, tree.Raw, tree.Text, tree.Number, tree.Truth), $"{what}: {plain.Path}");
        Assert.Equal(plain.Text.EnumerateRunes().Count(), tree.TextLength);
        Assert.Equal((plain.Items.Count, plain.Members.Count), (tree.ItemCount, tree.Members.Count));
        for (int i = 0; i < plain.Items.Count; i++) Same(plain.Items[i], tree.Items[i], what);
        for (int i = 0; i < plain.Members.Count; i++)
        {
            (string key, PlainTree value) = plain.Members[i];
            Assert.Equal((key, value.Raw), (Encoding.UTF8.GetString(tree.Members.Key(i)), Encoding.UTF8.GetString(tree.Members.Value(i))));
            // A reader asks for keys of plain letters.
            if (Ascii.IsValid(key) && i < 40) Assert.Equal(i, tree.Members.Find(key));
            Same(value, tree.MemberAt(i, key), what);
        }
        Assert.Null(tree.Member("no such key"));
    }

    [Fact]
    public void Hostile_files_of_every_class_are_the_same_to_both()
    {
        foreach (HostileClass hostile in HostileFilesMakers.All)
            for (int i = 0; i < Tier.Count(6, 100, 1000); i++)
            {
                byte[] file = hostile.Make(new Random(77 * i + hostile.Name.Length));
                if (file.Length < 1_000_000) Same(file, $"{hostile.Name} {i}");
            }
    }

    [Fact]
    public void Scribbles_are_the_same_to_both()
    {
        const string signs = "{}[],:\"\\0-+.eE1tfn \n\r\t\0/x";
        int sound = 0, seen = Tier.Count(4000, 100_000, 2_000_000);
        for (int i = 0; i < seen; i++)
        {
            var random = new Random(i);
            var text = new StringBuilder();
            Scribble(random, text, 0);
            byte[] file = Encoding.UTF8.GetBytes(text.ToString());
            // Half of them with a slip or three: a byte changed, a piece cut out, a piece twice.
            for (int slips = random.Next(2) * random.Next(1, 4); slips > 0 && file.Length > 0; slips--)
            {
                int at = random.Next(file.Length), length = random.Next(Math.Min(12, file.Length - at));
                file = random.Next(4) switch
                {
                    0 => [.. file[..at], .. file[(at + length)..]],
                    1 => [.. file[..(at + length)], .. file[at..]],
                    2 => [.. file[..at], (byte)signs[random.Next(signs.Length)], .. file[(at + 1)..]],
                    _ => file[..at],
                };
            }
            if (PlainParser.Of(file).Tree is not null) sound++;
            Same(file, $"scribble {i}");
        }
        Assert.InRange(sound, seen / 4, seen * 3 / 4);
    }

    private static void Scribble(Random random, StringBuilder text, int depth)
    {
        string Space() => random.Next(6) == 0 ? new string(" \n\r\t"[random.Next(4)], random.Next(4) == 0 ? random.Next(40) : 1) : "";
        string Text()
        {
            string[] pieces = ["a", "b", "key", "points_mm", "ü", "雪", "😀", "\\n", "\\\"", "\\\\", "\\/", "\\u0041", "\\u00fc", "\\ud83d\\ude00", "\\u0000", "'", "}", "]", ",", ":", new('n', 40)];
            string all = string.Concat(Enumerable.Range(0, random.Next(4)).Select(_ => pieces[random.Next(pieces.Length)]));
            // Halves of pairs, now and then.
            string[] halves = ["\\ud800", "\\udc00", "\\ud800\\u0041", "\\uD83D\\uD83D\\uDE00"];
            return $"\"{all}{(random.Next(60) == 0 ? halves[random.Next(4)] : "")}\"";
        }
        text.Append(Space());
        int kind = random.Next(depth == 0 ? 4 : depth > 5 && random.Next(30) > 0 ? 4 : 12);
        switch (kind)
        {
            case < 2 when depth == 0:
            case 8 or 9:
            case > 9:
                bool list = random.Next(2) == 0;
                int count = random.Next(12) == 0 ? random.Next(40) : random.Next(5);
                text.Append(list ? '[' : '{').Append(Space());
                for (int i = 0; i < count; i++)
                {
                    if (i > 0) text.Append(',').Append(Space());
                    if (!list) text.Append(random.Next(3) == 0 ? Text() : $"\"k{i}\"").Append(Space()).Append(':');
                    Scribble(random, text, depth + 1);
                }
                text.Append(list ? ']' : '}');
                break;
            case 0 or 1:
                text.Append(Text());
                break;
            case 2:
                text.Append(random.Next(3) switch { 0 => "true", 1 => "false", _ => "null" });
                break;
            case 3 or 4:
                text.Append(random.Next(-2000, 2000) / 8.0);
                break;
            case 5:
                string[] numbers = ["0", "-0", "1e5", "1E-7", "-1.5e+2", "1e308", "9e307", "1e309", "1e999", "0e999", "0.0000001e315", "1e-99999999999", "123456789012345678901234567890", new('9', 309), new('1', 308), "0." + new string('3', 400), "1" + new string('0', 400) + "e-300"];
                text.Append(numbers[random.Next(numbers.Length)]);
                break;
            default:
                text.Append(random.Next(3) == 0 ? "[]" : random.Next(2) == 0 ? "{}" : "[ ]");
                break;
        }
        text.Append(Space());
    }

    [Fact]
    public void Objects_with_many_keys_tell_of_those_that_come_twice_in_the_same_order()
    {
        for (int seed = 0; seed < Tier.Count(24, 300); seed++)
        {
            var random = new Random(seed);
            int keys = random.Next(3) switch { 0 => random.Next(5, 12), 1 => random.Next(1000, 1100), _ => random.Next(1500, 6000) };
            int alike = random.Next(4) switch { 0 => 0, 1 => 1, 2 => 5, _ => 300 };
            string[] names = [.. Enumerable.Range(0, keys).Select(i => random.Next(5) == 0 ? $"\\u0078-a-longer-name-{i}" : $"x{i}")];
            for (int i = 0; i < alike; i++) names[random.Next(keys)] = names[random.Next(keys)].Replace("\\u0078", "x", StringComparison.Ordinal);
            string members = string.Join(',', names.Select((name, i) => $"\"{name}\":{(random.Next(200) == 0 ? "1e999" : random.Next(200) == 0 ? "\"\\udc00\"" : random.Next(300) == 0 ? "{\"y\":1,\"y\":2}" : "1")}"));
            string file = random.Next(3) switch { 0 => $"{{{members}}}", 1 => $"{{\"a\":{{{members}}},\"x1\":[{{{members}}}],\"a\":2}}", _ => $"{{{members},\"open\":[" };
            Same(Encoding.UTF8.GetBytes(file), $"keys {seed}");
        }
    }

    /// <summary>0.1.0 made something of each value, and took fifty to a hundred bytes for one.</summary>
    [Fact]
    public void A_file_of_nearly_five_million_bytes_takes_little_room()
    {
        const int Size = 4_980_000;
        foreach (string one in (string[])["[]", "[[[[[[[[[[[[]]]]]]]]]]]]", "1", "\"ü\"", "{}", "{\"a\":{\"b\":null}}", "1e-300", "\"\\ud800\"", "1e999", "{\"a\":1,\"a\":2}"])
        {
            byte[] file = Encoding.UTF8.GetBytes($"{{\"trimwright\":1,\"x-notes\":[{string.Join(',', Enumerable.Repeat(one, Size / (Encoding.UTF8.GetByteCount(one) + 1)))}]}}");
            long before = GC.GetAllocatedBytesForCurrentThread();
            JsonParser.Parse(file, new Findings());
            double room = (GC.GetAllocatedBytesForCurrentThread() - before) / (double)file.Length;
            TestContext.Current.TestOutputHelper?.WriteLine($"{one}: {room:F2} bytes for one of {file.Length}");
            Assert.True(room < 2, $"{one}: {room:F2} bytes for one");
        }
    }

    [Fact]
    public void Nesting_at_the_limit_is_the_same_to_both()
    {
        foreach (int depth in (int[])[31, 32, 33, 34, 35])
            foreach (string open in (string[])["[", "{\"a\":", "[1,{\"b\":[],\"a\":"])
                foreach (string within in (string[])["1", "[]", "{}", "[1]", "[ ", "x", ""])
                {
                    string text = string.Concat(Enumerable.Repeat(open, depth)) + within;
                    string close = string.Concat(text.Reverse().Where(c => c is '[' or '{').Select(c => c == '[' ? ']' : '}'));
                    foreach (string file in (string[])[text, text + close, text + close[..^1], text + close + "x"]) Same(Encoding.UTF8.GetBytes(file), $"{depth} {open} {within}");
                }
    }
}
