using System.Collections.Concurrent;
using Trimwright.App.Scheduling;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.App.Sessions;

/// <summary>A lure in a list: small enough to keep of every lure.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Kind">Its kind, if it says one.</param>
/// <param name="Picture">A piece of a page.</param>
/// <param name="Sentence">What it does.</param>
public sealed record Card(string Name, string? Kind, string Picture, string Sentence);

/// <summary>
/// What was worked out last of saved revisions, for all tabs: a second tab on a lure shows the same, and a page is drawn twice,
/// for its address and for its socket. A whole look holds meshes, about a megabyte; tabs that show the same one hold it together.
/// </summary>
public sealed class Looks(Scheduler scheduler)
{
    private const int Kept = 6;

    private readonly Recent<(long Lure, string EditId, Circumstances Where, Notation Notation, Nose Nose), Look> looks = new(Kept);
    private readonly Recent<(long Lure, string EditId, Circumstances Where), Unsure> sureness = new(Kept);
    private readonly ConcurrentDictionary<(long Lure, string File), (string EditId, Notation Notation, Nose Nose, Card Card)> cards = new();

    /// <summary>A revision at rest.</summary>
    public Look Of(long lure, string editId, LureDesign design, Switches switches, Notation notation, Nose nose, Owner owner)
    {
        var key = (lure, editId, switches.Circumstances, notation, nose);
        if (looks.TryGet(key, out Look? there)) return there;
        Look look = scheduler.Do(new LookAt(design, switches.Circumstances, notation, nose), Priority.Preview, owner);
        looks.Keep(key, look);
        return look;
    }

    /// <summary>A look that was taken before its revision was saved.</summary>
    public void Keep(long lure, string editId, Look look, Notation notation) => looks.Keep((lure, editId, look.Prediction.Circumstances, notation, look.Nose), look);

    /// <summary>How sure a revision is, when that was worked out lately.</summary>
    public Unsure? SurenessOf(long lure, string editId, Circumstances where) => sureness.TryGet((lure, editId, where), out Unsure? there) ? there : null;

    /// <summary>That was worked out.</summary>
    public void Keep(long lure, string editId, Circumstances where, Unsure unsure) => sureness.Keep((lure, editId, where), unsure);

    /// <summary>A revision in a list.</summary>
    public Card CardOf(long lure, string editId, LureDesign design, Notation notation, Nose nose, Owner owner) => CardOf((lure, ""), editId, design, notation, nose, owner);

    /// <summary>A starter in a list.</summary>
    public Card CardOf(string starter, LureDesign design, Notation notation, Nose nose, Owner owner) => CardOf((0, starter), "", design, notation, nose, owner);

    private Card CardOf((long, string) key, string editId, LureDesign design, Notation notation, Nose nose, Owner owner)
    {
        if (cards.TryGetValue(key, out var there) && (there.EditId, there.Notation, there.Nose) == (editId, notation, nose)) return there.Card;
        Look look = scheduler.Do(new LookAt(design, Switches.InTheSea.Circumstances, notation, nose, Card: true), Priority.Preview, owner);
        var card = new Card(design.Name, design.Kind, look.Picture, look.Sentence);
        cards[key] = (editId, notation, nose, card);
        return card;
    }
}
