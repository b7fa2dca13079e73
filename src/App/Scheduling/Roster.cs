using System.Collections.Immutable;

namespace Trimwright.App.Scheduling;

/// <summary>One question that is being worked out, or waits.</summary>
/// <param name="Number">In order of arrival.</param>
/// <param name="Priority">How near to a hand.</param>
/// <param name="Owner">Whose.</param>
/// <param name="Width">So many cores it can use.</param>
/// <param name="Cores">So many it was given when it began; 0: it hasn't begun.</param>
/// <param name="Turn">When the turn began that it has; null: it waits for one.</param>
public sealed record Claim(long Number, Priority Priority, Owner Owner, int Width, int Cores = 0, TimeSpan? Turn = null);

/// <summary>
/// Who may use the cores: a value, and the whole policy. It knows no thread and no clock; whoever changes it says what time it is.
/// <list type="bullet">
/// <item>What is nearer to a hand goes first. Hand and preview take one core each, as long as there is one.</item>
/// <item>Plans and sampling leave one core alone, so that a hand finds it free; on one core they wait while a hand is at work.</item>
/// <item>Inside a priority owners take turns, the one whose last turn is longest ago first. A turn ends with the answer; or, where
/// another owner waits, after <see cref="LongestTurn"/>. What was interrupted by something nearer keeps its turn.</item>
/// <item>What has begun on so many cores goes on with as many. Nothing overtakes a claim of better right that is too wide for
/// what is free.</item>
/// </list>
/// </summary>
public sealed class Roster
{
    /// <summary>
    /// Long enough for most questions to be answered in one turn (sampling takes one to three seconds), since two that take turns
    /// are both answered as late as the later of them; short enough to wait for.
    /// </summary>
    public static readonly TimeSpan LongestTurn = TimeSpan.FromSeconds(3);

    private readonly int cores;
    private readonly ImmutableArray<Claim> claims = [];
    private readonly ImmutableHashSet<long> working = [];

    // The number of each owner's last turn, while it has claims.
    private readonly ImmutableDictionary<Owner, long> last = ImmutableDictionary<Owner, long>.Empty;
    private readonly long turns;

    /// <param name="cores">1 or more.</param>
    public Roster(int cores) => this.cores = Math.Max(1, cores);

    private Roster(Roster before, ImmutableArray<Claim> claims, ImmutableHashSet<long> working, ImmutableDictionary<Owner, long> last, long turns, TimeSpan due) =>
        (cores, this.claims, this.working, this.last, this.turns, Due) = (before.cores, claims, working, last, turns, due);

    /// <summary>All that are worked out or wait, by arrival.</summary>
    public ImmutableArray<Claim> Claims => claims;

    /// <summary>Those that may use the cores they were given.</summary>
    public IEnumerable<Claim> Working => claims.Where(c => working.Contains(c.Number));

    /// <summary>When a turn ends by itself: then <see cref="At"/> is to be asked. Never, as long as nobody waits for it.</summary>
    public TimeSpan Due { get; } = TimeSpan.MaxValue;

    public bool IsWorking(long number) => working.Contains(number);

    /// <summary>So many cores a claim was given; 0 before it began.</summary>
    public int CoresOf(long number) => claims.FirstOrDefault(c => c.Number == number)?.Cores ?? 0;

    /// <summary>A question more.</summary>
    public Roster With(Claim claim, TimeSpan now) => Settled(claims.Add(claim), now);

    /// <summary>One fewer: answered, or given up.</summary>
    public Roster Without(long number, TimeSpan now) => Settled(claims.RemoveAll(c => c.Number == number), now);

    /// <summary>The same a while later.</summary>
    public Roster At(TimeSpan now) => Settled(claims, now);

    private Roster Settled(ImmutableArray<Claim> all, TimeSpan now)
    {
        bool Contested(Claim c) => all.Any(o => o.Priority == c.Priority && o.Owner != c.Owner && o.Turn is null);
        Claim[] settled = [.. all.Select(c => c.Turn is { } began && now - began >= LongestTurn && Contested(c) ? c with { Turn = null } : c)];
        ImmutableDictionary<Owner, long> served = last.RemoveRange(last.Keys.Where(o => all.All(c => c.Owner != o)));
        ImmutableHashSet<long>.Builder may = ImmutableHashSet.CreateBuilder<long>();
        long turn = turns;
        int free = cores, aside = Math.Max(1, cores - 1);
        foreach (int i in Enumerable.Range(0, settled.Length).OrderBy(i => settled[i].Priority).ThenBy(i => settled[i].Turn is null)
            .ThenBy(i => served.GetValueOrDefault(settled[i].Owner)).ThenBy(i => settled[i].Number).ToArray())
        {
            Claim claim = settled[i];
            bool near = claim.Priority <= Priority.Preview;
            int most = near ? free : Math.Min(free, aside), takes = claim.Cores > 0 ? claim.Cores : near ? 1 : Math.Clamp(claim.Width, 1, Math.Max(1, most));
            if (takes > most) break;
            free -= takes;
            if (!near) aside -= takes;
            may.Add(claim.Number);
            if (claim.Turn is null) served = served.SetItem(claim.Owner, ++turn);
            settled[i] = claim with { Cores = takes, Turn = claim.Turn ?? now };
        }
        TimeSpan due = TimeSpan.MaxValue;
        foreach (Claim c in settled)
            if (c.Turn is { } began && settled.Any(o => o.Priority == c.Priority && o.Owner != c.Owner && o.Turn is null) && began + LongestTurn < due)
                due = began + LongestTurn;
        return new Roster(this, [.. settled], may.ToImmutable(), served, turn, due);
    }
}
