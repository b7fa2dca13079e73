using BenchmarkDotNet.Attributes;
using Trimwright.App.Answers;
using Trimwright.App.Commands;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Benchmarks;

/// <summary>One cut at 20 000 triangles, fast and plain, by attitude.</summary>
[MemoryDiagnoser]
public class CutBenchmarks
{
    private StripCutter fast = null!;
    private PlainCutter plain = null!;
    private WaterPlane[] planes = [];
    private int next;

    [ParamsSource(nameof(Attitudes))]
    public string Attitude { get; set; } = "";

    public static IEnumerable<string> Attitudes => Planes.Classes;

    [GlobalSetup]
    public void Setup()
    {
        ClosedMesh mesh = Prediction.Of(Demo.Lure("tidegate-185"), Circumstances.InTheSea).Ledger.Skin;
        (fast, plain) = (new StripCutter(mesh), new PlainCutter(mesh));
        planes = Planes.Of(Attitude, mesh, 1024);
        foreach (WaterPlane plane in planes) fast.Cut(plane);
    }

    [Benchmark(Baseline = true)]
    public double Plain() => plain.Cut(planes[next++ & 1023]).Volume;

    [Benchmark]
    public double Fast() => fast.Cut(planes[next++ & 1023]).Volume;
}

/// <summary>Everything around the cut: preparing its sums, finding rests, whole predictions.</summary>
[MemoryDiagnoser]
public class PredictionBenchmarks
{
    private readonly LureDesign floater = Demo.Lure("mooring-post-210");
    private readonly LureDesign sinker = Demo.Lure("tidegate-185");
    private FloatingBody body = null!;
    private ClosedMesh skin = null!;
    private Vec3 near;
    private readonly string file = Path.Combine(Path.GetTempPath(), $"trimwright-benchmark-{Environment.ProcessId}.lure.json");

    [GlobalSetup]
    public void Setup()
    {
        File.WriteAllBytes(file, Demo.File("tidegate-185"));
        Prediction prediction = Prediction.Of(floater, Circumstances.InTheSea);
        (body, skin) = (prediction.Body, prediction.Ledger.Skin);
        near = prediction.Posture.Plane.N.Turned(Vec3.UnitY, 0.03);
        RestSearch.All(body);
    }

    [Benchmark]
    public StripCutter Prepare_the_sums()
    {
        var cutter = new StripCutter(skin);
        for (int axis = 0; axis < 3; axis++) cutter.Prepare(axis);
        return cutter;
    }

    [Benchmark]
    public Rests Cold_search_for_all_rests() => RestSearch.All(body);

    [Benchmark]
    public bool Warm_solve_after_a_small_edit() => Equilibrium.Descend(body, near).Converged;

    [Benchmark]
    public Prediction Whole_prediction_of_a_floater() => Prediction.Of(floater, Circumstances.InTheSea);

    [Benchmark]
    public Prediction Whole_prediction_of_a_sinker() => Prediction.Of(sinker, Circumstances.InTheSea);

    [Benchmark]
    public int The_command_from_file_to_json()
    {
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(file);
        return AnswerJson.Text(PredictJson.Of(new HowItSits(design, Circumstances.InTheSea).Answer(Pace.Free), warnings)).Length;
    }

    [GlobalCleanup]
    public void Cleanup() => File.Delete(file);
}
