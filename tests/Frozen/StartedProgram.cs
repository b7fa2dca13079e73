using System.Diagnostics;
using System.Text;

namespace Trimwright.Frozen;

/// <summary>The program started as a process for each command, as a maker's shell does: slow, and the oracle of <see cref="LoadedProgram"/>.</summary>
internal sealed class StartedProgram(string folder) : IProgram
{
    private readonly string folder = Path.GetFullPath(folder);

    public string Version => FileVersionInfo.GetVersionInfo(Path.Combine(folder, "trimwright.dll")).FileVersion!.Split('.') is [var a, var b, var c, ..]
        ? $"{a}.{b}.{c}" : throw new InvalidOperationException("a program without a version");

    public (int Exit, string Out, string Error) Run(string[] arguments)
    {
        // A program that was published to run on its own brings .NET itself.
        bool alone = File.Exists(Path.Combine(folder, "System.Private.CoreLib.dll"));
        var start = new ProcessStartInfo(alone ? Path.Combine(folder, "trimwright") : "dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };
        if (!alone) start.ArgumentList.Add(Path.Combine(folder, "trimwright.dll"));
        foreach (string argument in arguments) start.ArgumentList.Add(argument);
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, error.Result);
    }
}
