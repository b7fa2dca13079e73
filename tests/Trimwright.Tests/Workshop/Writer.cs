using System.Diagnostics;
using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A second process that writes into a store and can be killed; what it was acknowledged stands on its output.</summary>
internal sealed class Writer : IDisposable
{
    private readonly Process process;
    private readonly Task<string> output, error;

    public Writer(params IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Trimwright.StoreWriter.dll"));
        foreach (string argument in arguments) start.ArgumentList.Add(argument);
        process = Process.Start(start)!;
        error = process.StandardError.ReadToEndAsync();
        output = Drain();
    }

    /// <summary>What it wrote on standard error until its end.</summary>
    public string Complaint() => error.GetAwaiter().GetResult();

    /// <summary>Lines so far, complete ones.</summary>
    public int Lines { get; private set; }

    /// <summary>SIGKILL, where there are signals; then everything that it had written.</summary>
    public string[] Kill()
    {
        if (!process.HasExited) process.Kill();
        return End();
    }

    /// <summary>Waits for its end; then everything that it wrote, without a line that was cut off.</summary>
    public string[] End()
    {
        process.WaitForExit();
        string all = output.GetAwaiter().GetResult();
        return all[..(all.LastIndexOf('\n') + 1)].Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }

    /// <summary>Waits for so many lines, or its end.</summary>
    public void AwaitLines(int lines) => Patience.Until(() => Lines >= lines || process.HasExited, "the writer hangs");

    /// <summary>Lets a writer go on that said "ready" and waits.</summary>
    public void Go()
    {
        process.StandardInput.WriteLine();
        process.StandardInput.Flush();
    }

    public bool HasExited => process.HasExited;

    public int ExitCode => process.ExitCode;

    private async Task<string> Drain()
    {
        var all = new System.Text.StringBuilder();
        var buffer = new char[4096];
        for (int got; (got = await process.StandardOutput.ReadAsync(buffer)) > 0;)
        {
            all.Append(buffer, 0, got);
            Lines += buffer.AsSpan(0, got).Count('\n');
        }
        return all.ToString();
    }

    /// <summary>Each acknowledged edit is there, at its place, to the byte; every chain and the order of all writes are without a gap.</summary>
    public static void CheckAll(Store store, IEnumerable<string> acknowledged)
    {
        CheckAcks(store, acknowledged);
        CheckWhole(store);
    }

    /// <summary>Each acknowledged edit is there, at its place, to the byte. A line is lure, revision, edit and the design's name where that is another.</summary>
    public static void CheckAcks(Store store, IEnumerable<string> acknowledged)
    {
        foreach (string[] ack in acknowledged.Where(line => line.Contains(' ')).Select(line => line.Split(' ')))
        {
            Revision<LureDesign>? kept = store.Revision(long.Parse(ack[0], CultureInfo.InvariantCulture), int.Parse(ack[1], CultureInfo.InvariantCulture));
            Assert.True(kept is not null, $"lure {ack[0]} revision {ack[1]} was acknowledged and is not there");
            Assert.Equal(ack[2], kept.EditId);
            Assert.Equal(LoadDesign.Text(ack[^1]), kept.Text);
        }
    }

    /// <summary>Whole, and a prefix of what was written: ids 1 to K, each text that of its edit.</summary>
    /// <returns>K, how many revisions there are.</returns>
    public static int CheckWhole(Store store, bool texts = false)
    {
        using var db = Connections.OpenForReading(store.Path);
        Assert.Equal("ok", db.One("PRAGMA integrity_check"));
        Assert.Null(Health.Of(db));
        long count = db.Number("SELECT count(*) FROM revision")!.Value, highest = db.Number("SELECT coalesce(max(id), 0) FROM revision")!.Value;
        Assert.Equal(count, highest);
        Assert.Equal(count, db.Number("SELECT count(*) FROM change WHERE what = 'lure'"));
        if (texts)
            foreach ((string edit, string text) in db.All("SELECT edit_id, design FROM revision", row => (row.GetString(0), row.GetString(1))))
                Assert.Equal(LoadDesign.Text(edit), text);
        return (int)count;
    }

    public void Dispose()
    {
        if (!process.HasExited) process.Kill();
        process.WaitForExit();
        process.Dispose();
    }
}
