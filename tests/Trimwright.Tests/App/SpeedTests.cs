namespace Trimwright.Tests.App;

/// <summary>How long whole commands take, from a built program.</summary>
[Collection(nameof(Alone))]
public class SpeedTests
{
    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name + ".lure.json");

    [Fact]
    public void A_prediction_of_a_demo_takes_under_a_second_from_a_built_program()
    {
        TheProgram.Run("predict", Demo("slipway-150"), "--json");
        TimeSpan best = Enumerable.Range(0, 3).Min(_ => TheProgram.Run("predict", Demo("slipway-150"), "--json").Took);
        TestContext.Current.TestOutputHelper?.WriteLine($"predict --json: best of three {best.TotalMilliseconds:F0} ms");
        Assert.True(best < TimeSpan.FromSeconds(1), $"{best.TotalMilliseconds:F0} ms");
    }
}
