using Trimwright.App.Scheduling;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Scheduling;

/// <summary>The scheduler with real threads, each of which comes and goes as the test says: nothing here asks how long something took.</summary>
public class SchedulerTests
{
    // Only a failing test waits so long.

    private readonly Owner left = new(), right = new();

    private sealed record Does<T>(Func<Pace, T> What, bool Wide = false) : IQuestion<T>
    {
        public bool IsWide => Wide;

        public T Answer(Pace pace) => What(pace);
    }

    private sealed class Clock : TimeProvider
    {
        private long ticks;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => Interlocked.Read(ref ticks);

        public void Pass(TimeSpan time) => Interlocked.Add(ref ticks, time.Ticks);
    }

    private static void IsKept(Thread thread) => Patience.Until(() => thread.ThreadState.HasFlag(ThreadState.WaitSleepJoin), "it works on though it isn't its turn");

    [Fact]
    public async Task Long_work_has_a_thread_of_its_own_and_what_is_waited_for_is_done_on_the_callers()
    {
        var scheduler = new Scheduler(2);
        Assert.False(await scheduler.Ask(new Does<bool>(_ => Thread.CurrentThread.IsThreadPoolThread), Priority.Sampling, left));
        Thread here = Thread.CurrentThread;
        Assert.Same(here, scheduler.Do(new Does<Thread>(_ => Thread.CurrentThread), Priority.Hand, left));
    }

    [Fact]
    public async Task What_waits_is_worked_out_by_priority_and_owners_in_turn()
    {
        var scheduler = new Scheduler(1);
        var first = new LongWork();
        Task<int> holds = scheduler.Ask(first, Priority.Hand, left);
        await first.Begun.Task.WaitAsync(Patience.ForAHang);
        var order = new List<string>();
        Task<int> Ask(string what, Priority priority, Owner owner) => scheduler.Ask(new Does<int>(_ =>
        {
            order.Add(what);
            return 0;
        }), priority, owner);
        Task[] all =
        [
            Ask("sampling", Priority.Sampling, right), Ask("left plan", Priority.Plan, left), Ask("second left plan", Priority.Plan, left), Ask("right plan", Priority.Plan, right),
            Ask("preview", Priority.Preview, left), Ask("hand", Priority.Hand, right),
        ];
        Assert.Empty(order);
        first.LetGo();
        await Task.WhenAll([holds, .. all]).WaitAsync(Patience.ForAHang);
        // The left had its turn last, for the preview.
        Assert.Equal(["hand", "preview", "right plan", "left plan", "second left plan", "sampling"], order);
    }

    [Fact]
    public async Task Work_is_kept_between_two_steps_while_a_hand_needs_its_core_and_goes_on_after()
    {
        var scheduler = new Scheduler(1);
        var work = new LongWork();
        Task<int> sampling = scheduler.Ask(work, Priority.Sampling, left);
        Thread thread = await work.Begun.Task.WaitAsync(Patience.ForAHang);
        scheduler.Do(new Does<int>(_ =>
        {
            IsKept(thread);
            return 0;
        }), Priority.Hand, right);
        Assert.False(sampling.IsCompleted);
        work.LetGo();
        await sampling.WaitAsync(Patience.ForAHang);
    }

    [Fact]
    public async Task A_plan_goes_before_sampling_that_is_under_way_and_the_sampling_is_not_begun_again()
    {
        var scheduler = new Scheduler(2);
        var work = new LongWork();
        Task<int> sampling = scheduler.Ask(work, Priority.Sampling, left);
        Thread thread = await work.Begun.Task.WaitAsync(Patience.ForAHang);
        await scheduler.Ask(new Does<int>(_ =>
        {
            IsKept(thread);
            work.LetGo();
            return 0;
        }), Priority.Plan, right).WaitAsync(Patience.ForAHang);
        await sampling.WaitAsync(Patience.ForAHang);
        Assert.Same(thread, await work.Begun.Task);
    }

    [Fact]
    public async Task Two_long_works_of_two_owners_take_turns_by_the_clock()
    {
        var clock = new Clock();
        var scheduler = new Scheduler(2, clock);
        LongWork mine = new(), theirs = new();
        Task<int> first = scheduler.Ask(mine, Priority.Plan, left), second = scheduler.Ask(theirs, Priority.Plan, right);
        Thread one = await mine.Begun.Task.WaitAsync(Patience.ForAHang);
        Assert.False(theirs.Begun.Task.IsCompleted);
        clock.Pass(Roster.LongestTurn);
        Thread other = await theirs.Begun.Task.WaitAsync(Patience.ForAHang);
        IsKept(one);
        clock.Pass(Roster.LongestTurn);
        IsKept(other);
        mine.LetGo();
        await first.WaitAsync(Patience.ForAHang);
        theirs.LetGo();
        await second.WaitAsync(Patience.ForAHang);
    }

    [Fact]
    public async Task Work_that_nobody_wants_any_more_ends_and_frees_its_core_whether_it_has_begun_or_not()
    {
        var scheduler = new Scheduler(2);
        using var stop = new CancellationTokenSource();
        using var stopWaiting = new CancellationTokenSource();
        LongWork begun = new(), waiting = new(), next = new();
        Task<int> one = scheduler.Ask(begun, Priority.Plan, left, cancellation: stop.Token), two = scheduler.Ask(waiting, Priority.Plan, left, cancellation: stopWaiting.Token);
        Task<int> three = scheduler.Ask(next, Priority.Plan, left);
        await begun.Begun.Task.WaitAsync(Patience.ForAHang);
        await stopWaiting.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => two.WaitAsync(Patience.ForAHang));
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => one.WaitAsync(Patience.ForAHang));
        await next.Begun.Task.WaitAsync(Patience.ForAHang);
        Assert.False(waiting.Begun.Task.IsCompleted);
        next.LetGo();
        await three.WaitAsync(Patience.ForAHang);
        Assert.Empty(scheduler.Roster.Working);
    }

    [Fact]
    public async Task Kept_work_ends_too_when_nobody_wants_it()
    {
        var scheduler = new Scheduler(1);
        using var stop = new CancellationTokenSource();
        var work = new LongWork();
        Task<int> sampling = scheduler.Ask(work, Priority.Sampling, left, cancellation: stop.Token);
        Thread thread = await work.Begun.Task.WaitAsync(Patience.ForAHang);
        scheduler.Do(new Does<int>(_ =>
        {
            IsKept(thread);
            stop.Cancel();
            Assert.ThrowsAny<OperationCanceledException>(() => sampling.WaitAsync(Patience.ForAHang).GetAwaiter().GetResult());
            return 0;
        }), Priority.Hand, right);
    }

    [Fact]
    public async Task What_fails_says_so_and_frees_its_core()
    {
        var scheduler = new Scheduler(1);
        await Assert.ThrowsAsync<InvalidOperationException>(() => scheduler.Ask(new Does<int>(_ => throw new InvalidOperationException("injected")), Priority.Plan, left));
        Assert.Throws<InvalidOperationException>(() => scheduler.Do(new Does<int>(_ => throw new InvalidOperationException("injected")), Priority.Hand, left));
        Assert.Equal(7, await scheduler.Ask(new Does<int>(_ => 7), Priority.Plan, right));
    }

    [Fact]
    public async Task A_wide_question_is_told_of_every_core_but_the_hands_and_a_narrow_one_of_one()
    {
        var scheduler = new Scheduler(6);
        Assert.Equal(5, await scheduler.Ask(new Does<int>(pace => pace.Loops.MaxDegreeOfParallelism, Wide: true), Priority.Sampling, left));
        Assert.Equal(1, await scheduler.Ask(new Does<int>(pace => pace.Loops.MaxDegreeOfParallelism), Priority.Sampling, left));
    }

    [Fact]
    public async Task Progress_of_parts_is_told_as_progress_of_the_whole()
    {
        var told = new List<double>();
        await new Scheduler(2).Ask(new Does<int>(pace =>
        {
            pace.Come(0);
            pace.Part(0, 0.5).Come(0.5);
            pace.Part(0.5, 1).Part(0, 0.5).Come(1);
            pace.Come(1);
            return 0;
        }), Priority.Plan, left, new Told(told.Add));
        Assert.Equal([0, 0.25, 0.75, 1], told);
    }

    private sealed class Told(Action<double> tell) : IProgress<double>
    {
        public void Report(double value) => tell(value);
    }

    [Fact]
    public async Task Asked_by_many_threads_at_once_no_more_work_than_there_are_cores_and_everything_is_answered()
    {
        const int Cores = 3;
        var scheduler = new Scheduler(Cores);
        int near = 0, aside = 0, most = 0, mostAside = 0;
        IQuestion<int> Counted(bool isNear) => new Does<int>(pace =>
        {
            int now = isNear ? Interlocked.Increment(ref near) : Interlocked.Increment(ref aside);
            InterlockedMax(ref isNear ? ref most : ref mostAside, now);
            for (int i = 0; i < 20; i++) pace.Step();
            return isNear ? Interlocked.Decrement(ref near) : Interlocked.Decrement(ref aside);
        });
        Owner[] owners = [left, right, new()];
        await Task.WhenAll(Enumerable.Range(0, 6).Select(t => Task.Run(async () =>
        {
            for (int i = 0; i < 300; i++)
                if ((i + t) % 3 == 0) await scheduler.Ask(Counted(false), i % 2 == 0 ? Priority.Plan : Priority.Sampling, owners[t % 3]);
                else scheduler.Do(Counted(true), i % 2 == 0 ? Priority.Hand : Priority.Preview, owners[t % 3]);
        }))).WaitAsync(Patience.ForAHang);
        Assert.InRange(most, 1, Cores);
        Assert.InRange(mostAside, 1, Cores - 1);
        Assert.Equal((0, 0), (near, aside));
        Assert.Empty(scheduler.Roster.Working);
    }

    private static void InterlockedMax(ref int most, int value)
    {
        for (int seen = most; value > seen; seen = most)
            if (Interlocked.CompareExchange(ref most, value, seen) == seen) return;
    }
}
