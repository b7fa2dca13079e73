using System.Diagnostics;
using Trimwright.Frozen;

namespace Trimwright.Tests.Frozen;

/// <summary>
/// The program of this tree answers as 0.1.0 did, but for what tests/Frozen/findings.json lets differ. It is asked in a process of its
/// own, for console, folder and environment are a whole process's.
/// </summary>
public class FrozenTests
{
    private static string Folder => Path.Combine(Here.Root, "tests", "Frozen");

    private static (int Exit, string Out) Compare(params string[] options)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string argument in (string[])[Path.Combine(AppContext.BaseDirectory, "Trimwright.Frozen.dll"), "compare", AppContext.BaseDirectory, Path.Combine(Folder, "0.1.0"), "--findings", Path.Combine(Folder, "findings.json"), .. options])
            start.ArgumentList.Add(argument);
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output + error.Result);
    }

    [Fact]
    public void What_0_1_0_answered_is_answered_still()
    {
        (int exit, string output) = Compare("--share", Tier.IsLong ? "all" : Tier.IsCi ? "sixth" : "quick");
        TestContext.Current.TestOutputHelper?.WriteLine(output.TrimEnd().Split('\n')[^1]);
        Assert.True(exit == 0, output);
    }

    [Fact]
    public void A_process_for_each_command_answers_the_same()
    {
        (int exit, string output) = Compare("--started", "--share", "quick", "--only", Tier.IsCi ? "tidegate-185" : "predict/tidegate-185/usual-json");
        TestContext.Current.TestOutputHelper?.WriteLine(output.TrimEnd().Split('\n')[^1]);
        Assert.True(exit == 0, output);
    }

    [Fact]
    public void Every_share_asks_every_command_and_the_sixth_is_a_part_of_the_whole()
    {
        Ask[] all = Archive.Asks(Path.Combine(Folder, "0.1.0", "answers.zip"));
        Ask[] quick = Comparison.Share(all, "quick"), sixth = Comparison.Share(all, "sixth");
        Assert.Equal(all, Comparison.Share(all, "all"));
        Assert.Empty(quick.Except(sixth));
        Assert.Empty(sixth.Except(all));
        Assert.True(6 * sixth.Length > all.Length, $"{sixth.Length} of {all.Length}");
        string[] commands = [.. all.Select(a => a.Command).Distinct().Except(["copy"])];
        Assert.Equal(commands.Order(), sixth.Select(a => a.Command).Distinct().Order());
        // Every drawn lure is asked something by each sixth.
        Assert.Equal(200, sixth.Select(a => a.Rest.Of).Where(l => l.StartsWith("random-", StringComparison.Ordinal)).Distinct().Count());
    }
}
