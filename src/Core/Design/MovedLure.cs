using System.Collections.Immutable;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>
/// Judges what becomes of one sound design while points of its outlines are moved: by the rules and in the sentences of
/// <see cref="LureFile.Read"/>, without a file between. A design that differs from it in anything else goes the long way.
/// </summary>
/// <param name="from">Sound.</param>
public sealed class MovedLure(LureDesign from)
{
    // What the reader said of keys and names, which no move changes; what geometry said of it is said anew of each.
    private readonly ImmutableArray<Warning> read = Told(from);

    // No move changes the units of a key.
    private readonly FileUnits units = LureFile.Form.UnitsOf(from);

    /// <summary>The design that points are moved of.</summary>
    public LureDesign From { get; } = from;

    /// <summary>As reading the file of the moved design would give it.</summary>
    public Reading<LureDesign> Read(LureDesign moved)
    {
        if (!IsMoved(moved)) return LureFile.Read(LureFile.Write(moved));
        var findings = new Findings { Units = units };
        Soundness.Check(moved, findings);
        // As many notes as that are counted, not told: the reader counts them.
        if (read.Length + findings.Warnings.Count > Findings.Most) return LureFile.Read(LureFile.Write(moved));
        return new(findings.Faults.Count == 0 ? moved : null, [.. findings.Faults], [.. read, .. findings.Told]);
    }

    private bool IsMoved(LureDesign moved) =>
        moved with { Body = moved.Body with { Back = From.Body.Back, Belly = From.Body.Belly, Plan = From.Body.Plan } } == From
        && InRange(moved.Body.Back, -LureFile.Longest) && InRange(moved.Body.Belly, -LureFile.Longest) && InRange(moved.Body.Plan, 0);

    // Beyond what a file may say, the reader has its own sentence.
    private static bool InRange(Outline outline, double least) => outline.Points.Length <= LureFile.MostPoints
        && outline.Points.All(p => p.X is >= 0 and <= LureFile.Longest && p.Value >= least && p.Value <= LureFile.Longest)
        && outline.Corners.All(c => c is >= 0 and <= LureFile.Longest);

    private static ImmutableArray<Warning> Told(LureDesign design)
    {
        ImmutableArray<Warning> all = LureFile.Read(LureFile.Write(design)).Warnings;
        var findings = new Findings();
        Soundness.Check(design, findings);
        return all.Length > Findings.Most ? all : all[..^findings.Warnings.Count];
    }
}
