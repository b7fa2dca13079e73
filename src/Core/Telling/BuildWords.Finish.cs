using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Telling;

public sealed partial class BuildWords
{
    private IEnumerable<string> DryFit(DryFitStep step)
    {
        Prediction target = step.Target;
        yield return $"Wire and weights in, halves closed with bands and cling film or tape, gaps left empty. Press the air out: film traps {(notation.Inches ? "up to a tenth of an ounce" : "one to three grams")} of it. Weigh bands and film by themselves and take them off.";
        if (target.Ledger.Chains.Any(c => c.StandIn is not null))
            yield return "Hang lead on thread from each eye in place of its hooks: these stand-ins pull as much under water as the hooks will, and have no points.";
        yield return $"Tap water at {notation.Temperature(target.Circumstances.Water.TemperatureC)}, the lure wetted, a drop of washing-up liquid in the tub. It must show: {Lower(Sentence.Of(target, notation))}";
        yield return $"That stands for the sea, finished and rigged: {Lower(Sentence.Of(step.InTheSea, notation))}";
        foreach ((string piece, double trim) in step.OneMillimetreAft)
            if (Math.Abs(trim) > Units.FromDegrees(0.05))
                yield return $"{Capital(piece)} {notation.Length(1)} further aft turns it {notation.Number(Math.Abs(Units.ToDegrees(trim)), 1)}° {(trim > 0 ? "tail" : "nose")} down here.";
        yield return "If it shows something else, now is the time: move a weight, change a weight, or plan again with what you weighed.";
    }

    private IEnumerable<string> Ticks(BuildStep step) => step is GateStep gate ? gate.Checks.Select(Of) : [];

    private string Of(GateCheck check) => check switch
    {
        GateCheck.TubShowsTarget => "The tub showed what the plan says, with stand-ins on",
        GateCheck.ReadingsWritten => "Weights of halves, wire and dry-fit are written down",
        GateCheck.WeightsReadBack => $"Each weight's {notation.Grams} read back from the paper, at its own place",
        GateCheck.SwivelThreaded => "The swivel is on the wire and turns",
        GateCheck.PiecesThreaded => "The bored weight is on the wire, at its pocket",
        GateCheck.EyesInLine => "Eyes in line with the seam, seen from front and tail",
        GateCheck.LeftRightNotSwapped => "Left is left and right is right, seen from the tail, back up",
        GateCheck.WireLiesBelowFace => "The halves close on the wire without a gap, no light at the seam",
        GateCheck.PocketsClean => "Pockets and slots are clean of dust and chips",
        GateCheck.GlueIsSlow => "The glue is slow, and there is enough of it",
        GateCheck.ClampsReady => "Bands and clamps lie ready, cut to length; wax paper under it",
        GateCheck.HooksSwing => "Each hook was hung on once, swung free of body and other hooks, and is off again",
        GateCheck.LoopsMasked => "Eyes and loops, and a swivel with its slot, are masked or greased: no glue gets there",
        GateCheck.TimeEnough => "You have an hour, and nobody calls",
    };

    private IEnumerable<string> Glue(GlueStep step)
    {
        yield return $"For the joint {notation.Weight(step.LineMass)}, for slots and pockets {notation.Weight(step.GapMass)}.";
        foreach (string line in MixWords.Sentences(step.Mix, plan.Box, notation)) yield return line;
        yield return "Fill slot and pockets first, bed wire and weights in it, then a thin coat on both faces. Close, bands from the middle to the ends, wipe.";
        if (step.Times.PotLife is { } pot) yield return $"At {notation.Temperature(plan.Conditions.TemperatureC)} it can be worked for about {Span(pot)}.";
        yield return $"Line up before it sets: no step along the seam over {notation.Caliper(step.SeamStep)}, noses and tails of the halves within {notation.Caliper(step.EndsStep)}, the eyes within {notation.Caliper(step.EyesOff)} of the seam's plane. Then look again in ten minutes: halves float on glue.";
        yield return $"Bands off after {Span(step.Times.SandFrom)}.";
        foreach (string line in Damp()) yield return line;
    }

    private IEnumerable<string> Fair(FairStep step)
    {
        yield return "Fill gaps along the seam with sawdust in glue, let it set, and sand flush.";
        yield return $"Sand {string.Join(", ", step.Grits)}. {(notation.Inches ? "Four thousandths of an inch" : "A tenth of a millimetre")} all over is about {notation.Weight(Fatter(notation.Inches ? 0.004 * Units.Inch : 0.1))}: take off the seam, not the body.";
        if (step.Sockets is { } eyes)
            yield return $"Cut the eye sockets {notation.Caliper(eyes.DiameterMm)} across and {notation.Caliper(eyes.ThicknessMm)} deep, {notation.Caliper(eyes.XMm)} from the nose, {Height(eyes.ZMm)}, both sides, so that they are sealed too.";
    }

    private IEnumerable<string> Seal(SealStep step)
    {
        yield return "Brush or dip until it drinks no more, end grain and wire exits twice, wipe off what stands on the surface: what soaks in adds weight and no size.";
        if (step.Mix is { } mix)
        {
            yield return $"The plan counts on {notation.Weight(plan.Design.SoakedG)} soaked in and dry.";
            foreach (string line in MixWords.Sentences(mix, plan.Box, notation)) yield return line;
        }
        else
        {
            yield return "The lure file counts no sealer's weight: weigh before and after, and write down what it gained: it belongs to the lure.";
        }
        yield return $"Dry after {Span(step.Times.SandFrom)}. Bubbles at warmed end grain mean: wait another day.";
        foreach (string line in Damp()) yield return line;
    }

    private IEnumerable<string> Soak(SoakStep step)
    {
        yield return $"Weigh it, sink it in tap water for {Span(step.Under)}, wipe it dry, weigh it again.";
        yield return $"A good seal gains {notation.Weight(step.GoodGain)} or so; {notation.Weight(step.BadGain)} means water gets in and will crack the paint. Look at end grain, seam and wire exits, dry it, seal again, soak again.";
        yield return "Dry it for a day, until it weighs what it did before.";
    }

    private IEnumerable<string> Coat(CoatStep step)
    {
        CureTimes times = step.Times;
        bool colour = step.Film.Use == FinishUse.Colour;
        if (step.SandFirst) yield return "The coat under it is past its window: sand it dull with 400, wipe with a clean damp cloth, let it dry.";
        else if (step.IsFirst) yield return "Dull the sealer with 320, wipe, touch it no more with bare fingers: skin leaves fisheyes.";
        else if (step.Visit is { Opens: { } opens, Closes: { } closes }) yield return $"The window is open from {Moment(opens)} to {Moment(closes)}: no sanding.";
        yield return $"{notation.Area(step.Film.Area)}, {notation.Film(step.Film.Thickness)} when dry, {notation.Weight(step.Film.Mass)}.";
        foreach (string line in MixWords.Sentences(step.Mix, plan.Box, notation)) yield return line;
        if (times.PotLife is { } pot) yield return $"At {notation.Temperature(plan.Conditions.TemperatureC)} it can be worked for about {Span(pot)}.";
        if (Hanging(step.Film, times) is { } hung) yield return hung;
        else if (times.Turn is { } turn) yield return $"On the turner at 4 to 10 turns a minute for {Span(turn)}; without one, hang it by alternate ends, every five minutes at first.";
        if (times.AreTypical) yield return "Times are the usual ones, not your product's.";
        foreach (string line in Damp()) yield return line;
        if (step.IsLast) yield return "This is the last one: it is not sanded.";
        else yield return colour ? "Colour is not sanded." : Next(times);
    }

    // Null: the plan doesn't say how it hangs.
    private string? Hanging(CoatFilm film, CureTimes times)
    {
        string until = times.Turn is { } turn ? $"for {Span(turn)}" : "until it has set";
        string sag = notation.Number(100 * Ledger.Hanging.Sag, 0) + "\u00A0%";
        if (film.Hung is not { } hung) return null;
        return hung switch
        {
            HowHung.Turner => $"On the turner at 4 to 10 turns a minute {until}.",
            HowHung.NoseUp or HowHung.TailUp => film.Turned
                ? $"Turn it end for end: this coat hangs {Up(film)} {until}, so that what sagged in the coat before is evened out."
                : $"Hang it {Up(film)} {until}: it sags, and the plan counts it about {sag} thicker at the low end than in the middle.",
            HowHung.AlternateEnds => null,
        };
    }

    private static string Up(CoatFilm film) => film.Hung == HowHung.NoseUp ? "nose up" : "tail up";

    private string Next(CureTimes times) => times switch
    {
        { RecoatFrom: { } from, RecoatUntil: { } until } => $"The next coat goes on unsanded {Span(from)} to {Span(until)} after this one, or sanded after {Span(times.SandFrom)}.",
        { RecoatFrom: { } from } => $"The next coat goes on {Span(from)} after this one.",
        _ => $"The next coat goes on after {Span(times.SandFrom)}, sanded.",
    };

    /// <summary>What the shop's air says about coating and gluing.</summary>
    private IEnumerable<string> Air()
    {
        double t = plan.Conditions.TemperatureC;
        if (plan.IsCold) yield return $"{notation.Temperature(t)} is cold for resin: it stays thick, cures slowly and may stay soft. Warm the room.";
        foreach (string line in Damp()) yield return line;
        if (plan.Dew is { } dew && !plan.IsTooDamp && plan.IsDamp)
            yield return $"Damp for clear coats, they may haze: a warm dry box helps. The dew point is {notation.Temperature(dew)}.";
    }

    // Nothing is glued, sealed or coated then; so it is said at each such step again.
    private IEnumerable<string> Damp()
    {
        if (plan.Dew is not { } dew || !plan.IsTooDamp) yield break;
        double t = plan.Conditions.TemperatureC;
        string over = notation.Inches ? notation.Number(1.8 * DewPoint.Margin, 0) + "\u00A0°F" : notation.Number(DewPoint.Margin, 0) + "\u00A0°C";
        yield return $"Too damp: the dew point is {notation.Temperature(dew)}, and the work must be {over} warmer. At {notation.Temperature(t)} that takes less than {notation.Number(100 * DewPoint.MostHumidity(t), 0)}\u00A0% humidity. Warm the work, or wait.";
    }

    private IEnumerable<string> Rig(RigStep step)
    {
        foreach ((string place, var items) in step.Chains)
            yield return $"At the {StrengthWords.Place(place)}: {string.Join(", ", items.Select(i => i.Name))}.";
        if (step.Weakest is { } weakest)
            yield return $"Pull it before it fishes. With {StrengthWords.Of(weakest.Path)}, the {StrengthWords.Of(weakest.Link)} is reckoned to let go first, at {notation.Force(weakest.Link.LetsGo!.Newtons)}: an estimate.";
    }
}
