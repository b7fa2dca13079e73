using System.Diagnostics;
using System.Globalization;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.Benchmarks;

/// <summary>
/// What tests once asked of a clock, as ratios: so many predictions of the same lure, or so many starts of the program, measured turn by
/// turn in one run. Ends badly when one is above its limit.
/// </summary>
internal static class Ratios
{
    // A prediction took 10 ms where the times were set that these limits were before: a build 1 ms of a core, an update 0.3 s, a plan 2 s.
    private const double Build = 0.1, Update = 30, Plan = 200;

    // Of a start, which took a fifth of a second there: a prediction 1 s, all sheets 3 s.
    private const double Predict = 5, Sheets = 15;

    private static bool held = true;

    public static int Run(string demos)
    {
        Console.WriteLine("| what | takes, ms | so many | at most |");
        Console.WriteLine("| --- | --- | --- | --- |");
        foreach (string name in new[] { "tidegate-185", "mooring-post-210", "slipway-150" })
        {
            LureDesign design = Demo.Lure(name);
            var build = new BuildModel(design);
            Sitting sitting = build.In(Circumstances.InTheSea);
            StageShape.Scratch scratch = sitting.Rent();
            double[] xi = new double[build.Unknowns.Count];
            int draw = 0;
            Of($"{name}: a sampled build", "predictions", Build, Cpu, 200, () =>
            {
                new NormalDraws(1, draw++).Fill(xi);
                sitting.Of(xi, scratch);
            }, () => Prediction.Of(design, Circumstances.InTheSea));
            string log = Path.Combine(demos, name + ".log.json");
            if (File.Exists(log) && LogFile.Read(File.ReadAllBytes(log)).Value is { } read)
                Of($"{name}: an update by {read.Readings.Length} readings", "predictions", Update, Cpu, 1, () => Knowing.Learn(build, read), () => Prediction.Of(design, Circumstances.InTheSea));
            MakersBox box = BoxFile.Read(File.ReadAllBytes(Path.Combine(demos, "kitchen.box.json"))).Value!;
            Want want = WantWords.Parse("sinks slowly, level").Want!;
            Of($"{name}: a plan", "predictions", Plan, Cpu, 1, () => Planner.Of(design with { Ballast = [] }, box, want, PlanLimits.Usual), () => Prediction.Of(design, Circumstances.InTheSea));
        }
        string program = Path.Combine(AppContext.BaseDirectory, "trimwright.dll"), lure = Path.Combine(demos, "slipway-150.lure.json"), folder = Directory.CreateTempSubdirectory("trimwright-ratios").FullName;
        Action start = () => Start(program, "--version");
        Of("predict --json", "starts", Predict, Wall, 1, () => Start(program, "predict", lure, "--json"), start);
        Of("sheets", "starts", Sheets, Wall, 1, () => Start(program, "sheets", lure, "--out", folder, "--force"), start);
        Directory.Delete(folder, recursive: true);
        return held ? 0 : 1;
    }

    private static void Of(string what, string unit, double most, Func<double> clock, int times, Action work, Action one)
    {
        double best = double.MaxValue, bestOne = double.MaxValue;
        // The quickest of each: other work on the machine only ever adds.
        for (int round = 0; round < 12; round++)
        {
            double from = clock();
            for (int i = 0; i < times; i++) work();
            double between = clock();
            one();
            best = Math.Min(best, (between - from) / times);
            bestOne = Math.Min(bestOne, clock() - between);
        }
        held &= best <= most * bestOne;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what} | {best:0.00} | {best / bestOne:0.00} {unit} | {most} |"));
    }

    private static double Cpu() => Environment.CpuUsage.TotalTime.TotalMilliseconds;

    private static double Wall() => Stopwatch.GetTimestamp() * 1000.0 / Stopwatch.Frequency;

    private static void Start(string program, params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", [program, .. arguments]) { RedirectStandardOutput = true })!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0) throw new InvalidOperationException($"{string.Join(' ', arguments)} ended with {process.ExitCode}");
    }
}
