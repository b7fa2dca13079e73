using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>How much wood a pocket must leave, mm; common practice, no source.</summary>
/// <param name="Wall">Between a pocket, to its corners and spurs, and the outside of the wood.</param>
/// <param name="Web">Between two cuts in the glue face: pocket, wire slot, wrap groove, pin, slot of a swivel.</param>
public sealed record SoundWood(double Wall = 3, double Web = 2)
{
    public static readonly SoundWood Usual = new();
}

/// <summary>
/// The glue face as a pocket meets it: at each place (x, z) the depth into either half at which sound wood still lies all
/// round, and what is cut there already.
/// <para>
/// The depth is the wood's half-breadth eroded by a ball of the wall's radius: a point y deep is at least w from the outside
/// if and only if y ≤ Y(x + i, z + k) − √(w² − i² − k²) for every i, k of the disc of radius w. On a grid of half a
/// millimetre, every comparison on the safe side by at most a cell.
/// </para>
/// </summary>
public sealed class FaceRoom
{
    /// <summary>Side of a cell, mm.</summary>
    public const double Cell = 0.5;

    private const double PinDiameter = 3;

    private readonly LureDesign design;
    private readonly Body body;
    private readonly double lowest;
    private readonly SoundWood sound;
    private readonly double[] depth;
    private readonly bool[] cut;
    private readonly bool[] cutBesideRun;

    /// <summary>Cells along x and along z.</summary>
    public int Columns { get; }

    public int Rows { get; }

    /// <param name="design">The lure with the pieces that stay, and no others.</param>
    /// <param name="sound">Wood to leave.</param>
    public FaceRoom(LureDesign design, SoundWood sound)
    {
        this.design = design;
        this.sound = sound;
        body = design.Body.Surface();
        (double low, double high) = Reach(body);
        lowest = Cell * Math.Floor(low / Cell);
        Columns = (int)Math.Ceiling(body.Length / Cell) + 1;
        Rows = (int)Math.Ceiling((high - lowest) / Cell) + 1;
        depth = Eroded(HalfBreadths());
        cut = new bool[Columns * Rows];
        cutBesideRun = new bool[Columns * Rows];
        MarkCuts();
    }

    private static (double Low, double High) Reach(Body body)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int i = 0; i <= 256; i++)
        {
            double x = body.Length * i / 256;
            (low, high) = (Math.Min(low, body.BellyAt(x)), Math.Max(high, body.BackAt(x)));
        }
        return (low, high);
    }

    /// <summary>Height of a row, mm.</summary>
    public double HeightOf(int row) => lowest + row * Cell;

    public int RowOf(double z) => (int)Math.Round((z - lowest) / Cell);

    public static int ColumnOf(double x) => (int)Math.Round(x / Cell);

    /// <summary>Depth into a half that leaves the wall all round, mm; −1 where there is none.</summary>
    public double DepthAt(int column, int row) =>
        column < 0 || row < 0 || column >= Columns || row >= Rows ? -1 : depth[column * Rows + row];

    /// <summary>The depth of every cell, a column of rows after the other: −∞ where there is none or it is cut already.</summary>
    public double[] Uncut() => [.. depth.Zip(cut, (deep, isCut) => isCut || deep < 0 ? double.NegativeInfinity : deep)];

    /// <summary>Whether a cell is cut already, web included.</summary>
    /// <param name="column">Along x.</param>
    /// <param name="row">Along z.</param>
    /// <param name="onWire">For a piece that is threaded on the wire: its straight run is no obstacle.</param>
    public bool IsCut(int column, int row, bool onWire) => (onWire ? cutBesideRun : cut)[column * Rows + row];

    private double[] HalfBreadths()
    {
        var half = new double[Columns * Rows];
        // The narrower half, and what each loses in parting and cleaning.
        double less = (design.Joint?.LostPerHalf ?? 0) + Math.Abs(design.Halves?.RightWiderMm ?? 0) / 2;
        for (int i = 0; i < Columns; i++)
        {
            double x = i * Cell;
            Section section = body.SectionAt(Math.Min(x, body.Length));
            for (int k = 0; k < Rows; k++)
            {
                double z = HeightOf(k), y = x > body.Length || x < body.FaceAt(0, z) ? 0 : section.BreadthAt(z) - less;
                if (design.Eyes is { } eyes && double.Hypot(x - eyes.XMm, z - eyes.ZMm) <= eyes.DiameterMm / 2) y -= eyes.ThicknessMm;
                half[i * Rows + k] = Math.Max(y, 0);
            }
        }
        return half;
    }

    private double[] Eroded(double[] half)
    {
        int reach = (int)Math.Floor(sound.Wall / Cell);
        List<(int I, int K, double Less)> ball = [];
        for (int i = -reach; i <= reach; i++)
            for (int k = -reach; k <= reach; k++)
                if (sound.Wall * sound.Wall - Cell * Cell * (i * i + k * k) is var square && square >= 0) ball.Add((i, k, Math.Sqrt(square)));
        return Erosion.Of([.. half.Select(y => y > 0 ? y : double.NegativeInfinity)], Columns, Rows, ball);
    }

    private void MarkCuts()
    {
        foreach (BallastPiece piece in design.Ballast)
        {
            double c = piece.ClearanceMm ?? Allowances.Pocket;
            Mark(piece.Middle, piece.Middle, piece.Box.X / 2 + c / 2, piece.Box.Z / 2 + c / 2, run: false);
        }
        foreach ((double x, double z) in design.Joint?.PinsMm ?? []) Mark(new Vec3(x, 0, z), new Vec3(x, 0, z), PinDiameter / 2, PinDiameter / 2, run: false);
        if (design.Wire is not { } wire) return;
        var shape = new WireShape(wire, body);
        double half = shape.SlotWidth / 2;
        for (int i = 1; i < shape.Path.Count; i++)
        {
            Vec3 a = shape.Path[i - 1], b = shape.Path[i];
            bool run = Math.Abs(b.Z - a.Z) < 0.2 * Math.Abs(b.X - a.X) && Math.Abs(b.X - a.X) > 3 * wire.DiameterMm;
            Mark(a, b, half, half, run);
        }
        foreach (HangPlace place in shape.Places) MarkEye(place, wire, half);
        foreach (Hanger hanger in wire.Hangers) MarkHanger(hanger, wire);
    }

    // The wound or doubled part of an eye, and its turn where that lies in the wood.
    private void MarkEye(HangPlace place, WireDesign wire, double half)
    {
        Hanger? hanger = wire.Hangers.FirstOrDefault(h => h.Name == place.Place);
        if (hanger is not null && hanger.Kind != HangerKind.Loop) return;
        double radius = (place.Eye.InsideMm + wire.DiameterMm) / 2;
        Vec3 centre = place.At - place.Eye.InsideMm / 2 * place.Outward, leg = centre - radius * place.Outward;
        Mark(centre, centre, radius + wire.DiameterMm / 2, radius + wire.DiameterMm / 2, run: false);
        if (place.Eye.Closing.Behind(place.Eye, wire.DiameterMm) is not { } behind) return;
        double reach = half + Math.Max(wire.DiameterMm, behind.Wider / 2);
        Mark(leg, leg - behind.Length * place.Outward, reach, reach, run: false);
    }

    private void MarkHanger(Hanger hanger, WireDesign wire)
    {
        double belly = body.BellyAt(hanger.XMm);
        if (hanger.Kind == HangerKind.Swivel)
        {
            double length = hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength, roof = WireRun.Height(wire, body, hanger.XMm) + wire.DiameterMm / 2;
            Mark(new Vec3(hanger.XMm, 0, belly), new Vec3(hanger.XMm, 0, roof), length / 2, 0, run: false);
        }
        else if (hanger.Kind == HangerKind.ScrewEye)
        {
            double thread = Math.Min(Allowances.ScrewThread, 0.8 * (body.BackAt(hanger.XMm) - belly));
            Mark(new Vec3(hanger.XMm, 0, belly), new Vec3(hanger.XMm, 0, belly + thread), wire.DiameterMm / 2, 0, run: false);
        }
    }

    /// <summary>Marks the box round a straight cut from a to b, grown by half its sizes and by the web.</summary>
    private void Mark(Vec3 a, Vec3 b, double halfX, double halfZ, bool run)
    {
        double growX = halfX + sound.Web, growZ = halfZ + sound.Web;
        // Share of the way from a to b at a station; across the axis all of the way is at every station.
        double Along(double x) => Math.Abs(b.X - a.X) < 1e-9 ? (x < a.X ? 0 : 1) : Math.Clamp((x - a.X) / (b.X - a.X), 0, 1);
        int from = Math.Max((int)Math.Ceiling((Math.Min(a.X, b.X) - growX) / Cell), 0), to = Math.Min((int)Math.Floor((Math.Max(a.X, b.X) + growX) / Cell), Columns - 1);
        for (int i = from; i <= to; i++)
        {
            // What of the cut lies within reach of this column: a sloping run is no box.
            double near = Along(i * Cell - growX), far = Along(i * Cell + growX);
            (double low, double high) = (a.Z + Math.Min(near * (b.Z - a.Z), far * (b.Z - a.Z)), a.Z + Math.Max(near * (b.Z - a.Z), far * (b.Z - a.Z)));
            int bottom = Math.Max((int)Math.Ceiling((low - growZ - lowest) / Cell), 0), top = Math.Min((int)Math.Floor((high + growZ - lowest) / Cell), Rows - 1);
            for (int k = bottom; k <= top; k++)
            {
                cut[i * Rows + k] = true;
                if (!run) cutBesideRun[i * Rows + k] = true;
            }
        }
    }
}
