using Trimwright.App.Scheduling;
using Trimwright.App.Faults;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

/// <summary>
/// What nobody caught, neither a page's own code nor what is around all pages: the framework logs it before it gives the page up,
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
