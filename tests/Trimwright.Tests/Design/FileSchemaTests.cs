using System.Collections;
using System.Reflection;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Tests.Answers;
using Trimwright.Tests.Box;
using Trimwright.Tests.Doubt;

namespace Trimwright.Tests.Design;

/// <summary>A key of a file is declared once: the schema that ships is that of the declaration, and what a record stores has a key.</summary>
public class FileSchemaTests
{
    [Fact]
    public void The_schemas_that_ship_are_those_of_the_keys()
    {
        Ships("Design/lure", LureFile.Form);
        Ships("Box/box", BoxFile.Form);
        Ships("Ballast/want", WantFile.Form);
        Ships("Doubt/log", LogFile.Form);
        Ships("Doubt/hand", HandFile.Form);

        static void Ships<T>(string file, FileForm<T> form)
            where T : class => PublishedSchemaTests.Same($"src/Core/{file}.schema.json", Encoding.UTF8.GetString(form.Schema()), typeof(T).Name);
    }

    [Fact]
    public void An_object_is_described_once_and_has_no_key_twice()
    {
        foreach (IFileObject top in (IFileObject[])[LureFile.Form.Top, BoxFile.Form.Top, WantFile.Form.Top, LogFile.Form.Top, HandFile.Form.Top])
        {
            string[] names = [.. FileDefinitions.Under(top).Select(o => o.Definition).OfType<string>()];
            Assert.Equal(names.Distinct(), names);
            foreach (IFileObject each in FileDefinitions.Under(top).Append(top))
            {
                using JsonDocument described = JsonDocument.Parse(ObjectWriter.File(json =>
                {
                    each.DescribeWhole(json);
                    json.WriteEndObject();
                }));
                string[] keys = [.. described.RootElement.GetProperty("properties").EnumerateObject().Select(p => p.Name)];
                Assert.Equal(keys.Distinct(), keys);
                Assert.NotEmpty(keys);
            }
        }
    }

    [Fact]
    public void No_key_of_ours_looks_like_one_in_another_unit()
    {
        foreach (IFileObject top in (IFileObject[])[LureFile.Form.Top, BoxFile.Form.Top, WantFile.Form.Top, LogFile.Form.Top, HandFile.Form.Top])
            foreach (IFileObject each in FileDefinitions.Under(top).Append(top))
            {
                using JsonDocument described = JsonDocument.Parse(ObjectWriter.File(json =>
                {
                    each.DescribeWhole(json);
                    json.WriteEndObject();
                }));
                foreach (JsonProperty key in described.RootElement.GetProperty("properties").EnumerateObject())
                {
                    Assert.True(OtherUnit.In(key.Name) is null, key.Name);
                    // What may be in another unit is a number, or a list of them.
                    if (OtherUnit.Of(key.Name) is not null) Assert.Matches("number|array", key.Value.GetProperty("type").GetRawText());
                }
            }
    }

    // What a record has and its file has not: the thing that a log's reading means is the program's own knowledge, what lies among swivels is
    // a swivel, and a section's curve can't be another one as long as there is but one.
    private static readonly string[] NotStored =
    [
        $"{nameof(LogReading)}.{nameof(LogReading.Thing)}", $"{nameof(BoxSwivel)}.{nameof(BoxSwivel.Kind)}", $"{nameof(BodyDesign)}.{nameof(BodyDesign.Curve)}",
    ];

    [Fact]
    public void What_a_record_stores_has_a_key()
    {
        JsonObject design = SampleDesigns.Everything(), box = SampleBoxes.Everything();
        design["trimwright"] = 2;
        design["hardware"]![1]!["kind"] = "treble";
        design["hardware"]![1]!["size"] = "3/0";
        box["snaps"] = new JsonArray(new JsonObject { ["id"] = "snap", ["name"] = "snap", ["kind"] = "snap", ["size"] = "2", ["mass_g"] = 1, ["length_mm"] = 12, ["count"] = 3 });
        var looked = new HashSet<string>();
        var stored = new HashSet<string>();
        Look(LureFile.Form, LureFile.Read(Examiner.Bytes(design.ToJsonString())).Value!);
        Look(BoxFile.Form, BoxFile.Read(Examiner.Bytes(box.ToJsonString())).Value!);
        Look(WantFile.Form, WantFile.Read("""{ "trimwright_want": 1, "does": "falls", "seconds_per_metre": 4 }"""u8).Value!);
        Look(LogFile.Form, LogFileTests.Everything());
        Look(HandFile.Form, new Hand(3, [new Taught("spring", new DateOnly(2026, 5, 30), [new Lesson(Hand.Coats, 0.5, 0.25)])]));
        string[] without = [.. looked.Except(stored).Except(NotStored)];
        Assert.True(without.Length == 0, "changed, and the file is the same: " + string.Join(", ", without));
        TestContext.Current.TestOutputHelper?.WriteLine($"{looked.Count} properties");
        Assert.True(looked.Count > 150, $"only {looked.Count} properties were looked at");

        // A property is stored if some other value of it makes another file, in one of the objects of its kind at least.
        void Look<T>(FileForm<T> form, T sample)
            where T : class
        {
            Type[] declared = [.. FileDefinitions.Under(form.Top).Select(o => o.Record).Append(typeof(T))];
            var objects = new List<(object One, Func<object, T> Whole)>();
            Gather(sample, other => (T)other, declared, objects);
            byte[] before = form.Write(sample);
            foreach (var of in objects.GroupBy(o => o.One.GetType()))
                foreach (PropertyInfo property in Stored(of.Key))
                {
                    string name = $"{property.DeclaringType!.Name}.{property.Name}";
                    looked.Add(name);
                    if (of.Any(o => Others(property.GetValue(o.One), property.PropertyType).Any(other => IsOther(form, before, () => o.Whole(With(o.One, property, other))))))
                        stored.Add(name);
                }
        }
    }

    private static bool IsOther<T>(FileForm<T> form, byte[] before, Func<T> changed)
        where T : class
    {
        try
        {
            return !form.Write(changed()).AsSpan().SequenceEqual(before);
        }
        catch (InvalidOperationException)
        {
            // The file has no word for that value.
            return false;
        }
    }

    private static IEnumerable<PropertyInfo> Stored(Type record) => record.GetProperties()
        .Where(p => p.SetMethod is { IsPublic: true } && !p.Name.EndsWith(nameof(Kept), StringComparison.Ordinal));

    private static object With(object one, PropertyInfo property, object? value)
    {
        object copy = one.GetType().GetMethod("<Clone>$")!.Invoke(one, null)!;
        property.SetValue(copy, value);
        return copy;
    }

    // Every declared object in a sample, and how the whole is made anew with another one in its place.
    private static void Gather<T>(object one, Func<object, T> whole, Type[] declared, List<(object One, Func<object, T> Whole)> into)
    {
        into.Add((one, whole));
        foreach (PropertyInfo property in Stored(one.GetType()))
        {
            object? value = property.GetValue(one);
            if (value is not null && declared.Contains(value.GetType()))
            {
                Gather(value, other => whole(With(one, property, other)), declared, into);
            }
            else if (value is IList list && property.PropertyType.IsGenericType && declared.Contains(property.PropertyType.GenericTypeArguments[0]))
            {
                for (int i = 0; i < list.Count; i++)
                {
                    int at = i;
                    if (list[i] is { } item && item.GetType().IsClass)
                        Gather(item, other => whole(With(one, property, list.GetType().GetMethod("SetItem")!.Invoke(list, [at, other]))), declared, into);
                }
            }
        }
    }

    private static IEnumerable<object?> Others(object? value, Type type)
    {
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (type == typeof(double)) return [((double?)value ?? 0) + 0.5];
        if (type == typeof(int)) return [((int?)value ?? 0) + 1];
        if (type == typeof(bool)) return [!(bool)value!];
        if (type == typeof(string)) return [(string?)value + "x"];
        if (type == typeof(DateOnly)) return [((DateOnly)value!).AddDays(1)];
        if (type.IsEnum) return Enum.GetValues(type).Cast<object?>().Where(v => !Equals(v, value));
        if (typeof(IKind).IsAssignableFrom(type))
            return ((IEnumerable)type.GetProperty("All", BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static)!.GetValue(null)!).Cast<object?>().Where(v => v != value);
        if (value is IList { Count: > 0 }) return [type.GetField("Empty")!.GetValue(null)];
        if (value is null || type.GetMethod("<Clone>$") is null) return [];
        return Stored(type).SelectMany(p => Others(p.GetValue(value), p.PropertyType).Select(other => (object?)With(value, p, other)));
    }
}
