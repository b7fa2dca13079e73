using System.Collections;
using System.Reflection;
using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>Designs compared member by member, not by what their writer happens to write.</summary>
public class RoundTripDeepTests
{
    [Fact]
    public void Every_sound_file_however_odd_comes_back_the_same_design_and_the_same_bytes()
    {
        int each = Tier.Count(quick: 20, ci: 300), sound = 0;
        foreach (HostileClass hostile in HostileFilesMakers.All)
            for (int i = 0; i < each; i++) sound += ThereAndBack(hostile.Make(new Random(77 * i + hostile.Name.Length)), hostile.Name);
        foreach ((string name, Func<Random, JsonObject> make) in HostileGeometryMakers.All)
            for (int i = 0; i < each / 2; i++) sound += ThereAndBack(Examiner.Bytes(make(new Random(9000 + i)).ToJsonString()), name);
        TestContext.Current.TestOutputHelper?.WriteLine($"{sound} sound designs there and back");
        Assert.True(sound > 150);
    }

    private static int ThereAndBack(byte[] file, string what)
    {
        if (LureFile.Read(file).Value is not { } design) return 0;
        byte[] once = LureFile.Write(design);
        Reading<LureDesign> again = LureFile.Read(once);
        Assert.True(again.IsSound, $"{what}: {string.Join("; ", again.Faults)}\n{Encoding.UTF8.GetString(once)}");
        Assert.Null(Difference(design, again.Value!, "design"));
        Assert.Equal(once, LureFile.Write(again.Value!));
        return 1;
    }

    [Fact]
    public void Every_known_key_changes_the_design_that_is_read()
    {
        // A key that the reader asks for and then forgets would pass every other round trip.
        LureDesign whole = LureFile.Read(Examiner.Bytes(SampleDesigns.Everything().ToJsonString())).Value!;
        int changed = 0;
        foreach (string path in SampleDesigns.Numbers(SampleDesigns.Everything()).Select(n => n.GetPath()).Where(p => p != "$.trimwright").ToList())
        {
            JsonObject design = SampleDesigns.Everything();
            JsonNode number = SampleDesigns.Nodes(design).Single(n => n.GetPath() == path);
            double value = number.GetValue<double>();
            JsonNode nudged = path.EndsWith(".coats", StringComparison.Ordinal) ? value + 1 : value + 1e-4;
            if (number.Parent is JsonArray list) list[number.GetElementIndex()] = nudged;
            else number.Parent![number.GetPropertyName()] = nudged;
            if (LureFile.Read(Examiner.Bytes(design.ToJsonString())).Value is not { } read) continue;
            changed++;
            Assert.NotNull(Difference(whole, read, "design"));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{changed} numbers nudged");
        Assert.True(changed > 100);
    }

    [Fact]
    public void A_name_of_any_characters_survives_as_does_a_key_of_them()
    {
        var random = new Random(5);
        for (int i = 0; i < 300; i++)
        {
            string name = string.Concat(Enumerable.Range(0, random.Next(1, 60)).Select(_ => AnyCharacter(random)));
            JsonObject design = SampleDesigns.Everything();
            (design["name"], design["hardware"]![0]!["name"], design["x-" + name]) = (name, name, name);
            byte[] once = LureFile.Write(LureFile.Read(Examiner.Bytes(design.ToJsonString())).Value!);
            LureDesign read = LureFile.Read(once).Value!;
            Assert.Equal((name, name), (read.Name, read.Hardware[0].Name));
            Assert.Equal(name, (string?)JsonNode.Parse(Encoding.UTF8.GetString(once))!["x-" + name]);
        }
    }

    private static string AnyCharacter(Random random)
    {
        int scalar = random.Next(4) switch { 0 => random.Next(0x80), 1 => random.Next(0x800), 2 => random.Next(0x10000), _ => random.Next(0x110000) };
        return scalar is >= 0xD800 and <= 0xDFFF ? "\uFFFD" : char.ConvertFromUtf32(scalar);
    }

    [Fact]
    public void An_unknown_key_is_written_back_as_it_stood_digit_for_digit()
    {
        const string Odd = """{ "big": 123456789012345678901234567890.0000, "small": 1.50e-3,  "zero": -0.0, "text": "\u00e9\n", "list": [ 1 , 2 ] }""";
        JsonObject design = SampleDesigns.Everything();
        foreach (JsonObject holder in SampleDesigns.Nodes(design).OfType<JsonObject>().ToList()) holder["x-odd"] = "@odd@";
        string file = design.ToJsonString().Replace("\"@odd@\"", Odd, StringComparison.Ordinal);
        int objects = file.Split(Odd).Length - 1;
        string written = Encoding.UTF8.GetString(LureFile.Write(LureFile.Read(Examiner.Bytes(file)).Value!));
        Assert.Equal(objects, written.Split(Odd).Length - 1);
        Assert.True(objects > 25);
    }

    /// <summary>The first place where two values differ, or null.</summary>
    private static string? Difference(object? a, object? b, string path)
    {
        if (a is null || b is null) return a is null && b is null ? null : $"{path}: {a ?? "null"} and {b ?? "null"}";
        Type type = a.GetType();
        if (type != b.GetType()) return $"{path}: {type} and {b.GetType()}";
        if (a is string or double or int or bool or Enum) return a.Equals(b) ? null : $"{path}: {a} and {b}";
        if (a is Kept kept) return Difference(kept.All.ToArray(), ((Kept)b).All.ToArray(), path);
        if (a is IEnumerable)
        {
            object?[] left = [.. ((IEnumerable)a).Cast<object?>()], right = [.. ((IEnumerable)b).Cast<object?>()];
            if (Ragged(left, right) is { } longer) return longer.All(item => item is Kept { All.IsEmpty: true }) ? null : $"{path}: {left.Length} and {right.Length} items";
            return left.Select((item, i) => Difference(item, right[i], $"{path}[{i}]")).FirstOrDefault(found => found is not null);
        }
        if (type.IsGenericType && type.FullName!.StartsWith("System.ValueTuple", StringComparison.Ordinal)) return a.Equals(b) ? null : $"{path}: {a} and {b}";
        return type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.GetIndexParameters().Length == 0)
            .Select(p => Difference(p.GetValue(a), p.GetValue(b), $"{path}.{p.Name}")).FirstOrDefault(found => found is not null);
    }

    // A list of kept keys may be shorter by entries that keep nothing.
    private static IEnumerable<object?>? Ragged(object?[] a, object?[] b) =>
        a.Length == b.Length ? null : a.Length > b.Length ? a.Skip(b.Length) : b.Skip(a.Length);
}
