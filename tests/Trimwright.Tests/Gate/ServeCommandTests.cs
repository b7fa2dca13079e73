using System.Diagnostics;
using System.Net;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>The program as it is started: its first line, a second start, an end.</summary>
public class ServeCommandTests
{
    [Fact]
    public async Task It_prints_its_address_first_and_a_second_start_finds_the_first()
    {
        using var temp = new TempStore();
        using Process first = Start(temp.Path);
        try
        {
            string link = (await Line(first))!;
            Assert.Matches(@"^http://127\.0\.0\.1:\d+/enter\?key=[\w-]{43}$", link);
            using (var browser = new HttpClient(new SocketsHttpHandler { UseProxy = false }))
                Assert.Contains("Ask before it is glued shut", await browser.GetStringAsync(link));
            using Process second = Start(temp.Path);
            Assert.Equal(link, await Line(second));
            Assert.Contains("running already", await second.StandardOutput.ReadToEndAsync());
            await second.WaitForExitAsync();
            Assert.Equal(0, second.ExitCode);
            if (!OperatingSystem.IsWindows())
            {
                UnixFileMode others = UnixFileMode.GroupRead | UnixFileMode.OtherRead | UnixFileMode.GroupWrite | UnixFileMode.OtherWrite;
                Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(temp.In("secret")) & others);
            }
        }
        finally
        {
            first.Kill();
            await first.WaitForExitAsync();
        }
        // Killed, not ended: the next start takes its place all the same.
        using Process third = Start(temp.Path);
        try
        {
            Assert.StartsWith("http://127.0.0.1:", await Line(third));
            Assert.DoesNotContain("running already", await Line(third) ?? "");
        }
        finally
        {
            third.Kill();
            await third.WaitForExitAsync();
        }
    }

    [Theory]
    [InlineData("--port", "70000")]
    [InlineData("--store", "/proc/none/there.db")]
    public void What_cannot_be_is_said_in_a_sentence(params string[] options)
    {
        if (OperatingSystem.IsWindows() && options[0] == "--store") return;
        App.TheProgram.Ran ran = App.TheProgram.Run(["serve", "--no-browser", .. options]);
        Assert.True(ran.Exit is 2 or 4, $"{ran.Exit}: {ran.Out}{ran.Error}");
        Assert.Contains("allowed:", ran.Error);
        Assert.DoesNotContain("   at ", ran.Error);
    }

    private static Process Start(string store)
    {
        var how = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string word in new[] { Path.Combine(AppContext.BaseDirectory, "trimwright.dll"), "--no-browser", "--store", store }) how.ArgumentList.Add(word);
        return Process.Start(how)!;
    }

    private static Task<string?> Line(Process process) => process.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(30));
}
