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
            $"With a {d.FineWithUnit(Diameter)} twist drill, its stop at the depth written; room for its point is kept. No number, no hole: something lies there.",
            [FromBellyAndBack(d, upright), FromTheSides(d, right, left)], Drawn: false);
    }

    private static Picture FromBellyAndBack(Drafting d, SafeSpot[] spots)
    {
        const double above = 22, below = 30;
        var field = new Field(d.Wide, above + d.Top - d.Bottom + below);
        View view = d.View(d.Left, above + d.Top);
        OutlineSheets.AddAxis(field, d, view, "axis");
        var inside = new Inside(d, view);
        foreach (SafeSpot spot in spots)
        {
            bool belly = spot.From == DrilledFrom.Belly;
            PagePoint mouth = view.At(spot.Mouth.X, spot.Mouth.Z), bottom = view.At(spot.Mouth.X, spot.At(spot.Depth).Z);
            field.Line(Ink.Mark, mouth, bottom);
            field.Line(Ink.Mark, bottom + new PagePoint(-1.2, 0), bottom + new PagePoint(1.2, 0));
            double off = belly ? 0.76 * Depth + 1.4 : -1.8;
            inside.Say(field, d.Fine(spot.Depth), mouth, [new(0, off), new(0, off + (belly ? 1.5 : -1.5)), new(0, off + (belly ? 3 : -3))]);
        }
        inside.AddTo(field);
        double top = view.At(0, d.Top).Y - 12, low = view.At(0, d.Bottom).Y + 11;
        foreach (double x in d.Stations) field.Say(d.Station(x), view.At(x, 0) with { Y = top }, Anchor.Middle);
        field.Say("From the back, straight down; from the belly, straight up; on the seam. The top row is the station.", new PagePoint(field.Width / 2, low + 6), Anchor.Middle, Field.Text, Voice.Maker);
        field.Say("Dashed is what lies inside. Drill each place from one side only.", new PagePoint(field.Width / 2, low + 12), Anchor.Middle, Field.Text, Voice.Maker);
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
        var inside = new Inside(d, view);
        foreach (double x in d.Stations) inside.Say(field, d.Station(x), view.At(x, d.Body.BackAt(x)), [new(0, -1.8), new(0, -3.3), new(0, -4.8)]);
        double under = 0.76 * Depth + 1.1;
        foreach (SafeSpot spot in spots)
        {
            PagePoint at = view.At(spot.Mouth.X, spot.Mouth.Z);
            field.Circle(Ink.Mark, at, 0.5);
            inside.Say(field, d.Fine(spot.Depth), at, [new(0, under), new(0, -1.3), new(1.5, under), new(-1.5, under), new(1.5, -1.3), new(-1.5, -1.3)]);
        }
        inside.AddTo(field);
    }

    // Depths are what the sheet is for: they are read with a drill in the hand.
    private const double Depth = Field.Text;

    /// <summary>
    /// The outline and what lies inside, dashed. Figures stand where no line runs; where there is no such place, the line is
    /// broken for the figure, for nobody cuts along it here.
    /// </summary>
    private sealed class Inside
    {
        private readonly List<(Ink Ink, PagePoint[] Line)> lines = [];
        private readonly List<(double Left, double Top, double Right, double Bottom)> words = [];

        public Inside(Drafting d, View view)
        {
            var drawn = new Field(0, 0);
            Draw(drawn, d, view);
            foreach (Mark mark in drawn.Done("").Marks)
            {
                if (mark is Stroke stroke)
                    foreach (Contour c in stroke.Contours) lines.Add((stroke.Ink, [c.Start, .. c.Steps.Select(s => s.End), .. c.Closed ? [c.Start] : (PagePoint[])[]]));
                else if (mark is Circle circle)
                    lines.Add((circle.Ink, [.. Enumerable.Range(0, 49).Select(i => circle.Centre + new PagePoint(circle.Radius * Math.Cos(i * Math.PI / 24), circle.Radius * Math.Sin(i * Math.PI / 24)))]));
            }
        }

        /// <summary>Says a figure at the best of the places offered.</summary>
        public void Say(Field field, string text, PagePoint at, PagePoint[] offsets)
        {
            double half = Typefaces.WidthOf(text, Depth, Voice.Label) / 2;
            (double, double, double, double) Box(PagePoint p) => (p.X - half - 0.4, p.Y - 0.73 * Depth - 0.4, p.X + half + 0.4, p.Y + 0.15 * Depth + 0.4);
            int Crossed((double Left, double Top, double Right, double Bottom) box) =>
                100 * words.Count(w => w.Left < box.Right && box.Left < w.Right && w.Top < box.Bottom && box.Top < w.Bottom)
                + lines.Count(l => l.Line.Zip(l.Line.Skip(1)).Any(s => Meets(s.First, s.Second, box)));
            PagePoint best = offsets.Select(o => at + o).MinBy(p => Crossed(Box(p)));
            words.Add(Box(best));
            field.Say(text, best, Anchor.Middle, Depth);
        }

        /// <summary>Draws the lines, broken where words stand.</summary>
        public void AddTo(Field field)
        {
            foreach ((Ink ink, PagePoint[] line) in lines)
                foreach (List<PagePoint> run in Runs(line)) field.Path(ink, run);
        }

        private IEnumerable<List<PagePoint>> Runs(PagePoint[] line)
        {
            List<PagePoint> run = [];
            foreach (PagePoint p in Finely(line))
            {
                if (words.Any(w => p.X > w.Left && p.X < w.Right && p.Y > w.Top && p.Y < w.Bottom))
                {
                    if (run.Count > 1) yield return run;
                    run = [];
                }
                else
                {
                    run.Add(p);
                }
            }
            if (run.Count > 1) yield return run;
        }

        private static IEnumerable<PagePoint> Finely(PagePoint[] line)
        {
            const double step = 0.2;
            yield return line[0];
            foreach ((PagePoint a, PagePoint b) in line.Zip(line.Skip(1)))
            {
                int pieces = Math.Max(1, (int)Math.Ceiling(double.Hypot(b.X - a.X, b.Y - a.Y) / step));
                for (int i = 1; i <= pieces; i++) yield return new PagePoint(a.X + (b.X - a.X) * i / pieces, a.Y + (b.Y - a.Y) * i / pieces);
            }
        }

        private static bool Meets(PagePoint a, PagePoint b, (double Left, double Top, double Right, double Bottom) box)
        {
            if (Math.Max(a.X, b.X) < box.Left || Math.Min(a.X, b.X) > box.Right || Math.Max(a.Y, b.Y) < box.Top || Math.Min(a.Y, b.Y) > box.Bottom) return false;
            return Finely([a, b]).Any(p => p.X > box.Left && p.X < box.Right && p.Y > box.Top && p.Y < box.Bottom);
        }
    }

    private static void Draw(Field field, Drafting d, View view)
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
