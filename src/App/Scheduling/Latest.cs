namespace Trimwright.App.Scheduling;

/// <summary>
/// The one place where answers land. What stands there has a generation, and an answer brings the generation of what it was
/// asked about: if anything else has landed since, the answer is stale and let go.
/// </summary>
public sealed class Latest<T>(T first)
    where T : class
{
    private sealed record Held(long Generation, T Value);

    private Held held = new(0, first);

    /// <summary>What stands there.</summary>
    public T Value => Volatile.Read(ref held).Value;

    /// <summary>What stands there, with its generation.</summary>
    public (T Value, long Generation) Read() => Volatile.Read(ref held) is var now ? (now.Value, now.Generation) : default;

    /// <summary>An answer comes; false when it is stale.</summary>
    /// <param name="generation">Of what was asked about.</param>
    /// <param name="with">What is to stand there, from what does; may be called more than once.</param>
    public bool Land(long generation, Func<T, T> with)
    {
        while (true)
        {
            Held before = Volatile.Read(ref held);
            if (before.Generation != generation) return false;
            if (Interlocked.CompareExchange(ref held, new Held(generation + 1, with(before.Value)), before) == before) return true;
        }
    }

    /// <summary>Works something out from what stands there, and again if something else landed meanwhile.</summary>
    public void Replace(Func<T, T> with)
    {
        while (true)
        {
            (T before, long generation) = Read();
            T after = with(before);
            if (Land(generation, _ => after)) return;
        }
    }

    /// <summary>Something beside it, that makes no answer stale.</summary>
    /// <param name="with">As for <see cref="Land"/>.</param>
    public void Put(Func<T, T> with)
    {
        Held before;
        do before = Volatile.Read(ref held);
        while (Interlocked.CompareExchange(ref held, before with { Value = with(before.Value) }, before) != before);
    }
}
