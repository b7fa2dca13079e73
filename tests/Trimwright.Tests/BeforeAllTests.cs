using System.Runtime.CompilerServices;
using Bunit;
using Trimwright.App.Faults;

namespace Trimwright.Tests;

internal static class BeforeAllTests
{
    // Tests run two at a time, many of them loops over all cores: what a test waits for needs a thread as the page does, and a page
    // that a test waits for is late at times.
    [ModuleInitializer]
    internal static void KeepThreadsFreeAndBePatient()
    {
        Machine.KeepThreadsFree();
        BunitContext.DefaultWaitTimeout = Patience.ForAHang;
    }
}
