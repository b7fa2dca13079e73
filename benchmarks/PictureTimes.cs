using System.Diagnostics;
using Trimwright.App.Edits;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.Benchmarks;

/// <summary>
/// Where the time of one picture goes while a point is in hand: each step by itself over the same drag, one after the other in
/// one run. The fastest tenth is printed beside the median, since other work on the machine only ever adds.
/// </summary>
internal static class PictureTimes
{
    private const int Moves = 300;

    public static void Run()
    {
        foreach (string name in new[] { "tidegate-185", "mooring-post-210" }) Of(Demo.Lure(name));
    }

    private static void Of(LureDesign lure)
    {
        Circumstances sea = Circumstances.InTheSea;
        double water = sea.Water.Density - Units.AirDensity;
        LureDesign[] drag = [.. Enumerable.Range(0, Moves).Select(i => Moved(lure, i))];
        Console.WriteLine($"{lure.Name}: ms a picture, fastest tenth and median; KB allocated, collections and µs of pause a picture");
        Prediction[] done = [.. drag.Take(20).Select(d => Prediction.Of(d, sea))];
        Time("read as a file", i => LureFile.Read(LureFile.Write(drag[i])).Value!);
        Time("ledger", i => Bookkeeper.Of(drag[i], sea.Stage, sea.Rig, water, sea.Mesh));
        Time("  one mesh of it", i => BodyMesh.Of(drag[i].Body.Surface(), sea.Mesh));
        Time("  its sums", i => SolidProperties.Of(done[i % 20].Ledger.Skin));
        Time("  a coat", i => Offset.By(done[i % 20].Ledger.Skin, 0.1));
        Time("body", i => new FloatingBody(done[i % 20].Ledger, water));
        Time("sums of its cuts", i =>
        {
            var body = new FloatingBody(done[i % 20].Ledger, water);
            body.PrepareCuts();
            return body;
        });
        if (done[0].SpareBuoyancy > 0)
        {
            Time("all rests", i => RestSearch.All(done[i % 20].Body));
            Time("down to one rest", i => Equilibrium.Descend(done[i % 20].Body, done[(i + 1) % 20].Posture.Plane.N));
            Time("posture", i => Posture.Afloat(done[i % 20].Body, RestSearchOf(done[i % 20]), 0));
            Time("tipping", i => Tipping.Of(done[i % 20].Body, done[i % 20].Ledger, RestSearchOf(done[i % 20]).Balance));
        }
        else Time("falls", i => Core.Sinking.Falls.Of(Core.Sinking.FallingBody.Of(drag[i % 20], done[i % 20].Ledger, sea.Water)));
        Time("whole prediction", i => Prediction.Of(drag[i], sea));
        Time("preview", i => Prediction.Following(drag[i], done[i % 20]));
        Time("picture", i => Afloat.Draw(drag[i % 20], done[i % 20], Notation.Metric));
        Picture[] pictures = [.. done.Select((p, i) => Afloat.Draw(drag[i], p, Notation.Metric))];
        Time("picture's text", i => Svg.Piece(pictures[i % 20]));
        Look[] looks = [.. drag.Take(20).Select(d => Look.At(d, sea, Notation.Metric))];
        Console.WriteLine($"  {Svg.Piece(pictures[0]).Length / 1000.0:0.0} thousand characters");
        Time("outlines' text", i => Drawn.Outlines(new OutlineSheet(lure.Body), drag[i], null, Notation.Metric));
        Time("look in hand", i => Look.Following(drag[i], looks[i % 20], Notation.Metric));
        Time("whole look", i => Look.At(drag[i], sea, Notation.Metric));
    }

    private static readonly Dictionary<Prediction, Rest> Known = [];

    private static Rest RestSearchOf(Prediction p) => Known.TryGetValue(p, out Rest? rest) ? rest : Known[p] = RestSearch.All(p.Body).All[0]!;

    private static LureDesign Moved(LureDesign lure, int i)
    {
        OutlinePoint p = lure.Body.Belly.Points[4];
        return Reshape.Move(lure, Line.Belly, 4, p.X, p.Value + 3 * Math.Sin(0.05 * i));
    }

    private static void Time(string what, Func<int, object?> work)
    {
        for (int i = 0; i < 60; i++) work(i);
        var took = new double[Moves];
        long before = GC.GetAllocatedBytesForCurrentThread();
        int collections = GC.CollectionCount(0);
        TimeSpan paused = GC.GetTotalPauseDuration();
        for (int i = 0; i < Moves; i++)
        {
            long from = Stopwatch.GetTimestamp();
            GC.KeepAlive(work(i));
            took[i] = Stopwatch.GetElapsedTime(from).TotalMilliseconds;
        }
        double bytes = (GC.GetAllocatedBytesForCurrentThread() - before) / (double)Moves;
        double pause = (GC.GetTotalPauseDuration() - paused).TotalMicroseconds / Moves, collected = (GC.CollectionCount(0) - collections) / (double)Moves;
        Array.Sort(took);
        Console.WriteLine($"  {what,-20} {took[Moves / 10],7:0.00} {took[Moves / 2],7:0.00} {bytes / 1000,9:0} {collected,7:0.000} {pause,7:0.0}");
    }
}
