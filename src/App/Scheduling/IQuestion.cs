using Trimwright.Core.Numerics;

namespace Trimwright.App.Scheduling;

/// <summary>
/// Something that takes its time to answer: what is asked about is in it, and the same comes out whenever and beside whatever it
/// is worked out. It asks the scheduler nothing itself. The name of its type is what a report of our own faults says of it, and all
/// that it says.
/// </summary>
public interface IQuestion<out T>
{
    /// <summary>Whether its loops can use more than one core.</summary>
    bool IsWide => false;

    /// <summary>Works it out.</summary>
    /// <param name="pace">Asked between steps; it may end the work, and may let others go first.</param>
    T Answer(Pace pace);
}

/// <summary>How near a hand is to what is asked. The nearer goes first.</summary>
public enum Priority
{
    /// <summary>A point is in hand, or a field was answered: its maker looks at nothing else.</summary>
    Hand,

    /// <summary>A picture that was asked for: a page that opens, another water, somebody else's edit.</summary>
    Preview,

    /// <summary>Long, asked for, and waited for.</summary>
    Plan,

    /// <summary>Long, and asked for by nobody: how sure it all is.</summary>
    Sampling,
}

/// <summary>Who asks: a tab, a phone, a command. Owners share alike, however much each of them asks.</summary>
public sealed class Owner;
