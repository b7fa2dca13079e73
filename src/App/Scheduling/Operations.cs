using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Trimwright.App.Scheduling;

/// <summary>How something ended.</summary>
public enum Ending
{
    Done,
    GivenUp,
    Failed,
}

/// <summary>
/// Something that the program did, once or several times on end. Names are those of our own code: no text of the maker's comes
/// in here, whatever it is about.
/// </summary>
/// <param name="Name">What.</param>
/// <param name="Ending">How it ended.</param>
/// <param name="Times">How often on end.</param>
/// <param name="Waited">The longest wait for a turn.</param>
/// <param name="Took">The longest, without the wait; turns of others that came between are in it.</param>
/// <param name="Ended">When the last of them ended, since the start of the program.</param>
public sealed record Operation(string Name, Ending Ending, int Times, TimeSpan Waited, TimeSpan Took, TimeSpan Ended);

/// <summary>The last operations of the process, kept in memory for a report of our own fault.</summary>
public sealed class Operations(TimeProvider? time = null)
{
    /// <summary>So many are kept.</summary>
    public const int Kept = 200;

    private readonly TimeProvider clock = time ?? TimeProvider.System;
    private readonly long began = (time ?? TimeProvider.System).GetTimestamp();
    private ImmutableArray<Operation> last = [];

    /// <summary>Oldest first.</summary>
    public ImmutableArray<Operation> Last => last;

    /// <summary>Notes an operation.</summary>
    /// <param name="name">Stands in the code as it is.</param>
    /// <param name="ending">How it ended.</param>
    /// <param name="waited">For its turn.</param>
    /// <param name="took">Without that.</param>
    public void Note([ConstantExpected] string name, Ending ending, TimeSpan waited, TimeSpan took) => Add(name, ending, waited, took);

    /// <summary>Notes a question, by its type.</summary>
    public void Note(Type question, Ending ending, TimeSpan waited, TimeSpan took) => Add(question.Name, ending, waited, took);

    private void Add(string name, Ending ending, TimeSpan waited, TimeSpan took)
    {
        TimeSpan now = clock.GetElapsedTime(began);
        // A hundred pictures under a hand are one line, or nothing would be left of what came before.
        ImmutableInterlocked.Update(ref last, all => all is [.., var same] && same.Name == name && same.Ending == ending
            ? all.SetItem(all.Length - 1, same with { Times = same.Times + 1, Waited = Longer(same.Waited, waited), Took = Longer(same.Took, took), Ended = now })
            : (all.Length < Kept ? all : all.RemoveAt(0)).Add(new Operation(name, ending, 1, waited, took, now)));
    }

    private static TimeSpan Longer(TimeSpan a, TimeSpan b) => a > b ? a : b;
}
