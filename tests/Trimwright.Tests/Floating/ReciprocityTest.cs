using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Check 7b: a homogeneous body of density ratio s rests at up direction n if and only if one of ratio 1 − s rests at −n, and
/// as stably. Source: Gilbert 1991, American Mathematical Monthly 98, 201, theorem 2. It follows from the energies being
/// equal there, which is tested at arbitrary directions too: equilibria that are not stable then obey it as well.
/// </summary>
public class ReciprocityTest
{
    [Fact]
    public void Energy_moment_and_stability_of_a_body_are_those_of_its_light_and_upturned_complement()
    {
        int cases = Tier.Count(12, 200, 2000);
        for (int seed = 1; seed <= cases; seed++)
        {
            var random = new Random(seed);
            double s = 0.05 + 0.9 * random.NextDouble();
            ClosedMesh skin = RandomSolid.Skin(seed);
            FloatingBody body = Of(skin, s), complement = Of(skin, 1 - s);
            double scale = body.Water * SolidProperties.Of(skin).Volume * body.Reach;
            for (int k = 0; k < 6; k++)
            {
                Vec3 n = new Vec3(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5).Unit();
                Balance a = Equilibrium.Afloat(body, n), b = Equilibrium.Afloat(complement, -n);
                string row = $"seed {seed}";
                Tolerances.Check("reciprocity, energy, share of ρV × reach", a.Energy / scale, b.Energy / scale, row);
                foreach (Vec3 along in new[] { a.E1, a.E2, (a.E1 + a.E2).Unit() })
                {
                    Tolerances.Check("reciprocity, moment, share of ρV × reach", Vec3.Dot(a.Pull, along) / scale, -Vec3.Dot(b.Pull, along) / scale, row);
                    Tolerances.Check("reciprocity, stiffness, share of ρV × reach", a.CurvatureAlong(along) / scale, b.CurvatureAlong(along) / scale, row);
                }
            }
        }
    }

    [Fact]
    public void Every_rest_of_a_random_lure_is_upturned_a_rest_of_its_complement()
    {
        int cases = Tier.Count(5, 60, 1000), compared = 0;
        for (int seed = 1; seed <= cases; seed++)
        {
            double s = 0.1 + 0.8 * new Random(seed).NextDouble();
            Prediction lure = RandomSolid.Afloat(seed, s), complement = RandomSolid.Afloat(seed, 1 - s);
            compared += Compare(lure, complement, seed) + Compare(complement, lure, seed);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{cases} lures, {compared} rests compared");
    }

    private static int Compare(Prediction lure, Prediction complement, int seed)
    {
        // Rests over a pass lower than the search tells apart, whichever of the two weighs less, may be merged in one.
        double least = 2 * RestSearch.Indifferent * Math.Max(lure.Body.Weight, complement.Body.Weight) * Core.Quantities.Units.Gravity;
        int compared = 0;
        foreach (Posture posture in lure.Postures.Where(p => p.Barrier > least))
        {
            Vec3 n = -posture.Plane.N;
            Vec3 mirrored = n with { Y = -n.Y };
            double nearest = complement.Postures.Min(p => Math.Min(Vec3.Angle(p.Plane.N, n), Vec3.Angle(p.Plane.N, mirrored)));
            Assert.True(nearest < 1e-3 || posture.HeelIsFree,
                $"seed {seed}: the rest at {posture.Plane.N} has no upturned one; nearest {nearest} rad of {string.Join(", ", complement.Postures.Select(p => p.Plane.N))}");
            compared++;
        }
        return compared;
    }

    private static FloatingBody Of(ClosedMesh skin, double ratio)
    {
        const double Water = 1e-3;
        SolidProperties solid = SolidProperties.Of(skin);
        return new FloatingBody(skin, ratio * Water * solid.Volume, solid.Centroid, Water);
    }
}
