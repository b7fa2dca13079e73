using System.Collections.Immutable;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>What only geometry can say of a design: outlines that cross, pieces outside the wood, hooks on no hanger.</summary>
internal static class Soundness
{
    public const string LineTie = "line_tie";
    public const string TailLoop = "tail_loop";

    public static void Check(LureDesign design, Findings findings)
    {
        BodyDesign body = design.Body;
        Outline(body.Back, "body.back", body.LengthMm, findings);
        Outline(body.Belly, "body.belly", body.LengthMm, findings);
        Outline(body.Plan, "body.plan", body.LengthMm, findings);
        for (int i = 1; i < body.Section.Length; i++)
            if (body.Section[i].X <= body.Section[i - 1].X)
                findings.Add("order", $"body.section[{i}].x_mm", Sized.Mm(body.Section[i].X),
                    $"more than {Sized.Mm(body.Section[i - 1].X)}", "Put the stations in order from nose to tail.");
        if (findings.Faults.Count > 0) return;
        Body surface = body.Surface();
        Sides(body, surface, findings);
        if (findings.Faults.Count > 0) return;
        Face(body, surface, findings);
        Joint(design, surface, findings);
        Halves(design, findings);
        Wire(design, surface, findings);
        Pieces(design, surface, findings);
        Eyes(design, surface, findings);
        Hardware(design, findings);
        if (design.Finish.Sum(c => c.Coats * c.ThicknessMm) is var film && film > 10)
            findings.Add("range", "finish", $"{Sized.InMm(film)} of film in all", $"at most {Sized.InMm(10)}", $"Check coats and thickness; {Sized.Key("thickness_mm")} is that of one coat.");
        if (findings.Faults.Count == 0) WoodLeft.Check(design, surface, findings);
    }

    private static void Outline(Outline outline, string path, double length, Findings findings)
    {
        ImmutableArray<OutlinePoint> points = outline.Points;
        string list = path + ".points_mm";
        if (points.Length < 2)
        {
            findings.Add("range", list, $"{points.Length} points", "at least 2", "Give the outline's points from nose to tail.");
            return;
        }
        if (points[0].X != 0)
            findings.Add("range", $"{list}[0]", $"x = {Sized.Mm(points[0].X)}", "0", "Measure from the foremost point of the body.");
        if (points[^1].X != length)
            findings.Add("range", $"{list}[{points.Length - 1}]", $"x = {Sized.Mm(points[^1].X)}",
                $"{Sized.Mm(length)}, the body's {Sized.Key("length_mm")}", "End the outline where the body ends.");
        for (int i = 1; i < points.Length; i++)
            if (points[i].X - points[i - 1].X < 1e-3)
                findings.Add("order", $"{list}[{i}]", $"x = {Sized.Mm(points[i].X)} after {Sized.Mm(points[i - 1].X)}",
                    $"x rising by at least {Sized.InMm(0.001)}", "Put the points in order from nose to tail.");
        foreach (double corner in outline.Corners)
            if (!points.Skip(1).SkipLast(1).Any(p => p.X == corner))
                findings.Add("reference", path + ".corners_mm", Sized.Mm(corner), "the x of an inner point", "Name a point that is there.");
    }

    private static void Sides(BodyDesign body, Body surface, Findings findings)
    {
        double tallest = 0, widest = 0;
        bool crossed = false, thin = false;
        foreach (double x in Stations(body))
        {
            double back = surface.BackAt(x), belly = surface.BellyAt(x), half = surface.HalfBreadthAt(x);
            tallest = Math.Max(tallest, back - belly);
            widest = Math.Max(widest, half);
            if (!crossed && back < belly - 1e-6)
            {
                crossed = true;
                findings.Add("geometry", "body.back", $"{Sized.Mm(back)} at x = {Sized.Mm(x)}, under the belly's {Sized.Mm(belly)}",
                    "the back above the belly all along", "Move the points near there, or add one.");
            }
            if (!thin && half < -1e-6)
            {
                thin = true;
                findings.Add("geometry", "body.plan", $"{Sized.Mm(half)} at x = {Sized.Mm(x)}", "0 or more all along",
                    "Half-breadths are not negative; add a point where the curve dips.");
            }
        }
        if (crossed || thin) return;
        if (tallest < 1)
            findings.Add("geometry", "body.back", $"a body {Sized.InMm(tallest)} high", $"at least {Sized.InMm(1)} somewhere", "Give back and belly inner points.");
        if (widest < 0.5)
            findings.Add("geometry", "body.plan", $"a body {Sized.InMm(2 * widest)} wide", $"at least {Sized.InMm(1)} somewhere", "Give the plan outline inner points.");
    }

    // Close together at the ends, where curves are steep, and in every gap between points, however narrow.
    private static IEnumerable<double> Stations(BodyDesign body)
    {
        const int Even = 800;
        for (int i = 0; i <= Even; i++) yield return body.LengthMm * 0.5 * (1 - Math.Cos(Math.PI * i / Even));
        foreach (Outline outline in (Outline[])[body.Back, body.Belly, body.Plan])
            for (int i = 1; i < outline.Points.Length; i++)
                for (int k = 1; k <= 4; k++)
                    yield return outline.Points[i - 1].X + k / 4.0 * (outline.Points[i].X - outline.Points[i - 1].X);
    }

    private static void Face(BodyDesign body, Body surface, Findings findings)
    {
        if (body.NoseFace is not { } face) return;
        if (surface.NoseCloses)
        {
            findings.Add("geometry", "body.nose_face", "a face on a nose that closes", "a flat nose end",
                "Let back, belly and plan begin off the axis, or leave out nose_face.");
            return;
        }
        if (face.Kind == NoseFaceKind.Flat && face.SlantDeg != 0)
            findings.Warn("body.nose_face.kind", $"the face is called flat, yet it leans by its slant_deg of {Findings.Show(face.SlantDeg)}; call it slanted");
        if (face.Kind != NoseFaceKind.Cupped && face.CupDepthMm > 0)
            findings.Warn("body.nose_face.kind", $"a face that is not cupped has no cup; its {Sized.Key("cup_depth_mm")} has no effect");
        double height = surface.BackAt(0) - surface.BellyAt(0);
        double lean = Math.Abs(Math.Tan(Quantities.Units.FromDegrees(face.SlantDeg))) * height;
        if (lean > 0.3 * body.LengthMm)
            findings.Add("geometry", "body.nose_face.slant_deg", $"{Findings.Show(face.SlantDeg)}, which leans {Sized.InMm(lean)} aft",
                $"a lean of at most {Sized.InMm(0.3 * body.LengthMm)}", "Use less slant.");
        if (face.Kind != NoseFaceKind.Cupped || findings.Faults.Count > 0) return;
        Section section = surface.SectionAt(0);
        double radius = face.CupDiameterMm / 2;
        for (int k = 0; k < 48; k++)
        {
            (double sin, double cos) = Math.SinCos(2 * Math.PI * k / 48);
            double slant = Math.Cos(Quantities.Units.FromDegrees(face.SlantDeg));
            double z = face.CupAtZMm + radius * cos * slant;
            if (surface.SectionAt(Math.Max(surface.FacePlaneAt(z), 0)).Contains(radius * sin, z)) continue;
            findings.Add("geometry", "body.nose_face.cup_diameter_mm", Sized.Mm(face.CupDiameterMm),
                $"a rim inside the face, which is {Sized.Mm(2 * section.HalfBreadth)} × {Sized.InMm(height)}", "Make the cup smaller or move its centre.");
            return;
        }
        if (face.CupDepthMm > radius)
            findings.Add("range", "body.nose_face.cup_depth_mm", Sized.Mm(face.CupDepthMm), $"at most {Sized.Mm(radius)}, the rim's radius", "Make the cup shallower.");
        else if (Walls(surface, face))
            findings.Add("geometry", "body.nose_face.cup_depth_mm", Sized.Mm(face.CupDepthMm), "a cup that stays in the wood", "Make the cup shallower.");
    }

    private static bool Walls(Body surface, NoseFaceDesign face)
    {
        (double sin, double cos) = Math.SinCos(Quantities.Units.FromDegrees(face.SlantDeg));
        Vec3 bottom = new Vec3(surface.FacePlaneAt(face.CupAtZMm), 0, face.CupAtZMm) + face.CupDepthMm * new Vec3(cos, 0, sin);
        return bottom.X >= surface.Length || !surface.SectionAt(bottom.X).Contains(0, bottom.Z);
    }

    private static void Joint(LureDesign design, Body surface, Findings findings)
    {
        if (design.Joint is not { } joint) return;
        double widest = Enumerable.Range(0, 129).Max(i => surface.HalfBreadthAt(surface.Length * i / 128));
        // The narrower of unequal halves must keep its half.
        double narrow = Math.Max(widest - Math.Abs(design.Halves?.RightWiderMm ?? 0) / 2, 0);
        double lost = joint.LostPerHalf;
        if (lost > narrow / 2)
            findings.Add("geometry", "joint", $"{Sized.InMm(lost)} lost from each half", $"at most {Sized.InMm(narrow / 2)}, half of the narrower half",
                $"Check {Sized.Key("kerf_mm")}, {Sized.Key("tack_mm")} and {Sized.Key("cleaned_off_mm")}.");
        if (joint.GlueLineMm > widest / 2)
            findings.Add("geometry", "joint.glue_line_mm", Sized.Mm(joint.GlueLineMm), $"at most {Sized.InMm(widest / 2)}", "Check the glue line.");
    }

    private static void Halves(LureDesign design, Findings findings)
    {
        if (design.Halves is not { } halves) return;
        if (halves.RightG is null != halves.LeftG is null)
            findings.Add("missing", halves.RightG is null ? "halves.right_g" : "halves.left_g", "nothing", "both halves' weights", "Weigh the other half too.");
        double widest = design.Body.Plan.Points.Max(p => p.Value);
        if (Math.Abs(halves.RightWiderMm) > widest)
            findings.Add("range", "halves.right_wider_mm", Sized.Mm(halves.RightWiderMm), $"at most {Sized.Mm(widest)} either way", "Check the calipers.");
    }

    private static void Wire(LureDesign design, Body surface, Findings findings)
    {
        if (design.Wire is not { } wire) return;
        Inside(surface, new Vec3(FirstWood(surface, wire.LineTie.ZMm), 0, wire.LineTie.ZMm), "wire.line_tie.z_mm", findings, tolerance: 1);
        if (wire.TailLoop is { } tail)
            Inside(surface, new Vec3(surface.Length, 0, tail.ZMm), "wire.tail_loop.z_mm", findings, tolerance: 1);
        var names = new HashSet<string>(StringComparer.Ordinal) { LineTie, TailLoop };
        for (int i = 0; i < wire.Hangers.Length; i++)
        {
            Hanger hanger = wire.Hangers[i];
            string path = $"wire.hangers[{i}]";
            if (!names.Add(hanger.Name))
                findings.Add("reference", path + ".name", $"\"{JsonTree.Shorten(hanger.Name)}\" again", "a name of its own, not line_tie or tail_loop", "Rename it.");
            if (hanger.XMm <= 0 || hanger.XMm >= surface.Length)
                findings.Add("geometry", path + ".x_mm", Sized.Mm(hanger.XMm), $"between 0 and {Sized.Mm(surface.Length)}", "Put the hanger on the body.");
        }
        for (int i = 0; i < wire.RunMm.Length; i++)
        {
            (double x, double z) = wire.RunMm[i];
            if (i > 0 && x < wire.RunMm[i - 1].X - 20)
                findings.Add("order", $"wire.run_mm[{i}]", $"x = {Sized.Mm(x)}", "a run from nose to tail", "Put the points in order.");
            if (x < 0 || x > surface.Length || z > surface.BackAt(x) + 30 || z < surface.BellyAt(x) - 30)
                findings.Add("geometry", $"wire.run_mm[{i}]", $"[{Sized.Mm(x)}, {Sized.Mm(z)}]", "points in the body or its hangers", "Move the point into the glue face.");
        }
        double longest = 4 * surface.Length + 100 * (2 + wire.Hangers.Length);
        if (WoodLeft.Run(wire) is var run && run > longest)
            findings.Add("geometry", "wire.run_mm", $"a run of {Sized.InMm(run, 1)}", $"at most {Sized.InMm(longest, 1)} on this body",
                "Give the run once from nose to tail, with its dips to the hangers.");
        CheckEye(wire.LineTie, "wire.line_tie");
        if (wire.TailLoop is { } loop) CheckEye(loop, "wire.tail_loop");
        foreach ((int i, Hanger hanger) in wire.Hangers.Index())
        {
            if (hanger.Kind == HangerKind.Loop) CheckEye(hanger.Eye, $"wire.hangers[{i}]");
            else CheckHang(hanger.Eye.HangAtMm, $"wire.hangers[{i}].hang_at_mm", surface, findings);
        }

        void CheckEye(EyeDesign eye, string path)
        {
            CheckHang(eye.HangAtMm, path + ".hang_at_mm", surface, findings);
            eye.Closing.Check(eye, wire.DiameterMm, path, findings);
        }
    }

    private static double FirstWood(Body surface, double z) => Math.Max(surface.FaceAt(0, z), 0);

    private static void CheckHang(ImmutableArray<double>? at, string path, Body surface, Findings findings)
    {
        if (at is not { } p) return;
        double reach = Math.Max(100, surface.Length / 2);
        if (p[0] < -reach || p[0] > surface.Length + reach || Math.Abs(p[1]) > 2 * reach || Math.Abs(p[2]) > 2 * reach)
            findings.Add("geometry", path, $"[{Sized.Mm(p[0])}, {Sized.Mm(p[1])}, {Sized.Mm(p[2])}]",
                $"within {Sized.InMm(reach)} of the body", $"Measure from the nose, in {Sized.Name(OtherUnit.Inch)}.");
    }

    /// <summary>The point lies in the body, or within a tolerance of its profile.</summary>
    private static void Inside(Body surface, Vec3 p, string path, Findings findings, double tolerance)
    {
        double x = Math.Clamp(p.X, 0, surface.Length);
        if (p.Z <= surface.BackAt(x) + tolerance && p.Z >= surface.BellyAt(x) - tolerance) return;
        findings.Add("geometry", path, Sized.Mm(p.Z),
            $"{Sized.Mm(surface.BellyAt(x))} to {Sized.Mm(surface.BackAt(x))} at x = {Sized.Mm(x)}", "Let the wire leave through the wood.");
    }

    private static void Pieces(LureDesign design, Body surface, Findings findings)
    {
        for (int i = 0; i < design.Ballast.Length; i++)
        {
            BallastPiece piece = design.Ballast[i];
            string path = $"ballast[{i}]";
            if (piece.OnWire && design.Wire is null)
                findings.Add("reference", path + ".on_wire", "true", "a wire to thread it on", "Add \"wire\", or leave out on_wire.");
            if (piece.OnWire && piece.BoreMm < design.Wire?.DiameterMm)
                findings.Add("geometry", path + ".bore_mm", Sized.Mm(piece.BoreMm), $"at least the wire's {Sized.InMm(design.Wire.DiameterMm)}", "Give the bore's diameter.");
            double across = piece.Form.Narrowest(piece);
            if (piece.BoreMm > 0 && (piece.BoreMm >= across || piece.Stuff <= 0))
                findings.Add("geometry", path + ".bore_mm", $"{Sized.InMm(piece.BoreMm)}, which leaves nothing of the piece",
                    $"a bore well under its {Sized.InMm(across)}", "Correct the bore.");
            Vec3 outside = piece.Points().FirstOrDefault(p => !surface.Contains(p), new Vec3(double.NaN, 0, 0));
            if (double.IsFinite(outside.X))
                findings.Add("geometry", path + ".at_mm", Outside(piece, outside), "a piece wholly in the wood", "Move it, or choose a smaller one.");
            if (design.Wire is { } wire && !piece.OnWire && OnRun(wire, surface, piece))
                findings.Warn(path + ".at_mm", "the wire's run passes through this weight; move it clear, or bore it and set on_wire");
            for (int j = 0; j < i; j++)
                if (Overlap(piece, design.Ballast[j]))
                    findings.Warn(path + ".at_mm", $"overlaps \"{JsonTree.Shorten(design.Ballast[j].Name)}\"; two weights can't fill one place");
        }
    }

    // The place as a maker would find it with a caliper.
    private static Remark Outside(BallastPiece piece, Vec3 p)
    {
        string name = JsonTree.Shorten(piece.Name), x = p.X < 0 ? "before" : "from", z = p.Z < 0 ? "below" : "above";
        return Math.Abs(p.Y) < 0.05
            ? $"{name} comes out of the wood {Place(p.X)} {x} the nose, {Place(p.Z)} {z} the axis"
            : (Remark)$"{name} comes out of the wood {Place(p.X)} {x} the nose, {Place(p.Z)} {z} the axis, {Place(p.Y)} to the {(p.Y > 0 ? "right" : "left")}";
    }

    private static Sized Place(double mm) => Sized.InMm(Math.Round(Math.Abs(mm), 1), 1);

    // The straight run, dips left out; the box of the piece is close enough for a word of warning.
    private static bool OnRun(WireDesign wire, Body surface, BallastPiece piece)
    {
        Vec3 middle = piece.Middle, half = 0.5 * piece.Box;
        if (Math.Abs(middle.Y) > half.Y + wire.DiameterMm / 2) return false;
        for (int k = 0; k <= 8; k++)
        {
            double x = middle.X + (k / 4.0 - 1) * half.X;
            if (Math.Abs(WireRun.Height(wire, surface, x) - middle.Z) < half.Z + wire.DiameterMm / 2) return true;
        }
        return false;
    }

    private static bool Overlap(BallastPiece a, BallastPiece b)
    {
        Vec3 apart = a.Middle - b.Middle, room = 0.5 * (a.Box + b.Box);
        return Math.Abs(apart.X) < room.X && Math.Abs(apart.Y) < room.Y && Math.Abs(apart.Z) < room.Z;
    }

    private static void Eyes(LureDesign design, Body surface, Findings findings)
    {
        if (design.Eyes is not { } eyes) return;
        if (eyes.XMm > surface.Length || surface.SectionAt(eyes.XMm).BreadthAt(eyes.ZMm) < eyes.ThicknessMm)
            findings.Add("geometry", "eyes", $"x = {Sized.Mm(eyes.XMm)}, z = {Sized.Mm(eyes.ZMm)}",
                "a place where the body is thicker than the eyes", "Move the eyes onto the body's side.");
    }

    private static void Hardware(LureDesign design, Findings findings)
    {
        var places = new List<string>();
        if (design.Wire is { } wire)
        {
            places.Add(LineTie);
            places.AddRange(wire.Hangers.Select(h => h.Name));
            if (wire.TailLoop is not null) places.Add(TailLoop);
        }
        for (int i = 0; i < design.Hardware.Length; i++)
            if (!places.Contains(design.Hardware[i].HangsFrom))
                findings.Add("reference", $"hardware[{i}].hangs_from", $"\"{JsonTree.Shorten(design.Hardware[i].HangsFrom)}\"",
                    places.Count == 0 ? "nothing: there is no wire" : string.Join(", ", places.Select(p => JsonTree.Shorten(p))),
                    places.Count == 0 ? "Add \"wire\" first." : "Name a hanger that is there.");
        foreach ((int i, Hanger hanger) in (design.Wire?.Hangers ?? []).Index())
            if (hanger.Kind == HangerKind.Swivel) Captive(design, hanger, $"wire.hangers[{i}].kind", findings);
    }

    private static void Captive(LureDesign design, Hanger hanger, string path, Findings findings)
    {
        (int Index, HardwareItem Item)[] chain = [.. design.Hardware.Index().Where(h => h.Item.HangsFrom == hanger.Name)];
        if (chain.FirstOrDefault(h => design.IsCaptive(h.Index)) is not { Item: { } swivel })
            findings.Warn(path, "no swivel hangs from it, so none is weighed; add one to \"hardware\", first in its chain");
        else if (chain[0].Item != swivel)
            findings.Warn(path, $"its swivel is threaded on the wire, yet hangs below “{JsonTree.Shorten(chain[0].Item.Name)}”; put it first in its chain");
    }
}
