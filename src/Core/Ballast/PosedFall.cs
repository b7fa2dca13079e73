using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Ballast;

/// <summary>
/// A lure held at a trim in a steady fall: which way it must move so that its drag is straight up, how many grams that drag
/// carries, and what moment the water leaves.
/// <para>
/// With n the world's up in body axes and w the falling rate, motion along (cos α, 0, sin α) at U has w = −U·(dir·n), so U
/// follows from α, and α from one equation: drag·e = 0 with drag·n &gt; 0, e square to n in the body's plane. The net weight is
/// then |drag|/g and the weights' moment must undo drag's and Munk's.
/// </para>
/// </summary>
internal readonly record struct PosedFall(double Rate, double Carries, double Moment)
{
    private const int Looks = 120;

    // More ways of moving that have the drag straight up no lure was seen to have.
    private const int MostWays = 4;

    // Seconds are told to a tenth, and from ten on whole: within this share grams and seconds say the same.
    private const double Agree = 0.06;

    // A fall that glides more than six times as far as it falls is none.
    private const double LeastDescent = 0.16;

    /// <summary>The fall at a trim (radians) and rate (mm/ms); null when drag can't be straight up there.</summary>
    /// <param name="body">Without the weights that may change.</param>
    /// <param name="trim">Radians.</param>
    /// <param name="rate">mm/ms.</param>
    /// <param name="place">Of several ways of moving that have it straight up, which, the nearest to straight down first.</param>
    public static PosedFall? At(FallingBody body, double trim, double rate, int place = 0)
    {
        Vec3 n = WaterPlane.Up(trim, 0), e = Target.Along(trim);
        double Sideways(double alpha) => Vec3.Dot(Flow.Drag(body, Velocity(n, alpha, rate), Vec3.Zero).Force, e);
        // Straight down is n reversed; every direction that descends lies within a right angle of it.
        double down = Math.Atan2(-n.Z, -n.X), reach = Math.Acos(LeastDescent), step = 2 * reach / Looks;
        var roots = new List<double>();
        double before = Sideways(down - reach);
        for (int k = 1; k <= Looks; k++)
        {
            double to = down - reach + k * step, after = Sideways(to);
            if (Math.Sign(before) != Math.Sign(after))
            {
                double root = Roots.Between(Sideways, to - step, to, 1e-12);
                if (Vec3.Dot(Flow.Drag(body, Velocity(n, root, rate), Vec3.Zero).Force, n) > 0) roots.Add(root);
            }
            before = after;
        }
        if (roots.Count <= place) return null;
        Vec3 v = Velocity(n, roots.OrderBy(root => Math.Abs(root - down)).ElementAt(place), rate);
        Wrench drag = Flow.Drag(body, v, Vec3.Zero);
        double moment = drag.Moment.Y + Flow.Munk(body, v).Y;
        return new PosedFall(rate, drag.Force.Length / Units.Gravity, moment / Units.Gravity);
    }

    private static Vec3 Velocity(Vec3 n, double alpha, double rate)
    {
        (double sin, double cos) = Math.SinCos(alpha);
        Vec3 along = new(cos, 0, sin);
        return rate / -Vec3.Dot(along, n) * along;
    }

    /// <summary>The fall at a trim whose drag carries so many grams, from a guess of its rate.</summary>
    private static PosedFall? Carrying(FallingBody body, double trim, double grams, double rate, int place)
    {
        // Drag is nearly quadratic: the square root of the ratio is nearly Newton's step.
        for (int i = 0; i < 20; i++)
        {
            if (At(body, trim, rate, place) is not { } fall) return null;
            if (Math.Abs(fall.Carries / grams - 1) < 1e-7) return fall;
            rate *= Math.Sqrt(grams / fall.Carries);
        }
        // Where ways of moving come and go with the rate, it need not come to any.
        return At(body, trim, rate, place) is { } last && Math.Abs(last.Carries / grams - 1) < 1e-3 ? last : null;
    }

    public static (Target?, NoTarget, double) TargetOf(FallingBody body, Want want)
    {
        if (At(body, want.Trim, want.Rate) is not { } fall) return (null, NoTarget.NoSuchFall, 0);
        int place = 0;
        if (want.Spare is { } spare)
        {
            // Grams and seconds together say which of several ways of moving is meant.
            PosedFall? found = null;
            double other = 0;
            for (int k = 0; found is null && k < MostWays; k++)
            {
                if (Carrying(body, want.Trim, -spare, want.Rate, k) is not { } heavy) continue;
                if (Math.Abs(heavy.Rate / want.Rate - 1) <= Agree) (found, place) = (heavy, k);
                if (other == 0) other = Units.ToSeconds(1000 / heavy.Rate);
            }
            if (found is not { } said) return (null, other > 0 ? NoTarget.OtherRate : NoTarget.NoSuchFall, other);
            fall = said;
        }
        Vec3 n = WaterPlane.Up(want.Trim, 0), e = Target.Along(want.Trim), arm = body.Weight * (body.Cg - body.Cb);
        double weight = fall.Carries - body.Heavy;
        const double Turn = 0.01, Faster = 0.02;
        PosedFall? up = Carrying(body, want.Trim + Turn, fall.Carries, fall.Rate, place), down = Carrying(body, want.Trim - Turn, fall.Carries, fall.Rate, place);
        PosedFall? fast = At(body, want.Trim, fall.Rate * (1 + Faster), place), slow = At(body, want.Trim, fall.Rate * (1 - Faster), place);
        if (up is not { } u || down is not { } d || fast is not { } f || slow is not { } s) return (null, NoTarget.NoSuchFall, 0);
        double own = -Vec3.Dot(arm, n), whole = body.Weight + weight;
        double munk = (body.Added.Along.Y - body.Added.Along.Z) * body.Water * body.SkinVolume * fall.Rate * fall.Rate / Units.Gravity;
        return (new Target
        {
            Origin = body.Cb, Trimming = e, Up = n, Weight = weight, Moment = -fall.Moment - Vec3.Dot(arm, e),
            MomentPerGram = -(f.Moment - s.Moment) / (f.Carries - s.Carries),
            TrimStiffness = own - (u.Moment - d.Moment) / (2 * Turn), HeelStiffness = own,
            LeastHeelStiffness = Math.Max(Target.LeastMetacentre * whole, munk), WholeWeight = whole,
        }, default, 0);
    }
}
