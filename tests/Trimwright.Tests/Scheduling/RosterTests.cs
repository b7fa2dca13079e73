using Trimwright.App.Scheduling;

namespace Trimwright.Tests.Scheduling;

/// <summary>Who may use the cores, asked of the policy itself: no thread, no clock but the one that the test sets.</summary>
public class RosterTests
{
    private readonly Owner left = new(), right = new(), phone = new();
    private TimeSpan now;
    private long arrivals;

    private Roster Ask(Roster roster, Priority priority, Owner owner, out long number, int width = 1) =>
        roster.With(new Claim(number = ++arrivals, priority, owner, width), now);

    private Roster Answer(Roster roster, long number) => roster.Without(number, now);

    private static long[] Working(Roster roster) => [.. roster.Working.Select(c => c.Number)];

    [Fact]
    public void What_is_nearer_to_a_hand_goes_first_whenever_it_comes()
    {
        Roster roster = new(1);
        roster = Ask(roster, Priority.Sampling, left, out long sampling);
        Assert.Equal([sampling], Working(roster));
        roster = Ask(roster, Priority.Plan, left, out long plan);
        Assert.Equal([plan], Working(roster));
        roster = Ask(roster, Priority.Preview, left, out long preview);
        Assert.Equal([preview], Working(roster));
        roster = Ask(roster, Priority.Hand, left, out long hand);
        Assert.Equal([hand], Working(roster));
        foreach ((long done, long next) in new[] { (hand, preview), (preview, plan), (plan, sampling) })
        {
            roster = Answer(roster, done);
            Assert.Equal([next], Working(roster));
        }
        Assert.Empty(Working(Answer(roster, sampling)));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(8)]
    public void A_hand_finds_a_core_free_beside_any_number_of_plans_and_samplings(int cores)
    {
        Roster roster = new(cores);
        for (int i = 0; i < 20; i++) roster = Ask(roster, i % 2 == 0 ? Priority.Plan : Priority.Sampling, i % 3 == 0 ? left : right, out _, width: 1 + i % 4);
        Assert.Equal(cores - 1, roster.Working.Sum(c => c.Cores));
        long[] before = Working(roster);
        roster = Ask(roster, Priority.Hand, phone, out long hand);
        Assert.Equal([.. before, hand], Working(roster));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(4)]
    public void There_are_never_more_at_work_than_cores_and_nothing_works_before_what_is_nearer_to_a_hand(int cores)
    {
        var random = new Random(cores);
        Roster roster = new(cores);
        var under = new List<(long Number, Priority Priority)>();
        for (int i = 0; i < 3000; i++)
        {
            now += TimeSpan.FromMilliseconds(random.Next(900));
            if (under.Count == 0 || random.Next(2) == 0)
            {
                var priority = (Priority)random.Next(4);
                roster = Ask(roster, priority, random.Next(3) switch { 0 => left, 1 => right, _ => phone }, out long number, 1 + random.Next(5));
                under.Add((number, priority));
            }
            else
            {
                (long Number, Priority) done = under[random.Next(under.Count)];
                under.Remove(done);
                roster = Answer(roster, done.Number);
            }
            Claim[] at = [.. roster.Working];
            Assert.InRange(at.Sum(c => c.Cores), under.Count == 0 ? 0 : 1, cores);
            Assert.InRange(at.Where(c => c.Priority >= Priority.Plan).Sum(c => c.Cores), 0, Math.Max(1, cores - 1));
            Assert.All(at, c => Assert.InRange(c.Cores, 1, cores));
            foreach ((long waiting, Priority priority) in under.Where(u => !roster.IsWorking(u.Number)))
                Assert.True(at.All(c => c.Priority <= priority), $"{waiting}, {priority}, waits while something less near works");
        }
    }

    [Fact]
    public void Owners_take_turns_however_much_each_of_them_asks()
    {
        Roster roster = new(2);
        var whose = new Dictionary<long, string>();
        for (int i = 0; i < 6; i++)
        {
            roster = Ask(roster, Priority.Plan, left, out long number);
            whose[number] = "left";
        }
        for (int i = 0; i < 2; i++)
        {
            roster = Ask(roster, Priority.Plan, right, out long number);
            whose[number] = "right";
        }
        roster = Ask(roster, Priority.Plan, phone, out long one);
        whose[one] = "phone";
        var order = new List<string>();
        while (Working(roster) is [var working])
        {
            order.Add(whose[working]);
            roster = Answer(roster, working);
        }
        Assert.Equal(["left", "right", "phone", "left", "right", "left", "left", "left", "left"], order);
    }

    [Fact]
    public void A_long_turn_ends_only_where_another_owner_waits_and_goes_on_after_theirs()
    {
        Roster roster = new(2);
        roster = Ask(roster, Priority.Plan, left, out long mine);
        roster = Ask(roster, Priority.Plan, left, out long mineToo);
        Assert.Equal(TimeSpan.MaxValue, roster.Due);
        now += 10 * Roster.LongestTurn;
        Assert.Equal([mine], Working(roster.At(now)));
        roster = Ask(roster, Priority.Plan, phone, out long theirs);
        // It has had far more than a turn already.
        Assert.Equal([theirs], Working(roster));
        Assert.Equal(now + Roster.LongestTurn, roster.Due);
        now += Roster.LongestTurn - TimeSpan.FromTicks(1);
        Assert.Equal([theirs], Working(roster = roster.At(now)));
        now += TimeSpan.FromTicks(1);
        Assert.Equal([mine], Working(roster = roster.At(now)));
        roster = Answer(roster, theirs);
        Assert.Equal([mine], Working(roster));
        Assert.Equal([mineToo], Working(Answer(roster, mine)));
    }

    [Fact]
    public void What_something_nearer_interrupted_keeps_its_turn()
    {
        Roster roster = new(2);
        roster = Ask(roster, Priority.Sampling, left, out long mine);
        roster = Ask(roster, Priority.Sampling, right, out long theirs);
        now += Roster.LongestTurn / 2;
        roster = Ask(roster, Priority.Plan, right, out long plan);
        Assert.Equal([plan], Working(roster));
        now += Roster.LongestTurn / 4;
        roster = Answer(roster, plan);
        Assert.Equal([mine], Working(roster));
        Assert.Equal([theirs], Working(Answer(roster, mine)));
    }

    [Fact]
    public void What_has_begun_on_so_many_cores_goes_on_with_as_many_and_nothing_overtakes_it_meanwhile()
    {
        Roster roster = new(8);
        roster = Ask(roster, Priority.Sampling, left, out long wide, width: int.MaxValue);
        Assert.Equal(7, roster.CoresOf(wide));
        roster = Ask(roster, Priority.Plan, right, out long plan);
        roster = Ask(roster, Priority.Sampling, right, out long narrow);
        Assert.Equal([plan], Working(roster));
        roster = Answer(roster, plan);
        Assert.Equal([wide], Working(roster));
        roster = Answer(roster, wide);
        Assert.Equal([narrow], Working(roster));
        // Begun beside something else, it takes what is left.
        roster = Ask(roster, Priority.Sampling, left, out wide, width: int.MaxValue);
        Assert.Equal((6, 1), (roster.CoresOf(wide), roster.CoresOf(narrow)));
    }

    [Fact]
    public void On_one_core_long_work_waits_while_a_hand_is_at_work_and_goes_on_between()
    {
        Roster roster = new(1);
        roster = Ask(roster, Priority.Sampling, phone, out long sampling, width: 4);
        for (int i = 0; i < 5; i++)
        {
            roster = Ask(roster, Priority.Hand, left, out long hand);
            Assert.Equal([hand], Working(roster));
            roster = Answer(roster, hand);
            Assert.Equal([sampling], Working(roster));
        }
    }
}
