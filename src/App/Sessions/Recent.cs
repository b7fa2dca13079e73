using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Trimwright.App.Sessions;

/// <summary>The few values that were used last, by key. From several threads at once one may be made twice; none is lost but the oldest.</summary>
internal sealed class Recent<TKey, TValue>(int kept)
    where TKey : notnull
{
    // The last used comes last.
    private ImmutableArray<(TKey Key, TValue Value)> all = [];

    public bool TryGet(TKey key, [MaybeNullWhen(false)] out TValue value)
    {
        foreach ((TKey own, TValue there) in all)
            if (own.Equals(key))
            {
                Keep(key, value = there);
                return true;
            }
        value = default;
        return false;
    }

    public void Keep(TKey key, TValue value) => ImmutableInterlocked.Update(ref all, before =>
    {
        ImmutableArray<(TKey Key, TValue Value)> others = before.RemoveAll(e => e.Key.Equals(key));
        return (others.Length < kept ? others : others.RemoveAt(0)).Add((key, value));
    });
}
