namespace Trimwright.Core.Design;

/// <summary>
/// What a file of the first version, or one written by hand, leaves to a name: read once, on reading, and told to the maker.
/// Nothing else in the program may read a name. Words are English; whole words count ("snap with spring" is no ring).
/// </summary>
internal static class ByName
{
    private static readonly string[] Trebles = ["treble", "trebles", "double", "doubles", "hook", "hooks"];
    private static readonly string[] Singles = ["single", "singles", "assist", "assists"];
    private static readonly string[] Swivels = ["swivel", "swivels"];
    private static readonly string[] Snaps = ["snap", "snaps", "clip", "clips"];
    private static readonly string[] Rings = ["ring", "rings", "splitring", "splitrings", "solidring", "solidrings"];
    private static readonly string[] Solid = ["solid", "solidring", "solidrings"];
    private static readonly string[] Colours =
        ["paint", "painted", "primer", "colour", "colours", "color", "colors", "base", "basecoat", "white", "foil", "ink", "undercoat"];
    private static readonly string[] Sealers = ["seal", "sealer", "sealing", "sealant", "cyanoacrylate", "linseed", "superglue"];

    /// <summary>What hangs there. A hook without a word more is taken for a treble, as most are that hang on such lures.</summary>
    public static HardwareKind Hardware(string name)
    {
        string[] words = Words(name);
        bool Has(string[] any) => words.Any(any.Contains);
        // A name that says both is of a hook that goes with the other thing.
        return Has(Singles) ? HardwareKind.Single
            : Has(Trebles) ? HardwareKind.Treble
            : Has(Swivels) ? HardwareKind.Swivel
            : Has(Snaps) ? HardwareKind.Snap
            : Has(Rings) ? Has(Solid) ? HardwareKind.SolidRing : HardwareKind.SplitRing
            : HardwareKind.Other;
    }

    /// <summary>What a coat is there for. What no word tells is taken as clear: it is turned and left unsanded, which harms no paint.</summary>
    public static FinishUse Coat(string name)
    {
        string[] words = Words(name);
        bool superGlue = words.Zip(words.Skip(1)).Any(pair => pair is ("super", "glue"));
        return superGlue || words.Any(Sealers.Contains) ? FinishUse.Sealer : words.Any(Colours.Contains) ? FinishUse.Colour : FinishUse.Clear;
    }

    private static string[] Words(string name)
    {
        var words = new List<string>();
        int from = 0;
        string lower = name.ToLowerInvariant();
        for (int i = 0; i <= lower.Length; i++)
        {
            if (i < lower.Length && char.IsLetter(lower[i])) continue;
            if (i > from) words.Add(lower[from..i]);
            from = i + 1;
        }
        return [.. words];
    }
}
