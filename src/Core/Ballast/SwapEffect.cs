using Trimwright.Core.Floating;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Ballast;

/// <summary>What a change turned a lure into, where it is no longer the same kind of lure.</summary>
public enum Turned
{
    Nothing,

    /// <summary>It sank and floats now.</summary>
    Floats,

    /// <summary>It floated and sinks now.</summary>
    Sinks,

    /// <summary>It lay and stands now, on its tail.</summary>
    Stands,

    /// <summary>It lay and stands on its nose now.</summary>
    StandsOnItsNose,

    /// <summary>It stood and lies now.</summary>
    Lies,

    /// <summary>It had a steady fall and has none now.</summary>
    LosesItsFall,

    /// <summary>It had no steady fall and has one now.</summary>
    FindsAFall,

    /// <summary>It lay back up and lies belly up now.</summary>
    BellyUp,
}

/// <summary>What a change of hooks, water, leader or filling does to a lure.</summary>
/// <param name="Weight">By how much more a scale reads, g; the leader does not count.</param>
/// <param name="Spare">By how much more it has to spare in the water, g; negative: heavier in the water.</param>
/// <param name="Trim">More tail down, radians: of the posture when both float, of the fall when both fall steadily; else null.</param>
/// <param name="RestTrim">More tail down at rest, radians, both floating or both sunk; else null.</param>
/// <param name="Rate">Falls faster by, mm/ms, where both fall steadily; else null.</param>
/// <param name="Turned">What it has become.</param>
public sealed record SwapEffect(double Weight, double Spare, double? Trim, double? RestTrim, double? Rate, Turned Turned)
{
    /// <summary>A lure stands from this trim on, and lies below it; the same limit as the words'.</summary>
    public static readonly double Standing = Units.FromDegrees(60);

    // A posture that crosses the limit by less than this has not turned, radians.
    private static readonly double Flip = Units.FromDegrees(20);

    /// <summary>Of one prediction against another.</summary>
    public static SwapEffect Of(Prediction before, Prediction after)
    {
        bool afloat = before.SpareBuoyancy > 0, floats = after.SpareBuoyancy > 0;
        Fall? fell = before.Descent?.First, falls = after.Descent?.First;
        double? rest = afloat == floats ? after.Posture.Trim - before.Posture.Trim : null;
        double? trim = afloat && floats ? rest : fell is not null && falls is not null ? falls.Trim - fell.Trim : null;
        double? rate = fell is not null && falls is not null ? falls.Rate - fell.Rate : null;
        return new(after.Ledger.Weight - before.Ledger.Weight, after.SpareBuoyancy - before.SpareBuoyancy, trim, rest, rate, TurnedInto(before, after));
    }

    private static Turned TurnedInto(Prediction before, Prediction after)
    {
        bool afloat = before.SpareBuoyancy > 0, floats = after.SpareBuoyancy > 0;
        if (afloat != floats) return floats ? Turned.Floats : Turned.Sinks;
        if (!afloat)
        {
            if (before.Descent is null || after.Descent is null) return Turned.Nothing;
            (Fall? fell, Fall? falls) = (before.Descent.First, after.Descent.First);
            if (fell is null != falls is null) return falls is null ? Turned.LosesItsFall : Turned.FindsAFall;
            return fell is { BellyUp: false } && falls is { BellyUp: true } ? Turned.BellyUp : Turned.Nothing;
        }
        Posture lay = before.Posture, lies = after.Posture;
        bool stood = Math.Abs(lay.Trim) >= Standing, stands = Math.Abs(lies.Trim) >= Standing;
        if (stood != stands && Math.Abs(lies.Trim - lay.Trim) >= Flip)
            return !stands ? Turned.Lies : lies.Trim > 0 ? Turned.Stands : Turned.StandsOnItsNose;
        return !stood && !stands && !lay.HeelIsFree && !lies.HeelIsFree && lay.Plane.N.Z > 0.5 && lies.Plane.N.Z < -0.5 ? Turned.BellyUp : Turned.Nothing;
    }
}
