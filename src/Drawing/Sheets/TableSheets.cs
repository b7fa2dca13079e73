using Trimwright.Core.Ballast;
using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Strength;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.Drawing.Sheets;

/// <summary>Sheets of figures: pockets, stand-ins, what the caliper should read.</summary>
internal static class TableSheets
{
    public static Sheet? Pockets(Drafting d)
    {
        if (d.Design.Ballast.IsEmpty) return null;
        var wood = new WoodOutside(d.Design);
        string[][] rows = [.. d.Design.Ballast.Select((piece, i) => Row(d, piece, i + 1, wood))];
        Table.Column[] columns =
        [
            new("", 8), new("weight", 60, Words: true), new("weighs", 20), new("cutter", 28, Words: true), new("its\nsize", 15), new("from\nnose", 17),
            new("from\naxis", 22), new("opening\nlong", 18), new("opening\nhigh", 18), new("deep in\nright half", 20, Rule: true), new("deep in\nleft half", 20), new("thinnest\nwood", 19, Rule: true),
        ];
        columns = Table.Filling(d.Options.Room.Width, columns, rows);
        var field = new Field(d.Options.Room.Width, d.Options.Room.Height);
        double y = Table.Draw(field, new PagePoint(0, 0), columns, rows, Table.Rows(rows.Length, field.Height - 12 - 38));
        y = field.Tell($"Depths are from the glue face. A flat bit's spur reaches {d.Fine(2)} to {d.FineWithUnit(3)} deeper, a twist drill's point 0.3 of its diameter: stop short of thin wood and finish with a chisel. "
            + "Bed the half in its own offcut and clamp that; never hold a half in the hand under a drill. No gloves at the drill press.",
            new PagePoint(0, y + 9), field.Width);
        field.Tell("Lead: wash your hands, no food near, no dust; collect drillings wet.", new PagePoint(0, y + 2), field.Width);
        return new Sheet("pockets", "Pockets, in figures", "To set stops and to check by. Each weight has its number on the glue faces.", [field.Done("Pockets")], Drawn: false);
    }

    private static string[] Row(Drafting d, BallastPiece piece, int number, WoodOutside wood)
    {
        PocketCut? right = d.Glue.Right.FirstOrDefault(p => p.Number == number), left = d.Glue.Left.FirstOrDefault(p => p.Number == number);
        PocketCut wider = new[] { right, left }.OfType<PocketCut>().MaxBy(p => p.Depth)!;
        return
        [
            number.ToString(System.Globalization.CultureInfo.InvariantCulture), piece.Name + (piece.OnWire ? ", on the wire" : ""), d.Notation.Weight(piece.Mass), SheetWords.Of(wider.Cutter),
            d.Fine(wider.CutterSize), d.Fine(wider.X), Height(d, wider.Z), d.Fine(wider.Long), wider.Round ? "round" : d.Fine(wider.High),
            right is null ? "none" : d.Fine(right.Depth), left is null ? "none" : d.Fine(left.Depth), d.Fine(wood.Of(piece)),
        ];
    }

    private static string Height(Drafting d, double z) => Math.Abs(z) < 0.05 ? "on it" : $"{d.Fine(Math.Abs(z))} {(z < 0 ? "under" : "over")}";

    /// <summary>Lead on thread in place of each hook set, as the prediction of the dry-fit reckons it.</summary>
    public static Sheet? StandIns(Drafting d)
    {
        WeightLedger ledger = Bookkeeper.Of(d.Design, Stage.DryFit, Rig.StandIns, WaterState.Tap.Density - Units.AirDensity, MeshSize.Live);
        Chain[] hung = [.. ledger.Chains.Where(c => c.StandIn is not null)];
        if (hung.Length == 0) return null;
        Table.Column[] columns = [new("hang it from", 46, Words: true), new("lead, as weighed", 34), new("in place of", 110, Words: true), new("mine weighs", 30, Rule: true)];
        string[][] rows = [.. hung.Select(chain => new[]
        {
            StrengthWords.Place(chain.Place), d.Notation.Weight(chain.StandIn!.Value.Mass),
            string.Join(", ", d.Design.Hardware.Where((h, i) => h.HangsFrom == chain.Place && !d.Design.IsCaptive(i)).Select(h => h.Name)), "",
        })];
        columns = Table.Filling(d.Options.Room.Width, columns, rows);
        const double high = 9;
        var field = new Field(d.Options.Room.Width, 12 + high * rows.Length + 30);
        double y = Table.Draw(field, new PagePoint(0, 0), columns, rows, high);
        field.Tell("For the tub, before the glue: halves taped, wire and weights in, lead on thread at each place. "
            + "It weighs less than the hooks do, for lead takes up less water: under water both pull alike. No sharp points, mains away from the water.",
            new PagePoint(0, y + 9), field.Width);
        return new Sheet("stand-ins", "Stand-ins for the tub", "Lead that pulls under water as the hooks will. Weigh each, thread and all, and write down what it is.", [field.Done("Stand-ins")], Drawn: false);
    }

    public static Sheet Calipers(Drafting d)
    {
        Table.Column[] columns =
        [
            new("from\nnose", 18), new("height", 22), new("back over\naxis", 24), new("belly under\naxis", 26), new("width", 22), new("half\nwidth", 20),
            new("height\nis", 28, Rule: true), new("left half\nis", 28, Rule: true), new("right half\nis", 28, Rule: true),
        ];
        string[][] rows = [.. d.Stations.Select(d.Body.SectionAt).Zip(d.Stations, (s, x) => new[]
        {
            d.Station(x), d.Fine(s.Back - s.Belly), d.Fine(s.Back), d.Fine(-s.Belly), d.Fine(2 * s.HalfBreadth), d.Fine(s.HalfBreadth), "", "", "",
        })];
        columns = Table.Filling(d.Options.Room.Width, columns, rows);
        Picture Page(string[][] part)
        {
            double height = Table.Rows(part.Length, d.Options.Room.Height - 10);
            var field = new Field(d.Options.Room.Width, 10 + height * part.Length);
            Table.Draw(field, new PagePoint(0, 0), columns, part, height);
            return field.Done("Caliper table");
        }
        return new Sheet("calipers", "What the caliper should read",
            "Before any coat, at the stations from the nose. Write in what it does read, left and right by themselves.",
            [.. Table.Pages(rows, d.Options.Room.Height - 10).Select(Page)], Drawn: false);
    }
}
