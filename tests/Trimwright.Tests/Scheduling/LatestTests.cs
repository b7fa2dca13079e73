using Trimwright.App.Scheduling;

namespace Trimwright.Tests.Scheduling;

/// <summary>Answers come in any order; what stands there is never an older question's.</summary>
public class LatestTests
{
    [Fact]
    public void An_answer_to_what_no_longer_stands_there_is_let_go()
    {
        var latest = new Latest<string>("a lure");
        (_, long first) = latest.Read();
        Assert.True(latest.Land(first, _ => "a longer lure"));
        (string shown, long second) = latest.Read();
        Assert.Equal("a longer lure", shown);
        // The slow answer to what was asked of the first.
        Assert.False(latest.Land(first, _ => "how sure the first is"));
        Assert.Equal(shown, latest.Value);
        latest.Put(s => s + ", red");
        Assert.True(latest.Land(second, s => s + ", and how sure it is"));
        Assert.False(latest.Land(second, _ => "the same answer twice"));
        Assert.Equal("a longer lure, red, and how sure it is", latest.Value);
    }

    [Fact]
    public void What_is_worked_out_from_it_is_worked_out_again_when_something_landed_meanwhile()
    {
        var latest = new Latest<string>("a");
        int times = 0;
        latest.Replace(s =>
        {
            if (times++ == 0) latest.Replace(inner => inner + "b");
            return s + "c";
        });
        Assert.Equal(("abc", 2), (latest.Value, times));
    }

    [Fact]
    public void From_many_threads_nothing_is_lost()
    {
        var latest = new Latest<Tuple<int, int>>(Tuple.Create(0, 0));
        Parallel.For(0, 4000, new ParallelOptions { MaxDegreeOfParallelism = 8 }, _ =>
        {
            latest.Put(v => Tuple.Create(v.Item1, v.Item2 + 1));
            while (true)
            {
                (Tuple<int, int> value, long generation) = latest.Read();
                if (latest.Land(generation, v => Tuple.Create(value.Item1 + 1, v.Item2))) return;
            }
        });
        Assert.Equal(Tuple.Create(4000, 4000), latest.Value);
        Assert.Equal(4000, latest.Read().Generation);
    }
}
