using System.Collections.Immutable;

namespace Trimwright.Drawing.Sheets;

/// <summary>One thing to have at the bench, at true size.</summary>
/// <param name="Id">As <c>--only</c> and file names call it.</param>
/// <param name="Title">What it is.</param>
/// <param name="Purpose">What to do with it, in a sentence or two.</param>
/// <param name="Fields">The drawing, or several; one larger than the paper goes on tiles.</param>
/// <param name="Drawn">Holds shapes to cut by, so that it is worth having as DXF.</param>
public sealed record Sheet(string Id, string Title, string Purpose, ImmutableArray<Picture> Fields, bool Drawn = true);
