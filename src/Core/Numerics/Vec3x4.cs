using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Trimwright.Core.Numerics;

/// <summary>
/// Four <see cref="Vec3"/> at once, by the same operations in the same order: what is worked out four at a time has the digits of one
/// after the other, on any machine.
/// </summary>
internal readonly struct Vec3x4(Vector256<double> x, Vector256<double> y, Vector256<double> z)
{
    public readonly Vector256<double> X = x;
    public readonly Vector256<double> Y = y;
    public readonly Vector256<double> Z = z;

    public static Vec3x4 operator +(in Vec3x4 a, in Vec3x4 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Vec3x4 operator -(in Vec3x4 a, in Vec3x4 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vec3x4 operator *(Vector256<double> k, in Vec3x4 a) => new(k * a.X, k * a.Y, k * a.Z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Dot(in Vec3x4 a, in Vec3x4 b) => a.X * b.X + a.Y * b.Y + a.Z * b.Z;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3x4 Cross(in Vec3x4 a, in Vec3x4 b) =>
        new(a.Y * b.Z - a.Z * b.Y, a.Z * b.X - a.X * b.Z, a.X * b.Y - a.Y * b.X);

    /// <summary>Numbers less one that is the same for all.</summary>
    public static void Subtract(ReadOnlySpan<double> from, double origin, Span<double> to)
    {
        ref double source = ref MemoryMarshal.GetReference(from), target = ref MemoryMarshal.GetReference(to[..from.Length]);
        Vector256<double> less = Vector256.Create(origin);
        int i = 0;
        for (; i <= from.Length - 4; i += 4) (Vector256.LoadUnsafe(ref source, (nuint)i) - less).StoreUnsafe(ref target, (nuint)i);
        for (; i < from.Length; i++) to[i] = from[i] - origin;
    }

    /// <summary>To each sum so many times a number.</summary>
    public static void AddTimes(double times, ReadOnlySpan<double> numbers, Span<double> sums)
    {
        ref double source = ref MemoryMarshal.GetReference(numbers), target = ref MemoryMarshal.GetReference(sums[..numbers.Length]);
        Vector256<double> k = Vector256.Create(times);
        int i = 0;
        for (; i <= numbers.Length - 4; i += 4)
            (Vector256.LoadUnsafe(ref target, (nuint)i) + k * Vector256.LoadUnsafe(ref source, (nuint)i)).StoreUnsafe(ref target, (nuint)i);
        for (; i < numbers.Length; i++) sums[i] += times * numbers[i];
    }

    /// <summary>Each from one or the other.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3x4 Select(Vector256<double> which, in Vec3x4 yes, in Vec3x4 no) => new(
        Vector256.ConditionalSelect(which, yes.X, no.X), Vector256.ConditionalSelect(which, yes.Y, no.Y), Vector256.ConditionalSelect(which, yes.Z, no.Z));
}
