using Trimwright.Core.Carving;
using Trimwright.Core.Design;

namespace Trimwright.Drawing.Sheets;

/// <summary>
/// The glue faces as they lie before you. The two are mirror images on the page, about its upright middle line: held face to
/// face against a window, every cut comes onto its other half.
/// </summary>
internal static class GlueFaceSheets
{
    private const double Above = 30;
    private const double Below = 30;

    public static Sheet Right(Drafting d) => Of(d, WhichHalf.Right);

    public static Sheet Left(Drafting d) => Of(d, WhichHalf.Left);

    private static Sheet Of(Drafting d, WhichHalf half)
    {
        string name = half == WhichHalf.Right ? "right" : "left";
        var field = new Field(d.Wide, Above + d.Top - d.Bottom + Below);
        // The right half's glue face has its nose to the left when the back is up; where the nose is wanted on the other side,
        // the face is turned half round, never mirrored.
        bool natural = half == WhichHalf.Left, wanted = d.Options.Nose is { } nose ? nose == Nose.Right : natural, turned = wanted != natural;
        var view = new View(d.Left, turned ? Above - d.Bottom : Above + d.Top, d.Length, wanted, turned);
        OutlineSheets.AddAxis(field, d, view, "axis");
        field.Lines(Ink.Grid, d.Stations.Select(x => (view.At(x, d.Body.BackAt(x)), view.At(x, d.Body.BackAt(x) + 2))));
        field.Lines(Ink.Grid, d.Stations.Select(x => (view.At(x, d.Body.BellyAt(x)), view.At(x, d.Body.BellyAt(x) - 2))));
        field.Path(Ink.Cut, d.Profile().Select(view.At), closed: true);
        OutlineSheets.AddFace(field, d, view);
        AddCuts(field, d, view, half);
        (double a, double b) = d.Index;
        foreach ((double x, string letter) in new[] { (a, "A"), (b, "B") })
        {
            field.Prick(view.At(x, 0));
            field.Say(letter, view.At(x, 0) + new PagePoint(1.8, -1.4), Anchor.Start, Field.Small);
        }
        AddNotes(field, d, view, half, turned);
        return new Sheet($"glue-{name}", $"Glue face of the {name} half",
            $"{char.ToUpperInvariant(name[0])}{name[1..]} as seen from the tail with the back up. Trace the bent wire itself; this is to check by, and to cut the pockets by.",
            [field.Done($"Glue face, {name}")]);
    }

    private static void AddCuts(Field field, Drafting d, View view, WhichHalf half)
    {
        var cuts = new Cuts();
        foreach (PocketCut pocket in d.Glue.Pockets(half))
        {
            cuts.Add([(pocket.X, pocket.Z)], pocket.DistanceTo, drawn: false);
            AddPocket(field, view, pocket);
        }
        if (d.Glue.Slot is { } slot) AddSlot(field, d, view, cuts, slot);
        foreach (List<(double X, double Z)> run in cuts.Outline((x, z) => Cuts.InWood(d.Body, x, z)))
            field.Path(Ink.Mark, run.Select(view.At));
        foreach (Pin pin in d.Glue.Pins)
        {
            PagePoint at = view.At(pin.X, pin.Z);
            double r = GlueFace.PinDiameter / 2;
            field.Circle(Ink.Cut, at, r);
            field.Lines(Ink.Grid, [(at + new PagePoint(-2.2, 0), at + new PagePoint(2.2, 0)), (at + new PagePoint(0, -2.2), at + new PagePoint(0, 2.2))]);
        }
    }

    private static void AddPocket(Field field, View view, PocketCut pocket)
    {
        PagePoint middle = view.At(pocket.X, pocket.Z);
        if (pocket.Round) field.Circle(Ink.Cut, middle, pocket.Long / 2);
        else field.Box(Ink.Cut, middle + new PagePoint(-pocket.Long / 2, -pocket.High / 2), pocket.Long, pocket.High);
        double cross = Math.Min(2, 0.3 * Math.Min(pocket.Long, pocket.High));
        field.Lines(Ink.Grid, [(middle + new PagePoint(-cross, 0), middle + new PagePoint(cross, 0)), (middle + new PagePoint(0, -cross), middle + new PagePoint(0, cross))]);
        field.Say(pocket.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), middle + new PagePoint(1.2, -1), Anchor.Start, Field.Small);
    }

    private static void AddSlot(Field field, Drafting d, View view, Cuts cuts, WireSlot slot)
    {
        foreach (Groove g in slot.Legs()) cuts.AddGroove(g.FromX, g.FromZ, g.ToX, g.ToZ, g.Width);
        foreach (EyeGroove w in slot.Wraps) AddSquareEnded(cuts, w.Cut);
        foreach (EyeRing eye in slot.Eyes.Where(e => !e.Flat)) cuts.AddRing(eye.X, eye.Z, eye.Radius, slot.Width);
        foreach (SwivelSlot s in slot.Swivels)
        {
            double low = d.Bottom - 5;
            cuts.Add([(s.From, low), (s.From, s.Roof), (s.To, s.Roof), (s.To, low)],
                (x, z) => Math.Max(Math.Max(s.From - x, x - s.To), z - s.Roof));
        }
        // The eyes as they stand outside the wood.
        double half = d.Design.Wire!.DiameterMm / 2;
        foreach (EyeRing eye in slot.Eyes.Where(e => !e.Flat))
        {
            var ring = new Cuts();
            ring.AddRing(eye.X, eye.Z, eye.Radius, 2 * half);
            foreach (List<(double X, double Z)> run in ring.Outline((x, z) => !Cuts.InWood(d.Body, x, z))) field.Path(Ink.Grid, run.Select(view.At));
        }
    }

    private static void AddSquareEnded(Cuts cuts, Groove w)
    {
        double dx = w.ToX - w.FromX, dz = w.ToZ - w.FromZ, length = double.Hypot(dx, dz), half = w.Width / 2;
        (double ux, double uz) = (dx / length, dz / length);
        (double, double) At(double along, double across) => (w.FromX + along * ux - across * uz, w.FromZ + along * uz + across * ux);
        cuts.Add([At(0, -half), At(length, -half), At(length, half), At(0, half), At(0, -half)], (x, z) =>
        {
            double along = (x - w.FromX) * ux + (z - w.FromZ) * uz, across = (z - w.FromZ) * ux - (x - w.FromX) * uz;
            return Math.Max(Math.Max(-along, along - length), Math.Abs(across) - half);
        });
    }

    private static void AddNotes(Field field, Drafting d, View view, WhichHalf half, bool turned)
    {
        var up = new List<(PagePoint, string[])>();
        var down = new List<(PagePoint, string[])>();
        double middle = 0.5 * (d.Top + d.Bottom);
        void Note(double x, double z, double reach, params string[] lines)
        {
            bool high = z > middle;
            (high ? up : down).Add((view.At(x, z + (high ? reach : -reach)), lines));
        }
        foreach (PocketCut p in d.Glue.Pockets(half))
            Note(p.X, p.Z, p.High / 2, $"{p.Number}  {Table.Fit(p.Piece.Name, 40, Field.Text)}", $"{SheetWords.Of(p.Cutter)} {d.Fine(p.CutterSize)}", $"{d.FineWithUnit(p.Depth)} deep");
        foreach (Pin pin in d.Glue.Pins)
            Note(pin.X, pin.Z, GlueFace.PinDiameter / 2, $"pin {d.Fine(GlueFace.PinDiameter)}", $"{d.FineWithUnit(GlueFace.PinDepth)} deep");
        if (d.Glue.Slot is { } slot) AddSlotNotes(d, slot, view, up, down, middle);
        bool over = turned;
        double top = view.At(0, over ? d.Bottom : d.Top).Y, bottom = view.At(0, over ? d.Top : d.Bottom).Y;
        Callouts.Row(field, top - 19, over ? down : up, above: true);
        Callouts.Row(field, bottom + 12, over ? up : down);
        AddSides(field, d, view);
    }

    // Over and under the nose, where no note stands.
    private static void AddSides(Field field, Drafting d, View view)
    {
        PagePoint up = view.At(-12, d.Top * 0.75), down = view.At(-12, d.Bottom * 0.75);
        field.Say("back", up, Anchor.Middle, Field.Text, Voice.Maker);
        field.Say("belly", down, Anchor.Middle, Field.Text, Voice.Maker);
    }

    private static void AddSlotNotes(
        Drafting d, WireSlot slot, View view, List<(PagePoint, string[])> up, List<(PagePoint, string[])> down, double middle)
    {
        // In the longest straight piece, where no pocket hides it.
        Groove leg = slot.Legs().MaxBy(g => Math.Abs(g.ToX - g.FromX));
        double share = new[] { 0.62, 0.45, 0.3, 0.75, 0.85, 0.2 }
            .FirstOrDefault(t => d.Glue.Right.Concat(d.Glue.Left).All(p => p.DistanceTo(leg.FromX + t * (leg.ToX - leg.FromX), leg.FromZ + t * (leg.ToZ - leg.FromZ)) > 3), 0.5);
        double x = leg.FromX + share * (leg.ToX - leg.FromX), z = leg.FromZ + share * (leg.ToZ - leg.FromZ);
        (z + slot.Width > middle - 3 ? up : down).Add((view.At(x, z + slot.Width / 2), ["wire slot", $"{d.Fine(slot.Width)} wide", $"{d.FineWithUnit(slot.Width / 2)} deep"]));
        foreach ((string name, Groove wrap, double deep) in slot.Wraps)
            up.Add((view.At((wrap.FromX + wrap.ToX) / 2, (wrap.FromZ + wrap.ToZ) / 2 + (wrap.FromX == wrap.ToX ? 0 : wrap.Width / 2)),
                [name, $"{d.Fine(wrap.Width)} wide", $"{d.FineWithUnit(deep)} deep"]));
        foreach (SwivelSlot s in slot.Swivels)
            down.Add((view.At((s.From + s.To) / 2, d.Body.BellyAt((s.From + s.To) / 2)),
                [$"swivel slot, {s.Name}", $"{d.Fine(s.To - s.From)} long", $"{d.FineWithUnit(s.Width / 2)} deep"]));
    }
}
