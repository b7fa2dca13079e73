using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Numerics;

/// <summary>Who goes on how many cores.</summary>
public class PaceTests
{
    [Fact]
    public void A_loop_takes_no_more_threads_than_the_machine_has_cores_however_many_the_pool_keeps_free()
    {
        ThreadPool.GetMinThreads(out int threads, out _);
        Assert.True(threads > Environment.ProcessorCount, $"the pool keeps {threads}");
        int now = 0, most = 0;
        Pace.Free.Each(Enumerable.Range(0, 8 * Environment.ProcessorCount), _ =>
        {
            int here = Interlocked.Increment(ref now);
            for (int seen = most; here > seen; seen = most) Interlocked.CompareExchange(ref most, here, seen);
            // Long enough that a loop which may grow does.
            Thread.SpinWait(500_000);
            return Interlocked.Decrement(ref now);
        });
        Assert.InRange(most, 1, Environment.ProcessorCount);
    }
}
