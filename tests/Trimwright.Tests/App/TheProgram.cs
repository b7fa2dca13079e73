using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using System.Text.Json;
using Trimwright.Frozen;

namespace Trimwright.Tests.App;

/// <summary>
/// Runs the built program as a user's shell would. In CI each command has a process of its own. In the quick tier the program is loaded
/// once into a process beside the tests and entered again and again at its own entry point, for a start costs more than most answers;
/// a few tests start it all the same.
/// </summary>
internal static class TheProgram
{
    public sealed record Ran(int Exit, string Out, string Error)
    {
        /// <summary>All that it said, as one line: where lines are broken depends on the length of a folder's name.</summary>
        public string Said => string.Join(' ', (Out + " " + Error).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    // What serves a page, or is about files that other processes hold, has a process to itself in every tier.
    private static readonly string[] Alone = ["serve", "store"];

    public static Ran Run(params IEnumerable<string> arguments) => RunIn(Here.Root, columns: 80, arguments);

    public static Ran RunIn(string folder, int columns, params IEnumerable<string> arguments) =>
        Tier.IsCi || Alone.Contains(arguments.FirstOrDefault()) ? Start(folder, columns, [], arguments) : Attendant.Ask(folder, columns, [.. arguments]);

    /// <summary>In the one process that answers again and again, in every tier: for thousands of commands.</summary>
    public static Ran Attended(string folder, int columns, params IEnumerable<string> arguments) => Attendant.Ask(folder, columns, [.. arguments]);

    /// <summary>In a process of its own, in every tier.</summary>
    public static Ran Start(params IEnumerable<string> arguments) => Start(Here.Root, 80, [], arguments);

    /// <summary>With something on its standard input.</summary>
    public static Ran Fed(string input, params IEnumerable<string> arguments) => Start(Here.Root, 80, [], arguments, input);

    /// <summary>With words in its environment that are its own.</summary>
    public static Ran RunWith(IEnumerable<(string Name, string Value)> environment, params IEnumerable<string> arguments) => Start(Here.Root, 80, environment, arguments);

    private static Ran Start(string folder, int columns, IEnumerable<(string Name, string Value)> environment, IEnumerable<string> arguments, string input = "")
    {
        ProcessStartInfo start = Beside("trimwright.dll", arguments);
        start.WorkingDirectory = folder;
        start.Environment["COLUMNS"] = columns.ToString(System.Globalization.CultureInfo.InvariantCulture);
        foreach ((string name, string value) in environment) start.Environment[name] = value;
        using Process process = Process.Start(start)!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Ran(process.ExitCode, output, error.Result);
    }

    private static ProcessStartInfo Beside(string dll, IEnumerable<string> arguments) => new("dotnet", [Path.Combine(AppContext.BaseDirectory, dll), .. arguments])
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        RedirectStandardInput = true,
        StandardOutputEncoding = new UTF8Encoding(false),
        StandardInputEncoding = new UTF8Encoding(false),
    };

    /// <summary>A process that answers one command after another; it ends when the tests do, as its input does.</summary>
    private sealed class Attendant
    {
        private static readonly ConcurrentBag<Attendant> Idle = [];

        private readonly Process process = Process.Start(Beside("Trimwright.Frozen.dll", ["attend", AppContext.BaseDirectory]))!;
        private readonly Task<string> error;

        private Attendant() => error = process.StandardError.ReadToEndAsync();

        public static Ran Ask(string folder, int columns, string[] arguments)
        {
            Attendant one = Idle.TryTake(out Attendant? idle) ? idle : new Attendant();
            Ran answer = one.Answer(folder, columns, arguments);
            Idle.Add(one);
            return answer;
        }

        private Ran Answer(string folder, int columns, string[] arguments)
        {
            process.StandardInput.WriteLine(JsonSerializer.Serialize(new Trimwright.Frozen.Attendant.Asked(folder, columns, arguments)));
            process.StandardInput.Flush();
            string line = process.StandardOutput.ReadLine() ?? throw new InvalidOperationException($"{string.Join(' ', arguments)} ended the process: {error.Result}");
            Trimwright.Frozen.Attendant.Answered answered = JsonSerializer.Deserialize<Trimwright.Frozen.Attendant.Answered>(line)!;
            return new Ran(answered.Exit, answered.Out, answered.Error);
        }
    }
}
