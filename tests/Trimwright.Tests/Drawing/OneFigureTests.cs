using System.Globalization;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;
using Trimwright.Tests.Finish;

namespace Trimwright.Tests.Drawing;

/// <summary>One figure has one source and is rounded once: prediction, build plan, plan, label and sheets print the same digits of it.</summary>
public class OneFigureTests
{
    private static IEnumerable<string> Texts(Sheet sheet) => sheet.Fields.SelectMany(f => f.Marks).OfType<Label>().Select(l => l.Text);

    private static IEnumerable<string> Texts(IEnumerable<Sheet> sheets, string id) => sheets.Where(s => s.Id == id).SelectMany(Texts);

    private static string Plain(string text) => text.Replace('\u00A0', ' ');

    [Fact]
    public void Label_prediction_build_plan_and_sheets_agree_to_the_printed_digit()
    {
        Outside.NeedType();
        int lures = Tier.Count(quick: 9, ci: 200), standIns = 0, pockets = 0;
        for (int seed = 0; seed < lures; seed++)
        {
            LureDesign design = seed < 3 ? Lures.Demos.ElementAt(seed) : RandomLures.Of(800_000 + seed).Design;
            Notation n = Notation.Metric;
            Prediction bare = Prediction.Of(design, Circumstances.InTheSea with { Rig = Rig.Bare }), rigged = Prediction.Of(design, Circumstances.InTheSea);
            BuildPlan plan = BuildPlan.Of(design, null, new BuildConditions());
            Sheet[] sheets = [.. SheetSet.Of(design, new SheetOptions(PaperSize.A4, n), ["label", "calipers", "stand-ins", "pockets"])];
            string weight = n.Weight(bare.Ledger.Weight), where = $"lure {seed}";
            // The last weigh point of the finish, before hooks; a lure without a finish ends at the seal.
            Weighing[] weighings = [.. plan.Steps.SelectMany(s => s.Weighings)];
            Weighing done = weighings.Last(w => w.Point is WeighPoint.Coat or WeighPoint.Eyes or WeighPoint.Sealed);
            if (done.Point != WeighPoint.Sealed) Assert.True(weight == n.Weight(done.Expected), $"{where}: {weight} predicted, {n.Weight(done.Expected)} in the build plan");
            Assert.Contains(weight, Texts(sheets, "label"));
            if (weighings.FirstOrDefault(w => w.Point == WeighPoint.Rigged) is { } whole) Assert.Equal(n.Weight(rigged.Ledger.Weight), n.Weight(whole.Expected));
            foreach (Weighing stand in weighings.Where(w => w.Point == WeighPoint.StandIn))
            {
                Assert.Contains(n.Weight(stand.Expected), Texts(sheets, "stand-ins"));
                standIns++;
            }
            // Where the build plan measures, the sheet has a mark and the same figures.
            string[] table = [.. Texts(sheets, "calipers")];
            foreach ((double x, double height, double breadth) in plan.Steps.OfType<RoundStep>().Single().Calipers)
            {
                int row = Array.FindIndex(table, t => t == x.ToString(CultureInfo.InvariantCulture));
                Assert.True(row >= 0, $"{where}: the build plan measures at {x} mm, where no sheet has a mark");
                Assert.Equal($"{n.Number(height, 1)} {n.Number(breadth, 1)}", $"{table[row + 1]} {table[row + 4]}");
            }
            foreach ((int i, BallastPiece piece) in design.Ballast.Index())
            {
                string[] told = [.. Texts(sheets, "pockets")];
                int at = Array.FindIndex(told, t => t == (i + 1).ToString(CultureInfo.InvariantCulture));
                Assert.Contains(n.Number(new WoodOutside(design).Of(piece), 1), told[at..]);
                pockets++;
            }
        }
        Assert.True(standIns > 5 && pockets >= lures, $"{standIns} stand-ins, {pockets} pockets");
    }

    [Fact]
    public void A_plan_and_its_sheet_tell_one_pocket_one_cutter_and_one_wall()
    {
        Outside.NeedType();
        LureDesign lure = Lures.Demo("tidegate-185");
        PlanAnswer answer = Planner.Of(lure with { Ballast = [] }, Plans.Kitchen, WantWords.Parse("sinks slowly, level").Want!, PlanLimits.Usual with { MostPockets = 2 });
        Assert.NotEmpty(answer.Plans);
        foreach (BallastPlan plan in answer.Plans)
        {
            string[] told = [.. Texts(SheetSet.Of(plan.Design, new SheetOptions(PaperSize.A4, Notation.Metric), ["pockets"]), "pockets")];
            foreach (PlannedPiece piece in plan.Pieces)
            {
                string said = Plain(PlanWords.Pocket(piece, Notation.Metric));
                string left = Notation.Metric.Number(piece.LeftMm, 1);
                Assert.Contains($"{left} mm of wood left", said);
                Assert.Contains(left, told);
                // The room that is cut, not the weight in it; and a bit that is owned, not the hole that it makes.
                Assert.Contains(Notation.Metric.Number(piece.Piece.Box.X + piece.Piece.Clearance, 1), said);
                if (piece.Cut.Cutter is not null && piece.Piece.Clearance <= Allowances.Tight)
                    Assert.Contains(Notation.Metric.Number(piece.Cut.DiameterMm, 1), told);
                Assert.True(piece.WallMm <= piece.LeftMm);
                Assert.True(piece.WallMm >= SoundWood.Usual.Wall - 0.06, $"{piece.WallMm} mm");
            }
        }
    }
}
