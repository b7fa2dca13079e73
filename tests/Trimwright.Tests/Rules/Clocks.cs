using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>No test hangs on how busy the machine is: docs/tests.md.</summary>
public partial class Clocks
{
    // Asks a clock in CI only, with work beside a hand and without it by turns.
    private const string ByTurns = "tests/Trimwright.Tests/Pages/GesturesTests.cs";

    [Fact]
    public void No_test_asks_a_clock_how_soon_a_thing_comes_and_all_wait_alike()
    {
        string[] files = [.. Sources.Files("tests/Trimwright.Tests", ".cs")];
        Assert.Contains("tests/Trimwright.Tests/Patience.cs", files);
        Assert.Contains("if (!Tier.IsCi) Assert.Skip(", Sources.Text(ByTurns), StringComparison.Ordinal);
        foreach (string file in files.Where(f => f != ByTurns && !f.EndsWith("/Patience.cs", StringComparison.Ordinal)))
            foreach ((int line, string code) in Sources.Code(file))
            {
                Assert.False(Clock().IsMatch(code), $"{file}:{line}: {Clock().Match(code).Value}: a test asks no clock. Count steps or bytes, or compare times side by side in benchmarks/Ratios.cs; wait with Patience.");
                Assert.False(OwnPatience().IsMatch(code), $"{file}:{line}: {OwnPatience().Match(code).Value}: a busy machine may take longer. Wait with Patience.");
            }
    }

    [Theory]
    [InlineData("long from = Stopwatch.GetTimestamp();")]
    [InlineData("double s = watch.Elapsed.TotalSeconds;")]
    [InlineData("Assert.True(DateTimeOffset.UtcNow - from < a);")]
    [InlineData("await Task.Delay(300);")]
    [InlineData("Thread.Sleep(20);")]
    [InlineData("stop.CancelAfter(1000);")]
    [InlineData("if (Environment.TickCount64 > last) return;")]
    [InlineData("await seen.Task.WaitAsync(TimeSpan.FromSeconds(1));")]
    [InlineData("Assert.True(SpinWait.SpinUntil(() => other.N == 4, 2000));")]
    [InlineData("Assert.True(thread.Join(5000));")]
    [InlineData("Assert.True(seen.TryTake(out var next, TimeSpan.FromSeconds(10)));")]
    [InlineData("using var stop = new CancellationTokenSource(TimeSpan.FromSeconds(20));")]
    [InlineData("bench.WaitForAssertion(() => Assert.Single(all), TimeSpan.FromSeconds(5));")]
    [InlineData("[Fact(Timeout = 2000)]")]
    public void A_clock_is_known_by_any_of_its_names(string code) => Assert.True(Clock().IsMatch(code) || OwnPatience().IsMatch(code));

    [Theory]
    [InlineData("await seen.Task.WaitAsync(Patience.ForAHang);")]
    [InlineData("hands.Now += TimeSpan.FromSeconds(119);")]
    [InlineData("using var stop = new CancellationTokenSource();")]
    [InlineData("string all = string.Join(\"\", lines);")]
    [InlineData("Assert.Null(FirstStart.PortOfFirst(temp.Path, TimeSpan.FromMilliseconds(60)));")]
    public void What_is_told_of_time_without_waiting_for_it_is_no_clock(string code) => Assert.False(Clock().IsMatch(code) || OwnPatience().IsMatch(code));

    [GeneratedRegex(@"\bStopwatch\b|\.Elapsed\b|\bTickCount|\bDateTime(Offset)?\.(Utc)?Now\b|\bTask\.Delay\b|\bThread\.Sleep\b|\bCancelAfter\b|\bCpuUsage\b|\bTotalProcessorTime\b|\bTimeout\s*=")]
    private static partial Regex Clock();

    [GeneratedRegex(@"\b(WaitAsync|SpinUntil|TryTake|Wait|WaitForExit|WaitForAssertion|WaitForState|WaitOne|CancellationTokenSource)\(.*(TimeSpan\.From|,\s*\d{3,}\)+;)|(?<!string)\.Join\((TimeSpan|\d)")]
    private static partial Regex OwnPatience();
}
