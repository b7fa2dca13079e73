namespace Trimwright.Workshop;

/// <summary>One lure that was or is being made, of one revision of a design.</summary>
/// <param name="Id">Its number in this store.</param>
/// <param name="EditId">The edit that began it.</param>
/// <param name="Lure">The lure.</param>
/// <param name="N">The revision that is built.</param>
/// <param name="Batch">The batch that it belongs to, null for a single one.</param>
/// <param name="Label">What the maker writes on the blank.</param>
/// <param name="At">When it was begun.</param>
public sealed record Build(long Id, string EditId, long Lure, int N, long? Batch, string Label, DateTimeOffset At);

/// <summary>One design made several times.</summary>
public sealed record Batch(long Id, string EditId, long Lure, int N, string Name, DateTimeOffset At);

/// <summary>One thing that was measured or done on a build.</summary>
/// <param name="Id">Its number in this store.</param>
/// <param name="Build">The build.</param>
/// <param name="EditId">The edit that wrote it.</param>
/// <param name="At">When it was measured. Hours between two entries are those of their difference, whatever the clocks did.</param>
/// <param name="Kind">What sort of entry, a word in lower case: "weight", "tub", "coat" …</param>
/// <param name="Strikes">The earlier entry that this one takes back, or null.</param>
/// <param name="Json">The entry itself, JSON; read and judged by whoever knows its kind.</param>
public sealed record LogEntry(long Id, long Build, string EditId, DateTimeOffset At, string Kind, long? Strikes, string Json);
