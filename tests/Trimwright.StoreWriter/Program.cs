using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

// A process that tests start beside themselves, and kill. Each line on standard output is one acknowledgement: it is
// printed after the store has answered; beside them stand "ready" and "conflict", which have no blank inside.
string store = args[1];
switch (args[0])
{
    case "open":
        using (Store.Open(store)) Console.Out.WriteLine("opened");
        return 0;

    case "import":
        using (Store kept = Store.Open(store))
        using (FileStream from = File.OpenRead(args[2]))
        {
            Imported done = kept.Import(from).Value!;
            using var self = System.Diagnostics.Process.GetCurrentProcess();
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done.Lures} {done.Revisions} {self.PeakWorkingSet64}"));
        }
        return 0;

    case "load":
        Load(int.Parse(args[2], CultureInfo.InvariantCulture));
        return 0;

    // New lures without end, with pauses of up to so many milliseconds.
    case "begin":
        int pause = int.Parse(args[2], CultureInfo.InvariantCulture);
        var idle = new Random(pause);
        using (Store kept = Store.Open(store))
            while (true)
            {
                string edit = EditId.New();
                if (pause > 0) Thread.Sleep(idle.Next(pause));
                var begun = (Saved<LureDesign>.Done)kept.NewLure(LoadDesign.Of(edit), edit, "begin");
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{begun.Revision.Owner} 1 {edit}"));
            }

    case "share":
        Share(int.Parse(args[2], CultureInfo.InvariantCulture));
        return 0;

    // Brings an older store up to date and dies as by SIGKILL right before its Nth step; the last line counts the steps of one that lived.
    case "migrate":
        int step = 0, end = int.Parse(args[2], CultureInfo.InvariantCulture);
        Migrations told = Migrations.Ours.Told(_ =>
        {
            if (++step != end) return;
            using var self = System.Diagnostics.Process.GetCurrentProcess();
            self.Kill();
            Thread.Sleep(Timeout.Infinite);
        });
        using (Store.Open(store, TimeProvider.System, told)) Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{step} steps"));
        return 0;

    case "release":
        Release.Make(store, args[2], int.Parse(args[3], CultureInfo.InvariantCulture));
        return 0;

    case "contend":
        Contend(long.Parse(args[2], CultureInfo.InvariantCulture), int.Parse(args[3], CultureInfo.InvariantCulture));
        return 0;

    case "serve":
        using (FirstStart? first = FirstStart.Take(store))
        {
            if (first is null) return 3;
            first.Announce(int.Parse(args[2], CultureInfo.InvariantCulture));
            Console.Out.WriteLine("serving");
            Console.In.ReadLine();
        }
        return 0;

    default:
        return 2;
}

// Edits without end, over a few lures, new ones among them.
void Load(int seed)
{
    var random = new Random(seed);
    using Store kept = Store.Open(store);
    var newest = kept.Lures().ToDictionary(l => l.Id, l => l.Newest.N);
    while (true)
    {
        string edit = EditId.New();
        LureDesign design = LoadDesign.Of(edit);
        Saved<LureDesign> saved;
        if (newest.Count < 3 || random.Next(40) == 0)
        {
            saved = kept.NewLure(design, edit, "load");
        }
        else
        {
            long lure = newest.Keys.ElementAt(random.Next(newest.Count));
            saved = kept.Save(lure, newest[lure], design, edit, "load");
        }
        var done = (Saved<LureDesign>.Done)saved;
        newest[done.Revision.Owner] = done.Revision.N;
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done.Revision.Owner} {done.Revision.N} {edit}"));
    }
}

// Edits without end over lures that others edit too; whoever comes second goes on from what came first.
void Share(int seed)
{
    var random = new Random(seed);
    using Store kept = Store.Open(store);
    var newest = new Dictionary<long, int>();
    while (true)
    {
        string edit = EditId.New();
        LureDesign design = LoadDesign.Of(edit);
        if (newest.Count < 3 || random.Next(60) == 0)
            foreach (KeptLure lure in kept.Lures()) newest[lure.Id] = lure.Newest.N;
        Saved<LureDesign> saved;
        try
        {
            long lure = newest.Count < 3 ? 0 : newest.Keys.Order().ElementAt(random.Next(3));
            saved = newest.Count < 3 ? kept.NewLure(design, edit, "share") : kept.Save(lure, newest[lure], design, edit, "share");
        }
        // Two that write without a pause may keep the third waiting for over five seconds on a busy machine: told so, it tries again.
        catch (StoreRefusal refusal) when (refusal.Cause == RefusalCause.Busy)
        {
            continue;
        }
        if (saved is Saved<LureDesign>.Conflict conflict)
        {
            newest[conflict.Theirs.Owner] = conflict.Theirs.N;
            Console.Out.WriteLine("conflict");
            continue;
        }
        var done = (Saved<LureDesign>.Done)saved;
        newest[done.Revision.Owner] = done.Revision.N;
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done.Revision.Owner} {done.Revision.N} {edit}"));
    }
}

// So many edits of one lure that another process edits too; a conflict is taken up on top of the other's version.
void Contend(long lure, int edits)
{
    using Store kept = Store.Open(store);
    int onto = kept.Newest(lure)!.N;
    Console.Out.WriteLine("ready");
    Console.In.ReadLine();
    for (int i = 0; i < edits;)
    {
        string edit = EditId.New();
        switch (kept.Save(lure, onto, LoadDesign.Of(edit), edit, "contend"))
        {
            case Saved<LureDesign>.Done done:
                onto = done.Revision.N;
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{lure} {onto} {edit}"));
                i++;
                break;
            case Saved<LureDesign>.Conflict conflict:
                if (conflict.ReadMine().Value!.Name != edit || conflict.Theirs.N <= onto) throw new InvalidOperationException("a conflict that lacks a version");
                onto = conflict.Theirs.N;
                Console.Out.WriteLine("conflict");
                break;
            default:
                throw new InvalidOperationException("neither kept nor a conflict");
        }
    }
}
