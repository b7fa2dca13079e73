using Trimwright.App.Faults;

namespace Trimwright.Tests.App;

[Collection(nameof(Alone))]
public class MachineTests
{
    [Fact]
    public void Beside_two_loops_over_all_cores_there_are_threads_for_the_page_and_a_larger_choice_stays()
    {
        ThreadPool.GetMinThreads(out int before, out int ports);
        try
        {
            ThreadPool.SetMinThreads(1, ports);
            Machine.KeepThreadsFree();
            ThreadPool.GetMinThreads(out int kept, out int same);
            Assert.Equal((2 * Environment.ProcessorCount + 4, ports), (kept, same));
            ThreadPool.SetMinThreads(kept + 9, ports);
            Machine.KeepThreadsFree();
            ThreadPool.GetMinThreads(out int more, out _);
            Assert.Equal(kept + 9, more);
        }
        finally
        {
            ThreadPool.SetMinThreads(before, ports);
        }
    }
}
