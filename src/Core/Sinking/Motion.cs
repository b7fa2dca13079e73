using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Sinking;

/// <summary>A lure under way: velocity of its centre of buoyancy, rate of turn, and the world's up, all in body axes.</summary>
/// <param name="V">mm/ms.</param>
/// <param name="Omega">1/ms.</param>
/// <param name="Up">Unit vector.</param>
public readonly record struct MotionState(Vec3 V, Vec3 Omega, Vec3 Up);

/// <summary>
/// The equations of motion (Kirchhoff's, about the centre of buoyancy): with P and L the linear and angular momentum
/// of lure and moved water, Ṗ = F − ω×P, L̇ = T − ω×L − v×P, and the up direction turns as ṅ = −ω×n. Added mass is the
/// ellipsoid's; of the moved water's own ω×P and v×P the wake leaves a share, without work (<see cref="Flow.MovedWater"/>). Hardware counts as mass at its hang points.
/// </summary>
public sealed class Motion
{
    private readonly FallingBody body;
    private readonly Vec3 arm;
    private readonly Vec3 addedMass;
    // Row by row.
    private readonly double[] inverse;
    private readonly Vec3 inertia;
    private readonly Vec3 addedInertia;

    public Motion(FallingBody body)
    {
        this.body = body;
        double moved = body.Water * body.SkinVolume;
        arm = body.Cg - body.Cb;
        addedMass = moved * body.Added.Along;
        addedInertia = moved * body.Added.About;
        inertia = body.Inertia;
        inverse = MassMatrix().Inverse().ToRowMajorArray();
    }

    private Matrix<double> MassMatrix()
    {
        double m = body.Weight;
        Vec3 r = arm;
        var matrix = Matrix<double>.Build.Dense(6, 6);
        (matrix[0, 0], matrix[1, 1], matrix[2, 2]) = (m + addedMass.X, m + addedMass.Y, m + addedMass.Z);
        // m(v + ω×r) and r×m(v + ω×r).
        double[,] skew = { { 0, r.Z, -r.Y }, { -r.Z, 0, r.X }, { r.Y, -r.X, 0 } };
        double[,] about =
        {
            { inertia.X + m * (r.Y * r.Y + r.Z * r.Z) + addedInertia.X, -m * r.X * r.Y, -m * r.X * r.Z },
            { -m * r.X * r.Y, inertia.Y + m * (r.X * r.X + r.Z * r.Z) + addedInertia.Y, -m * r.Y * r.Z },
            { -m * r.X * r.Z, -m * r.Y * r.Z, inertia.Z + m * (r.X * r.X + r.Y * r.Y) + addedInertia.Z },
        };
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
            {
                matrix[i, 3 + j] = m * skew[i, j];
                matrix[3 + j, i] = m * skew[i, j];
                matrix[3 + i, 3 + j] = about[i, j];
            }
        return matrix;
    }

    /// <summary>The state's rate of change.</summary>
    public MotionState Rate(in MotionState s)
    {
        double m = body.Weight;
        Vec3 rigid = m * (s.V + Vec3.Cross(s.Omega, arm));
        Vec3 turn = new((inertia.X + addedInertia.X) * s.Omega.X, (inertia.Y + addedInertia.Y) * s.Omega.Y, (inertia.Z + addedInertia.Z) * s.Omega.Z);
        Vec3 angular = turn + Vec3.Cross(arm, rigid);
        Wrench outer = Flow.Drag(body, s.V, s.Omega) + Flow.Statics(body, s.Up) + Flow.MovedWater(body, s.V, s.Omega);
        Vec3 force = outer.Force - Vec3.Cross(s.Omega, rigid);
        Vec3 torque = outer.Moment - Vec3.Cross(s.Omega, angular) - Vec3.Cross(s.V, rigid);
        Span<double> right = [force.X, force.Y, force.Z, torque.X, torque.Y, torque.Z];
        Span<double> rate = stackalloc double[6];
        for (int i = 0; i < 6; i++)
            for (int j = 0; j < 6; j++) rate[i] += inverse[6 * i + j] * right[j];
        return new MotionState(new(rate[0], rate[1], rate[2]), new(rate[3], rate[4], rate[5]), -Vec3.Cross(s.Omega, s.Up));
    }

    /// <summary>The state so many ms later, by one step of the classical fourth-order Runge–Kutta method.</summary>
    public MotionState Step(in MotionState s, double ms)
    {
        MotionState a = Rate(s), b = Rate(Ahead(s, a, ms / 2)), c = Rate(Ahead(s, b, ms / 2)), d = Rate(Ahead(s, c, ms));
        double k = ms / 6;
        Vec3 up = s.Up + k * (a.Up + 2 * b.Up + 2 * c.Up + d.Up);
        return new MotionState(s.V + k * (a.V + 2 * b.V + 2 * c.V + d.V), s.Omega + k * (a.Omega + 2 * b.Omega + 2 * c.Omega + d.Omega), up.Unit());
    }

    private static MotionState Ahead(in MotionState s, in MotionState rate, double ms) => new(s.V + ms * rate.V, s.Omega + ms * rate.Omega, s.Up + ms * rate.Up);

    /// <summary>Kinetic energy of the lure and the water that moves with it, mJ.</summary>
    public double Energy(in MotionState s)
    {
        double m = body.Weight;
        Vec3 centre = s.V + Vec3.Cross(s.Omega, arm);
        static double Square(Vec3 weights, Vec3 v) => weights.X * v.X * v.X + weights.Y * v.Y * v.Y + weights.Z * v.Z * v.Z;
        return 0.5 * (m * centre.LengthSquared + Square(addedMass, s.V) + Square(inertia + addedInertia, s.Omega));
    }

    /// <summary>
    /// Growth rates (1/ms) of the fastest-growing small disturbance of a steady fall: within its plane, and out of it
    /// (sway, roll, yaw). Negative dies out. And how the one out of the plane looks: the angle that the course turns by
    /// over one body length, over the angle of heel.
    /// </summary>
    public (double InPlane, double OutOfPlane, double TurnOverHeel) Growth(Vec3 v, Vec3 up)
    {
        // u, w, q, pitch · v, p, r, roll: the plane of the fall is the lure's own plane of symmetry.
        Vec3 pitch = Vec3.Cross(Vec3.UnitY, up);
        var rest = new MotionState(v, Vec3.Zero, up);
        double speed = 1e-5 * Math.Max(v.Length, 1e-3), turn = speed / body.Length, tip = 1e-5;
        (MotionState Delta, double Size)[] inPlane =
        [
            (new(speed * Vec3.UnitX, Vec3.Zero, Vec3.Zero), speed), (new(speed * Vec3.UnitZ, Vec3.Zero, Vec3.Zero), speed),
            (new(Vec3.Zero, turn * Vec3.UnitY, Vec3.Zero), turn), (new(Vec3.Zero, Vec3.Zero, tip * pitch), tip),
        ];
        (MotionState Delta, double Size)[] outOfPlane =
        [
            (new(speed * Vec3.UnitY, Vec3.Zero, Vec3.Zero), speed), (new(Vec3.Zero, turn * Vec3.UnitX, Vec3.Zero), turn),
            (new(Vec3.Zero, turn * Vec3.UnitZ, Vec3.Zero), turn), (new(Vec3.Zero, Vec3.Zero, tip * Vec3.UnitY), tip),
        ];
        (double within, _) = Fastest(rest, inPlane, s => [s.V.X, s.V.Z, s.Omega.Y, Vec3.Dot(s.Up, pitch)]);
        (double without, double[] mode) = Fastest(rest, outOfPlane, s => [s.V.Y, s.Omega.X, s.Omega.Z, s.Up.Y]);
        // Turning about the vertical is ω·n.
        double turns = Math.Abs(mode[1] * up.X + mode[2] * up.Z) * body.Length / Math.Max(v.Length, 1e-12);
        return (within, without, turns / Math.Max(Math.Abs(mode[3]), 1e-12));
    }

    /// <summary>The fastest disturbance: its growth, and its shape (of one that swings, its parts in phase).</summary>
    private (double Growth, double[] Mode) Fastest(MotionState rest, (MotionState Delta, double Size)[] disturbances, Func<MotionState, double[]> read)
    {
        var jacobian = Matrix<double>.Build.Dense(4, 4);
        for (int j = 0; j < 4; j++)
        {
            (MotionState d, double size) = disturbances[j];
            double[] ahead = read(Rate(new(rest.V + d.V, rest.Omega + d.Omega, (rest.Up + d.Up).Unit())));
            double[] back = read(Rate(new(rest.V - d.V, rest.Omega - d.Omega, (rest.Up - d.Up).Unit())));
            for (int i = 0; i < 4; i++) jacobian[i, j] = (ahead[i] - back[i]) / (2 * size);
        }
        Evd<double> modes = jacobian.Evd();
        int fastest = Enumerable.Range(0, 4).MaxBy(i => modes.EigenValues[i].Real);
        return (modes.EigenValues[fastest].Real, modes.EigenVectors.Column(fastest).ToArray());
    }
}
