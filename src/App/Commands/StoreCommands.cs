using System.ComponentModel;
using System.Globalization;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Commands;

/// <summary>The commands over the store, each a few lines over <see cref="Keep"/>.</summary>
internal static class StoreCommands
{
    /// <param name="store">Takes the commands.</param>
    /// <param name="settings">Takes their settings, by their words.</param>
    public static void Add(IConfigurator<CommandSettings> store, IDictionary<string, Type> settings)
    {
        store.SetDescription("What is kept between sessions: see it, copy it, bring a copy back, all of it as JSON.");
        Add<List>("list", "Lures and box, with their numbers.");
        Add<Check>("check", "Looks through the whole store for anything that is not as it was written.");
        Add<BackUp>("backup", "Copies the whole store into one file, while it is in use.");
        Add<Restore>("restore", "Puts a backup in the store's place; what is replaced is kept beside it.");
        Add<Export>("export", "Writes everything as one JSON file, or one lure as its file.");
        Add<Import>("import", "Adds what an export holds and the store lacks, or a lure, or a box.");

        void Add<T>(string name, string what)
            where T : class, ICommandLimiter<CommandSettings>
        {
            store.AddCommand<T>(name).WithDescription(what);
            settings["store " + name] = CommandLine.SettingsOf<T>();
        }
    }

    internal class Settings : CommandSettings
    {
        [CommandOption("--store <FILE>")]
        [Description("The store's file; your own data folder's when left out.")]
        public string? Store { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    internal class FileSettings : Settings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("The file to write or to read.")]
        public required string File { get; init; }
    }

    internal sealed class NewSettings : FileSettings
    {
        [CommandOption("--new")]
        [Description("Begin a store where --store names none.")]
        public bool New { get; init; }
    }

    internal class ForceSettings : FileSettings
    {
        [CommandOption("--force")]
        [Description("Overwrite a file of the same name.")]
        public bool Force { get; init; }
    }

    internal sealed class ExportSettings : ForceSettings
    {
        [CommandOption("--lure <NUMBER>")]
        [Description("Only this lure, as a lure file.")]
        public long? Lure { get; init; }

        [CommandOption("--readings <NUMBER>")]
        [Description("Only what was read of this lure's newest build, as a log file for readings and next.")]
        public long? Readings { get; init; }
    }

    internal sealed class List : Command<Settings>
    {
        public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
        {
            var (lures, builds, box) = Keep.List(settings.Store, Note);
            Say(settings, StoreListJson.Of(lures, builds, box), [.. lures.Select(lure => Line(lure, builds)), box is null ? "No box yet." : $"Box: {box.Name}, {Count(box.N, "revision")}."]);
            return (int)Exit.Done;
        }

        private static string Line(KeptLure lure, IReadOnlyList<Build> builds)
        {
            int built = builds.Count(b => b.Lure == lure.Id);
            string at = lure.Newest.At.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
            return $"{lure.Id}. {lure.Name}, {Count(lure.Newest.N, "revision")}, {(built > 0 ? Count(built, "build") + ", " : "")}saved {at}{(lure.IsPutAway ? ", put away" : "")}";
        }
    }

    internal sealed class Check : Command<Settings>
    {
        public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
        {
            var (lures, revisions) = Keep.Check(settings.Store, Note);
            Say(settings, new StoreCheckJson(true, lures, revisions), [$"The store is whole: {Count(lures, "lure")} in {Count(revisions, "revision")}, every row as it was written."]);
            return (int)Exit.Done;
        }
    }

    internal sealed class BackUp : Command<ForceSettings>
    {
        public override int Execute(CommandContext context, ForceSettings settings, CancellationToken cancellation)
        {
            Keep.BackUp(settings.Store, settings.File, settings.Force, Note);
            Say(settings, new StoreWrittenJson(settings.File), [$"The whole store is in {settings.File}, and was found whole."]);
            return (int)Exit.Done;
        }
    }

    internal sealed class Restore : Command<NewSettings>
    {
        public override int Execute(CommandContext context, NewSettings settings, CancellationToken cancellation)
        {
            string? kept = Keep.Restore(settings.Store, settings.File, settings.New);
            Say(settings, new StoreRestoreJson(kept),
                [kept is null ? $"The store is that of {settings.File} now." : $"The store is that of {settings.File} now. What it was before is kept in {kept}."]);
            return (int)Exit.Done;
        }
    }

    internal sealed class Export : Command<ExportSettings>
    {
        public override int Execute(CommandContext context, ExportSettings settings, CancellationToken cancellation)
        {
            Keep.Export(settings.Store, settings.File, settings.Lure, settings.Readings, settings.Force, Note);
            Say(settings, new StoreWrittenJson(settings.File), [settings.Readings is not null ? $"What was read of it is in {settings.File}." : $"{(settings.Lure is null ? "Everything" : "The lure")} is in {settings.File}."]);
            return (int)Exit.Done;
        }
    }

    internal sealed class Import : Command<NewSettings>
    {
        public override int Execute(CommandContext context, NewSettings settings, CancellationToken cancellation)
        {
            TakenIn taken = Keep.Import(settings.Store, settings.File, settings.New);
            foreach (Warning warning in taken.Warnings) Note(warning.ToString());
            Imported added = taken.Added;
            string what = added.Lures + added.Revisions + added.Builds + added.Entries + added.Photos == 0
                ? $"Nothing new in {taken.What}: it was there already."
                : $"Added from {taken.What}: {Count(added.Lures, "lure")}, {Count(added.Revisions, "revision")}, {Count(added.Builds, "build")}, {Count(added.Entries, "log entry", "log entries")}{(added.Photos > 0 ? $", {Count(added.Photos, "photo")}" : "")}.";
            Say(settings, StoreImportJson.Of(added), [what, .. added.Differing.Select(name => $"Left as it is here, since it went another way in the file: {name}.")]);
            return (int)Exit.Done;
        }
    }

    private static string Count(int n, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{n} {(n == 1 ? one : many ?? one + "s")}");

    private static void Say(Settings settings, object answer, IEnumerable<string> lines)
    {
        if (Keep.Doubt(settings.Store) is { } doubt) Note(doubt);
        if (!settings.Json)
        {
            foreach (string text in lines)
                foreach (string line in Paper.Wrap(Paper.Plain(text), Paper.Width, "   ")) Console.Out.WriteLine(line);
            return;
        }
        Paper.Print(answer);
    }

    private static void Note(string text)
    {
        foreach (string line in Paper.Wrap(Paper.Plain("note: " + text), Paper.Width, "  ")) Console.Error.WriteLine(line);
    }
}
