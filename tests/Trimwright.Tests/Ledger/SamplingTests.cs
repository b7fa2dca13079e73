using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Ledger;

/// <summary>The ledger at every stage against a sampling of the solid that knows nothing of meshes or ledgers.</summary>
public class SamplingTests
{
    // The heaviest that a cut is filled with, g/mm³.
    private const double Filler = 1.2e-3;

    private struct Sums
    {
        public double Mass;
        public Vec3 Moment;
        public double Volume;
        public Vec3 VolumeMoment;
        public double MassVariance;
        public double VolumeVariance;
        public double Twice;
        public Vec3 MomentVariance;
    }

    [Fact]
    public void Sampling_the_solid_gives_the_ledgers_weight_volume_and_centres_at_every_stage()
    {
        LureDesign[] lures = [.. Lures.Demos.Take(Tier.Count(1, 3)), .. Enumerable.Range(200_000, 1000).Select(s => RandomLures.Of(s).Design).Where(Samples).Take(Tier.Count(2, 12, 60))];
        var wrong = new System.Collections.Concurrent.ConcurrentBag<string>();
        Parallel.ForEach(lures, lure =>
        {
            foreach (string line in Compare(lure, Cells(lure))) wrong.Add(line);
        });
        Console.WriteLine($"{lures.Length} lures, {wrong.Count} lines wrong");
        foreach (string line in wrong) Console.WriteLine("wrong: " + line);
        Assert.Empty(wrong);
    }

    // So many that 4 sigma stays near a tenth of a gram; a small lure needs fewer.
    private static int Cells(LureDesign lure) => lure.Body.LengthMm < 120 ? 700_000 : Tier.Count(1_000_000, 3_000_000);

    // A screw eye's thread is not a solid of the design's.
    private static bool Samples(LureDesign d) =>
        (d.Wire is not null || !d.Ballast.IsEmpty) && (d.Wire?.Hangers.All(h => h.Kind != HangerKind.ScrewEye) ?? true)
        && d.Wire?.LineTie.Closing != EyeClosing.Doubled && d.Wire?.TailLoop?.Closing != EyeClosing.Doubled;

    private static IEnumerable<string> Compare(LureDesign lure, int cells)
    {
        var solid = new SampledSolid(lure);
        double density = lure.Wood.DensityGPerCm3 * 1e-3, right = density, left = density;
        if (lure.Halves is { RightG: { } r, LeftG: { } l })
        {
            // The halves as weighed: their densities by their sampled dry volumes, before anything is cut into them.
            var plain = new SampledSolid(lure with { Wire = null, Ballast = [], Eyes = null, Finish = [], Joint = lure.Joint ?? new JointDesign() });
            (right, left) = (r / Sample(plain, lure, 1, 0, cells)[1].Mass, l / Sample(plain, lure, 0, 1, cells)[1].Mass);
        }
        Sums[] sampled = Sample(solid, lure, right, left, cells);
        double water = WaterState.Tap.Density - Units.AirDensity;
        foreach (Stage stage in Enum.GetValues<Stage>())
        {
            WeightLedger ledger = Bookkeeper.Of(lure, stage, Rig.Bare, water, MeshSize.Live);
            Sums s = sampled[(int)stage];
            Part[] apart = [.. ledger.Parts.Where(p => p.Kind is PartKind.Wire or PartKind.Captive or PartKind.Eyes or PartKind.Sealer)];
            double mass = ledger.Weight - apart.Sum(p => p.Mass), volume = ledger.Volume - apart.Sum(p => p.Displaces);
            Vec3 cg = (ledger.Weight * ledger.Cg - apart.Aggregate(Vec3.Zero, (m, p) => m + p.MassMoment)) / mass;
            Vec3 cb = (ledger.Volume * ledger.Cb - apart.Aggregate(Vec3.Zero, (m, p) => m + p.VolumeMoment)) / volume;
            double dm = mass - s.Mass, dv = (volume - s.Volume) * 1e-3, sm = Math.Sqrt(s.MassVariance), sv = Math.Sqrt(s.VolumeVariance) * 1e-3;
            Vec3 dg = cg - s.Moment / s.Mass, db = cb - s.VolumeMoment / s.Volume;
            string line = FormattableString.Invariant($"{lure.Name} {lure.Kind} {stage}: ledger {mass:F3} g, sampled {mass - dm:F3} ({dm:+0.000;-0.000}, sigma {sm:F3}); {volume * 1e-3:F3} cm³ ({dv:+0.000;-0.000}, sigma {sv:F3}); cut twice {s.Twice:F0} mm³; CG by ({dg.X:F3}, {dg.Y:F3}, {dg.Z:F3}), CB by ({db.X:F3}, {db.Y:F3}, {db.Z:F3}) mm");
            if (stage is not Stage.Sealed) Console.WriteLine(line);
            // The mesh's own volume is good to 0.02 %; what is cut twice is known, and is filler or wood.
            double twice = stage == Stage.Blank ? 0 : s.Twice, meshes = 2e-4 * volume;
            double known = density * meshes + Filler * twice, far = lure.Body.LengthMm;
            Vec3 dM = mass * cg - s.Moment, sM = s.MomentVariance;
            bool right_ = Math.Abs(dm) <= 4 * sm + known && Math.Abs(dv) <= 4 * sv + 1e-3 * (meshes + twice)
                && Math.Abs(dM.X) <= 4 * Math.Sqrt(sM.X) + known * far && Math.Abs(dM.Y) <= 4 * Math.Sqrt(sM.Y) + known * far / 10
                && Math.Abs(dM.Z) <= 4 * Math.Sqrt(sM.Z) + known * far / 10;
            if (!right_) yield return line;
        }
    }

    /// <summary>Two random points in each of many equal cells; half their difference squared is each cell's variance.</summary>
    private static Sums[] Sample(SampledSolid solid, LureDesign lure, double right, double left, int cells)
    {
        Body body = lure.Body.Surface();
        double film = solid.Film + 0.5;
        double high = Enumerable.Range(0, 400).Max(i => body.BackAt(body.Length * i / 399)) + film, low = Enumerable.Range(0, 400).Min(i => body.BellyAt(body.Length * i / 399)) - film;
        double side = Enumerable.Range(0, 400).Max(i => body.HalfBreadthAt(body.Length * i / 399)) * 1.1 + film, from = -film, length = body.Length + 2 * film;
        double size = Math.Cbrt(length * (high - low) * 2 * side / cells);
        int nx = (int)Math.Ceiling(length / size), ny = (int)Math.Ceiling(2 * side / size), nz = (int)Math.Ceiling((high - low) / size);
        double sx = length / nx, sy = 2 * side / ny, sz = (high - low) / nz, cell = sx * sy * sz;
        var random = new Random(12345);
        var sums = new Sums[5];
        Span<double> density = stackalloc double[5], displaces = stackalloc double[5], density2 = stackalloc double[5], displaces2 = stackalloc double[5];
        for (int i = 0; i < nx; i++)
            for (int j = 0; j < ny; j++)
                for (int k = 0; k < nz; k++)
                {
                    Vec3 One() => new(from + (i + random.NextDouble()) * sx, -side + (j + random.NextDouble()) * sy, low + (k + random.NextDouble()) * sz);
                    Vec3 p = One(), q = One();
                    double twice = 0.5 * cell * ((solid.At(p, right, left, density, displaces) ? 1 : 0) + (solid.At(q, right, left, density2, displaces2) ? 1 : 0));
                    for (int s = 0; s < 5; s++)
                    {
                        sums[s].Twice += twice;
                        double a = density[s], b = density2[s], u = displaces[s], v = displaces2[s];
                        if (a == 0 && b == 0 && u == 0 && v == 0) continue;
                        sums[s].Mass += 0.5 * cell * (a + b);
                        sums[s].Moment += 0.5 * cell * (a * p + b * q);
                        sums[s].Volume += 0.5 * cell * (u + v);
                        sums[s].VolumeMoment += 0.5 * cell * (u * p + v * q);
                        sums[s].MassVariance += 0.25 * cell * cell * (a - b) * (a - b);
                        Vec3 apart = 0.5 * cell * (a * p - b * q);
                        sums[s].MomentVariance += new Vec3(apart.X * apart.X, apart.Y * apart.Y, apart.Z * apart.Z);
                        sums[s].VolumeVariance += 0.25 * cell * cell * (u - v) * (u - v);
                    }
                }
        return sums;
    }
}
