using System.Collections.Immutable;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>What one sampled build does. g, mm, mm³, mm/ms, radians; NaN where it has no meaning.</summary>
/// <param name="Weight">As a scale reads it, g.</param>
/// <param name="Spare">Spare buoyancy, g.</param>
/// <param name="Volume">mm³.</param>
/// <param name="Up">The world's up in body axes at rest, afloat or hanging under water.</param>
/// <param name="Trim">At rest.</param>
/// <param name="NoseOut">As a ruler along the back reads it, mm; 0 when sunk.</param>
/// <param name="Rate">Of the steady fall; NaN when it floats or has none.</param>
/// <param name="FallTrim">Trim under way.</param>
/// <param name="Verdict">By the usual limits.</param>
public readonly record struct Outcome(
    double Weight, double Spare, double Volume, Vec3 Up, double Trim, double NoseOut, double Rate, double FallTrim, Verdict Verdict)
{
    /// <summary>The trim that people see: falling for a sinker with a steady fall, else at rest.</summary>
    public double SeenTrim => double.IsNaN(FallTrim) ? Trim : FallTrim;
}

/// <summary>
/// How sampled builds sit and fall in one water. A full search for every way to rest costs a hundred times a descent; so
/// the search is made for the design and for a few pilot builds, and every other build descends from each of the rests
/// found, the lowest end being where it sits. A fall is followed from those of the design made 1, 3, 8 and 20 g heavy.
/// </summary>
internal sealed class Sitting
{
    private const int Pilots = 6;
    private const double Coarse = 1e-7;
    private const double Rough = 3e-4;
    private const double Beside = 0.1;
    private const double Exact = 1e-11;
    private const double Apart = 0.5;
    private const int QuickSteps = 9;
    private const double QuickReach = 0.35;
    private static readonly double[] Heavies = [1, 3, 8, 20];

    private readonly BuildModel build;
    private readonly StageModel model;
    private readonly bool oracle;
    private ImmutableArray<Start> starts;
    private ImmutableArray<(double Heavy, Fall? Fall)> falls;
    private readonly Lazy<FallingBody> falling;
    private readonly Lazy<Sitting> fine;

    /// <summary>A rest to descend from: up direction and the water's height over the body's middle.</summary>
    internal readonly record struct Start(Vec3 Up, double Offset);

    public StageModel Model => model;

    public Sitting(BuildModel build, StageModel model, WaterState water)
    {
        (this.build, this.model, oracle) = (build, model, build.IsOracle);
        fine = new(() => new BuildModel(build.Design, build.Priors, Shape.MeshSize.Live).In(new Circumstances(model.Ledger.Stage, model.Ledger.Rig, water)));
        falling = new(() => FallingBody.Of(build.Design, model.Ledger, water));
    }

    /// <summary>A scratch that no other thread holds; give it back.</summary>
    public StageShape.Scratch Rent() => model.Shape.Rent();

    public void Return(StageShape.Scratch scratch) => model.Shape.Return(scratch);

    /// <summary>Weighs, floats and drops one build.</summary>
    public Outcome Of(ReadOnlySpan<double> xi, StageShape.Scratch scratch, in Extra extra = default, Pace? pace = null)
    {
        Weighed weighed = model.Weigh(xi, scratch, extra);
        FloatingBody body = model.Float(weighed, xi, scratch, extra);
        double share = body.SpareBuoyancy / (body.Water * body.Volume);
        var outcome = new Outcome(weighed.Weight, body.SpareBuoyancy, weighed.Volume, Vec3.UnitZ, double.NaN, 0, double.NaN, double.NaN, Verdict.Floats);
        if (body.SpareBuoyancy > 0)
        {
            Balance rest = Rest(body, null, pace: pace);
            Posture posture = IsOnEdge(body, rest) ? OnLiveMesh(xi, rest, extra) ?? Posture.Marked(body, rest) : Posture.Marked(body, rest);
            return outcome with { Up = posture.Plane.N, Trim = posture.Trim, NoseOut = posture.NoseShowsAlong, Verdict = Verdicts.Of(share, 0) };
        }
        Posture hangs = Posture.Sunk(body.Cb, body.Cg);
        Fall? fall = FallOf(weighed, xi, pace);
        return outcome with
        {
            Up = hangs.Plane.N,
            Trim = hangs.Trim,
            Rate = fall?.Rate ?? double.NaN,
            FallTrim = fall?.Trim ?? double.NaN,
            Verdict = Verdicts.Of(share, fall?.Rate ?? 0),
        };
    }

    // So little stiffness in trim, mm of metacentric height, that what is left of the sampling mesh's error would turn it.
    private const double Knife = 0.6;

    private bool IsOnEdge(FloatingBody body, in Balance rest)
    {
        if (build.Mesh != BuildModel.Sampling) return false;
        Vec3 ahead = Vec3.UnitX - rest.N.X * rest.N;
        return ahead.Length > 0.02 && rest.CurvatureAlong(ahead.Unit()) < Knife * body.Weight;
    }

    /// <summary>The same build settled once more, on the live mesh, from the rest that it came to.</summary>
    private Posture? OnLiveMesh(ReadOnlySpan<double> xi, in Balance rest, in Extra extra)
    {
        Sitting live = fine.Value;
        StageShape.Scratch scratch = live.Rent();
        FloatingBody body = live.model.Float(live.model.Weigh(xi, scratch, extra), xi, scratch, extra);
        Posture? posture = body.SpareBuoyancy > 0
            ? Posture.Marked(body, Equilibrium.Descend(body, rest.N, longest: 0.1, guess: rest.Offset).Balance) : null;
        live.Return(scratch);
        return posture;
    }

    /// <summary>How one build lies, with its marks; of several ways the one nearest a trim (radians) and a word that were read.</summary>
    public Posture Posed(ReadOnlySpan<double> xi, StageShape.Scratch scratch, in Extra extra, double? read, Sat? word = null, Pace? pace = null)
    {
        Weighed weighed = model.Weigh(xi, scratch, extra);
        FloatingBody body = model.Float(weighed, xi, scratch, extra);
        return body.SpareBuoyancy > 0 ? Posture.Marked(body, Rest(body, read, word, pace)) : Posture.Sunk(body.Cb, body.Cg);
    }

    /// <summary>Where a floating build rests: the lowest of the rests, or the one nearest a trim (radians) and a word that were read.</summary>
    public Balance Rest(FloatingBody body, double? read, Sat? word = null, Pace? pace = null)
    {
        Balance best = default;
        double least = double.PositiveInfinity;
        foreach (Balance rest in Rests(body, pace))
        {
            double measure = read is { } trim ? Math.Abs(WaterPlane.Trim(rest.N) - trim) + (word is { } told ? Sits.HeelOff(told, rest.N) : 0) : rest.Energy;
            if (measure < least) (least, best) = (measure, rest);
        }
        return best;
    }

    /// <summary>Every rest that the descents come to, in no order; the same one may be met twice.</summary>
    public IEnumerable<Balance> Rests(FloatingBody body, Pace? pace = null)
    {
        Vec3? first = null;
        foreach (Start start in Starts(pace))
        {
            if (oracle)
            {
                yield return Equilibrium.Descend(body, start.Up, guess: start.Offset, tolerance: Exact).Balance;
                continue;
            }
            Balance? rest = Quick(body, start);
            if (rest is null)
            {
                // Roughly first: most builds come to the rest that is known already.
                Balance rough = Equilibrium.Descend(body, start.Up, guess: start.Offset, tolerance: Rough).Balance;
                if (first is { } known && Vec3.Angle(known, rough.N) < Beside) continue;
                rest = Quick(body, new Start(rough.N, rough.Offset)) ?? Equilibrium.Descend(body, rough.N, guess: rough.Offset, tolerance: Coarse).Balance;
            }
            first ??= rest.Value.N;
            yield return rest.Value;
        }
    }

    /// <summary>
    /// Newton's method on the water's height and the up direction together, one cut a step, from a rest of a build that is
    /// nearly this one. Null, for a descent to do it surely, when it does not come to a stable rest nearby in a few steps.
    /// </summary>
    private static Balance? Quick(FloatingBody body, in Start start)
    {
        double scale = body.Weight * body.Reach;
        Balance b = body.At(start.Up, start.Offset);
        for (int i = 0; i < QuickSteps; i++)
        {
            (double g1, double g2) = b.Slope;
            (double h11, double h12, double h22) = b.Curvature;
            double determinant = h11 * h22 - h12 * h12;
            if (b.Kdd <= 0 || h11 <= 0 || determinant <= 0) return null;
            if (Math.Abs(b.ForceUp) < Coarse * body.Weight && Math.Sqrt(g1 * g1 + g2 * g2) < Coarse * scale) return b;
            // The height follows: its row is taken off the others (Schur).
            double r = b.ForceUp / b.Kdd, p1 = g1 - b.Kd1 * r, p2 = g2 - b.Kd2 * r;
            double s1 = -(h22 * p1 - h12 * p2) / determinant, s2 = -(h11 * p2 - h12 * p1) / determinant;
            if (s1 * s1 + s2 * s2 > QuickReach * QuickReach) return null;
            double offset = b.Offset - r - (b.Kd1 * s1 + b.Kd2 * s2) / b.Kdd;
            b = body.At(Equilibrium.Turn(b, s1, s2), offset);
            if (Vec3.Angle(b.N, start.Up) > 2 * QuickReach) return null;
        }
        return null;
    }

    // Made when they are first needed. Threads that need them at once each make them, and the same; one that is ended leaves none.
    private ImmutableArray<Start> Starts(Pace? pace)
    {
        if (starts.IsDefault) ImmutableInterlocked.InterlockedInitialize(ref starts, FindStarts(pace ?? Pace.Free));
        return starts;
    }

    /// <summary>The fall that a sinking build comes to; null when it has no steady one.</summary>
    public Fall? FallOf(in Weighed weighed, ReadOnlySpan<double> xi, Pace? pace = null)
    {
        FallingBody body = Falling(weighed, xi);
        if (body.Heavy <= 1e-7 * body.Weight) return null;
        if (falls.IsDefault) ImmutableInterlocked.InterlockedInitialize(ref falls, FindFalls(pace ?? Pace.Free));
        Fall? near = falls.MinBy(f => Math.Abs(Math.Log(f.Heavy / body.Heavy))).Fall;
        Fall? followed = near is null || oracle ? null : Falls.Follow(body, near);
        return followed is { Kind: FallKind.Steady or FallKind.Spirals } ? followed : Falls.Of(body)?.First;
    }

    /// <summary>The whole descent of a sinking build, for timed drops.</summary>
    public FallingBody Falling(in Weighed weighed, ReadOnlySpan<double> xi)
    {
        Unknowns u = build.Unknowns;
        double At(int i, ReadOnlySpan<double> v) => u[i].At(v[i]);
        return falling.Value.Dragging(At(Unknowns.Across, xi), At(Unknowns.HookDrag, xi), At(Unknowns.EndDrag, xi), At(Unknowns.Wake, xi)) with
        {
            Weight = weighed.Weight,
            Cg = weighed.Cg,
            Volume = weighed.Volume,
            Cb = weighed.Cb,
            SkinVolume = weighed.Skin.Volume,
            SkinArea = weighed.Skin.Area,
        };
    }

    private ImmutableArray<Start> FindStarts(Pace pace)
    {
        var found = new List<Start>();
        StageShape.Scratch scratch = Rent();
        var xi = new double[build.Unknowns.Count];
        for (int pilot = 0; pilot <= Pilots; pilot++)
        {
            pace.Step();
            if (pilot > 0) new NormalDraws(0, pilot).Fill(xi);
            FloatingBody body = model.Float(model.Weigh(xi, scratch), xi, scratch);
            if (body.SpareBuoyancy <= 0) continue;
            foreach (Rest rest in RestSearch.All(body).All)
                if (!found.Exists(s => Vec3.Angle(Mirrored(s.Up), Mirrored(rest.Balance.N)) < Apart)) found.Add(new Start(rest.Balance.N, rest.Balance.Offset));
        }
        Return(scratch);
        if (found.Count == 0) found.Add(new Start(Posture.Sunk(model.Ledger.Cb, model.Ledger.Cg).Plane.N, 0));
        return [.. found];
    }

    private static Vec3 Mirrored(Vec3 up) => up with { Y = Math.Abs(up.Y) };

    private ImmutableArray<(double, Fall?)> FindFalls(Pace pace)
    {
        var xi = new double[build.Unknowns.Count];
        StageShape.Scratch scratch = Rent();
        Weighed design = model.Weigh(xi, scratch);
        Return(scratch);
        FallingBody body = Falling(design, xi);
        return [.. Heavies.Select(heavy =>
        {
            pace.Step();
            double weight = body.Lift * body.Volume + heavy;
            return (heavy, Falls.Of(body with { Weight = weight })?.First);
        })];
    }
}
