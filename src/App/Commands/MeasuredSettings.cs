using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary>What every command takes that tells numbers.</summary>
internal abstract class MeasuredSettings : CommandSettings
{
    [CommandOption("--units <UNITS>")]
    [Description("mm or in; JSON is in mm and g always.")]
    [DefaultValue("mm")]
    public string Units { get; init; } = "mm";

    /// <summary>In which units to say it.</summary>
    public Notation Notation => Options.Units(Units);

    /// <summary>Units that nobody knows are refused before anything is worked out, let alone written.</summary>
    public override Spectre.Console.ValidationResult Validate()
    {
        _ = Notation;
        return base.Validate();
    }
}
