namespace Trimwright.Tests.App;

/// <summary>What trial asked to be said, and how.</summary>
public class TrialSayingsTests
{
    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name);

    [Fact]
    public void A_rate_is_told_as_of_a_lure_built_exactly_as_drawn()
    {
        var ran = TheProgram.Run("predict", Demo("tidegate-185.lure.json"));
        Assert.Contains("If built exactly as drawn: ", ran.Said);
        Assert.Matches("give or take [0-9]+ % by its drag alone", ran.Said);
    }

    [Fact]
    public void What_is_left_to_cure_is_told_with_the_shop_s_own_temperature()
    {
        string cold = TheProgram.Run("buildplan", Demo("tidegate-185.lure.json"), "--box", Demo("kitchen.box.json"), "--temperature", "12").Said;
        Assert.Matches("more at 12 °C before hooks or water; a warm room makes it fewer", cold);
        string warm = TheProgram.Run("buildplan", Demo("tidegate-185.lure.json"), "--box", Demo("kitchen.box.json"), "--temperature", "21").Said;
        Assert.Matches("more at 21 °C before hooks or water\\.", warm);
        Assert.DoesNotContain("a warm room", warm);
    }

    [Fact]
    public void Where_nothing_helps_much_next_says_so()
    {
        const string Little = "Nothing here helps much: build on.";
        Assert.Contains(Little, TheProgram.Run("next", Demo("finished/ebb.lure.json"), "--log", Demo("finished/ebb.log.json")).Said);
        Assert.DoesNotContain(Little, TheProgram.Run("next", Demo("tidegate-185.lure.json"), "--at", "blank").Said);
    }
}
