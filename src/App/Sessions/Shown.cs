using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.App.Sessions;

/// <summary>What a tab shows, all of one moment; replaced whole.</summary>
/// <param name="Switches">Stage, rig and water.</param>
/// <param name="Notation">The units in which its numbers and words are told.</param>
/// <param name="Nose">To which side its nose points in every drawing of it.</param>
/// <param name="Look">What is shown, a gesture in hand included.</param>
/// <param name="Rested">The same without the gesture: what is saved.</param>
/// <param name="Frame">The paper that the outlines lie on: it stays while a point is in hand.</param>
/// <param name="N">The revision that is shown, or that the gesture in hand was begun on.</param>
/// <param name="EditId">The edit that made that revision.</param>
public sealed record Shown(Switches Switches, Notation Notation, Nose Nose, Look Look, Look Rested, OutlineSheet Frame, int N, string EditId)
{
    /// <summary>What is allowed in the shown design but probably not meant.</summary>
    public IReadOnlyList<Warning> Warnings { get; init; } = [];

    /// <summary>How sure what is shown is; null while that is being worked out, or when it was given up.</summary>
    public Unsure? Unsure { get; init; }

    /// <summary>How far that has come, 0 to 1; null when nobody works on it.</summary>
    public double? Wondering { get; init; }

    /// <summary>What the last change did; null before the first.</summary>
    public string? Changed { get; init; }

    /// <summary>Why the last change could not be.</summary>
    public Fault? Fault { get; init; }

    /// <summary>Two edits on one revision, which wait for the maker's word.</summary>
    public TwoVersions? Versions { get; init; }

    /// <summary>What the store would not take, and why; it is shown, and what is made next is made on it.</summary>
    public Unsaved? Unsaved { get; init; }

    /// <summary>What is in sight when no hand is at work: what is saved, or what the store would not take.</summary>
    public Look Standing => Unsaved?.Mine ?? Rested;

    /// <summary>Whether a gesture is in hand, that is, something is shown that isn't saved.</summary>
    public bool InHand { get; init; }
}
