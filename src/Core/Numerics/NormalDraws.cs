namespace Trimwright.Core.Numerics;

/// <summary>
/// Random numbers by (seed, index): the same pair gives the same numbers on any machine and any number of threads, and
/// neighbouring indices give unrelated ones. SplitMix64 (Steele, Lea &amp; Flood 2014, OOPSLA); normals by Box and Muller.
/// </summary>
public struct NormalDraws(int seed, long index)
{
    private ulong state = Mix(Mix((ulong)(uint)seed + 0x9E3779B97F4A7C15UL) ^ (ulong)index * 0xD1B54A32D192ED03UL);
    private double kept = double.NaN;

    /// <summary>A number between 0 and 1, neither included.</summary>
    public double Uniform()
    {
        state += 0x9E3779B97F4A7C15UL;
        return ((Mix(state) >> 11) + 0.5) * (1.0 / (1UL << 53));
    }

    /// <summary>A number of the unit normal distribution.</summary>
    public double Normal()
    {
        if (!double.IsNaN(kept))
        {
            double given = kept;
            kept = double.NaN;
            return given;
        }
        double radius = Math.Sqrt(-2 * Math.Log(Uniform()));
        (double sin, double cos) = Math.SinCos(2 * Math.PI * Uniform());
        kept = radius * sin;
        return radius * cos;
    }

    /// <summary>Fills a vector with unit normals.</summary>
    public void Fill(Span<double> normals)
    {
        for (int i = 0; i < normals.Length; i++) normals[i] = Normal();
    }

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
