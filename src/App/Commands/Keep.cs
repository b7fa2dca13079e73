using System.Security.Cryptography;
using Trimwright.App.Faults;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Workshop;

namespace Trimwright.App.Commands;

/// <summary>What came in: how much was new, and what was left as it is here.</summary>
internal sealed record TakenIn(string What, Imported Added, IReadOnlyList<Warning> Warnings);

/// <summary>What a maker asks with <c>store</c>: what is kept, a copy of it, a copy back, all of it as JSON.</summary>
internal static class Keep
{
    /// <summary>The file of the store asked for, or of the maker's own. A folder that is not there is a slip: none is made for a store.</summary>
    public static string FileOf(string? store)
    {
        if (store is null) return DataFolder.Usual.StoreFile;
        string folder = Path.GetDirectoryName(Path.GetFullPath(Files.Named(store, "--store"))) ?? "";
        return Directory.Exists(folder) ? store
            : throw new Refusal(Exit.CommandLineWrong, "command-line", "--store", $"{store}, in a folder that is not there", "a file in a folder that is there", "Check the name, or make the folder first.");
    }

    /// <summary>A sentence when the store lies where it may be torn apart.</summary>
    public static string? Doubt(string? store) => FolderDoubt.Of(FileOf(store));

    /// <summary>Everything kept: lures, put away or not, and how many builds there are of each.</summary>
    /// <param name="store">The store; null: the maker's own.</param>
    /// <param name="note">Is told how it was read, if not as usual.</param>
    public static (IReadOnlyList<KeptLure> Lures, IReadOnlyList<Build> Builds, Revision<MakersBox>? Box) List(string? store, Action<string> note) => ToRead(store, note, null, kept =>
        (kept.Lures(withPutAway: true), kept.Builds(), kept.Box()));

    /// <summary>Looks through everything; how many lures and revisions were found whole, or a refusal that names the first that isn't.</summary>
    public static (int Lures, int Revisions) Check(string? store, Action<string> note) => ToRead(store, note, null, kept =>
    {
        if (kept.Check() is { } fault) throw new Refusal(Exit.MachineRefused, [fault]);
        IReadOnlyList<KeptLure> lures = kept.Lures(withPutAway: true);
        return (lures.Count, lures.Sum(l => l.Newest.N));
    });

    public static void BackUp(string? store, string file, bool force, Action<string> note) => ToRead(store, note, Files.Named(file), kept =>
    {
        Absent(kept, file, force);
        kept.BackUp(file);
        return 0;
    });

    /// <summary>Returns where the replaced store lies, null when there was none.</summary>
    /// <param name="store">The store; null: the maker's own.</param>
    /// <param name="file">The backup.</param>
    /// <param name="begin">Whether one may be begun where none is.</param>
    public static string? Restore(string? store, string file, bool begin)
    {
        Files.Named(file);
        string to = There(store, begin);
        try
        {
            return Store.Restore(to, file);
        }
        catch (StoreRefusal e) when (e.Fault.Path == file && e.Cause is RefusalCause.NotAStore or RefusalCause.Damaged)
        {
            string next = "Nothing was changed; name a file that `trimwright store backup` wrote.";
            throw new Refusal(Exit.InputWrong, [e.Fault with { Next = next }]);
        }
        catch (StoreRefusal e)
        {
            throw Refusal.Of(e);
        }
    }

    /// <summary>Everything as JSON, or one lure as its file.</summary>
    public static void Export(string? store, string file, long? lure, long? readings, bool force, Action<string> note) => ToRead(store, note, Files.Named(file), kept =>
    {
        if (lure is not null && readings is not null)
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--lure --readings", "both", "one of the two", "A lure and what was read of it are two files: export one, then the other.");
        Absent(kept, file, force);
        if (readings is { } of)
        {
            if (kept.Builds(of) is not [.., var build])
                throw new Refusal(Exit.InputWrong, "readings", $"{of}", "a lure without a reading, or a number that no lure has", "a lure that something was read of", "See trimwright store list: it counts the builds of each lure.");
            Files.Save(file, System.Text.Encoding.UTF8.GetBytes(BuildLog.Of(kept, build, kept.Newest(of)!.Name) + "\n"), force: true);
            return 0;
        }
        if (lure is not { } id)
        {
            kept.Export(file);
            return 0;
        }
        Revision<LureDesign> newest = kept.Newest(id)
            ?? throw new Refusal(Exit.InputWrong, "lure", $"{id}", "a number that no lure has", "one of `trimwright store list`", "See trimwright store list.");
        Files.Save(file, System.Text.Encoding.UTF8.GetBytes(newest.Text), force: true);
        return 0;
    });

    /// <summary>Takes in an export, a lure or a box.</summary>
    /// <param name="store">The store; null: the maker's own.</param>
    /// <param name="file">The file.</param>
    /// <param name="begin">Whether a store may be begun where none is.</param>
    public static TakenIn Import(string? store, string file, bool begin)
    {
        byte[] start = Files.Load(file);
        string into = There(store, begin);
        if (BoxFile.IsBox(start)) return ImportBox(into, Sound(BoxFile.Read(start)));
        Reading<LureDesign> lure = LureFile.Read(start);
        if (lure.IsSound) return ImportLure(into, lure, start);
        if (Other(start) is var (what, next)) throw new Refusal(Exit.InputWrong, "wrong-type", file, what, "an export of a store, a lure or a box", next);
        Reading<Imported> reading = With(into, kept =>
        {
            using FileStream from = File.OpenRead(file);
            return kept.Import(from);
        });
        if (reading.Value is { } all) return new TakenIn("the export", all, []);
        // Not an export: then it was a lure that is not sound, unless it says what it is.
        bool neither = reading.Faults[0].Kind == "wrong-type" && lure.Faults[0].Kind != "syntax";
        throw new Refusal(Exit.InputWrong, neither ? lure.Faults : reading.Faults);
    }

    // Files of ours that are none of the three, each with what it is for.
    private static (string What, string Next)? Other(byte[] start) =>
        LogFile.IsLog(start) ? ("a tub log", "Nothing was imported; what it says of a lure: trimwright readings LURE --log FILE.")
        : WantFile.IsWant(start) ? ("a want", "Nothing was imported; plan by it: trimwright plan LURE --want FILE.")
        : HandFile.IsHand(start) ? ("a hand", "Nothing was imported; say it beside a lure with --hand FILE.")
        : start.AsSpan().StartsWith("SQLite format 3"u8) ? ("a store or a backup of one", "Nothing was imported; put it in the store's place: trimwright store restore FILE.")
        : null;

    private static TakenIn ImportLure(string store, Reading<LureDesign> lure, byte[] bytes)
    {
        // Named by its contents: the same file a second time is the same edit.
        string edit = "file-" + Convert.ToHexStringLower(SHA256.HashData(bytes))[..40];
        Saved<LureDesign> saved = With(store, kept => kept.NewLure(lure.Value!, edit, "from a file"));
        bool isNew = saved is Saved<LureDesign>.Done { WasThere: false };
        return new TakenIn(lure.Value!.Name, new Imported(isNew ? 1 : 0, isNew ? 1 : 0, 0, 0, 0, []), lure.Warnings);
    }

    private static TakenIn ImportBox(string store, Reading<MakersBox> box)
    {
        bool isNew = With(store, kept =>
        {
            Revision<MakersBox>? now = kept.Box();
            if (now is not null && now.Text == System.Text.Encoding.UTF8.GetString(BoxFile.Write(box.Value!))) return false;
            if (kept.SaveBox(now?.N ?? 0, box.Value!, EditId.New(), "from a file") is Saved<MakersBox>.Done) return true;
            throw new Refusal(Exit.MachineRefused, "store", kept.Path, "somebody else editing the box at this moment", "a quiet moment", "Nothing was changed; try again.");
        });
        return new TakenIn(box.Value!.Name, new Imported(0, isNew ? 1 : 0, 0, 0, 0, []), box.Warnings);
    }

    private static Reading<T> Sound<T>(Reading<T> reading)
        where T : class => reading.IsSound ? reading : throw new Refusal(Exit.InputWrong, reading.Faults);

    private static void Absent(Store kept, string file, bool force)
    {
        if (kept.IsSelf(file)) throw new Refusal(Exit.InputWrong, "file", file, "the store itself", "another file", "Name a new file.");
        if (!force && File.Exists(file))
            throw new Refusal(Exit.InputWrong, "file", file, "a file that is there already", "a new name", "Add --force to overwrite it.");
    }

    // One that was named and isn't there is most often misspelt.
    private static string There(string? store, bool begin)
    {
        string file = FileOf(store);
        if (store is null || begin || File.Exists(file) || Directory.Exists(file)) return file;
        throw new Refusal(Exit.InputWrong, "store", file, "no such file", "a store that is there", "Check the name, or add --new to begin a store there; nothing was made.");
    }

    private static T With<T>(string file, Func<Store, T> work) => Told(() =>
    {
        using Store kept = Store.Open(file);
        return work(kept);
    });

    private static T ToRead<T>(string? store, Action<string> note, string? beside, Func<Store, T> work) => Told(() =>
    {
        string file = FileOf(store);
        if (store is null && !File.Exists(file))
            throw new Refusal(Exit.InputWrong, "store", file, "nothing kept yet", "a store that is there", "It is begun when you start trimwright, or by trimwright store import FILE.");
        using Store kept = Store.OpenToRead(file, beside is null ? null : Path.GetDirectoryName(Path.GetFullPath(beside)));
        if (kept.ReadThroughCopy is { } why) note(why);
        return work(kept);
    });

    private static T Told<T>(Func<T> work)
    {
        Machine.NeedsOpenSsl();
        try
        {
            return work();
        }
        catch (StoreRefusal e)
        {
            throw Refusal.Of(e);
        }
    }
}
