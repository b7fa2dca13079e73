using Trimwright.Core.Design;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.App;

/// <summary>The contract of <c>new</c>.</summary>
public class NewCommandTests
{
    [Fact]
    public void A_starter_as_long_as_it_is_to_be_in_the_wood_there_is_and_without_weights()
    {
        using var temp = new TempStore();
        string file = temp.In("harbour-pencil.lure.json");
        var ran = TheProgram.Run("new", file, "--from", "mooring-post-210", "--length", "190", "--wood", "paulownia");
        Assert.Equal("", ran.Error);
        Assert.Equal(0, ran.Exit);
        Assert.Contains("harbour-pencil, 190 mm of", ran.Said);
        LureDesign made = LureFile.Read(File.ReadAllBytes(file)).Value!, starter = LureFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo", "mooring-post-210.lure.json"))).Value!;
        Assert.Equal(("harbour-pencil", 190.0), (made.Name, made.Body.LengthMm));
        Assert.Empty(made.Ballast);
        Assert.Equal(starter.Body.Back.Points[2].X * 190 / 210, made.Body.Back.Points[2].X, 0.01);
        Assert.NotEqual(starter.Wood.DensityGPerCm3, made.Wood.DensityGPerCm3);
        Assert.Equal(starter.Hardware.Length, made.Hardware.Length);
        // And what comes next works.
        Assert.Equal(0, TheProgram.Run("plan", file, "--want", "stands at 60 deg").Exit);
        Assert.Contains("a file that is there already", TheProgram.Run("new", file).Said);
    }

    [Fact]
    public void Inches_are_inches()
    {
        using var temp = new TempStore();
        string file = temp.In("a.lure.json");
        Assert.Equal(0, TheProgram.Run("new", file, "--length", "7.25in", "--name", "Harbour").Exit);
        Assert.Equal(7.25 * 25.4, LureFile.Read(File.ReadAllBytes(file)).Value!.Body.LengthMm, 1e-9);
    }

    [Theory]
    [InlineData("--length", "6500", "--length: got 6500; allowed: 5 to 2000.")]
    [InlineData("--length", "long", "--length: got \"long\"; allowed: a length in mm, or in inches with in after it")]
    [InlineData("--from", "tidgate-185", "Did you mean tidegate-185?")]
    [InlineData("--wood", "ceder", "--wood: got \"ceder\"; allowed: yellow-poplar,")]
    public void What_it_can_t_begin_with_is_said(string option, string value, string says)
    {
        using var temp = new TempStore();
        var ran = TheProgram.Run("new", temp.In("a.lure.json"), option, value);
        Assert.Equal(2, ran.Exit);
        Assert.Contains(says, ran.Said);
        Assert.False(File.Exists(temp.In("a.lure.json")));
    }
}
