namespace Trimwright.Tests.Workshop;

/// <summary>A clock that a test sets, in a zone of its choice; timers run as the system's.</summary>
internal sealed class SetClock(DateTimeOffset now, TimeZoneInfo? zone = null) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now.ToUniversalTime();

    public override TimeZoneInfo LocalTimeZone => zone ?? TimeZoneInfo.Utc;
}
