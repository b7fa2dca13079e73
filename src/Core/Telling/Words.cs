using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Core.Telling;

/// <summary>The words for single values: the same on command line, picture, sheets and page.</summary>
public static class Words
{
    // What the words mean, told or wanted: common practice, no source.
    internal static readonly double Level = Units.FromDegrees(3);
    internal static readonly double Slight = Units.FromDegrees(10);
    private static readonly double Stands = Units.FromDegrees(60);
    internal static readonly double Upright = Floating.Posture.Upright;

    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Floats => "floats",
        Verdict.Suspends => "suspends",
        Verdict.SinksSlowly => "sinks slowly",
        Verdict.Sinks => "sinks",
        Verdict.SinksFast => "sinks fast",
    };

    public static string Of(Stage stage) => stage switch
    {
        Stage.Blank => "blank",
        Stage.DryFit => "dry-fit",
        Stage.Glued => "glued",
        Stage.Sealed => "sealed",
        Stage.Finished => "finished",
    };

    public static string Of(Rig rig) => rig switch
    {
        Rig.Bare => "bare",
        Rig.StandIns => "with stand-ins",
        Rig.Rigged => "rigged",
    };

    /// <summary>"in the sea", "in tap water" …</summary>
    public static string In(WaterState water) => water switch
    {
        _ when water == WaterState.Tap => "in tap water",
        _ when water == WaterState.Lake => "in the lake",
        _ when water == WaterState.Brackish => "in brackish water",
        { Salinity: >= 25 } => "in the sea",
        _ => "in this water",
    };

    /// <summary>"level", "12° tail down" … (radians in, positive nose up).</summary>
    public static string Trim(double trim, Notation notation)
    {
        double size = Math.Abs(trim);
        string end = trim > 0 ? "tail" : "nose";
        return size < Level ? "level"
            : size < Slight ? $"a little {end} down, {notation.Angle(size)}"
            : $"{notation.Angle(size)} {end} down";
    }

    /// <summary>"stands at 70°", "lies level" …: how a posture is called in one breath.</summary>
    /// <param name="posture">The posture.</param>
    /// <param name="notation">How numbers are shown.</param>
    /// <param name="verb">For a lure that does not stand.</param>
    public static string Posture(Posture posture, Notation notation, string verb = "lies")
    {
        double size = Math.Abs(posture.Trim);
        string way = posture.Trim > 0 ? "" : " on its nose";
        if (size > Upright) return "stands upright" + way;
        if (size > Stands) return $"stands{way} at {notation.Angle(size)}";
        string lies = Trim(posture.Trim, notation);
        return posture.HeelIsFree ? $"{verb} {lies} and rolls freely" : $"{verb} {lies}{Heel(posture.Heel ?? 0, posture.Mirror, notation)}";
    }

    private static string Heel(double heel, bool mirror, Notation notation)
    {
        double size = Math.Abs(heel);
        string side = mirror ? "to either side" : heel > 0 ? "to the right" : "to the left";
        if (size < Units.FromDegrees(2)) return "";
        if (size > Units.FromDegrees(178)) return ", belly up";
        if (size > Units.FromDegrees(100)) return $", belly up, {notation.Angle(Math.PI - size)} off {side}";
        return size > Units.FromDegrees(80) ? $", on its side ({side})" : $", leaning {notation.Angle(size)} {side}";
    }

    /// <summary>"4.7 g to spare" or "3.9 g heavy".</summary>
    public static string Spare(double spare, Notation notation) => spare >= 0
        ? notation.Weight(spare) + " to spare"
        : notation.Weight(-spare) + " heavy";
}
