using System.Reflection;
using Trimwright.App.Scheduling;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Scheduling;

/// <summary>What was done last: as much as helps whoever mends a fault, and nothing of the maker's.</summary>
public class OperationsTests
{
    private sealed record Odd(string Maker) : IQuestion<string>
    {
        public string Answer(Pace pace) => Maker.Length > 30 ? throw new InvalidOperationException(Maker) : Maker;
    }

    [Fact]
    public void The_last_two_hundred_are_kept_and_the_same_on_end_is_one()
    {
        var operations = new Operations();
        for (int i = 0; i < 1000; i++) operations.Note("alike", Ending.Done, TimeSpan.FromMilliseconds(i), TimeSpan.FromMilliseconds(1000 - i));
        Assert.Equal(("alike", 1000, 999.0, 1000.0), operations.Last is [var one] ? (one.Name, one.Times, one.Waited.TotalMilliseconds, one.Took.TotalMilliseconds) : default);
        for (int i = 0; i < 500; i++)
        {
            operations.Note("even", Ending.Done, default, default);
            operations.Note("odd", i % 5 == 0 ? Ending.GivenUp : Ending.Done, default, default);
        }
        Assert.Equal(Operations.Kept, operations.Last.Length);
        Assert.DoesNotContain(operations.Last, o => o.Name == "alike");
        Assert.Equal("odd", operations.Last[^1].Name);
    }

    [Fact]
    public async Task A_question_is_noted_by_the_name_of_its_type_whatever_is_asked_and_answered()
    {
        const string Secret = "Grandfather's, 4 Harbour Row";
        var scheduler = new Scheduler(2);
        var owner = new Owner();
        Assert.Equal(Secret, scheduler.Do(new Odd(Secret), Priority.Hand, owner));
        await scheduler.Ask(new Odd(Secret), Priority.Plan, owner);
        await Assert.ThrowsAsync<InvalidOperationException>(() => scheduler.Ask(new Odd(Secret + Secret), Priority.Plan, owner));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => scheduler.Ask(new Odd(Secret), Priority.Plan, owner, cancellation: new CancellationToken(canceled: true)));
        Assert.Equal([("Odd", Ending.Done, 2), ("Odd", Ending.Failed, 1)], scheduler.Operations.Last.Select(o => (o.Name, o.Ending, o.Times)));
        Assert.DoesNotContain("Harbour", string.Join('\n', scheduler.Operations.Last));
    }

    [Fact]
    public void No_other_text_than_a_name_of_our_own_code_has_a_place_in_it()
    {
        PropertyInfo[] texts = [.. typeof(Operation).GetProperties().Where(p => p.PropertyType != typeof(TimeSpan) && p.PropertyType != typeof(int) && p.PropertyType != typeof(Ending))];
        Assert.Equal(nameof(Operation.Name), Assert.Single(texts, p => p.Name != "EqualityContract").Name);
        // A name is a type, or a constant: the compiler refuses what is put together at run time (CA1857).
        foreach (MethodInfo note in typeof(Operations).GetMethods().Where(m => m.Name == nameof(Operations.Note)))
            Assert.True(note.GetParameters()[0] is var name && (name.ParameterType == typeof(Type)
                || name.GetCustomAttribute<System.Diagnostics.CodeAnalysis.ConstantExpectedAttribute>() is not null), note.ToString());
    }
}
