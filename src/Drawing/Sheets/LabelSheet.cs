using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.Drawing.Sheets;

/// <summary>Cards to go with the lure: what it is, and room for what it weighed and where it rested.</summary>
internal static class LabelSheet
{
    private const double Width = 85;
    private const double Height = 55;
    private const double Gap = 6;

    public static Sheet Draw(Drafting d)
    {
        int across = Math.Max(1, (int)((d.Options.Room.Width + Gap) / (Width + Gap))), down = Math.Max(1, (int)((d.Options.Room.Height + Gap) / (Height + Gap)));
        var field = new Field(across * (Width + Gap) - Gap, down * (Height + Gap) - Gap);
        WeightLedger ledger = Bookkeeper.Of(d.Design, Stage.Finished, Rig.Bare, WaterState.Ocean.Density - Units.AirDensity, MeshSize.Live);
        for (int row = 0; row < down; row++)
            for (int column = 0; column < across; column++)
                AddCard(field, d, ledger, new PagePoint(column * (Width + Gap), row * (Height + Gap)));
        return new Sheet("label", "Labels", "One for each lure made. The weight is as drawn, bare; write beside it what yours weighs.", [field.Done("Labels")], Drawn: false);
    }

    private static void AddCard(Field field, Drafting d, WeightLedger ledger, PagePoint at)
    {
        LureDesign design = d.Design;
        field.Box(Ink.Mark, at, Width, Height);
        field.Circle(Ink.Cut, at + new PagePoint(Width - 6, 6), 2);
        PagePoint P(double x, double y) => at + new PagePoint(x, y);
        field.Say(Table.Fit(design.Name, (Width - 20) * 0.65, Field.Text), P(5, 9), Anchor.Start, 5, Voice.Title);
        string kind = design.Kind is { Length: > 0 } k ? $"{k}, " : "";
        field.Say(Table.Fit($"{kind}{d.FineWithUnit(d.Length)}, {design.Wood.Name ?? "wood"}", Width - 10, Field.Small), P(5, 15), Anchor.Start, Field.Small);
        (string Name, string Value)[] lines =
        [
            ("drawn to weigh, bare", d.Notation.Weight(ledger.Weight)), ("weighs, bare", ""), ("in the tub it showed", ""), ("number and date", ""),
        ];
        for (int i = 0; i < lines.Length; i++)
        {
            double y = 23 + 7.5 * i;
            field.Say(lines[i].Name, P(5, y), Anchor.Start, Field.Small);
            if (lines[i].Value.Length > 0) field.Say(lines[i].Value, P(Width - 5, y), Anchor.End, Field.Text);
            field.Line(Ink.Grid, P(5, y + 1.6), P(Width - 5, y + 1.6));
        }
        if (d.Design.Ballast.Any(p => (p.DensityGPerCm3 ?? 0) > 10))
            field.Say("holds lead", P(5, 52.3), Anchor.Start, Field.Small);
    }
}
