using MathNet.Numerics.LinearAlgebra;

namespace Trimwright.Core.Numerics;

/// <summary>
/// What doubt in the inputs leaves in a result, in two ways: by slopes (JCGM 100:2008, the law of propagation of
/// uncertainty) and by sampling (JCGM 101:2008). Inputs are independent unit normals; whatever they stand for is the
/// function's business.
/// </summary>
public static class Propagation
{
    /// <summary>A result of unit normals.</summary>
    public delegate double Result(ReadOnlySpan<double> xi);

    private const double Step = 0.05;

    /// <summary>Slopes along each input by central differences.</summary>
    /// <param name="result">Of all inputs.</param>
    /// <param name="at">Where.</param>
    /// <param name="count">Of the first so many inputs; the others get 0.</param>
    public static Vector<double> Gradient(Result result, ReadOnlySpan<double> at, int? count = null)
    {
        var slope = Vector<double>.Build.Dense(at.Length);
        double[] x = [.. at];
        for (int i = 0; i < (count ?? x.Length); i++)
        {
            double kept = x[i];
            x[i] = kept + Step;
            double ahead = result(x);
            x[i] = kept - Step;
            slope[i] = (ahead - result(x)) / (2 * Step);
            x[i] = kept;
        }
        return slope;
    }

    /// <summary>One standard deviation of the result, by slopes at the inputs' means.</summary>
    public static double Linear(Result result, int inputs) => Gradient(result, new double[inputs]).L2Norm();

    /// <summary>Mean and standard deviation of the result over draws.</summary>
    public static (double Mean, double Sd) Sampled(Result result, int inputs, int draws, int seed)
    {
        double first = result(new double[inputs]), sum = 0, squares = 0;
        var x = new double[inputs];
        for (int i = 0; i < draws; i++)
        {
            new NormalDraws(seed, i).Fill(x);
            double off = result(x) - first;
            (sum, squares) = (sum + off, squares + off * off);
        }
        double mean = sum / draws;
        return (first + mean, Math.Sqrt((squares - draws * mean * mean) / (draws - 1)));
    }
}
