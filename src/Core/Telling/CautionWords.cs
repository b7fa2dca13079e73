using Trimwright.Core.Finish;

namespace Trimwright.Core.Telling;

/// <summary>What can hurt at a step, and the usual care; common practice. None of it stands in for a data sheet or the rules of the place.</summary>
public static class CautionWords
{
    /// <summary>What every plan ends with.</summary>
    public const string Last =
        "Times, amounts and cautions here are the usual ones. The data sheets of what you use and the rules of your place go before them.";

    /// <summary>In short, where the plan has told it in full before.</summary>
    public static string Again(Caution caution) => caution switch
    {
        Caution.EdgeTools => "Edge tools: clamp the work, both hands behind the edge.",
        Caution.Machines => "Machines: eye protection, no gloves, nothing small held in the hand.",
        Caution.Drilling => "Drill: clamp the wood, no gloves.",
        Caution.Dust => "Dust: mask and extraction.",
        Caution.Lead => "Lead: no food here, wash hands.",
        Caution.PouringLead => "Pouring lead: outdoors, dry mould, shield and respirator.",
        Caution.HardWire => "Hard wire: eye protection, hold both ends.",
        Caution.Cyanoacrylate => "Super glue: heat and fumes on dust.",
        Caution.Epoxy => "Epoxy: nitrile gloves, fresh air.",
        Caution.CupHeat => "Spread leftovers out flat: a full cup heats up.",
        Caution.Solvents => "Solvents: no flame, fresh air, rags flat outdoors.",
        Caution.Tub => "Tub: no points in it, mains away from it.",
        Caution.Hooks => "Hooks: mask the points.",
        Caution.PullTest => "Pull test: behind a shield, nobody in line.",
        Caution.Casting => "Casting: clear space, eye protection.",
    };

    /// <summary>In two or three words, for a card that is read with glue on the hands.</summary>
    public static string OnCard(Caution caution) => caution switch
    {
        Caution.Epoxy => "nitrile gloves, fresh air",
        Caution.CupHeat => "leftovers out flat",
        Caution.Lead => "lead: wash hands",
        Caution.EdgeTools or Caution.Machines or Caution.Drilling or Caution.Dust or Caution.PouringLead or Caution.HardWire
            or Caution.Cyanoacrylate or Caution.Solvents or Caution.Tub or Caution.Hooks or Caution.PullTest or Caution.Casting => Again(caution).TrimEnd('.'),
    };

    public static string Of(Caution caution) => caution switch
    {
        Caution.EdgeTools => "Edge tools: clamp the work, both hands behind the edge.",
        Caution.Machines => "Saw, sander and cutter: eye protection, hair and sleeves tied back, no gloves. Small work on a push stick or clamped, never between fingers and blade.",
        Caution.Drilling => "Drill press: clamp the wood, never hold a half in the hand under a drill. No gloves.",
        Caution.Dust => "Wood dust: mask and extraction, sweep up wet. Some woods, cedars among them, make people allergic.",
        Caution.Lead => "Lead: wash hands before food, no eating, no dust; catch filings and drillings wet. It is banned or limited for fishing in some places: ask before you build.",
        Caution.PouringLead => "Pouring lead: outdoors, bone-dry mould (a drop of water throws it at you), face shield, respirator, leather; no children or pregnancy nearby. Bought rod or shot needs none of this.",
        Caution.HardWire => "Hard wire: eye protection, hold both ends as you cut, and keep the free end away from faces.",
        Caution.Cyanoacrylate => "Super glue: on dust it heats and smokes, never press it with a finger; fresh air.",
        Caution.Epoxy => "Epoxy: nitrile gloves, fresh air, none on the skin; an allergy comes without warning and stays. No solvent on skin, no sanding before it is hard.",
        Caution.CupHeat => "A full cup heats up until it smokes: mix in something wide, and spread leftovers out flat to harden.",
        Caution.Solvents => "Solvents and oils: no flame, fresh air; rags laid flat outdoors to dry, they catch fire by themselves. Two-part clears with isocyanate are never sprayed at home.",
        Caution.Tub => "Tub: no hooks, no sharp points; mains leads and chargers away from the water; wipe the floor.",
        Caution.Hooks => "Hooks: mask the points until the lure is done; side cutters within reach.",
        Caution.PullTest => "Pull test: behind a shield, nobody in line with the pull. Strength figures are estimates for comparing, never a rating.",
        Caution.Casting => "Casting: clear space behind and beside you, eye protection, within the rod's rating.",
    };
}
