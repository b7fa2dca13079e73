using Trimwright.Core.Ballast;
using Trimwright.Core.Design;

namespace Trimwright.Drawing.Sheets;

/// <summary>Where a glued lure can still be drilled from outside, and how deep to set the stop.</summary>
internal static class DrillSheet
{

    // A twist drill's point reaches 0.3 of its diameter beyond its full width; common practice, no source.
    private const double Diameter = 6;
    private static readonly DrillBit Bit = new(Diameter, 0.3 * Diameter);

    public static Sheet? Draw(Drafting d)
    {
        // Pins that these sheets propose are in the wood too.
        LureDesign design = d.Glue.Pins.IsEmpty ? d.Design
            : d.Design with { Joint = (d.Design.Joint ?? new JointDesign()) with { PinsMm = [.. d.Glue.Pins.Select(p => (p.X, p.Z))] } };
        var spots = new SafeSpots(design);
        double every = d.Options.Step;
        SafeSpot[] upright = [.. spots.Along(Bit, every)];
        SafeSpot[] right = [.. spots.Across(DrilledFrom.RightSide, Bit, every)], left = [.. spots.Across(DrilledFrom.LeftSide, Bit, every)];
        return new Sheet("drill", "Where to drill after gluing",
            $"With a {d.FineWithUnit(Diameter)} twist drill and a stop at the depth written. No number, no hole: something lies there, or too little wood.",
            [FromBellyAndBack(d, upright), FromTheSides(d, right, left)], Drawn: false);
    }

    private static Picture FromBellyAndBack(Drafting d, SafeSpot[] spots)
    {
        const double above = 22, below = 30;
        var field = new Field(d.Wide, above + d.Top - d.Bottom + below);
        View view = d.View(d.Left, above + d.Top);
        OutlineSheets.AddAxis(field, d, view, "axis");
        AddInside(field, d, view);
        foreach (SafeSpot spot in spots)
        {
            bool belly = spot.From == DrilledFrom.Belly;
            PagePoint mouth = view.At(spot.Mouth.X, spot.Mouth.Z), bottom = view.At(spot.Mouth.X, spot.At(spot.Depth).Z);
            field.Line(Ink.Mark, mouth, bottom);
            field.Line(Ink.Mark, bottom + new PagePoint(-1.2, 0), bottom + new PagePoint(1.2, 0));
            field.Say(d.Fine(spot.Depth), mouth + new PagePoint(0, belly ? 4.2 : -1.8), Anchor.Middle, 2.6);
        }
        double top = view.At(0, d.Top).Y - 9, low = view.At(0, d.Bottom).Y + 11;
        foreach (double x in d.Stations) field.Say(d.Station(x), view.At(x, 0) with { Y = top }, Anchor.Middle, Field.Small);
        field.Say("From the back, straight down; from the belly, straight up; on the seam. The top row is the station.", new PagePoint(field.Width / 2, low + 6), Anchor.Middle, Field.Text, Voice.Maker);
        field.Say("Dashed is what lies inside.", new PagePoint(field.Width / 2, low + 12), Anchor.Middle, Field.Text, Voice.Maker);
        return field.Done("Safe depths from belly and back");
    }

    private static Picture FromTheSides(Drafting d, SafeSpot[] right, SafeSpot[] left)
    {
        const double above = 12, between = 22, below = 12;
        double tall = d.Top - d.Bottom;
        var field = new Field(d.Wide, above + 2 * tall + between + below);
        // Each side as one looks at it: the left one has its nose to the left.
        AddSide(field, d, left, new View(d.Left, above + d.Top, d.Length, false, false), "left side");
        AddSide(field, d, right, new View(d.Left, above + tall + between + d.Top, d.Length, true, false), "right side");
        return field.Done("Safe depths from the sides");
    }

    private static void AddSide(Field field, Drafting d, SafeSpot[] spots, View view, string name)
    {
        OutlineSheets.AddAxis(field, d, view, "axis");
        field.Say(name, new PagePoint(field.Width / 2, view.At(0, d.Bottom).Y + 8), Anchor.Middle, 4.4, Voice.Maker);
        AddInside(field, d, view);
        foreach (double x in d.Stations) field.Say(d.Station(x), view.At(x, d.Body.BackAt(x)) + new PagePoint(0, -1.8), Anchor.Middle, 2.6);
        foreach (SafeSpot spot in spots)
        {
            PagePoint at = view.At(spot.Mouth.X, spot.Mouth.Z);
            field.Circle(Ink.Mark, at, 0.5);
            field.Say(d.Fine(spot.Depth), at + new PagePoint(0, 4), Anchor.Middle, 2.6);
        }
    }

    private static void AddInside(Field field, Drafting d, View view)
    {
        field.Path(Ink.Cut, d.Profile().Select(view.At), closed: true);
        foreach (Core.Carving.PocketCut p in d.Glue.Right.Concat(d.Glue.Left).DistinctBy(p => p.Number))
        {
            PagePoint at = view.At(p.X, p.Z);
            if (p.Round) field.Circle(Ink.Later, at, p.Long / 2);
            else field.Path(Ink.Later, [at + new PagePoint(-p.Long / 2, -p.High / 2), at + new PagePoint(p.Long / 2, -p.High / 2), at + new PagePoint(p.Long / 2, p.High / 2), at + new PagePoint(-p.Long / 2, p.High / 2)], closed: true);
        }
        foreach (Core.Carving.Pin pin in d.Glue.Pins) field.Circle(Ink.Mark, view.At(pin.X, pin.Z), Core.Carving.GlueFace.PinDiameter / 2);
        if (d.Glue.Slot is not { } slot) return;
        field.Path(Ink.Later, slot.Run.Select(view.At));
        foreach (Core.Carving.SwivelSlot s in slot.Swivels)
            field.Path(Ink.Later, [view.At(s.From, d.Body.BellyAt(s.From)), view.At(s.From, s.Roof), view.At(s.To, s.Roof), view.At(s.To, d.Body.BellyAt(s.To))]);
    }
}
