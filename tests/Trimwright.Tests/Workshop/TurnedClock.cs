namespace Trimwright.Tests.Workshop;

/// <summary>A clock whose timers go off when a test turns it, on the test's own thread.</summary>
internal sealed class TurnedClock : TimeProvider
{
    private readonly List<Timer> timers = [];

    /// <summary>Everything that waits goes off once.</summary>
    public void Turn()
    {
        Timer[] now;
        lock (timers) now = [.. timers];
        foreach (Timer timer in now) timer.GoOff();
    }

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = new Timer(() => callback(state), this);
        lock (timers) timers.Add(timer);
        return timer;
    }

    private sealed class Timer(Action goOff, TurnedClock clock) : ITimer
    {
        public void GoOff() => goOff();

        public bool Change(TimeSpan dueTime, TimeSpan period) => true;

        public void Dispose()
        {
            lock (clock.timers) clock.timers.Remove(this);
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
