using Trimwright.Core.Ballast;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Strength;

namespace Trimwright.Core.Telling;

/// <summary>The words about swaps and remedies.</summary>
public static class SwapWords
{
    /// <summary>What every list of remedies that break the seal ends with.</summary>
    public const string DrillCaution =
        "A hole breaks the seal: seal and coat it again, and test the pull first, behind a shield with nobody in line. Hooks off, the lure clamped in a padded cradle, never in the hand; no gloves at the drill press; a stop on the drill.";

    public const string LeadCaution =
        "Lead: wash your hands, no food near it, no dust; collect the drillings wet. Cut it cold and set it in resin: no molten lead near a finished lure. Some places limit lead for fishing.";

    /// <summary>A set of hooks by what is changed: "treble 4/0 at the belly (a size up)".</summary>
    public static string Of(HookSet set)
    {
        if (set.Change == HookChange.None) return "no hooks";
        if (set.Change == HookChange.Own)
            return set.Hooks.IsEmpty ? "as it is, without hooks" : $"own hooks: {List(set.Hooks.Select(At))}";
        string hooks = List(set.Hooks.Where(h => set.Changed.Contains(h.Place)).Select(At));
        string how = set.Change switch
        {
            HookChange.SizeUp => "a size up",
            HookChange.SizeDown => "a size down",
            HookChange.Singles or HookChange.Own or HookChange.None => set.Changed.Length > 1 ? "singles" : "a single",
        };
        return $"{how}: {hooks}";
    }

    private static string At(HookAt hook) => $"{hook.Hook ?? "nothing"} at the {StrengthWords.Place(hook.Place)}";

    private static string List(IEnumerable<string> things)
    {
        string[] all = [.. things];
        return all.Length < 2 ? string.Concat(all) : $"{string.Join(", ", all[..^1])} and {all[^1]}";
    }

    /// <summary>"1.5 m of fluorocarbon 150 lb", "a slack leader".</summary>
    public static string Of(LeaderChoice leader, Notation notation) => leader is { Name: { } name, Leader: { } carried }
        ? $"{Metres(carried.CarriedMm, notation)} of {name}"
        : "a slack leader";

    private static string Metres(double mm, Notation notation) =>
        notation.Inches ? notation.Number(mm / (12 * Units.Inch), 1) + "\u00A0ft" : notation.Number(mm / 1000, 1) + "\u00A0m";

    /// <summary>Verdict and posture in one breath: "floats level", "sinks slowly, 12° tail down", "stands at 70°".</summary>
    public static string Does(Prediction p, Notation notation)
    {
        if (p.SpareBuoyancy > 0)
        {
            string afloat = Words.Posture(p.Posture, notation, "floats");
            return p.Verdict == Verdict.Suspends ? "suspends, hardly afloat; " + afloat : afloat;
        }
        if (p.Verdict == Verdict.Suspends) return $"suspends, hanging {Words.Trim(p.Posture.Trim, notation)}";
        string sinks = Words.Of(p.Verdict);
        if (p.Descent is not { } descent) return sinks + " by its leader's weight alone";
        if (descent.First is not { } fall) return descent.RollsOnTheFall ? $"{sinks}, {Sentence.Rolls(descent, notation)}" : sinks + ", flutters";
        return $"{sinks}, {Words.Trim(fall.Trim, notation)}{(fall.BellyUp ? ", belly up" : "")}{(fall.Kind == FallKind.Spirals ? ", in a wide spiral" : "")}";
    }

    /// <summary>What a lure has become, plainly; null when it is the same kind of lure.</summary>
    public static string? Plainly(Turned turned) => turned switch
    {
        Turned.Floats => "It sank, and with this it floats.",
        Turned.Sinks => "It floated, and with this it sinks.",
        Turned.Stands => "It lay, and with this it stands on its tail.",
        Turned.StandsOnItsNose => "It lay, and with this it stands on its nose.",
        Turned.Lies => "It stood, and with this it lies down.",
        Turned.LosesItsFall => "It fell steadily, and with this it does not.",
        Turned.FindsAFall => "With this it falls steadily, as it did not.",
        Turned.BellyUp => "With this it turns belly up.",
        Turned.Nothing => null,
    };

    /// <summary>"2.2 g heavier in the water, 14° more tail down, 40 mm/s faster".</summary>
    public static string Change(SwapEffect effect, Notation notation)
    {
        var parts = new List<string>();
        if (Math.Abs(effect.Spare) >= 0.05) parts.Add($"{notation.Weight(Math.Abs(effect.Spare))} {(effect.Spare < 0 ? "heavier" : "lighter")} in the water");
        if (effect.Trim is { } trim && Math.Abs(Units.ToDegrees(trim)) >= 0.5) parts.Add($"{notation.Angle(Math.Abs(trim))} more {(trim > 0 ? "tail" : "nose")} down");
        if (effect.Rate is { } rate && Math.Abs(1000 * rate) >= 0.5) parts.Add($"{notation.Speed(Math.Abs(rate))} {(rate > 0 ? "faster" : "slower")}");
        return parts.Count == 0 ? "no change to speak of" : string.Join(", ", parts);
    }

    /// <summary>A remedy as a maker would write it on the bench sheet.</summary>
    public static string Of(Remedy remedy, Notation notation)
    {
        string at = remedy.Place is { } place ? $" at the {StrengthWords.Place(place)}" : "";
        return remedy.Kind switch
        {
            RemedyKind.Hook => $"{remedy.Item} for {remedy.Instead}{at}",
            RemedyKind.NoHook => $"no {remedy.Item}{at}",
            RemedyKind.Ring or RemedyKind.Swivel when remedy.Instead is { } own => $"{remedy.Item} for {own}{at}",
            RemedyKind.Ring or RemedyKind.Swivel => $"one more {remedy.Item}{at}",
            RemedyKind.ShankWire => $"{notation.Weight(remedy.Grams)} of {remedy.Item} round the shank of {remedy.Instead}{at}, {remedy.Turns} {(remedy.Turns == 1 ? "turn" : "turns")}",
            RemedyKind.HeavyPlug or RemedyKind.Cork => Hole(remedy, notation),
        };
    }

    private static string Hole(Remedy remedy, Notation notation)
    {
        SafeSpot spot = remedy.Spot!;
        string from = spot.From switch
        {
            DrilledFrom.Belly => "up from the belly",
            DrilledFrom.Back => "down from the back",
            DrilledFrom.RightSide => "across from the right",
            DrilledFrom.LeftSide => "across from the left",
        };
        string filled = remedy.Kind == RemedyKind.Cork ? $"cork, {notation.Length(remedy.Filling!.LengthMm)}" : $"{notation.Weight(remedy.Grams)} of {remedy.Item}";
        return $"{filled}: ⌀{notation.Length(spot.Bit.Diameter)} {from} at {notation.Length(spot.Mouth.X)}, {notation.Length(remedy.DrillDepth)} deep, {(remedy.Kind == RemedyKind.Cork ? "a wooden plug" : "filler")} over it";
    }

    public static string Of(RemedyUse use) => use switch
    {
        RemedyUse.Lighter => "lighter in the water",
        RemedyUse.Heavier => "heavier in the water",
        RemedyUse.NoseUp => "nose up",
        RemedyUse.NoseDown => "nose down",
    };
}
