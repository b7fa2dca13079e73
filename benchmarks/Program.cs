using BenchmarkDotNet.Running;
using Trimwright.Benchmarks;

if (args is ["side-by-side", var folder, ..])
{
    SideBySide.Run(folder, args.Length > 2 ? int.Parse(args[2], System.Globalization.CultureInfo.InvariantCulture) : 400);
    return;
}
if (args is ["picture"])
{
    PictureTimes.Run();
    return;
}
if (args is ["stops"])
{
    Stops.Run();
    return;
}
if (args is ["large-files", var older, ..])
{
    int rounds = args.Length > 2 ? int.Parse(args[2], System.Globalization.CultureInfo.InvariantCulture) : 5;
    Environment.ExitCode = LargeFiles.Run(older, rounds, args.Length > 3 ? args[3] : "");
    return;
}
if (args is ["ratios", var demos])
{
    Environment.ExitCode = Ratios.Run(demos);
    return;
}
if (args is ["turns"])
{
    Turns.Run();
    return;
}
if (args is ["commits", var kept, ..])
{
    Commits.Run(kept, args.Length > 2 ? int.Parse(args[2], System.Globalization.CultureInfo.InvariantCulture) : 2000);
    return;
}
BenchmarkSwitcher.FromAssembly(typeof(CutBenchmarks).Assembly).Run(args);
