using Trimwright.App.Scheduling;
using Trimwright.App.Work;
using Trimwright.Workshop;

namespace Trimwright.App.Pages;

/// <summary>
/// What nobody caught, neither a page's own code nor <see cref="Calm"/>: the framework logs it before it gives the page up,
/// and that log is where the report is written. Nothing else is logged.
/// </summary>
internal sealed class Reports(DataFolder folder, Operations operations) : ILoggerProvider, ILogger
{
    public ILogger CreateLogger(string categoryName) => this;

    public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Error;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
    {
        if (IsEnabled(logLevel) && exception is not null) OurFault.Report(exception, folder, DateTimeOffset.UtcNow, operations);
    }

    public void Dispose()
    {
        // Each report is a file of its own, closed when it is written.
    }
}
