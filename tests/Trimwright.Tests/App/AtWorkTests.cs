using Trimwright.App.Commands;

namespace Trimwright.Tests.App;

/// <summary>What a terminal shows while a command works.</summary>
public class AtWorkTests
{
    private sealed class Clock : TimeProvider
    {
        private long now;
        private Action? tick;

        public override long TimestampFrequency => 1000;

        public override long GetTimestamp() => now;

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            tick = () => callback(state);
            return new Wound();
        }

        public void Go(double seconds)
        {
            now += (long)(1000 * seconds);
            tick!();
        }

        private sealed class Wound : ITimer
        {
            public bool Change(TimeSpan dueTime, TimeSpan period) => true;

            public void Dispose()
            {
            }

            public ValueTask DisposeAsync() => ValueTask.CompletedTask;
        }
    }

    /// <summary>Whatever asks something of a lure may take long on some lure and some machine. Reading a file and starting a lure don't.</summary>
    [Fact]
    public void Every_command_that_works_something_out_says_that_it_is_at_work()
    {
        string[] quick = ["CheckCommand.cs", "NewCommand.cs"];
        int asking = 0;
        foreach (string file in Directory.GetFiles(Path.Combine(Here.Root, "src", "App", "Commands"), "*Command.cs").Where(f => !quick.Contains(Path.GetFileName(f))))
        {
            string text = File.ReadAllText(file);
            if (!text.Contains(".Answer(", StringComparison.Ordinal)) continue;
            asking++;
            Assert.True(text.Contains(".Answer(work.Pace)", StringComparison.Ordinal), $"{Path.GetFileName(file)} works without saying so");
        }
        Assert.True(asking >= 9, $"{asking} commands ask");
    }

    [Fact]
    public void It_says_how_long_then_how_far_and_what_is_left_and_leaves_nothing_behind()
    {
        var clock = new Clock();
        var line = new StringWriter();
        using (var work = new AtWork(default, line, clock))
        {
            clock.Go(1);
            Assert.Equal("\rat work for 1 s; Ctrl+C ends it", line.ToString());
            work.Pace.Come(0.25);
            // Out of order, as threads report.
            work.Pace.Come(0.2);
            clock.Go(1);
            Assert.EndsWith("\r25 %, about 6 s left; Ctrl+C ends it", line.ToString());
            work.Pace.Part(0.5, 1).Come(0.5);
            clock.Go(1);
            Assert.EndsWith("\r75 %, about 1 s left; Ctrl+C ends it", line.ToString().TrimEnd(' '));
        }
        // Overwritten with blanks, and back at the start of the line.
        Assert.EndsWith("\r", line.ToString());
        Assert.Equal("", line.ToString().Split('\r')[^2].Trim());
        string told = line.ToString();
        clock.Go(1);
        Assert.Equal(told, line.ToString());
    }

    [Fact]
    public void Into_a_pipe_it_says_nothing()
    {
        var ran = TheProgram.Run("readings", Path.Combine(Here.Root, "demo", "tidegate-185.lure.json"));
        Assert.Equal((0, ""), (ran.Exit, ran.Error));
    }
}
