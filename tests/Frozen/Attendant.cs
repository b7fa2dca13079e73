using System.Text.Json;

namespace Trimwright.Frozen;

/// <summary>Answers command after command in one process, a line of JSON for a line of JSON, until nobody asks any more.</summary>
internal static class Attendant
{
    /// <param name="Folder">Where it is asked from.</param>
    /// <param name="Columns">How wide the terminal is said to be.</param>
    /// <param name="Arguments">As typed.</param>
    internal sealed record Asked(string Folder, int Columns, string[] Arguments);

    internal sealed record Answered(int Exit, string Out, string Error);

    public static void Attend(IProgram program, TextReader from, TextWriter to)
    {
        while (from.ReadLine() is { } line)
        {
            Asked asked = JsonSerializer.Deserialize<Asked>(line)!;
            Directory.SetCurrentDirectory(asked.Folder);
            Environment.SetEnvironmentVariable("COLUMNS", asked.Columns.ToString(System.Globalization.CultureInfo.InvariantCulture));
            (int exit, string said, string error) = program.Run(asked.Arguments);
            to.WriteLine(JsonSerializer.Serialize(new Answered(exit, said, error)));
        }
    }
}
