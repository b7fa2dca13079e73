using Trimwright.App.Faults;
using Trimwright.App.Questions;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;

namespace Trimwright.App.Commands;

/// <summary>
/// What the command line makes of a reply: the answer with its exit status, or a refusal. A question names a part of itself; which
/// option that was said by, and how to say it otherwise, is known here. A part that no option says came from a file, and its fault is
/// the file's.
/// </summary>
internal static class Asked
{
    /// <summary>The answer; what was sought in vain comes with the status that says so.</summary>
    /// <param name="reply">What came of the question.</param>
    /// <param name="because">What stands in the way, in the words of the command line; as the question says it when left out.</param>
    /// <param name="options">Which option says which part of the question.</param>
    public static (T Answer, Exit Exit) Of<T>(Reply<T> reply, Func<Fault, Fault>? because = null, params (string Part, Func<Fault, Refusal> Said)[] options)
        where T : class => reply.Match(
            found => (found, Exit.Done),
            cannot => cannot.Sought is { } sought ? (sought, Exit.CannotBeMet) : throw new Refusal(StatusOf(cannot.Because), [because?.Invoke(cannot.Because) ?? cannot.Because]),
            wrong => throw Refused(wrong.Flaw, options));

    /// <summary>Ends here when something is wrong already.</summary>
    public static void Sound(Flaw? flaw, params (string Part, Func<Fault, Refusal> Said)[] options)
    {
        if (flaw is not null) throw Refused(flaw, options);
    }

    /// <summary>Refuses the number of a plan that there is not.</summary>
    public static void Take(PlanAnswer answer, int take) => Sound(WhichWeights.FlawInNumber(answer, take), (nameof(WhichWeights.TrimHoleOf), By("--take")));

    /// <summary>A part that an option says.</summary>
    /// <param name="name">The option.</param>
    /// <param name="got">What was typed; null: as the question says it.</param>
    /// <param name="allowed">As it is typed; null: likewise.</param>
    /// <param name="next">With an example; null: likewise.</param>
    public static Func<Fault, Refusal> By(string name, string? got = null, string? allowed = null, string? next = null) => fault =>
        Options.Wrong(name, got ?? fault.Got, allowed ?? fault.Allowed, next ?? fault.Next);

    private static Refusal Refused(Flaw flaw, (string Part, Func<Fault, Refusal> Said)[] options) =>
        options.FirstOrDefault(o => o.Part == flaw.Part) is { Said: { } said } ? said(flaw.Fault) : new Refusal(Exit.InputWrong, [flaw.Fault]);

    // What this program was built without, no other want helps against.
    private static Exit StatusOf(Fault because) => because.Kind == SheetsFor.NoTypeKind ? Exit.MachineRefused : Exit.CannotBeMet;
}
