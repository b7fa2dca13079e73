using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Faults;

/// <summary>Exit statuses of the program, as scripts may lean on them.</summary>
internal enum Exit
{
    Done = 0,
    InputWrong = 1,
    CommandLineWrong = 2,
    CannotBeMet = 3,
    MachineRefused = 4,
    OwnFault = 70,
    Cancelled = 130,
}

/// <summary>A request that ended with a reason instead of a result.</summary>
internal sealed class Refusal(Exit exit, IReadOnlyList<Fault> faults) : Exception(faults[0].ToString())
{
    public Exit Exit => exit;

    public IReadOnlyList<Fault> Faults => faults;

    public Refusal(Exit exit, string kind, string path, string got, string allowed, string next)
        : this(exit, [new Fault(kind, path, got, allowed, next)])
    {
    }

    /// <summary>For the store's: a file that is no store, or isn't there, is a wrong input, all else is the machine's.</summary>
    public static Refusal Of(StoreRefusal e) => new(e.Cause is RefusalCause.NotAStore or RefusalCause.NotThere ? Exit.InputWrong : Exit.MachineRefused, [e.Fault]);
}
