namespace Trimwright.Tests;

/// <summary>
/// How tests wait. None asks how soon a thing comes, so that other work on the machine fails none: docs/tests.md says what is counted
/// instead, and where times are compared side by side. A rule holds that only this file sleeps.
/// </summary>
internal static class Patience
{
    /// <summary>Ends a hang: so long that it is one on any machine, however busy.</summary>
    public static readonly TimeSpan ForAHang = TimeSpan.FromMinutes(5);

    /// <summary>Waits for what must come.</summary>
    public static void Until(Func<bool> comes, string orElse) => Assert.True(SpinWait.SpinUntil(comes, ForAHang), orElse);

    /// <summary>Waits for what must come, without holding a thread.</summary>
    public static async Task Until(Func<Task<bool>> comes, string orElse)
    {
        int waits = (int)(ForAHang / TimeSpan.FromMilliseconds(20));
        for (int i = 0; !await comes(); i++)
        {
            Assert.True(i < waits, orElse);
            await Task.Delay(20);
        }
    }

    /// <summary>Lets a moment pass, so that something happens at a time which nobody chose; nothing may hang on how long it was.</summary>
    public static void Moment(int ms) => Thread.Sleep(ms);
}
