using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Questions;

namespace Trimwright.App.Commands;

internal sealed class ServeSettings : CommandSettings
{
    [CommandOption("--port <N>")]
    [Description("The page's port on this machine; any that is free when left out.")]
    public int Port { get; init; }

    [CommandOption("--no-browser")]
    [Description("Open no browser: print the page's address as the first line.")]
    public bool NoBrowser { get; init; }

    [CommandOption("--store <FILE>")]
    [Description("Keep lures in this file instead of the account's own.")]
    public string? Store { get; init; }

    /// <summary>The port asked for, checked.</summary>
    public int SoundPort => Port is >= 0 and <= 65535 ? Port : throw Options.Wrong("--port", $"{Port}", "0 to 65535", "Choose a port from 1024 on, or leave it out.");
}
