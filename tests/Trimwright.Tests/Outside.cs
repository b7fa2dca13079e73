using System.Diagnostics;

namespace Trimwright.Tests;

/// <summary>
/// Programs of the operating system that some checks ask for a second opinion. Where one is absent the check is skipped
/// with the name of the Debian package to install; CI installs them all.
/// </summary>
internal static class Outside
{
    private const string Python = "/usr/bin/python3";

    /// <summary>Skips the test unless a program is on the path.</summary>
    public static void NeedProgram(string program, string package)
    {
        bool found = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
            .Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, program)));
        Assert.SkipUnless(found, $"{program} is not installed (Debian package {package})");
    }

    /// <summary>Skips the test unless the system's Python can import a module.</summary>
    public static void NeedPython(string module, string package)
    {
        bool found = File.Exists(Python) && Run(Python, ["-c", $"import {module}"]).Exit == 0;
        Assert.SkipUnless(found, $"{Python} has no {module} (Debian package {package})");
    }

    /// <summary>Skips the test when the program was built without Node, which brings the type for paper.</summary>
    public static void NeedType() => Assert.SkipUnless(Trimwright.Drawing.Typefaces.AreHere, "built without Node, so there is no type for paper (Debian package npm)");

    /// <summary>Runs a Python script and returns what it printed; fails with its complaint when it fails.</summary>
    public static string RunPython(string script, params string[] arguments)
    {
        (int exit, string output, string complaint) = Run(Python, ["-c", script, .. arguments]);
        Assert.True(exit == 0, complaint);
        return output;
    }

    public static (int Exit, string Output, string Complaint) Run(string program, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> complaint = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, complaint.GetAwaiter().GetResult());
    }
}
