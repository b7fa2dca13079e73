using System.Diagnostics;
using System.Text.Json;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>The built program, started as a maker starts it, over a store of its own.</summary>
internal sealed class TheServer : IDisposable
{
    private Process process;

    private TheServer(Process process, string folder, string link, TimeSpan toLink) =>
        (this.process, Folder, Link, ToLink) = (process, folder, link, toLink);

    public static string Root { get; } = FindRoot();

    /// <summary>Built in the same configuration as this test, or another that is asked for.</summary>
    public static string Program { get; } = Environment.GetEnvironmentVariable("TRIMWRIGHT_PROGRAM")
        ?? Path.Combine(Root, "src", "App", "bin", new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name, "net10.0", "trimwright.dll");

    public string Folder { get; }

    public string Store => Path.Combine(Folder, "workshop.trimwright");

    /// <summary>Its first line: the link that lets one browser in, once.</summary>
    public string Link { get; private set; }

    private bool linkUsed;

    /// <summary>A link that wasn't used yet: the first line's, or that of a second start.</summary>
    public async Task<string> FreshLink()
    {
        if (linkUsed) return (await Ask("serve", "--no-browser", "--store", Store)).Split('\n')[0].Trim();
        linkUsed = true;
        return Link;
    }

    public Uri At(string path) => new(new Uri(Link), path);

    public TimeSpan ToLink { get; }

    public int Id => process.Id;

    public static async Task<TheServer> Start()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-browser").FullName;
        long from = Stopwatch.GetTimestamp();
        (Process process, string link) = await Run(folder, 0);
        return new TheServer(process, folder, link, Stopwatch.GetElapsedTime(from));
    }

    /// <summary>Kills it where it stands and starts it again at the same address.</summary>
    public async Task KillAndStartAgain()
    {
        await Kill();
        await StartAgain();
    }

    public async Task Kill()
    {
        process.Kill();
        await process.WaitForExitAsync();
    }

    /// <summary>Starts it again, at the same address or another.</summary>
    public async Task StartAgain(int? port = null)
    {
        port ??= new Uri(Link).Port;
        process.Dispose();
        (process, Link) = await Run(Folder, port.Value);
        linkUsed = false;
    }

    /// <summary>Runs another of the program's commands to its end.</summary>
    public static async Task<string> Ask(params string[] words)
    {
        using Process process = Process.Start(How(words))!;
        string output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, $"{string.Join(' ', words)}: {output}{await process.StandardError.ReadToEndAsync()}");
        return output;
    }

    /// <summary>The newest revision of the first lure, as the store has it.</summary>
    public async Task<int> Revision()
    {
        using JsonDocument list = JsonDocument.Parse(await Ask("store", "list", "--json", "--store", Store));
        return list.RootElement.GetProperty("lures")[0].GetProperty("revision").GetInt32();
    }

    /// <summary>A lure's file as the store has it now.</summary>
    public async Task<string> Export(string lure)
    {
        string file = Path.Combine(Folder, "kept.lure.json");
        await Ask("store", "export", file, "--lure", lure, "--store", Store, "--force");
        return file;
    }

    /// <summary>A lure as the store has it now.</summary>
    public async Task<JsonElement> Lure(string lure)
    {
        using JsonDocument document = JsonDocument.Parse(await File.ReadAllTextAsync(await Export(lure)));
        return document.RootElement.Clone();
    }

    /// <summary>The number of the lure that a page is about.</summary>
    public static string LureOf(IPage page) => new Uri(page.Url).Segments[2].TrimEnd('/');

    private static async Task<(Process, string)> Run(string folder, int port)
    {
        Process process = Process.Start(How("serve", "--no-browser", "--port", $"{port}", "--store", Path.Combine(folder, "workshop.trimwright")))!;
        string? link = await process.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(30));
        Assert.True(link is not null && link.StartsWith("http://127.0.0.1:", StringComparison.Ordinal), $"the first line is {link}; {process.HasExited}");
        return (process, link);
    }

    internal static ProcessStartInfo How(params string[] words)
    {
        bool alone = !Program.EndsWith(".dll", StringComparison.Ordinal);
        // Another folder than the program's: it must find its page's files all the same.
        return new ProcessStartInfo(alone ? Program : "dotnet", alone ? words : [Program, .. words]) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Path.GetTempPath() };
    }

    private static string FindRoot()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Trimwright.slnx"))) folder = Path.GetDirectoryName(folder);
        return folder ?? throw new DirectoryNotFoundException("no Trimwright.slnx above the tests");
    }

    public void Dispose()
    {
        if (!process.HasExited) process.Kill();
        process.WaitForExit();
        process.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}
