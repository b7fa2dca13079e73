using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Work;

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
        foreach (string path in Demo.Run(settings.Folder, settings.Force)) Console.Out.WriteLine(Paper.Plain(path));
        return (int)Exit.Done;
    }
}
