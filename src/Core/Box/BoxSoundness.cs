using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Box;

/// <summary>What no single key can say of a box: ids twice, bores wider than their piece, weights that no metal has.</summary>
internal static class BoxSoundness
{
    // Osmium, the densest there is, has 22.6; the lightest and heaviest woods have 0.05 and 1.3.
    private const double Densest = 23;
    private const double LightestWood = 0.03;
    private const double HeaviestWood = 1.5;

    // Lead with a tenth of antimony to pure lead.
    private const double LeadFrom = 10.5;
    private const double LeadTo = 11.5;

    public static void Check(MakersBox box, Findings findings)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach ((string list, int index, BoxItem item) in box.Items)
        {
            string path = $"{list}[{index}]";
            if (!ids.Add(item.Id))
                findings.Add("reference", path + ".id", $"\"{JsonTree.Shorten(item.Id)}\" again", "an id of its own in the whole box", "Rename one of the two.");
            Sources(item, path, findings);
            item.Check(path, findings);
        }
    }

    private static void Sources(BoxItem item, string path, Findings findings)
    {
        string[] keys = [.. item.Numbers.Where(n => n.Value is not null).Select(n => n.Key), .. item.Lists];
        foreach ((string list, ImmutableArray<string> named) in new[] { ("measured", item.Measured), ("published", item.Published) })
            for (int i = 0; i < named.Length; i++)
                if (!keys.Contains(named[i]))
                    findings.Add("reference", $"{path}.{list}[{i}]", $"\"{JsonTree.Shorten(named[i])}\"", string.Join(", ", keys.Select(key => item.Kept.AsWritten(key))),
                        "Name a key that this item has a number for.");
    }

    internal static void Wood(BoxWood wood, string path, Findings findings)
    {
        for (int i = 0; i < wood.Boards.Length; i++)
            if (wood.Boards[i].DensityGPerCm3 is < LightestWood or > HeaviestWood)
                findings.Add("range", $"{path}.boards[{i}]", $"size and weight of a density of {Findings.Show(wood.Boards[i].DensityGPerCm3, 3)} g/cm³",
                    $"{LightestWood} to {HeaviestWood} g/cm³, as woods have", $"Measure in {Sized.Name(OtherUnit.Inch)} and weigh in {Sized.Name(OtherUnit.Ounce)}, the same board.");
        if (wood.Boards.IsEmpty || wood.DensityGPerCm3 is not { } table) return;
        if (Math.Abs(wood.Density.Value / table - 1) > 0.4)
            findings.Warn(path + ".boards", $"the boards have {Findings.Show(wood.Density.Value, 3)} g/cm³, far from density_g_cm3; the boards count");
    }

    internal static void Weight(BoxWeight weight, string path, Findings findings)
    {
        BallastPiece piece = weight.Piece(Axis.X, [0, 0, 0]);
        double across = weight.Kind.Narrowest(piece);
        if (piece.BoreMm > 0 && (piece.BoreMm >= across || piece.Stuff <= 0))
        {
            findings.Add("geometry", path + ".bore_mm", $"{Sized.InMm(piece.BoreMm)}, which leaves nothing of the piece",
                $"less than its {Sized.InMm(across)}", "Correct the bore.");
            return;
        }
        double own = piece.Mass / Units.FromGramsPerCm3(piece.Stuff);
        if (weight.MassG is not null) Plausible(own, weight.DensityGPerCm3, path, findings);
        Lead(own, weight.IsLead, path, findings);
    }

    internal static void Stock(BoxStock stock, string path, Findings findings)
    {
        if (stock.SectionMm2 <= 0)
        {
            findings.Add("geometry", path + ".bore_mm", Sized.Mm(stock.BoreMm ?? 0), $"less than its {Sized.InMm(stock.DiameterMm ?? 0)}", "Correct the bore.");
            return;
        }
        if (stock.LengthMm < stock.StepMm)
            findings.Add("range", path + ".step_mm", Sized.Mm(stock.StepMm), $"at most the {Sized.InMm(stock.LengthMm.Value)} that there are", "Use a finer step.");
        if (stock.MassG is not null) Plausible(stock.Density.Value, stock.DensityGPerCm3, path, findings);
        Lead(stock.Density.Value, stock.IsLead, path, findings);
    }

    private static void Plausible(double own, double? stated, string path, Findings findings)
    {
        if (own > Densest)
            findings.Add("range", path + ".mass_g", $"a weight that makes {Findings.Show(own, 1)} g/cm³ of its size", $"at most {Densest} g/cm³, as nothing is denser",
                $"Check sizes in {Sized.Name(OtherUnit.Inch)} and the weight of one piece in {Sized.Name(OtherUnit.Ounce)}.");
        else if (stated is { } density && Math.Abs(own / density - 1) > 0.25)
            findings.Warn(path + ".mass_g", $"size and weight make {Findings.Show(own, 2)} g/cm³, density_g_cm3 says {Findings.Show(density, 2)}; the weight counts");
    }

    private static void Lead(double density, bool isLead, string path, Findings findings)
    {
        if (!isLead && density is > LeadFrom and < LeadTo)
            findings.Warn(path + ".is_lead", $"false, but {Findings.Show(density, 2)} g/cm³ is lead's density; with no_lead it would be planned");
    }

    internal static void Finish(BoxFinish finish, string path, Findings findings)
    {
        if (finish.RecoatUntilH < finish.RecoatFromH)
            findings.Add("order", path + ".recoat_until_h", Findings.Show(finish.RecoatUntilH.Value), $"at least recoat_from_h, {Findings.Show(finish.RecoatFromH.Value)}", "Put the earlier time first.");
        if (finish.SandFromH < finish.RecoatFromH)
            findings.Add("order", path + ".sand_from_h", Findings.Show(finish.SandFromH.Value), $"at least recoat_from_h, {Findings.Show(finish.RecoatFromH.Value)}", "What can be sanded is drier than what can be coated.");
        if (finish.RatioByVolume is not { } volume || finish.RatioByWeight is not { } weight) return;
        // Resin over hardener in density: both are liquids of near one, so anything far from one is a slip.
        double denser = weight[0] / weight[1] / (volume[0] / volume[1]);
        if (denser is < 0.67 or > 1.5)
            findings.Warn(path + ".ratio_by_weight", $"with ratio_by_volume the resin would be {Findings.Show(denser, 2)} times as dense as the hardener; is one turned round?");
        else if (finish is { ResinDensityGPerCm3: { } resin, HardenerDensityGPerCm3: { } hardener } && Math.Abs(denser / (resin / hardener) - 1) > 0.03)
            findings.Warn(path + ".ratio_by_weight", $"the two ratios make the resin {Findings.Show(denser, 2)} times as dense as the hardener, their densities {Findings.Show(resin / hardener, 2)} times; look at the data sheet again");
    }

    internal static void Scale(BoxScale scale, string path, Findings findings)
    {
        if (scale.ResolutionG >= scale.CapacityG)
            findings.Add("order", path + ".resolution_g", Sized.G(scale.ResolutionG), $"less than {Sized.Key("capacity_g")}, {Sized.G(scale.CapacityG)}", "The resolution is the last digit it shows.");
    }
}
