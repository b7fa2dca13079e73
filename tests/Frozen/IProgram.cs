namespace Trimwright.Frozen;

/// <summary>A built program, run in the current folder.</summary>
internal interface IProgram
{
    /// <summary>Its version, as its assembly has it, without the build.</summary>
    string Version { get; }

    /// <summary>Runs one command to its end.</summary>
    (int Exit, string Out, string Error) Run(string[] arguments);
}
