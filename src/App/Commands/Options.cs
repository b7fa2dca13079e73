using System.Globalization;
using Trimwright.App.Faults;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.App.Commands;

/// <summary>What stands behind options, in the words of the command line.</summary>
internal static class Options
{
    /// <summary>The refusal of an option.</summary>
    public static Refusal Wrong(string name, string got, string allowed, string next) => new(Exit.CommandLineWrong, "command-line", name, got, allowed, next);

    /// <summary>An option that is one of a few words.</summary>
    public static T One<T>(string name, string word, params (string Word, T Value)[] words) => One(name, word, ", ", words);

    /// <summary>The same, of two.</summary>
    public static T Either<T>(string name, string word, (string Word, T Value) one, (string Word, T Value) other) => One(name, word, " or ", one, other);

    public static Stage StageOf(string name, string word) =>
        One(name, word, ("blank", Stage.Blank), ("dry-fit", Stage.DryFit), ("glued", Stage.Glued), ("sealed", Stage.Sealed), ("finished", Stage.Finished));

    /// <param name="stage">As typed.</param>
    /// <param name="rig">As typed; null: rigged, and of a blank, which has nothing to hang on, bare.</param>
    /// <param name="water">As typed.</param>
    public static Circumstances Where(string stage, string? rig, string water)
    {
        (Stage at, Rig with) = (StageOf("--stage", stage), One("--rig", rig ?? "rigged", ("bare", Rig.Bare), ("standins", Rig.StandIns), ("rigged", Rig.Rigged)));
        return new(at, at == Stage.Blank ? Rig.Bare : with, Water(water));
    }

    /// <summary>What to say where a rig was asked for of a lure on which nothing of it hangs; null where it does, and where none was asked for.</summary>
    public static Warning? NothingHangs(LureDesign design, Stage stage, string? rig)
    {
        if (rig is null or "bare") return null;
        bool unhooks = design.Wire is not null && design.Hardware.Index().Any(h => !design.IsCaptive(h.Index));
        return stage == Stage.Blank ? new Warning("--rig", $"a blank has no wire to hang anything on, so this is told bare; {rig} goes with --stage dry-fit or later")
            : unhooks ? null
            : new Warning("--rig", $"the lure's file has nothing that unhooks from it, so {rig} is the same as bare; list its hooks under \"hardware\"");
    }

    public static WaterState Water(string text)
    {
        foreach ((string name, WaterState water) in WaterState.Named)
            if (name == text) return water;
        string[] parts = text.Split(',');
        if (parts.Length == 2
            && Number(parts[0]) is { } salinity && Number(parts[1]) is { } temperature
            && salinity is >= 0 and <= WaterState.SaltiestAllowed
            && temperature is >= WaterState.ColdestAllowed and <= WaterState.WarmestAllowed)
            return new WaterState(salinity, temperature);
        string names = string.Join(", ", WaterState.Named.Select(w => w.Name));
        throw Wrong("--water", $"\"{text}\"", $"{names}, or S,T with salinity 0 to 42 and temperature −2 to 40 °C", "Write for example --water 35,24.");
    }

    /// <summary>"Did you mean …?" of the nearest word; null where none is near.</summary>
    public static string? Meant(IEnumerable<string> known, string typed) => NearWord.Of(known, typed) is { } meant ? $"Did you mean {meant}?" : null;

    /// <summary>In which units to say it.</summary>
    public static Notation Units(string word) => Either("--units", word, ("mm", Notation.Metric), ("in", new Notation(Inches: true)));

    /// <summary>A number with a dot, whatever the machine's language; null when it is none.</summary>
    public static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : null;

    /// <summary>A length as typed, mm: a number alone is mm, one with in or " after it inches; null when it is none.</summary>
    public static double? Millimetres(string text) =>
        text.EndsWith("mm", StringComparison.Ordinal) ? Number(text[..^2])
        : text.EndsWith("in", StringComparison.Ordinal) ? Core.Quantities.Units.Inch * Number(text[..^2])
        : text.EndsWith('"') ? Core.Quantities.Units.Inch * Number(text[..^1]) : Number(text);

    private static T One<T>(string name, string word, string between, params (string Word, T Value)[] words)
    {
        foreach ((string known, T value) in words)
            if (known == word) return value;
        throw Wrong(name, $"\"{word}\"", string.Join(between, words.Select(w => w.Word)), "Choose one of these words.");
    }
}
