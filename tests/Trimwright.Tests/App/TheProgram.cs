using System.Diagnostics;

namespace Trimwright.Tests.App;

/// <summary>Runs the built program as a user's shell would.</summary>
internal static class TheProgram
{
    public sealed record Ran(int Exit, string Out, string Error, TimeSpan Took)
    {
        /// <summary>All that it said, as one line: where lines are broken depends on the length of a folder's name.</summary>
        public string Said => string.Join(' ', (Out + " " + Error).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    public static Ran Run(params IEnumerable<string> arguments) => RunIn(Here.Root, columns: 80, arguments);

    public static Ran RunIn(string folder, int columns, params IEnumerable<string> arguments) => Run(folder, columns, [], arguments);

    /// <summary>With words in its environment that are its own.</summary>
    public static Ran RunWith(IEnumerable<(string Name, string Value)> environment, params IEnumerable<string> arguments) => Run(Here.Root, 80, environment, arguments);

    private static Ran Run(string folder, int columns, IEnumerable<(string Name, string Value)> environment, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "trimwright.dll"));
        foreach (string argument in arguments) start.ArgumentList.Add(argument);
        start.Environment["COLUMNS"] = columns.ToString(System.Globalization.CultureInfo.InvariantCulture);
        foreach ((string name, string value) in environment) start.Environment[name] = value;
        long from = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Ran(process.ExitCode, output, error.Result, Stopwatch.GetElapsedTime(from));
    }
}
