using System.Text;
using Trimwright.App.Answers;
using Trimwright.Core.Design;

namespace Trimwright.App.Commands;

/// <summary>Plain text for a terminal of any width.</summary>
internal static class Paper
{
    private const int Usual = 80;
    private const int Narrowest = 28;

    /// <summary>Columns to write in.</summary>
    public static int Width
    {
        get
        {
            if (int.TryParse(Environment.GetEnvironmentVariable("COLUMNS"), out int columns)) return Math.Max(columns, Narrowest);
            try
            {
                return Console.IsOutputRedirected || Console.WindowWidth <= 0 ? Usual : Math.Clamp(Console.WindowWidth, Narrowest, 100);
            }
            catch (IOException)
            {
                return Usual;
            }
        }
    }

    /// <summary>An answer for programs, on standard output.</summary>
    public static void Print(object answer)
    {
        // To whatever the console is at the moment: whoever asks a program within another hears it there.
        Console.Out.WriteLine(AnswerJson.Text(answer));
    }

    /// <summary>Control and bidirectional characters out: a lure's name must not steer a terminal.</summary>
    public static string Plain(string text) => PlainText.Instead(text, "\uFFFD");

    /// <summary>Wraps words to a width, following lines indented.</summary>
    public static IEnumerable<string> Wrap(string text, int width, string indent = "")
    {
        var line = new StringBuilder();
        bool first = true;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            int room = width - (first ? 0 : indent.Length);
            if (line.Length > 0 && line.Length + 1 + word.Length > room)
            {
                yield return first ? line.ToString() : indent + line;
                first = false;
                line.Clear();
            }
            if (line.Length > 0) line.Append(' ');
            line.Append(word);
        }
        if (line.Length > 0) yield return first ? line.ToString() : indent + line;
    }

    /// <summary>A sentence from anywhere, cleaned, wrapped and indented; following lines hang in further.</summary>
    public static IEnumerable<string> Said(string text, int width, string indent = "", string hang = "") =>
        Wrap(Plain(text), width - indent.Length, hang).Select(line => indent + line);

    /// <summary>What a file's reader warned of, as lines for the error stream.</summary>
    public static IEnumerable<string> Notes(IEnumerable<Warning> warnings, int width) => warnings.SelectMany(warning => Said("note: " + warning, width, hang: "  "));

    // A name with less room than this stands on a line of its own.
    private const int LeastName = 14;

    /// <summary>A name at the left, values right-aligned in columns of their own; a long name takes lines of its own.</summary>
    public static IEnumerable<string> Row(string name, int width, params (string Text, int Width)[] values)
    {
        int used = values.Sum(v => Math.Max(v.Width, v.Text.Length));
        string indent = name[..(name.Length - name.TrimStart().Length)];
        // Values that have no room beside each other stand under the name as a sentence would.
        if (used > width)
        {
            foreach (string line in Wrap(name, width - indent.Length, "  ")) yield return indent + line;
            string under = indent + "  ";
            foreach (string line in Wrap(string.Join("; ", values.Select(v => v.Text.Trim()).Where(t => t.Length > 0)), width - under.Length)) yield return under + line;
            yield break;
        }
        bool beside = width - used - 1 >= LeastName;
        string[] lines = [.. Wrap(name, (beside ? width - used - 1 : width) - indent.Length, "  ").Select(line => indent + line)];
        for (int i = 0; i < lines.Length - (beside ? 1 : 0); i++) yield return lines[i];
        var row = new StringBuilder((beside && lines.Length > 0 ? lines[^1] : "").PadRight(Math.Max(width - used, 0)));
        foreach ((string text, int column) in values) row.Append(text.PadLeft(column));
        yield return row.ToString().TrimEnd();
    }
}
