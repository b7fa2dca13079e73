using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Carried;

namespace Trimwright.App.Commands;

internal sealed class NoticesCommand : Command<NoticesCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "[NAME]")]
        [Description("Print the licence of this part in full.")]
        public string? Name { get; init; }

        [CommandOption("--texts")]
        [Description("Print every licence in full.")]
        public bool Texts { get; init; }
    }

    private const int NameWidth = 44, VersionWidth = 12;

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        IReadOnlyList<ShippedPart> parts = settings.Name is { } name ? Named(name) : Notices.All;
        foreach (ShippedPart part in parts) Console.Out.WriteLine(Line(part));
        if (settings.Name is null && !settings.Texts)
        {
            Console.Out.WriteLine();
            foreach (string line in Paper.Wrap("trimwright notices NAME prints one licence in full, --texts all of them.", Paper.Width)) Console.Out.WriteLine(line);
            return (int)Exit.Done;
        }
        // A text that several share is printed once, under all their names.
        foreach (IGrouping<string, ShippedPart> shared in parts.SelectMany(p => p.Texts.Select(t => (Part: p, Text: t))).GroupBy(x => x.Text, x => x.Part))
        {
            Console.Out.WriteLine();
            foreach (string line in Paper.Wrap($"== {string.Join(", ", shared.Select(Name))}", Paper.Width, "   ")) Console.Out.WriteLine(line);
            Console.Out.WriteLine();
            foreach (string line in shared.Key.Split('\n')) Console.Out.WriteLine(Paper.Plain(line.Replace('\t', ' ').Replace('\f', ' ')));
        }
        return (int)Exit.Done;
    }

    private static IReadOnlyList<ShippedPart> Named(string word) => Notices.Named(word) is { Count: > 0 } some ? some
        : throw new Refusal(Exit.InputWrong, "name", word, "nothing of that name", "a name of the list", "See trimwright notices.");

    private static string Name(ShippedPart part) => part.Within is { } within ? $"{part.Name} (in {within})" : part.Name;

    private static string Line(ShippedPart part) =>
        Paper.Width >= NameWidth + VersionWidth + 12
            ? $"{Name(part).PadRight(NameWidth)}{part.Version.PadRight(VersionWidth)}{part.Licence}".TrimEnd()
            : $"{Name(part)} {part.Version}: {part.Licence}";
}
