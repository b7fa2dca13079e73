using Trimwright.App.Edits;
using Trimwright.App.Scheduling;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Questions;

/// <summary>A lure to begin with: the form and wire of another, as long as this one is to be, in its wood, without weights.</summary>
/// <param name="From">Whose form.</param>
/// <param name="Name">What it is to be called.</param>
/// <param name="LengthMm">Whole body, mm; null: as long as the other.</param>
/// <param name="Box">Holds the wood that the other names; where it doesn't, the other's counts.</param>
internal sealed record ALureToBegin(LureDesign From, string Name, double? LengthMm, MakersBox Box) : IQuestion<Reply<LureDesign>>
{
    public bool IsWide => false;

    public Reply<LureDesign> Answer(Pace pace)
    {
        // Weights sit where another wood and length had them: they are chosen anew.
        LureDesign design = Box.Cut(From) with { Name = Name, Ballast = [], Halves = null };
        if (LengthMm is { } length) design = Reshape.Length(design, length, inProportion: true);
        Reading<LureDesign> read = LureFile.Read(LureFile.Write(design));
        return read.Value is { } sound ? sound
            : new Flaw(nameof(LengthMm), read.Faults[0] with { Next = "Choose a length nearer to the starter's, or another starter." });
    }
}
