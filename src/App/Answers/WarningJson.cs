using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.App.Answers;

/// <summary>Something that a file may say but probably doesn't mean.</summary>
/// <param name="Path">Where in the file.</param>
/// <param name="Text">What is odd about it.</param>
internal sealed record WarningJson(string Path, string Text)
{
    public static ImmutableArray<WarningJson> Of(IEnumerable<Warning> warnings) => [.. warnings.Select(w => new WarningJson(w.Path, w.Text))];
}
