using System.Text.Json.Serialization;
using Trimwright.Core.Floating;
using Trimwright.Core.Quantities;

namespace Trimwright.App.Answers;

/// <summary>How the lure lies in the water, as its maker would read it with protractor and ruler.</summary>
/// <param name="TrimDeg">Degrees, positive tail down.</param>
/// <param name="HeelDeg">Degrees, positive to the right; null where it stands or rolls freely.</param>
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
internal record PostureJson(
    Rounded TrimDeg, Rounded? HeelDeg, Rounded SubmergedCm3, Rounded DraftMm, Rounded NoseShowsMm, Rounded TailShowsMm, Rounded NoseShowsAlongMm,
    Rounded TailShowsAlongMm, Rounded? WaterlineBackMm, Rounded? WaterlineBellyMm, Rounded BackProudMm, bool HeelIsFree, bool Mirror, Rounded? BarrierMj)
{
    public PostureJson(Posture p)
        : this(
            Units.ToDegrees(p.Trim), p.Heel is { } heel ? Units.ToDegrees(heel) : null, p.Submerged / Units.CubicCentimetre, p.Draft, p.NoseShows,
            p.TailShows, p.NoseShowsAlong, p.TailShowsAlong, p.WaterlineBack, p.WaterlineBelly, p.BackProud, p.HeelIsFree, p.Mirror,
            double.IsFinite(p.Barrier) ? p.Barrier : null)
    {
    }
}

/// <summary>A posture beside the one that it takes first.</summary>
internal sealed record OtherPostureJson : PostureJson
{
    public OtherPostureJson(Posture p)
        : base(p) => EnergyMj = p.Energy;

    /// <summary>Energy above the first posture's, mJ.</summary>
    [JsonPropertyOrder(1)]
    public Rounded EnergyMj { get; }
}
