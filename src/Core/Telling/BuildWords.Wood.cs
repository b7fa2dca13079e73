using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Telling;

public sealed partial class BuildWords
{
    private IEnumerable<string> Boards(BoardsStep step)
    {
        BoardPlan boards = step.Boards;
        yield return boards.Pieces == 1
            ? $"{Capital(plan.Design.Wood.Name ?? "Straight-grained wood")}, straight grain along the length, no knots."
            : $"{Capital(plan.Design.Wood.Name ?? "Straight-grained wood")}, straight grain along the length, no knots. Cut both halves from one board if you can: they are then alike.";
        if (boards.Pair.Length == 1) yield return $"Your {Named(boards.Pair[0])} gives {boards.Pair[0].Pieces} such pieces, at {notation.Density(boards.Pair[0].Density)}.";
        if (boards.Pair.Length == 2) yield return $"Take one from your {Named(boards.Pair[0])} and one from your {Named(boards.Pair[1])}: {notation.Density(boards.Pair[0].Density)} and {notation.Density(boards.Pair[1].Density)}.";
        yield return plan.Box?.WoodOf(plan.Design) is not null
            ? $"The plan counts on {notation.Density(boards.Density)}, as your box has it. If yours weigh more than a few per cent off, put their size and weight into the box and plan again before you carve."
            : $"The plan counts on {notation.Density(boards.Density)}, as the lure says. If yours weigh more than a few per cent off, put their size and weight into the box, say in the lure which wood of the box it is, and plan again before you carve.";
        if (boards.Pieces == 2) yield return "Plane the two faces that will meet until no light shows between them. Mark which is right and which is left, seen from the tail with the back up.";
    }

    private static string Named(BoardChoice choice) => choice.Name is { } name ? $"{choice.Wood} \"{name}\"" : choice.Wood;

    private IEnumerable<string> Pockets(PocketsStep step)
    {
        yield return step.InSquareBoards
            ? "On the glue faces, boards still square, clamped to the table, with a depth stop. Measure from the nose line and the axis, not from the board's ends."
            : "Bed each half in its offcuts, glue face up, and clamp it. Cut from the glue face, with a depth stop.";
        foreach (Pocket pocket in step.Pockets) yield return Of(pocket) + ".";
        yield return "Try each weight: it must drop in and lie below the face in both halves.";
    }

    private string Of(Pocket pocket)
    {
        string where = $"middle {notation.Caliper(pocket.At.X)} from the nose, {Height(pocket.At.Z)}";
        string size = pocket switch
        {
            { Form.Shape: PieceShape.Ball } => $"round-bottomed, {notation.Caliper(pocket.Along)} across",
            { Form.Shape: PieceShape.Round, Axis: Axis.Y } => $"a hole {notation.Caliper(pocket.Along)} across",
            { Form.Shape: PieceShape.Round or PieceShape.Flat } => $"{notation.Caliper(pocket.Along)} long, {notation.Caliper(pocket.High)} high",
        };
        string depth = Math.Abs(pocket.Right - pocket.Left) < 0.05
            ? $"{notation.Caliper(pocket.Right)} deep in each half"
            : $"{notation.Caliper(pocket.Right)} deep in the right half, {notation.Caliper(pocket.Left)} in the left";
        return $"{Capital(pocket.Piece)}: {size}, {where}, {depth}";
    }

    private string Height(double z) => Math.Abs(z) < 0.05 ? "on the axis" : $"{notation.Caliper(Math.Abs(z))} {(z < 0 ? "under" : "over")} the axis";

    private IEnumerable<string> Tacking(TackStep step)
    {
        if (!step.OneBlock)
        {
            yield return step.Tack switch
            {
                Tack.Tape => "Patches of double-sided tape, thumb-nail size, clear of wire and pockets; press in a vice.",
                Tack.Paper => "A thin coat of wood glue on each face, newsprint between; press in a vice overnight. Too much glue soaks through and the halves never part.",
                Tack.Spots => "A few spots of super glue where wood will be cut away; press. They shear off when the halves are twisted.",
            };
        }
        yield return "Draw the side outline on the flat, the plan outline on the top, the axis and a nose line on all four sides. Prick through what must be on both sides alike.";
        if (step.Pins.Length > 0)
            yield return $"Locating pins go through at {string.Join(" and ", step.Pins.Select(p => $"{notation.Length(p.X)} from the nose, {Height(p.Z)}"))}.";
        if (step.Eyes is { } eyes) yield return $"Prick the eyes on both sides: {notation.Caliper(eyes.XMm)} from the nose, {Height(eyes.ZMm)}.";
        foreach ((string name, double x) in step.ScrewEyes)
            yield return $"Drill the pilot for the screw eye at the {name}, {notation.Length(x)} from the nose, while the block is square.";
    }

    private static IEnumerable<string> Saw() =>
    [
        "Side outline first, a saw's width outside the line. Tape the offcuts back, so that it lies flat, and saw the plan outline.",
        "Keep the offcuts: they are the bed that the halves are clamped in later.",
    ];

    private IEnumerable<string> Face(FaceStep step)
    {
        NoseFaceDesign face = step.Face;
        string slant = face.SlantDeg != 0 ? $", slanted {notation.Number(Math.Abs(face.SlantDeg), 0)}° {(face.SlantDeg > 0 ? "down and back" : "up and back")}" : ", square to the axis";
        yield return $"Cut the face while the blank is whole{slant}.";
        if (face.Kind == NoseFaceKind.Cupped)
            yield return $"Cup it {notation.Caliper(face.CupDiameterMm)} across and {notation.Caliper(face.CupDepthMm)} deep at its middle, its centre {Height(face.CupAtZMm)}. A gouge across the grain, then a ball of coarse paper.";
    }

    private IEnumerable<string> Rounding(RoundStep step) =>
    [
        "Take the corners off to 8 sides along the marks, then to 16, then round. Both sides by turns, a caliper at each station; nothing below the line.",
        $"Sand {string.Join(", ", step.Grits)}, along the grain last.",
        "Then the eyes, mouth and gill lines, if you want them: looks only, the same on both sides.",
        $"{(notation.Inches ? "Two hundredths of an inch" : "Half a millimetre")} too fat all over is about {notation.Weight(Fatter(notation.Inches ? 0.02 * Units.Inch : 0.5))} of wood: stop at the caliper's numbers.",
    ];

    // Wood in a skin so thick over the whole blank, g.
    private double Fatter(double mm) => SolidProperties.Of(plan.InTheSea.Ledger.Skin).Area * mm * Units.FromGramsPerCm3(plan.Design.Wood.DensityGPerCm3);

    private IEnumerable<string> Blank(WeighBlankStep step)
    {
        UnderWater under = step.UnderWater;
        yield return "Weigh it dry, then under water, then dry again: ten seconds are enough, raw wood drinks. Tap water.";
        if (step.HasPockets) yield return "The pockets are inside, with their air: tape the seam first.";
        yield return under.SinkerMass > 0
            ? $"Sinker way: hang {notation.Weight(under.SinkerMass)} of lead from the scale into a bucket, it reads {notation.Weight(under.SinkerReads)}; tie the blank under the same hook and sink both, they read {notation.Weight(under.BothRead)}{On(under.SinkerScale)}. The difference, {notation.Weight(under.Spare)}, is its spare buoyancy, whatever the bucket's size."
            : $"Hang it from the scale into a bucket: it reads {notation.Weight(under.BothRead)}{On(under.SinkerScale)}.";
        yield return $"Jar way: a tall jar of water on the scale, set to zero; push the blank just under with a needle, touching nothing: it reads {notation.Weight(under.JarReads)}{On(under.JarScale)}. That less its dry weight is its spare buoyancy too. A jar tall enough holds about {notation.Number(under.JarHolds / 1000, 1)}\u00A0l, so fine scales stop before that: the sinker way is the better one where they do.";
        yield return "These two readings part the wood's density from the carving: write both down.";
    }

    private static string On(Box.BoxScale? scale) => scale is null ? "" : $" on the {scale.Name}";

    private IEnumerable<string> Split(SplitStep step)
    {
        yield return step switch
        {
            { Kerf: > 0 } => $"Saw along the middle line with a kerf of {notation.Caliper(step.Kerf)}: that much width is gone, and the plan knows.",
            { Tack: Tack.Tape } => "A putty knife into the seam at the tail, then along; a drop of spirit loosens the tape. No lever against an edge that will show.",
            { Tack: Tack.Paper } => "A wide thin blade into the paper, from the tail; it splits in its middle.",
            _ => "Twist, and help with a thin blade at each spot.",
        };
        yield return step.CleanedOff > 0
            ? $"Clean the faces: {notation.Caliper(step.CleanedOff)} off each, no more."
            : "Clean the faces of glue and paper, and take off no wood.";
        yield return $"Weigh one against the other. More than {(notation.Inches ? notation.Gram : "a gram")} apart means unlike wood or unlike carving: caliper both, write both weights into the lure file and plan again.";
    }

    private IEnumerable<string> Wire(WireStep step)
    {
        WireDesign wire = step.Wire;
        yield return $"{Capital($"{wire.Grade} wire".Trim())}, {notation.Caliper(wire.DiameterMm)}. Start at the line tie, follow the bend sheet, close the tail last.";
        yield return $"Line tie: {Eye(wire.LineTie)}.";
        foreach (Hanger hanger in wire.Hangers)
            yield return hanger.Kind switch
            {
                HangerKind.Loop => $"Loop at the {hanger.Name}, {notation.Length(hanger.XMm)} from the nose: {Eye(hanger.Eye)}.",
                HangerKind.Swivel => $"Swivel at the {hanger.Name}, {notation.Length(hanger.XMm)} from the nose: it hangs on the straight wire.",
                HangerKind.ScrewEye => $"The screw eye at the {hanger.Name} is not part of this wire.",
            };
        yield return wire.TailLoop is { } tail ? $"Tail loop: {Eye(tail)}." : "The wire ends in the wood: turn its end over, so that it can't pull through.";
        if (step.Threaded.Length > 0) yield return $"Before the last eye is closed, thread on, in this order from the nose: {string.Join(", ", step.Threaded)}. It can't be done later.";
    }

    private string Eye(EyeDesign eye) =>
        $"{notation.Caliper(eye.InsideMm)} inside, {(eye.Plane == EyePlane.Flat ? "flat" : "upright")}, {eye.Closing.Said(eye, notation)}";

    private IEnumerable<string> Slot(SlotStep step)
    {
        yield return "Lay the bent wire itself on the right glue face, trace it, and cut its slot; press it against the left face with a little chalk on the wire, and cut that one too. Half its depth in each half, wider round wraps.";
        foreach ((string name, double x, double length, double width) in step.Swivels)
            yield return $"The swivel at the {name} needs an open slot to the belly, {notation.Length(length)} long and {notation.Caliper(width)} wide over both halves, its middle {notation.Length(x)} from the nose. It stays free of glue.";
        yield return "The wire must lie below both faces: a straightedge says so.";
    }

    private IEnumerable<string> Weights(WeightsStep step)
    {
        yield return step.Pockets.Any(p => p.IsPoured)
            ? "Cut and file each to its weight, not to its length. Poured plugs are cast in a mould of their own and glued in: poured into the body they char the wood and never weigh the same twice."
            : "Cut and file each to its weight, not to its length: the scale decides.";
        yield return $"Write its {notation.Grams} on each, and read them back from the paper when they go in.";
    }
}
