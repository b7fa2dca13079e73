using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Carried;

namespace Trimwright.App.Commands;

internal sealed class DemoCommand : Command<DemoCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "[DIR]")]
        [Description("Folder to write to; this one when left out.")]
        public string Folder { get; init; } = ".";

        [CommandOption("--force")]
        [Description("Overwrite files of the same names.")]
        public bool Force { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        foreach (string path in Write(settings.Folder, settings.Force)) Console.Out.WriteLine(Paper.Plain(path));
        return (int)Exit.Done;
    }

    /// <summary>Writes the demo lures, the demo box and finished builds into a folder; returns their paths.</summary>
    internal static IReadOnlyList<string> Write(string folder, bool force)
    {
        Files.Named(folder, "DIR");
        (string Path, byte[] Bytes)[] files = [.. DemoFiles.All.Select(f => (Path.Combine([folder, .. f.Name.Split('/')]), f.Bytes))];
        Files.Save(files, force);
        return [.. files.Select(f => f.Path)];
    }
}
