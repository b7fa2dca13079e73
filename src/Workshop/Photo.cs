namespace Trimwright.Workshop;

/// <summary>A photo or sketch that lies behind a lure's outline to be traced over.</summary>
/// <param name="Id">Its number in this store.</param>
/// <param name="EditId">The edit that brought it.</param>
/// <param name="Lure">The lure.</param>
/// <param name="View">"side" or "plan".</param>
/// <param name="Type">"jpeg" or "png".</param>
/// <param name="Width">In its own points.</param>
/// <param name="Height">In its own points.</param>
/// <param name="At">When it came.</param>
/// <param name="Place">Where it lies, JSON; read and judged by whoever lays it there.</param>
/// <param name="IsAway">Whether it was taken away; nothing is ever removed.</param>
public sealed record Photo(long Id, string EditId, long Lure, string View, string Type, int Width, int Height, DateTimeOffset At, string Place, bool IsAway);
