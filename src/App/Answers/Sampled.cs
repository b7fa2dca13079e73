namespace Trimwright.App.Answers;

/// <summary>A number that comes from sampled builds, which give no more than four decimals; 0 where there is none.</summary>
internal readonly record struct Sampled
{
    private const int Decimals = 4;

    private Sampled(double value) => Value = double.IsFinite(value) ? Math.Round(value, Decimals) : 0;

    public double Value { get; }

    public static implicit operator Sampled(double value) => new(value);
}

/// <summary>From where to where: [low, high].</summary>
internal readonly record struct LowHigh(Sampled Low, Sampled High);

/// <summary>A number as it was given, not rounded.</summary>
internal readonly record struct AsGiven(double Value)
{
    public static implicit operator AsGiven(double value) => new(value);
}
