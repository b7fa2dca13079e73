using Trimwright.Core.Ledger;

namespace Trimwright.App.Commands;

/// <summary>The ledger's lines gathered as a maker thinks of them: wood with what was cut from it, each weight, each chain.</summary>
internal static class WeightLines
{
    public static IEnumerable<(string Name, double Mass, double Volume)> Of(WeightLedger ledger)
    {
        foreach (IGrouping<PartGroup, Part> group in ledger.Parts.GroupBy(p => p.Group).OrderBy(g => g.Key))
        {
            if (group.Key is PartGroup.Ballast or PartGroup.Coats)
                foreach (Part part in group) yield return (part.Name, part.Mass, part.Displaces);
            else if (group.Key != PartGroup.Hardware)
            {
                Part[] own = [.. group.Where(p => p.Kind != PartKind.Captive)];
                yield return (Name(group.Key, own.Length), own.Sum(p => p.Mass), own.Sum(p => p.Displaces));
                foreach (Part captive in group.Where(p => p.Kind == PartKind.Captive))
                    yield return ($"on the wire for good: {captive.Name}", captive.Mass, captive.Displaces);
            }
        }
        foreach (Chain chain in ledger.Chains)
        {
            if (!chain.Unhooks.Any()) continue;
            string place = chain.Place.Replace('_', ' ');
            string items = string.Join(", ", chain.Unhooks.Select(i => i.Name));
            yield return (chain.StandIn is not null ? items : $"at the {place}: {items}", chain.Unhooks.Sum(i => i.Mass), chain.Unhooks.Sum(i => i.Volume));
        }
    }

    private static string Name(PartGroup group, int lines) => group switch
    {
        PartGroup.Wood => lines > 1 ? "wood, as cut" : "wood",
        PartGroup.Wire => "wire",
        PartGroup.Glue => "glue and filler",
        PartGroup.Sealer => "sealer, soaked in",
        // The others are told one by one.
        PartGroup.Eyes or PartGroup.Ballast or PartGroup.Coats or PartGroup.Hardware => "eyes",
    };
}
