using Trimwright.App.Scheduling;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Scheduling;

/// <summary>Steps on and on, until it is let go.</summary>
internal sealed class LongWork(bool wide = false) : IQuestion<int>
{
    private volatile bool free;

    public bool IsWide => wide;

    public TaskCompletionSource<Thread> Begun { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public void LetGo() => free = true;

    public int Answer(Pace pace)
    {
        Begun.TrySetResult(Thread.CurrentThread);
        int steps = 0;
        for (; !free; steps++) pace.Step();
        return steps;
    }
}
