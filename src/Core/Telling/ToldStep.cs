using System.Collections.Immutable;

namespace Trimwright.Core.Telling;

/// <summary>A step of a build in words, for text, sheet and page alike.</summary>
/// <param name="Title">What is done, in a few words.</param>
/// <param name="Do">Sentences, in the order of work.</param>
/// <param name="Rows">Numbers by name.</param>
/// <param name="Ticks">What is ticked off before going on.</param>
/// <param name="Cautions">What can hurt.</param>
public sealed record ToldStep(
    string Title, ImmutableArray<string> Do, ImmutableArray<(string Name, string Value)> Rows, ImmutableArray<string> Ticks, ImmutableArray<string> Cautions);
