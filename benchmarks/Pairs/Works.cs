using System.Globalization;
using System.Reflection;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.Pairs;

/// <summary>What is timed. It must build with both commits, so it keeps to what both have.</summary>
internal static class Works
{
    private static readonly Dictionary<string, Func<string, Action>> All = new()
    {
        ["10 000 cuts"] = demos =>
        {
            ClosedMesh skin = Prediction.Of(Lure(demos, "tidegate-185"), Circumstances.InTheSea).Ledger.Skin;
            var cutter = new StripCutter(skin);
            for (int axis = 0; axis < 3; axis++) cutter.Prepare(axis);
            Vec3 middle = SolidProperties.Of(skin).Centroid;
            return () =>
            {
                for (int i = 0; i < 10_000; i++)
                {
                    Vec3 up = new Vec3(Math.Sin(i), Math.Cos(1.7 * i), 0.3 + Math.Sin(0.6 * i)).Unit();
                    cutter.Cut(new WaterPlane(up, Vec3.Dot(up, middle) + 8 * Math.Sin(2.3 * i)));
                }
            };
        },
        ["10 cold searches"] = demos =>
        {
            Prediction floats = Prediction.Of(Lure(demos, "mooring-post-210"), Circumstances.InTheSea);
            return () =>
            {
                for (int i = 0; i < 10; i++)
                {
                    var body = new FloatingBody(floats.Ledger, floats.Circumstances.Water.Density - Core.Quantities.Units.AirDensity);
                    Counted(body);
                    RestSearch.All(body);
                }
            };
        },
        ["a plan"] = demos =>
        {
            LureDesign bare = Lure(demos, "tidegate-185") with { Ballast = [] };
            MakersBox box = BoxFile.Read(File.ReadAllBytes(Path.Combine(demos, "kitchen.box.json"))).Value!;
            Want want = WantWords.Parse("sinks slowly, level").Want!;
            return () => Planner.Of(bare, box, want, PlanLimits.Usual);
        },
        ["10 000 builds"] = demos =>
        {
            var build = new BuildModel(Lure(demos, "slipway-150"));
            var log = new TubLog { Name = "none" };
            return () => Knowing.Of(build, log, Circumstances.InTheSea, 10_000);
        },
        ["100 moves"] = demos =>
        {
            LureDesign lure = Lure(demos, "mooring-post-210");
            Prediction before = Prediction.Of(lure, Circumstances.InTheSea);
            return () =>
            {
                for (int i = 0; i < 100; i++)
                {
                    LureDesign moved = lure with { Body = lure.Body with { Belly = Moved(lure.Body.Belly, 3 * Math.Sin(0.05 * i)) } };
                    Svg.Piece(Afloat.Draw(moved, Prediction.Following(moved, before), Notation.Metric));
                }
            };
        },
    };

    private static readonly FieldInfo Cutter = typeof(FloatingBody).GetField("cutter", BindingFlags.Instance | BindingFlags.NonPublic)!;

    private static long cuts;

    public static IEnumerable<string> Names => All.Keys;

    /// <summary>Answers each line by the processor's milliseconds that it took, and the cuts that were counted.</summary>
    public static void Attend(string demos, TextReader asked, TextWriter says)
    {
        var begun = new Dictionary<string, Action>();
        while (asked.ReadLine() is { } name)
        {
            if (!begun.TryGetValue(name, out Action? work)) begun[name] = work = All[name](demos);
            cuts = 0;
            double from = Environment.CpuUsage.TotalTime.TotalMilliseconds;
            work();
            says.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Environment.CpuUsage.TotalTime.TotalMilliseconds - from} {cuts}"));
            says.Flush();
        }
    }

    private static LureDesign Lure(string demos, string name) => LureFile.Read(File.ReadAllBytes(Path.Combine(demos, name + ".lure.json"))).Value!;

    private static Outline Moved(Outline belly, double by) => belly with { Points = belly.Points.SetItem(4, belly.Points[4] with { Value = belly.Points[4].Value + by }) };

    // Both builds count alike, by the same means; a body that is searched is made anew each time.
    private static void Counted(FloatingBody body) => Cutter.SetValue(body, new Counting((ICutter)Cutter.GetValue(body)!));

    private sealed class Counting(ICutter cutter) : ICutter
    {
        public Cut Cut(WaterPlane plane)
        {
            cuts++;
            return cutter.Cut(plane);
        }
    }
}
