using System.Collections.Immutable;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.App.Questions;

/// <summary>How does a lure sit or fall, and what would change that a little?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Where">At which stage, with what on it, in which water.</param>
internal sealed record HowItSits(LureDesign Design, Circumstances Where) : IQuestion<PredictAnswer>
{
    public PredictAnswer Answer(Pace pace)
    {
        Prediction prediction = Prediction.Of(Design, Where);
        pace.Step();
        if (prediction.Descent is not { } descent) return new PredictAnswer(Design, prediction, [], []);
        FallingBody body = FallingBody.Of(Design, prediction.Ledger, Where.Water);
        return new PredictAnswer(Design, prediction,
            descent.First is { } fall ? [.. Touch.Of(Design, body, fall), .. SizesUp(fall, pace)] : [],
            LetGo.Decides(descent) ? LetGo.Of(body, descent, pace) : []);
    }

    // The hooks that a swap would hang there without a box of one's own. Lead on thread has no sizes.
    private IEnumerable<Touch> SizesUp(Fall fall, Pace pace)
    {
        if (Where.Rig != Rig.Rigged) yield break;
        ImmutableArray<HookSet> sets = HookSet.All(Design, Catalogue.Starter);
        ImmutableArray<HookAt> own = sets[0].Hooks;
        foreach (HookSet set in sets.Where(s => s is { Change: HookChange.SizeUp, Changed.Length: 1 } && s.Hooks.Except(own).Count() < 2))
        {
            pace.Step();
            WeightLedger ledger = Bookkeeper.Of(set.Design, Where.Stage, Where.Rig, Where.Water.Density - Units.AirDensity, Where.Mesh);
            HookAt other = set.Hooks.Except(own).FirstOrDefault(set.Hooks.First(h => h.Place == set.Changed[0]));
            yield return Touch.SizeUp(other.Hook!, other.Place, FallingBody.Of(set.Design, ledger, Where.Water), fall);
        }
    }
}

/// <param name="Design">As asked about.</param>
/// <param name="Prediction">How it sits or falls.</param>
/// <param name="Touches">What small changes do to its fall; none when it doesn't fall steadily.</param>
/// <param name="Starts">Of several falls that hold, which start leads to which; none when there are not several.</param>
internal sealed record PredictAnswer(LureDesign Design, Prediction Prediction, IReadOnlyList<Touch> Touches, IReadOnlyList<LetGo> Starts);

/// <summary>What does it look like in the water? A drawing as SVG that stands by itself.</summary>
/// <param name="Of">As it sits or falls.</param>
/// <param name="Notation">The maker's units.</param>
internal sealed record DrawnInWater(PredictAnswer Of, Notation Notation) : IQuestion<string>
{
    public string Answer(Pace pace) => Svg.Write(LureInWater.Draw(Of.Design, Of.Prediction, Notation));
}
