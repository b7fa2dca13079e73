using System.Text.Json.Serialization;

namespace Trimwright.App.Answers;

/// <summary>A number that comes from sampled builds, which give no more than four decimals; what is not finite is 0.</summary>
[JsonConverter(typeof(AnswerJson.OfSampled))]
internal sealed record Sampled
{
    private const int Decimals = 4;

    private Sampled(double value) => Value = double.IsFinite(value) ? Math.Round(value, Decimals) : 0;

    public double Value { get; }

    public static implicit operator Sampled(double value) => new(value);
}

/// <summary>From where to where, [low, high].</summary>
[JsonConverter(typeof(AnswerJson.OfLowHigh))]
internal sealed record LowHigh(Sampled Low, Sampled High);
