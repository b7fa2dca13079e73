using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Serialization;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Answers;

/// <summary>A number of an answer: to six decimals, which is far below any scale or ruler and the same text on every machine; never −0.</summary>
[JsonConverter(typeof(AnswerJson.OfRounded))]
internal sealed record Rounded
{
    private const int Decimals = 6;

    private Rounded(double value) => Value = Math.Round(value, Decimals) + 0.0;

    public double Value { get; }

    public static implicit operator Rounded(double value) => new(value);

    [return: NotNullIfNotNull(nameof(value))]
    public static implicit operator Rounded?(double? value) => value is { } number ? new(number) : null;
}

/// <summary>Three numbers, [x, y, z]: mm in body axes (x aft from the nose, y to starboard, z up), or a direction in them.</summary>
[JsonConverter(typeof(AnswerJson.OfPoint))]
internal sealed record Point(Rounded X, Rounded Y, Rounded Z)
{
    public static implicit operator Point(Vec3 at) => new(at.X, at.Y, at.Z);
}
