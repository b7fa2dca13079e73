namespace Trimwright.App.Pages;

/// <summary>What became of something that a maker asked for.</summary>
/// <param name="Kept">It is on the disk.</param>
/// <param name="Why">Why it isn't, a sentence to say where it was asked for; empty when that is said elsewhere.</param>
public readonly record struct EditResult(bool Kept, string Why)
{
    public static readonly EditResult Yes = new(true, "");

    public static EditResult No(string why = "") => new(false, why);
}
