using Trimwright.Core.Floating;
using Trimwright.Core.Quantities;

namespace Trimwright.App.Answers;

/// <summary>How a lure lies in the water, as its maker would read it with protractor and ruler.</summary>
/// <param name="TrimDeg">Trim, degrees, positive tail down.</param>
/// <param name="HeelDeg">Heel, degrees, positive to the right; null where it stands or rolls freely.</param>
/// <param name="SubmergedCm3">Volume under water, hardware and leader included, cm³.</param>
/// <param name="DraftMm">Depth of its deepest point, mm.</param>
/// <param name="NoseShowsMm">Height of the nose over the water, mm; 0 when it is under.</param>
/// <param name="TailShowsMm">The same of the tail, mm.</param>
/// <param name="NoseShowsAlongMm">How much of the nose is out, as a ruler laid along the back reads it, mm.</param>
/// <param name="TailShowsAlongMm">The same of the tail, mm.</param>
/// <param name="WaterlineBackMm">How far from the nose the water crosses the back, mm; null where it does not.</param>
/// <param name="WaterlineBellyMm">How far from the nose it crosses the belly, mm; null where it does not.</param>
/// <param name="BackProudMm">How far the highest part of the back stands out of the water, mm.</param>
/// <param name="HeelIsFree">It rolls freely about its long axis.</param>
/// <param name="Mirror">Its mirror image is a posture too.</param>
/// <param name="BarrierMj">Energy that tips it into another posture, mJ; null when there is no other.</param>
internal sealed record PostureJson(
    double TrimDeg, double? HeelDeg, double SubmergedCm3, double DraftMm, double NoseShowsMm, double TailShowsMm, double NoseShowsAlongMm,
    double TailShowsAlongMm, double? WaterlineBackMm, double? WaterlineBellyMm, double BackProudMm, bool HeelIsFree, bool Mirror, double? BarrierMj)
{
    public static PostureJson Of(Posture p) => new(
        Units.ToDegrees(p.Trim), p.Heel is { } heel ? Units.ToDegrees(heel) : null, p.Submerged / Units.CubicCentimetre, p.Draft, p.NoseShows, p.TailShows,
        p.NoseShowsAlong, p.TailShowsAlong, p.WaterlineBack, p.WaterlineBelly, p.BackProud, p.HeelIsFree, p.Mirror,
        double.IsFinite(p.Barrier) ? p.Barrier : null);
}

/// <summary>A posture beside the one that it takes first.</summary>
/// <param name="Posture">The posture.</param>
/// <param name="EnergyMj">Energy above the first posture's, mJ.</param>
internal sealed record OtherPostureJson([property: Inline] PostureJson Posture, double EnergyMj)
{
    public static OtherPostureJson Of(Posture p) => new(PostureJson.Of(p), p.Energy);
}
