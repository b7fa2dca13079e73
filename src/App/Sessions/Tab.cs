using Trimwright.App.Work;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>
/// One tab on one lure: what it shows, the gesture in hand, and what the last change did. Everything else is the
/// session's and the store's.
/// </summary>
public sealed partial class Tab : IDisposable
{
    private readonly LureSession session;
    private readonly Aside? aside;
    private readonly Lock drawing = new();
    private int onto;
    private string shownEdit;
    private Look rested;
    private CancellationTokenSource? wondering;

    /// <param name="session">The lure's.</param>
    /// <param name="switches">Stage, rig and water.</param>
    /// <param name="notation">The maker's units.</param>
    /// <param name="aside">Where to work out how sure it all is; without it nobody asks.</param>
    /// <param name="nose">To which side the maker draws it.</param>
    public Tab(LureSession session, Switches switches, Notation notation, Aside? aside = null, Nose nose = Nose.Left)
    {
        Nose = nose;
        this.aside = aside;
        this.session = session;
        Notation = notation;
        Switches = switches;
        (onto, shownEdit) = (session.N, session.EditId);
        Look = rested = At(session.Design);
        Frame = new OutlineSheet(rested.Design.Body, nose);
        Sound(rested.Design);
        session.Changed += Follow;
        Wonder();
    }

    public Switches Switches { get; private set; }

    /// <summary>The units in which its numbers and words are told.</summary>
    public Notation Notation { get; private set; }

    /// <summary>To which side its nose points in every drawing of it.</summary>
    public Nose Nose { get; private set; }

    /// <summary>What is shown now, a gesture in hand included.</summary>
    public Look Look { get; private set; }

    /// <summary>The paper that the outlines lie on: it stays while a point is in hand.</summary>
    public OutlineSheet Frame { get; private set; }

    /// <summary>What is allowed in the shown design but probably not meant.</summary>
    public IReadOnlyList<Warning> Warnings { get; private set; } = [];

    /// <summary>How sure what is shown is; null while that is being worked out, or when it was given up.</summary>
    public Unsure? Unsure { get; private set; }

    /// <summary>Whether that is being worked out now.</summary>
    public bool Wonders => wondering is not null;

    /// <summary>What the last change did; null before the first.</summary>
    public string? Changed { get; private set; }

    /// <summary>Why the last change could not be.</summary>
    public Fault? Fault { get; private set; }

    public TwoVersions? Versions { get; private set; }

    /// <summary>What the store would not take, and why; it is shown, and what is made next is made on it.</summary>
    public Unsaved? Unsaved { get; private set; }

    /// <summary>Whether a gesture is in hand, that is, something is shown that isn't saved.</summary>
    public bool InHand { get; private set; }

    /// <summary>The revision that is shown, or that the gesture in hand was begun on.</summary>
    public int N => onto;

    public long Id => session.Id;

    public (bool Undo, bool Redo) CanUndoRedo => session.CanUndoRedo;

    public LureSession Session => session;

    /// <summary>Something is to be shown anew; raised on any thread.</summary>
    public event Action? Redraw;

    /// <summary>Shows a change without saving it: a pointer on its way. An unsound one leaves the last sound one in sight.</summary>
    public void Preview(Func<LureDesign, LureDesign> change)
    {
        lock (drawing)
        {
            if (Versions is not null) return;
            InHand = true;
            Forget();
            if (Sound(change(Standing.Design)) is not { } design) return;
            Look = Look.Following(design, Look, Notation);
            Changed = Look.Since(rested, Notation);
        }
    }

    /// <summary>Lets go of a gesture without saving it.</summary>
    public void Drop()
    {
        lock (drawing)
        {
            // What came too late is no gesture: it waits for the maker's word.
            if (Versions is not null) return;
            (Look, InHand, Fault, Changed) = (Standing, Unsaved is not null, null, null);
        }
        Wonder();
        if (session.EditId != shownEdit) Follow();
    }

    /// <summary>Another stage, rig or water: the same lure, and what that changes.</summary>
    public void Switch(Switches switches)
    {
        if (switches == Switches) return;
        lock (drawing)
        {
            Switches = switches;
            Look next = At(Look.Design);
            Changed = next.Since(Look, Notation);
            Look = next;
            rested = InHand ? At(rested.Design) : next;
            Again();
        }
        Wonder();
    }

    /// <summary>Other units, or the nose to the other side: the same lure, told and drawn otherwise.</summary>
    public void Tell(Notation notation, Nose nose)
    {
        if (notation == Notation && nose == Nose) return;
        lock (drawing)
        {
            // A point in hand lies on paper that turns under it: it is let go first.
            if (nose != Nose && InHand && Versions is null) (Look, InHand, Fault) = (Standing, Unsaved is not null, null);
            (Notation, Nose) = (notation, nose);
            if (Frame.Nose != nose) Frame = new OutlineSheet(rested.Design.Body, nose);
            bool same = ReferenceEquals(Look, rested);
            Look = At(Look.Design);
            rested = same ? Look : At(rested.Design);
            Changed = null;
            Again();
        }
        Wonder();
    }

    /// <summary>Gives up working out how sure it is, until the next change.</summary>
    public void Forget()
    {
        CancellationTokenSource? mine = Interlocked.Exchange(ref wondering, null);
        mine?.Cancel();
        Unsure = null;
    }

    // How sure the lure at rest is, worked out beside the hand; a later change or switch ends it and asks anew.
    private async void Wonder()
    {
        Forget();
        if (aside is null) return;
        var mine = new CancellationTokenSource();
        wondering = mine;
        Look of = rested;
        try
        {
            Unsure unsure = await aside.HowSure(of.Design, Switches.Circumstances, mine.Token);
            Look drawn = of.With(unsure, Notation);
            lock (drawing)
            {
                if (!ReferenceEquals(wondering, mine) || !ReferenceEquals(rested, of) || InHand) return;
                wondering = null;
                (Unsure, Look, rested) = (unsure, drawn, drawn);
            }
        }
        catch (OperationCanceledException)
        {
            return;
        }
        catch (Exception e)
        {
            // No odds are no reason to lose the page: it says that they are missing, and the report says why.
            wondering = null;
            WonderFailed?.Invoke(e);
        }
        Redraw?.Invoke();
    }

    /// <summary>Working out how sure it is ran into a mistake of ours.</summary>
    public event Action<Exception>? WonderFailed;

    // Somebody's newer revision, unless a gesture is in hand: that meets it when it is saved.
    private void Follow()
    {
        lock (drawing)
        {
            if (session.EditId == shownEdit) return;
            if (Versions is { } both)
            {
                // Another edit while the maker looks at two: theirs is what is saved now.
                if (!Same(session.Design, both.Theirs.Design)) Versions = both with { Theirs = At(session.Design), TheirCause = session.Cause };
            }
            else if (InHand) return;
            else Adopt(session.Design, session.N, session.EditId, "in another tab: ");
        }
        Redraw?.Invoke();
    }

    // What was looked at to be saved needn't be looked at again, unless switches or units were turned meanwhile.
    private void Adopt(LureDesign design, int n, string editId, string? whose, Look? looked = null)
    {
        lock (drawing)
        {
            // The watch and the answer to my own edit may both bring the same revision.
            if (editId == shownEdit)
            {
                InHand = false;
                return;
            }
            Look next = looked is not null && ReferenceEquals(looked, Look) ? looked : At(design);
            // Another's edit that was set aside leaves the lure as it was; then nothing is said of it.
            if (whose is null || !Same(design, rested.Design)) Changed = whose + next.Since(rested, Notation);
            (Look, rested, Fault, onto, shownEdit, InHand) = (next, next, null, n, editId, false);
            Frame = new OutlineSheet(design.Body, Nose);
            Sound(design);
        }
        Wonder();
    }

    private static bool Same(LureDesign a, LureDesign b) => ReferenceEquals(a, b) || LureFile.Write(a).AsSpan().SequenceEqual(LureFile.Write(b));

    private void Show(LureDesign design)
    {
        Look = At(design);
        Changed = Look.Since(rested, Notation);
    }

    // What is in sight when no hand is at work: what is saved, or what the store would not take.
    private Look Standing => Unsaved?.Mine ?? rested;

    // Two versions that wait for a word, under the switches and in the units of now.
    private void Again()
    {
        if (Versions is { } both) Versions = both with { Mine = At(both.Mine.Design), Theirs = At(both.Theirs.Design) };
        if (Unsaved is { } mine) Unsaved = mine with { Mine = At(mine.Mine.Design) };
    }

    private Look At(LureDesign design) => Look.At(design, Switches.Circumstances, Notation, Nose);

    // Through the one reader that knows what a sound design is.
    private LureDesign? Sound(LureDesign design)
    {
        Reading<LureDesign> reading = LureFile.Read(LureFile.Write(design));
        Fault = reading.Value is null ? reading.Faults[0] : null;
        if (reading.Value is not null) Warnings = reading.Warnings;
        return reading.Value;
    }

    public void Dispose()
    {
        session.Changed -= Follow;
        Forget();
    }
}
