using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json.Serialization;

namespace Trimwright.App.Answers;

/// <summary>A moment in UTC, to the second: 2026-11-28T17:00:00Z.</summary>
[JsonConverter(typeof(AnswerJson.OfMoment))]
internal sealed record Moment(string Text)
{
    [return: NotNullIfNotNull(nameof(at))]
    public static Moment? Of(DateTimeOffset? at) => at is { } moment ? new(moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture)) : null;
}
