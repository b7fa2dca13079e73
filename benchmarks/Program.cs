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
if (args is ["turns"])
{
    Turns.Run();
    return;
}
BenchmarkSwitcher.FromAssembly(typeof(CutBenchmarks).Assembly).Run(args);
