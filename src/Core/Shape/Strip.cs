using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>
/// The triangles between two neighbouring rows of a mesh of rings, four at a time. A row is a ring, or a pole repeated; each side has two
/// triangles, outward, with diagonals mirrored left to right: slot 0 is (a, b, a₁) to starboard and (a, b, b₁) to port, slot 1 (a₁, b, b₁)
/// and (a, b₁, a₁), with a in the row nearer the nose, b in the next, and a₁, b₁ the next vertex of each.
/// </summary>
/// <param name="room">Of <see cref="Room"/>; overwritten.</param>
/// <param name="sides">A multiple of 4.</param>
internal ref struct Strip(Span<double> room, int sides)
{
    // x, y, z of one row and of the next, each with its first vertex again at the end.
    private readonly ref double rows = ref MemoryMarshal.GetReference(room);
    private readonly int stride = sides + 4;
    private int near = 3;
    private int far;

    /// <summary>Doubles that the rows of a strip take.</summary>
    public static int Room(int sides) => 6 * (sides + 4);

    /// <summary>Goes on by one row, of which the vertices begin at a place in three arrays; one vertex repeated where it is a pole.</summary>
    public void Next(double[] x, double[] y, double[] z, int first, bool isPole, Vec3 origin)
    {
        (near, far) = (far, near);
        Fill(far, x, first, isPole, origin.X);
        Fill(far + 1, y, first, isPole, origin.Y);
        Fill(far + 2, z, first, isPole, origin.Z);
    }

    private readonly void Fill(int row, double[] values, int first, bool isPole, double origin)
    {
        Span<double> own = MemoryMarshal.CreateSpan(ref Unsafe.Add(ref rows, row * stride), stride);
        if (isPole)
        {
            own.Fill(values[first] - origin);
            return;
        }
        Vec3x4.Subtract(values.AsSpan(first, stride - 4), origin, own);
        own[stride - 4] = own[0];
    }

    /// <summary>Corners of the triangles of a slot at a side and the three after it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Corners(int slot, int side, out Vec3x4 p, out Vec3x4 q, out Vec3x4 r)
    {
        Vec3x4 a = At(near, side), a1 = At(near, side + 1), b = At(far, side), b1 = At(far, side + 1);
        Vector256<double> toStarboard = Vector256.LessThan(Vector256.Create(side, side + 1.0, side + 2.0, side + 3.0), Vector256.Create(0.5 * (stride - 4)));
        if (slot == 0) (p, q, r) = (a, b, Vec3x4.Select(toStarboard, a1, b1));
        else (p, q, r) = (Vec3x4.Select(toStarboard, a1, a), Vec3x4.Select(toStarboard, b, b1), Vec3x4.Select(toStarboard, b1, a1));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly Vec3x4 At(int row, int side) => new(
        Vector256.LoadUnsafe(ref rows, (nuint)(row * stride + side)), Vector256.LoadUnsafe(ref rows, (nuint)((row + 1) * stride + side)),
        Vector256.LoadUnsafe(ref rows, (nuint)((row + 2) * stride + side)));
}
