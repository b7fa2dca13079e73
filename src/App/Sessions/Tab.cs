using Trimwright.App.Scheduling;
using Trimwright.App.Questions;
using Trimwright.Core;
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
    private static readonly TimeSpan Still = TimeSpan.FromMilliseconds(600);

    private readonly LureSession session;
    private readonly bool wonders;
    private readonly Owner owner = new();
    private readonly Latest<Shown> shown;
    private CancellationTokenSource? wondering;
    private MovedLure? moving;

    /// <param name="session">The lure's.</param>
    /// <param name="switches">Stage, rig and water.</param>
    /// <param name="notation">The maker's units.</param>
    /// <param name="nose">To which side the maker draws it.</param>
    /// <param name="wonders">Whether to work out how sure it all is.</param>
    public Tab(LureSession session, Switches switches, Notation notation, Nose nose = Nose.Left, bool wonders = false)
    {
        (this.session, this.wonders) = (session, wonders);
        (LureDesign design, int n, string editId, _) = session.Newest;
        Look look = session.Looks.Of(Id, editId, design, switches, notation, nose, owner);
        shown = new(new Shown(switches, notation, nose, look, look, new OutlineSheet(design.Body, nose), n, editId) { Warnings = Check(design).Warnings });
        session.Changed += Follow;
        Wonder();
    }

    /// <summary>What it shows, all of one moment.</summary>
    public Shown Now => shown.Value;

    public Switches Switches => Now.Switches;

    public Notation Notation => Now.Notation;

    public Nose Nose => Now.Nose;

    public Look Look => Now.Look;

    public OutlineSheet Frame => Now.Frame;

    public IReadOnlyList<Warning> Warnings => Now.Warnings;

    public Unsure? Unsure => Now.Unsure;

    /// <summary>Whether somebody works out how sure it is.</summary>
    public bool Wonders => Now.Wondering is not null;

    public string? Changed => Now.Changed;

    public Fault? Fault => Now.Fault;

    public TwoVersions? Versions => Now.Versions;

    public Unsaved? Unsaved => Now.Unsaved;

    public bool InHand => Now.InHand;

    public int N => Now.N;

    public long Id => session.Id;

    public (bool Undo, bool Redo) CanUndoRedo => session.CanUndoRedo;

    public LureSession Session => session;

    /// <summary>Something is to be shown anew; raised on any thread.</summary>
    public event Action? Redraw;

    /// <summary>Working out how sure it is ran into a mistake of ours.</summary>
    public event Action<Exception>? WonderFailed;

    /// <summary>Shows a change without saving it: a pointer on its way. An unsound one leaves the last sound one in sight.</summary>
    public void Preview(Func<LureDesign, LureDesign> change)
    {
        if (Now.Versions is not null) return;
        Forget();
        // In hand from here on, so that nobody else's edit comes between.
        shown.Replace(s => s with { InHand = true });
        (Shown now, long generation) = shown.Read();
        Checked made = Moved(now.Standing.Design, change);
        if (made.Design is not { } design)
        {
            shown.Land(generation, s => s with { Fault = made.Fault });
            return;
        }
        Look look = session.Scheduler.Do(new LookInHand(design, now.Look, now.Notation), Priority.Hand, owner);
        shown.Land(generation, s => s with { Look = look, Changed = look.Since(s.Rested, s.Notation), Fault = null, Warnings = made.Warnings });
    }

    /// <summary>Lets go of a gesture without saving it.</summary>
    public void Drop()
    {
        // What came too late is no gesture: it waits for the maker's word.
        if (Now.Versions is not null) return;
        shown.Replace(s => s with { Look = s.Standing, InHand = s.Unsaved is not null, Fault = null, Changed = null });
        Wonder();
        Follow();
    }

    /// <summary>Another stage, rig or water: the same lure, and what that changes.</summary>
    public void Switch(Switches switches)
    {
        if (switches == Now.Switches) return;
        Forget();
        shown.Replace(s =>
        {
            Shown next = Under(s with { Switches = switches });
            return next with { Changed = next.Look.Since(s.Look, s.Notation) };
        });
        Wonder();
    }

    /// <summary>Other units, or the nose to the other side: the same lure, told and drawn otherwise.</summary>
    public void Tell(Notation notation, Nose nose)
    {
        if (notation == Now.Notation && nose == Now.Nose) return;
        Forget();
        shown.Replace(s =>
        {
            // A point in hand lies on paper that turns under it: it is let go first.
            if (nose != s.Nose && s.InHand && s.Versions is null) s = s with { Look = s.Standing, InHand = s.Unsaved is not null, Fault = null };
            if (s.Frame.Nose != nose) s = s with { Frame = new OutlineSheet(s.Rested.Design.Body, nose) };
            return Under(s with { Notation = notation, Nose = nose, Changed = null });
        });
        Wonder();
    }

    // Everything that is shown, under switches and in units that are new.
    private Shown Under(Shown s)
    {
        Look rested = session.Looks.Of(Id, s.EditId, s.Rested.Design, s.Switches, s.Notation, s.Nose, owner);
        return s with
        {
            Look = ReferenceEquals(s.Look.Design, s.Rested.Design) ? rested : At(s.Look.Design, s, Priority.Preview),
            Rested = rested,
            Versions = s.Versions is { } both ? both with { Mine = At(both.Mine.Design, s, Priority.Preview), Theirs = At(both.Theirs.Design, s, Priority.Preview) } : null,
            Unsaved = s.Unsaved is { } mine ? mine with { Mine = At(mine.Mine.Design, s, Priority.Preview) } : null,
        };
    }

    /// <summary>Gives up working out how sure it is, until the next change.</summary>
    public void Forget()
    {
        Interlocked.Exchange(ref wondering, null)?.Cancel();
        shown.Put(s => s with { Unsure = null, Wondering = null });
    }

    /// <summary>Works out how sure it is, unless that is known or under way: somebody looks at it again.</summary>
    public void WonderAgain()
    {
        if (Now is { Unsure: null, Wondering: null, InHand: false, Versions: null }) Wonder();
    }

    // How sure the lure at rest is, worked out beside the hand; a later change or switch ends it and asks anew.
    private void Wonder()
    {
        Forget();
        if (!wonders) return;
        var mine = new CancellationTokenSource();
        Interlocked.Exchange(ref wondering, mine)?.Cancel();
        shown.Put(s => s with { Wondering = 0 });
        (Shown of, long generation) = shown.Read();
        // It catches all that can happen to it.
        _ = WorkOut(of, generation, mine.Token);
    }

    private async Task WorkOut(Shown of, long generation, CancellationToken cancel)
    {
        try
        {
            Unsure unsure = await Sureness(of, cancel).ConfigureAwait(false);
            Look drawn = session.Scheduler.Do(new LookUnsure(of.Rested, unsure, of.Notation), Priority.Preview, owner, cancel);
            if (!shown.Land(generation, s => s.InHand ? s with { Wondering = null } : s with { Unsure = unsure, Wondering = null, Look = drawn, Rested = drawn })) return;
        }
        catch (OperationCanceledException)
        {
            return;
        }
        catch (Exception e)
        {
            // No odds are no reason to lose the page: it says that they are missing, and the report says why.
            shown.Put(s => s with { Wondering = null });
            WonderFailed?.Invoke(e);
        }
        Redraw?.Invoke();
    }

    private async Task<Unsure> Sureness(Shown of, CancellationToken cancel)
    {
        Circumstances where = of.Switches.Circumstances;
        if (session.Looks.SurenessOf(Id, of.EditId, where) is { } known) return known;
        // Begun only when the lure has lain still for a moment.
        await Task.Delay(Still, cancel).ConfigureAwait(false);
        Unsure unsure = await session.Scheduler.Ask(new HowSure(of.Rested.Design, where), Priority.Sampling, owner, new Steps(this, cancel), cancel).ConfigureAwait(false);
        session.Looks.Keep(Id, of.EditId, where, unsure);
        return unsure;
    }

    // Told by the threads that work; shown a tenth at a time, or the page would be drawn for nothing else.
    private sealed class Steps(Tab tab, CancellationToken cancel) : IProgress<double>
    {
        private int told;

        public void Report(double value)
        {
            int tenths = (int)(10 * value);
            if (tenths <= Volatile.Read(ref told) || tenths <= Interlocked.Exchange(ref told, tenths) || cancel.IsCancellationRequested) return;
            tab.shown.Put(s => s.Wondering is { } before && before < value ? s with { Wondering = tenths / 10.0 } : s);
            tab.Redraw?.Invoke();
        }
    }

    // Somebody's newer revision, unless a gesture is in hand: that meets it when it is saved.
    private void Follow()
    {
        Newest newest = session.Newest;
        if (newest.EditId == Now.EditId) return;
        if (Now.Versions is not null)
            // Another edit while the maker looks at two: theirs is what is saved now.
            shown.Replace(s => s.Versions is { } both && !Same(newest.Design, both.Theirs.Design)
                ? s with { Versions = both with { Theirs = At(newest.Design, s, Priority.Preview), TheirCause = newest.Cause } } : s);
        else if (!Adopt(newest.Design, newest.N, newest.EditId, "in another tab: ")) return;
        Redraw?.Invoke();
    }

    // What was looked at to be saved needn't be looked at again, unless switches or units were turned meanwhile.
    private bool Adopt(LureDesign design, int n, string editId, string? whose, Look? looked = null)
    {
        while (true)
        {
            (Shown now, long generation) = shown.Read();
            if (whose is not null && (now.InHand || now.Versions is not null)) return false;
            Shown next;
            // The watch and the answer to my own edit may both bring the same revision.
            if (editId == now.EditId) next = now with { InHand = false };
            else
            {
                if (looked is not null && ReferenceEquals(looked, now.Look)) session.Looks.Keep(Id, editId, looked, now.Notation);
                Look look = session.Looks.Of(Id, editId, design, now.Switches, now.Notation, now.Nose, owner);
                next = now with
                {
                    Look = look, Rested = look, Fault = null, N = n, EditId = editId, InHand = false, Frame = new OutlineSheet(design.Body, now.Nose), Warnings = Check(design).Warnings,
                    // Another's edit that was set aside leaves the lure as it was; then nothing is said of it.
                    Changed = whose is null || !Same(design, now.Rested.Design) ? whose + look.Since(now.Rested, now.Notation) : now.Changed,
                };
            }
            if (!shown.Land(generation, _ => next)) continue;
            if (editId != now.EditId) Wonder();
            return true;
        }
    }

    private static bool Same(LureDesign a, LureDesign b) => ReferenceEquals(a, b) || LureFile.Write(a).AsSpan().SequenceEqual(LureFile.Write(b));

    private Look At(LureDesign design, Shown s, Priority priority) => session.Scheduler.Do(new LookAt(design, s.Switches.Circumstances, s.Notation, s.Nose), priority, owner);

    private readonly record struct Checked(LureDesign? Design, Fault? Fault, IReadOnlyList<Warning> Warnings);

    // Through the one reader that knows what a sound design is.
    private static Checked Check(LureDesign design) => Judged(LureFile.Read(LureFile.Write(design)));

    // A gesture moves points of one design, and writes and reads no file on its way.
    private Checked Moved(LureDesign from, Func<LureDesign, LureDesign> change)
    {
        MovedLure? gesture = Volatile.Read(ref moving);
        if (!ReferenceEquals(gesture?.From, from)) Volatile.Write(ref moving, gesture = new MovedLure(from));
        return Judged(gesture!.Read(change(from)));
    }

    private static Checked Judged(Reading<LureDesign> reading) => new(reading.Value, reading.Value is null ? reading.Faults[0] : null, reading.Warnings);

    public void Dispose()
    {
        session.Changed -= Follow;
        Forget();
    }
}
