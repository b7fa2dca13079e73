using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>The program as it is started: its first line, a second start, an end.</summary>
public partial class ServeCommandTests
{
    [Fact]
    public async Task It_prints_a_link_first_and_a_second_start_finds_the_first_and_brings_a_link_of_its_own()
    {
        using var temp = new TempStore();
        using Process first = Start(temp);
        try
        {
            string link = (await Line(first))!, key = KeyOf(link);
            Assert.Equal(HttpStatusCode.OK, (await Bring(link, key)).StatusCode);
            // Each link lets one browser in.
            Assert.Equal(HttpStatusCode.Forbidden, (await Bring(link, key)).StatusCode);
            using Process second = Start(temp);
            string fresh = (await Line(second))!;
            Assert.Equal(new Uri(link).Port, new Uri(fresh).Port);
            Assert.NotEqual(key, KeyOf(fresh));
            Assert.Contains("running already", await second.StandardOutput.ReadToEndAsync());
            await second.WaitForExitAsync();
            Assert.Equal(0, second.ExitCode);
            Assert.Equal(HttpStatusCode.OK, (await Bring(fresh, KeyOf(fresh))).StatusCode);
            Assert.Equal(HttpStatusCode.Forbidden, (await Bring(fresh, KeyOf(fresh))).StatusCode);
            if (!OperatingSystem.IsWindows())
                foreach (string file in Directory.GetFiles(temp.Folder, "*.server-*"))
                    Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }
        finally
        {
            first.Kill();
            await first.WaitForExitAsync();
        }
        // Killed, not ended: the next start takes its place all the same.
        using Process third = Start(temp);
        try
        {
            Assert.Matches(Link(), await Line(third));
            Assert.DoesNotContain("running already", await Line(third) ?? "");
        }
        finally
        {
            third.Kill();
            await third.WaitForExitAsync();
        }
    }

    [Fact]
    public async Task The_browser_is_given_a_path_and_the_key_inside_is_good_once()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "looks at what is called as xdg-open is on Linux");
        using var temp = new TempStore();
        using Process first = Start(temp, browser: true);
        try
        {
            string link = (await Line(first))!;
            (string note, string key) = await Opened(temp, 1);
            Assert.StartsWith(temp.In("data/trimwright/enter/"), note);
            Assert.NotEqual(KeyOf(link), key);
            HttpResponseMessage answer = await Bring(link, key);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Contains("data-word", await answer.Content.ReadAsStringAsync());
            // Used, it is gone, and good no more.
            Assert.False(File.Exists(note));
            Assert.Equal(HttpStatusCode.Forbidden, (await Bring(link, key)).StatusCode);

            using Process second = Start(temp, browser: true);
            await second.WaitForExitAsync();
            (string other, string fresh) = await Opened(temp, 2);
            Assert.NotEqual(note, other);
            Assert.Equal(HttpStatusCode.OK, (await Bring(link, fresh)).StatusCode);
            Assert.False(File.Exists(other));
        }
        finally
        {
            first.Kill();
            await first.WaitForExitAsync();
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

    [GeneratedRegex(@"^http://127\.0\.0\.1:\d+/enter#[\w-]{48}$")]
    private static partial Regex Link();

    private static string KeyOf(string link)
    {
        Assert.Matches(Link(), link);
        return new Uri(link).Fragment[1..];
    }

    // As the note does it: from nowhere.
    private static async Task<HttpResponseMessage> Bring(string link, string key)
    {
        using var browser = new HttpClient(new SocketsHttpHandler { UseProxy = false, UseCookies = false });
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(link).GetLeftPart(UriPartial.Path));
        request.Content = new FormUrlEncodedContent([new("key", key)]);
        request.Headers.Add("Origin", "null");
        return await browser.SendAsync(request);
    }

    /// <summary>What the stand-in for a browser was called with, and the key in that file.</summary>
    internal static async Task<(string Note, string Key)> Opened(TempStore temp, int times)
    {
        string[] called = [];
        await Patience.Until(async () => (called = File.Exists(temp.In("called")) ? await File.ReadAllLinesAsync(temp.In("called")) : []).Length >= times, "no browser was called");
        return (called[times - 1], Regex.Match(await File.ReadAllTextAsync(called[times - 1]), "value=\"([^\"]+)\"").Groups[1].Value);
    }

    /// <summary>Starts the program; with a stand-in for the system's way to open a file, which stays as a browser would.</summary>
    internal static Process Start(TempStore temp, bool browser = false)
    {
        var how = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        string program = Path.Combine(AppContext.BaseDirectory, "trimwright.dll");
        foreach (string word in (string[])[program, "serve", "--store", temp.Path]) how.ArgumentList.Add(word);
        if (!browser) how.ArgumentList.Add("--no-browser");
        if (browser)
        {
            Directory.CreateDirectory(temp.In("bin"));
            string opener = temp.In("bin/xdg-open");
            File.WriteAllText(opener, $"#!/bin/sh\nprintf '%s\\n' \"$@\" >> {temp.In("called")}\nsleep 30\n");
            if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(opener, UnixFileMode.UserRead | UnixFileMode.UserExecute);
            how.Environment["PATH"] = temp.In("bin") + Path.PathSeparator + Environment.GetEnvironmentVariable("PATH");
            how.Environment["XDG_DATA_HOME"] = temp.In("data");
        }
        return Process.Start(how)!;
    }

    internal static Task<string?> Line(Process process) => process.StandardOutput.ReadLineAsync().WaitAsync(Patience.ForAHang);
}
