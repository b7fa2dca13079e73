using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Check 4: a floating sphere's or ellipsoid's draft h, as a share of its height, obeys 3h² − 2h³ = density ratio. Source:
/// closed form h = ½ + sin(asin(2s − 1)/3); <c>floating_sphere_draft.csv</c>. Drafts are held to 1e-4 of the height.
/// </summary>
public class SphereAndEllipsoidTest
{
    private const double R = 40;

    private static IEnumerable<(double Ratio, double Draft, double Deep)> Rows(int quick, int ci)
    {
        IReadOnlyList<IReadOnlyDictionary<string, string>> all = ReferenceTable.Rows("floating_sphere_draft.csv");
        int step = Math.Max(1, all.Count / Tier.Count(quick, ci, all.Count));
        for (int i = step / 2; i < all.Count; i += step)
            yield return (all[i].Number("density_ratio"), all[i].Number("draft_over_D_root"), all[i].Number("OB_over_R"));
    }

    [Fact]
    public void A_sphere_floats_as_deep_as_the_cubic_says_and_rolls_freely()
    {
        foreach ((double s, double draft, double deep) in Rows(1, 7))
        {
            Prediction sphere = Forms.Afloat(density => Lures.Round(density, 2 * R, [(0, 0), (R, R), (2 * R, 0)]), s, MeshSize.Live);
            Tolerances.Check("sphere, draft, share of the height", sphere.Posture.Draft / (2 * R), draft, $"s {s}");
            Tolerances.Check("sphere, depth of the centre of buoyancy, share of the radius", Below(sphere), deep * R, $"s {s}");
            TestContext.Current.TestOutputHelper?.WriteLine(
                $"s {s}, {sphere.Postures.Length} rests, barriers {string.Join(", ", sphere.Postures.Select(p => p.Barrier))} mJ");
            Assert.Single(sphere.Postures);
            Assert.True(sphere.Posture.HeelIsFree);
            Assert.Null(sphere.Posture.Heel);
        }
    }

    [Fact]
    public void An_ellipsoid_lies_on_its_flat_side_as_deep_as_the_cubic_says_and_as_stiff()
    {
        const double a = 75, b = 20, c = 12;
        foreach ((double s, double draft, double share) in Rows(1, 7))
        {
            double deep = share * c;
            Prediction lying = Forms.Afloat(density => Forms.Ellipsoid(density, a, b, c), s, MeshSize.Live);
            Posture posture = lying.Posture;
            Assert.Equal(0, posture.Trim, 1e-6);
            Assert.Equal(0, Math.Sin(posture.Heel!.Value), 1e-6);
            Tolerances.Check("ellipsoid, draft, share of the height", posture.Draft / (2 * c), draft, $"s {s}");
            // OB and BM = (b/c)²·OB, (a/c)²·OB; the centre of gravity is in the middle.
            Tolerances.Check("ellipsoid, metacentric height", lying.Tipping!.HeelGm, (b * b / (c * c) - 1) * deep, $"heel, s {s}");
            Tolerances.Check("ellipsoid, metacentric height", lying.Tipping!.TrimGm, (a * a / (c * c) - 1) * deep, $"trim, s {s}");
        }
    }

    private static double Below(Prediction afloat)
    {
        Posture posture = afloat.Posture;
        Balance b = Equilibrium.Afloat(afloat.Body, posture.Plane.N);
        return -Vec3.Dot(posture.Plane.N, b.SkinMoment / b.SkinVolume);
    }
}
