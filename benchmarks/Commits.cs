using System.Diagnostics;
using System.Globalization;
using System.Text;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.Benchmarks;

/// <summary>
/// What it costs to hold a store against what stands at its path, before each commit and before each acknowledgement: commits of a
/// lure of 20 kB into two stores side by side, turn about, one held and one not. Run it on the disk that you keep lures on.
/// </summary>
internal static class Commits
{
    public static void Run(string folder, int commits)
    {
        folder = Directory.CreateDirectory(Path.Combine(folder, "trimwright-commits-" + EditId.New())).FullName;
        try
        {
            using Store held = Open("held", watchful: true), free = Open("free", watchful: false);
            LureDesign design = Design();
            var times = new List<double>[2];
            for (int store = 0; store < 2; store++) times[store] = [];
            // The first hundred warm up: code, caches, the log's first growth.
            for (int n = 1; n <= commits + 100; n++)
                foreach (int which in n % 2 == 0 ? new[] { 0, 1 } : [1, 0])
                {
                    string edit = EditId.New();
                    long from = Stopwatch.GetTimestamp();
                    Saved<LureDesign> saved = (which == 0 ? held : free).Save(1, n, design, edit, "benchmark");
                    double took = Stopwatch.GetElapsedTime(from).TotalMicroseconds;
                    if (saved is not Saved<LureDesign>.Done) throw new InvalidOperationException("not kept");
                    if (n > 100) times[which].Add(took);
                }
            foreach ((string name, List<double> took) in new[] { ("held", times[0]), ("free", times[1]) })
            {
                took.Sort();
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{name}: {took.Count} commits of 20 kB, median {took[took.Count / 2]:0} µs, 95th {took[took.Count * 95 / 100]:0} µs, mean {took.Average():0} µs"));
            }
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"ratio of medians {times[0][times[0].Count / 2] / times[1][times[1].Count / 2]:0.000}, of means {times[0].Average() / times[1].Average():0.000}"));
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"looking up one name: {LookUp(held.Path):0.00} µs"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        Store Open(string name, bool watchful)
        {
            Store store = Store.Open(Path.Combine(folder, name), TimeProvider.System, Migrations.Ours, watchful);
            store.NewLure(Design(), EditId.New(), "new");
            return store;
        }
    }

    private static double LookUp(string path)
    {
        const int Times = 100_000;
        for (int i = 0; i < 1000; i++) _ = FileMark.Of(path);
        long from = Stopwatch.GetTimestamp();
        for (int i = 0; i < Times; i++) _ = FileMark.Of(path);
        return Stopwatch.GetElapsedTime(from).TotalMicroseconds / Times;
    }

    private static LureDesign Design() => LureFile.Read(Encoding.UTF8.GetBytes($$"""
        { "trimwright": 1, "name": "A lure of 20 kB", "x-notes": "{{new string('n', 20_000)}}",
          "body": { "length_mm": 100,
            "back": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" },
            "belly": { "points_mm": [[0, 0], [50, -10], [100, 0]], "nose": "round", "tail": "round" },
            "plan": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" } },
          "wood": { "density_g_cm3": 0.4 } }
        """)).Value!;
}
