using System.Collections.Immutable;
using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Strength;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing.Sheets;

/// <summary>The wire at true size to bend it on, the marks on the straight wire in the order of bending, and which pin makes which eye.</summary>
internal static class WireSheet
{

    public static Sheet? Draw(Drafting d)
    {
        if (d.Design.Wire is not { } wire || d.Wire is null || LureStrength.Of(d.Design) is not { } strength) return null;
        ImmutableArray<WireBend> bends = WireBends.Of(wire, d.Wire);
        return new Sheet("wire", "Wire to bend",
            $"Bend it before any slot is cut: {d.FineWithUnit(wire.DiameterMm)} wire, cut {d.FineWithUnit(strength.CutLength)} long. Eye protection on; hold both ends when you cut hard wire.",
            [Shape(d, wire), .. Steps(d, wire, bends, strength.CutLength)]);
    }

    /// <summary>The wire as thick as it is, the lure's outline behind it, the pins in its eyes.</summary>
    private static Picture Shape(Drafting d, WireDesign wire)
    {
        const double above = 24, below = 34;
        var field = new Field(d.Wide, above + d.Top - d.Bottom + below);
        View view = d.View(d.Left, above + d.Top);
        WireSlot slot = d.Glue.Slot!;
        field.Path(Ink.Grid, d.Profile().Select(view.At), closed: true);
        var cuts = new Cuts();
        foreach (Groove leg in slot.Legs()) cuts.AddGroove(leg.FromX, leg.FromZ, leg.ToX, leg.ToZ, wire.DiameterMm);
        foreach (EyeRing eye in slot.Eyes)
        {
            if (eye.Flat) cuts.AddGroove(eye.X - eye.Radius, eye.Z, eye.X + eye.Radius, eye.Z, wire.DiameterMm);
            else cuts.AddRing(eye.X, eye.Z, eye.Radius, wire.DiameterMm);
        }
        foreach (List<(double X, double Z)> run in cuts.Outline((_, _) => true)) field.Path(Ink.Cut, run.Select(view.At));
        foreach (EyeGroove wrap in slot.Wraps) AddWraps(field, view, wrap.Cut, wire.DiameterMm);
        AddNotes(field, d, wire, slot, view);
        return field.Done("The bent wire at true size");
    }

    // Turns seen from the side are short lines across the leg, one wire apart.
    private static void AddWraps(Field field, View view, Groove wrap, double diameter)
    {
        double dx = wrap.ToX - wrap.FromX, dz = wrap.ToZ - wrap.FromZ, length = double.Hypot(dx, dz), reach = 1.5 * diameter;
        (double ux, double uz) = (dx / length, dz / length);
        int turns = Math.Max(1, (int)Math.Round(length / diameter));
        field.Lines(Ink.Mark, Enumerable.Range(0, turns + 1).Select(i => i * length / turns).Select(t =>
            (view.At(wrap.FromX + t * ux - reach * uz, wrap.FromZ + t * uz + reach * ux), view.At(wrap.FromX + t * ux + reach * uz, wrap.FromZ + t * uz - reach * ux))));
    }

    private static void AddNotes(Field field, Drafting d, WireDesign wire, WireSlot slot, View view)
    {
        TrialLoop? coil = Coil(d, wire);
        var notes = new List<(PagePoint, string[])>();
        foreach (EyeRing eye in slot.Eyes)
        {
            double inside = 2 * eye.Radius - wire.DiameterMm;
            double pin = coil?.PinFor(inside) ?? inside;
            PagePoint at = view.At(eye.X, eye.Z);
            if (!eye.Flat) field.Circle(Ink.Later, at, pin / 2);
            notes.Add((at + new PagePoint(0, eye.Radius + wire.DiameterMm / 2), [$"eye, {StrengthWords.Place(eye.Place)}", $"{d.Fine(inside)} inside, {(eye.Flat ? "lies flat" : "upright")}", $"pin {d.FineWithUnit(pin)}"]));
        }
        foreach (Hanger hanger in wire.Hangers.Where(h => h.Kind == HangerKind.Swivel))
            notes.Add((view.At(hanger.XMm, WireRun.Height(wire, d.Body, hanger.XMm) - wire.DiameterMm / 2), [$"thread the swivel, {hanger.Name}", "before the last eye"]));
        Callouts.Row(field, view.At(0, d.Bottom).Y + 16, notes);
        Callouts.Row(field, view.At(0, d.Top).Y - 12, d.Design.Ballast.Where(p => p.OnWire)
            .Select(p => (view.At(p.AtMm[0], p.AtMm[2] + wire.DiameterMm / 2), new[] { $"thread {Table.Fit(p.Name, 44, Field.Text)}", "before the last eye" })), above: true);
    }

    private static TrialLoop? Coil(Drafting d, WireDesign wire) => d.Options.Trial is { } trial
        ? TrialLoop.Measured(wire.DiameterMm, trial.Pin, trial.Eye)
        : WireStrength.Of(wire.DiameterMm, wire.Grade) is { } strength ? TrialLoop.Expected(strength) : null;

    private static IEnumerable<Picture> Steps(Drafting d, WireDesign wire, ImmutableArray<WireBend> bends, double cut)
    {
        Table.Column[] columns = [new("", 9), new("in this order", 76, Words: true), new("from", 18), new("to", 18)];
        string[][] rows = [.. Order(d, wire, bends, cut).Select((s, i) => new[] { Frame.Number(i), s.What, s.From, s.To })];
        double trial = Math.Max(26 + 28 * Wanted(d, wire).Length, 90), room = d.Options.Room.Width;
        columns = Table.Filling(room - trial - 8, columns, rows);
        foreach (string[][] part in Table.Pages(rows, d.Options.Room.Height - 8))
        {
            var field = new Field(d.Options.Room.Width, d.Options.Room.Height);
            Table.Draw(field, new PagePoint(0, 0), columns, part, Table.Rows(part.Length, field.Height - 8));
            if (part[0] == rows[0]) AddTrial(field, d, wire, new PagePoint(room - trial, 0));
            yield return field.Done("Order of bends, and pins");
        }
    }

    private static IEnumerable<(string What, string From, string To)> Order(Drafting d, WireDesign wire, ImmutableArray<WireBend> bends, double cut)
    {
        yield return ($"cut {d.FineWithUnit(cut)}", "", "");
        WireBend[] last = [.. bends.Where(b => b.Place == TailLoop && wire.TailLoop is not null)];
        foreach (WireBend bend in InHandOrder(bends.Where(b => b.Place == LineTie))) yield return Row(d, bend);
        foreach (WireBend bend in bends.Where(b => b.Place is not (LineTie or TailLoop))) yield return Row(d, bend);
        string[] threaded = [.. wire.Hangers.Where(h => h.Kind == HangerKind.Swivel).Select(h => $"swivel, {h.Name}"), .. d.Design.Ballast.Where(p => p.OnWire).Select(p => p.Name)];
        if (threaded.Length > 0) yield return ("thread before the last eye is closed:", "", "");
        foreach (string thing in threaded) yield return ("    " + thing, "", "");
        foreach (WireBend bend in last) yield return Row(d, bend);
        yield return ("cut off what the pliers held", "", "");
    }

    private const string LineTie = "line_tie";
    private const string TailLoop = "tail_loop";

    // The eye first, then what closes it.
    private static IEnumerable<WireBend> InHandOrder(IEnumerable<WireBend> end) => end.OrderBy(b => b.Kind switch
    {
        BendKind.Held => 0,
        BendKind.Eye => 1,
        BendKind.Closing or BendKind.Leg or BendKind.Bend => 2,
    });

    private static (string, string, string) Row(Drafting d, WireBend b)
    {
        string what = b.Kind switch
        {
            BendKind.Held => "held in the pliers",
            BendKind.Closing => b.Design!.Closing.Bent(b.Design, d.Notation),
            BendKind.Eye => $"eye, {StrengthWords.Place(b.Place)}: round the pin",
            BendKind.Leg => "left straight",
            BendKind.Bend => $"tight bend {(b.Amount > 0 ? "up" : "down")}, {d.Notation.Number(Math.Abs(Units.ToDegrees(b.Amount)), 0)}°",
        };
        return (what, d.Fine(b.From), b.To > b.From ? d.Fine(b.To) : "");
    }

    private static double[] Wanted(Drafting d, WireDesign wire) =>
        [.. d.Glue.Slot!.Eyes.Select(e => Math.Round(2 * e.Radius - wire.DiameterMm, 2)).Distinct().Order().Take(3)];

    /// <summary>One loop tells what this coil does; a row for each opening that it may show.</summary>
    private static void AddTrial(Field field, Drafting d, WireDesign wire, PagePoint at)
    {
        double[] wanted = Wanted(d, wire);
        double room = field.Width - at.X;
        double y = field.Tell("One trial loop for this coil", at + new PagePoint(0, 3.5), room, 5) + 1;
        double pin = wanted[0];
        string before = d.Options.Trial is { } t
            ? $"Your trial: a {d.FineWithUnit(t.Pin)} pin left {d.FineWithUnit(t.Eye)} inside. The pins on these pages are for this coil."
            : Coil(d, wire) is { } expected
                ? $"The pins on these pages expect {d.FineWithUnit(expected.EyeFrom(pin))} inside from a {d.FineWithUnit(pin)} pin (typical for such wire, from memory). Bend one loop on that pin, let go, measure inside, and take the row that you find."
                : $"Of this wire nothing is known beforehand. Bend one loop on a {d.FineWithUnit(pin)} pin, let go, measure inside, and take the row that you find.";
        y = field.Tell(before, new PagePoint(at.X, y), room) + 2;
        Table.Column[] columns = [new("trial loop\ninside", 26), .. wanted.Select(w => new Table.Column($"pin for\n{d.Fine(w)} inside", 28))];
        // What is expected has a row of its own.
        double[] usual = d.Options.Trial is null && Coil(d, wire) is { } coil ? [coil.EyeFrom(pin)] : [];
        double[] opened = [.. usual.Concat(Enumerable.Range(0, 9).Select(i => pin * (1 + 0.025 * i))).DistinctBy(d.Fine).Order()];
        y = Table.Draw(field, new PagePoint(at.X, y), columns,
            [.. opened.Select(o => new[] { d.Fine(o) }.Concat(wanted.Select(w => d.Fine(TrialLoop.Measured(wire.DiameterMm, pin, o).PinFor(w)))).ToArray())], 5.4);
        field.Tell("Marks are along the straight wire from its front end.", new PagePoint(at.X, y + 7), room);
    }
}
