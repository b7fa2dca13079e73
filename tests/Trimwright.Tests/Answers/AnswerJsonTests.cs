using System.Collections.Immutable;
using System.Reflection;
using Trimwright.App.Answers;
using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Answers;

/// <summary>How values become JSON: by their type, in one place.</summary>
public class AnswerJsonTests
{
    private sealed record Inner(double WeightG, string? Note);

    private sealed record Sample(
        string FirstName, double XMm, double? Lost, Sampled Chance, AsGiven Typed, LowHigh P80, Vec3 AtMm, Verdict Verdict, int Count, DateTimeOffset? At, DateOnly Day,
        [property: Key("low_95")] double Low95, [property: Inline] Inner? Here, [property: Inline] Inner? Gone, [property: LeftOut] string? Absent, ImmutableArray<bool> Yes);

    private static Sample One => new(
        "a \"b\" é", 1.23456789, null, 0.123456, 0.1 + 0.2, new(1.00001, 2), new(1, -1e-9, 0.5), Verdict.SinksSlowly, 3,
        new DateTimeOffset(2026, 11, 28, 18, 0, 1, 500, TimeSpan.FromHours(1)), new DateOnly(2026, 5, 30), -1e-9, new(2, null), null, null, [true, false]);

    [Fact]
    public void A_record_is_an_object_with_a_key_for_each_property_in_their_order() => Assert.Equal("""
        {
          "first_name": "a \"b\" é",
          "x_mm": 1.234568,
          "lost": null,
          "chance": 0.1235,
          "typed": 0.30000000000000004,
          "p80": [
            1,
            2
          ],
          "at_mm": [
            1,
            0,
            0.5
          ],
          "verdict": "sinks slowly",
          "count": 3,
          "at": "2026-11-28T17:00:01Z",
          "day": "2026-05-30",
          "low_95": 0,
          "weight_g": 2,
          "note": null,
          "yes": [
            true,
            false
          ]
        }
        """, AnswerJson.Text(One));

    [Fact]
    public void A_sample_without_a_number_is_0_and_any_other_number_that_is_none_is_our_own_fault()
    {
        Assert.Contains("\"chance\": 0,", AnswerJson.Text(One with { Chance = double.NaN }));
        Assert.ThrowsAny<ArgumentException>(() => AnswerJson.Text(One with { XMm = double.NaN }));
        Assert.ThrowsAny<ArgumentException>(() => AnswerJson.Text(One with { XMm = double.PositiveInfinity }));
    }

    [Fact]
    public void An_answer_on_a_stream_is_utf8_and_ends_its_line()
    {
        using var stream = new MemoryStream();
        AnswerJson.Write(stream, One);
        Assert.Equal(System.Text.Encoding.UTF8.GetBytes(AnswerJson.Text(One) + Environment.NewLine), stream.ToArray());
    }

    [Fact]
    public void What_answers_are_made_of_does_not_change()
    {
        Type[] records = [.. typeof(AnswerJson).Assembly.GetTypes().Where(t => t.Namespace == typeof(AnswerJson).Namespace && t.Name.EndsWith("Json", StringComparison.Ordinal) && t != typeof(AnswerJson))];
        Assert.True(records.Length > 40, $"only {records.Length} records were found");
        foreach (Type record in records)
        {
            Assert.True(record.IsSealed && record.GetMethod("<Clone>$") is not null, $"{record.Name} is no sealed record");
            foreach (PropertyInfo property in record.GetProperties())
                Assert.True(property.SetMethod is not { } set || set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(System.Runtime.CompilerServices.IsExternalInit)),
                    $"{record.Name}.{property.Name} can be changed");
        }
    }
}
