using System.Diagnostics;
using System.Globalization;
using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Shape;

namespace Trimwright.Benchmarks;

/// <summary>
/// Our two cutters on one mesh and the same planes as the public libraries beside them: writes mesh and planes for the
/// other programs to read, prints a line per attitude.
/// </summary>
internal static class SideBySide
{
    public static void Run(string folder, int count)
    {
        ClosedMesh mesh = Prediction.Of(Demo.Lure("tidegate-185"), Circumstances.InTheSea).Ledger.Skin;
        WriteMesh(Path.Combine(folder, "mesh.txt"), mesh);
        var (fast, plain) = (new StripCutter(mesh), new PlainCutter(mesh));
        long start = Stopwatch.GetTimestamp();
        var prepared = new StripCutter(mesh);
        for (int axis = 0; axis < 3; axis++) prepared.Prepare(axis);
        double cold = Micro(start);
        double warm = double.MaxValue;
        for (int i = 0; i < 20; i++)
        {
            start = Stopwatch.GetTimestamp();
            prepared = new StripCutter(mesh);
            for (int axis = 0; axis < 3; axis++) prepared.Prepare(axis);
            warm = Math.Min(warm, Micro(start));
        }
        Print($"# {mesh.TriangleCount} triangles; preparing the sums of all three axes: {warm:F0} us ({cold:F0} us the first time)");
        foreach (string attitude in Planes.Classes)
        {
            WaterPlane[] planes = Planes.Of(attitude, mesh, count);
            WritePlanes(Path.Combine(folder, $"planes-{attitude.Replace(' ', '-')}.txt"), planes);
            double volume = 0, best = double.MaxValue, slow = double.MaxValue;
            for (int round = 0; round < 12; round++)
            {
                best = Math.Min(best, Time(fast, planes, ref volume));
                slow = Math.Min(slow, Time(plain, planes, ref volume));
            }
            long before = GC.GetAllocatedBytesForCurrentThread();
            foreach (WaterPlane plane in planes) fast.Cut(plane);
            long bytes = GC.GetAllocatedBytesForCurrentThread() - before;
            Print($"ours\t{attitude}\t{best:F2}\t{slow:F2}\t{bytes / count}\t{Math.Ceiling(warm / (slow - best)):F0}");
        }
    }

    private static double Time(ICutter cutter, WaterPlane[] planes, ref double volume)
    {
        long start = Stopwatch.GetTimestamp();
        foreach (WaterPlane plane in planes) volume += cutter.Cut(plane).Volume;
        return Micro(start) / planes.Length;
    }

    private static double Micro(long start) => Stopwatch.GetElapsedTime(start).TotalMicroseconds;

    private static void WriteMesh(string path, ClosedMesh mesh)
    {
        using var file = new StreamWriter(path);
        for (int i = 0; i < mesh.VertexCount; i++)
            file.WriteLine(string.Create(CultureInfo.InvariantCulture, $"v {mesh.X[i]:R} {mesh.Y[i]:R} {mesh.Z[i]:R}"));
        for (int t = 0; t < mesh.Triangles.Length; t += 3)
            file.WriteLine($"f {mesh.Triangles[t]} {mesh.Triangles[t + 1]} {mesh.Triangles[t + 2]}");
    }

    private static void WritePlanes(string path, WaterPlane[] planes) => File.WriteAllLines(path, planes.Select(p =>
        string.Create(CultureInfo.InvariantCulture, $"{p.N.X:R} {p.N.Y:R} {p.N.Z:R} {p.D:R}")));

    private static void Print(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
