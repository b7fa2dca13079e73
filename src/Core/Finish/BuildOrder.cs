using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Strength;
using Trimwright.Core.Water;

namespace Trimwright.Core.Finish;

/// <summary>Which steps this lure takes, in which order, and what each of its weigh points must read.</summary>
internal sealed class BuildOrder
{
    private static readonly ImmutableArray<int> CarvingGrits = [60, 120, 220];
    private static readonly ImmutableArray<int> FairingGrits = [120, 220, 320];

    private readonly LureDesign design;
    private readonly MakersBox? box;
    private readonly BuildConditions conditions;
    private readonly Body body;
    private readonly ImmutableArray<Pocket> pockets;
    private readonly WeightLedger blank;
    private readonly WeightLedger dry;
    private readonly WeightLedger glued;
    private readonly WeightLedger sealedUp;
    private readonly WeightLedger finished;
    private readonly LureStrength? strength;

    // Two halves, as the ledger sees it.
    private readonly bool halves;

    /// <summary>Finished, rigged, in the sea.</summary>
    public Prediction InTheSea { get; }

    public BuildOrder(LureDesign design, MakersBox? box, BuildConditions conditions)
    {
        (this.design, this.box, this.conditions) = (design, box, conditions);
        body = design.Body.Surface();
        pockets = [.. design.Ballast.Select(Pocket.Of)];
        halves = GlueUp.IsOfHalves(design);
        (blank, dry, glued, sealedUp, finished) = (At(Stage.Blank), At(Stage.DryFit), At(Stage.Glued), At(Stage.Sealed), At(Stage.Finished));
        strength = LureStrength.Of(design);
        InTheSea = Predict(Stage.Finished, Rig.Rigged, WaterState.Ocean);
    }

    private static double Tap => WaterState.Tap.Density - Units.AirDensity;

    private WeightLedger At(Stage stage) => Bookkeeper.Of(design, stage, Rig.Bare, Tap, conditions.Mesh);

    private Prediction Predict(Stage stage, Rig rig, WaterState water) =>
        Prediction.Of(design, new Circumstances(stage, rig, water) { Mesh = conditions.Mesh });

    public IEnumerable<BuildStep> Steps() =>
    [
        .. Wood(), .. Carving(), .. halves ? [.. Parting(), .. DryFit(), .. Gluing()] : (BuildStep[])[], .. Sealing(), .. Coating(), .. Fishing(),
    ];

    private static TimeSpan Minutes(double minutes) => TimeSpan.FromMinutes(minutes);

    private Weighing Weigh(WeighPoint point, string name, double expected, double? gain = null, Stage? stage = null, params ImmutableArray<Part> already)
    {
        double whole = expected + already.Sum(p => p.Mass);
        return new(point, name, whole, gain, stage, already, Weighing.ScaleFor(whole, box));
    }

    // What is cut before its stage: the wood of every pocket, where they are cut in square boards.
    private ImmutableArray<Part> PocketWood => conditions.PocketsBefore
        ? [.. dry.Of(PartKind.WoodForWeight)] : [];

    // Sockets are in the ledger with their eyes, and are cut before sealing.
    private ImmutableArray<Part> SocketWood => [.. finished.Of(PartKind.WoodForEyes)];

    private IEnumerable<BuildStep> Wood()
    {
        var boards = BoardPlan.Of(design, body, box);
        yield return new BoardsStep
        {
            Phase = Phase.Boards, Hands = Minutes(45), Boards = boards, Cautions = [Caution.Machines, Caution.Dust],
            Weighings = [Weigh(WeighPoint.Boards, "", boards.Mass)],
        };
        if (conditions.PocketsBefore && pockets.Length > 0) yield return CutPockets(Phase.Boards, square: true);
        JointDesign joint = design.Joint ?? new JointDesign();
        yield return new TackStep
        {
            Phase = Phase.Boards, Hands = Minutes(30), Tack = joint.Tack, Thickness = joint.TackThicknessMm, OneBlock = boards.OneBlock || !halves,
            Pins = joint.PinsMm, Eyes = design.Eyes,
            ScrewEyes = [.. (design.Wire?.Hangers ?? []).Where(h => h.Kind == HangerKind.ScrewEye).Select(h => (h.Name, h.XMm))],
            Cautions = joint.Tack == Tack.Spots && halves && !boards.OneBlock ? [Caution.Cyanoacrylate] : [],
        };
    }

    private PocketsStep CutPockets(Phase phase, bool square) => new()
    {
        Phase = phase, Hands = Minutes(20 + 10 * pockets.Length), Pockets = pockets, InSquareBoards = square, Cautions = [Caution.Drilling, Caution.Machines],
    };

    private IEnumerable<BuildStep> Carving()
    {
        (double X, double Height, double Breadth)[] sections = [.. Enumerable.Range(1, 99).Select(i => Calipers(body.Length * i / 100))];
        yield return new SawStep
        {
            Phase = Phase.Carving, Hands = Minutes(60), Length = body.Length, Height = sections.Max(s => s.Height), Breadth = sections.Max(s => s.Breadth),
            HighestAt = sections.MaxBy(s => s.Height).X, WidestAt = sections.MaxBy(s => s.Breadth).X, Cautions = [Caution.Machines, Caution.EdgeTools],
        };
        if (design.Body.NoseFace is { } face)
            yield return new FaceStep { Phase = Phase.Carving, Hands = Minutes(30), Face = face, Cautions = [Caution.EdgeTools] };
        yield return new RoundStep
        {
            Phase = Phase.Carving, Hands = Minutes(150), Grits = CarvingGrits, Cautions = [Caution.EdgeTools, Caution.Dust],
            Calipers = [.. Stations.ForCalipers(body, conditions.StationStep).Select(Calipers)],
        };
        double cut = PocketWood.Sum(p => p.Mass);
        yield return new WeighBlankStep
        {
            Phase = Phase.Carving, Hands = Minutes(20), HasPockets = cut < 0, Cautions = [Caution.Tub],
            UnderWater = UnderWater.Of(Tap * blank.Volume - blank.Weight - cut, blank.Volume, body.Length, Tap, box),
            Weighings = [Weigh(WeighPoint.Blank, "", blank.Weight, null, Stage.Blank, PocketWood)],
        };
    }

    private (double X, double Height, double Breadth) Calipers(double x) =>
        (x, body.BackAt(x) - body.BellyAt(x), 2 * body.HalfBreadthAt(x));

    private IEnumerable<BuildStep> Parting()
    {
        JointDesign joint = design.Joint ?? new JointDesign();
        yield return new SplitStep
        {
            Phase = Phase.Halves, Hands = Minutes(20), Tack = joint.Tack, Kerf = joint.KerfMm, CleanedOff = joint.CleanedOffMm,
            Cautions = joint.KerfMm > 0 ? [Caution.Machines] : [Caution.EdgeTools], Weighings = HalvesWeighed(),
        };
        // What is threaded on the wire must be there when the wire is bent.
        if (pockets.Length > 0) yield return CutWeights();
        if (design.Wire is { } wire && strength is not null)
        {
            yield return Bend(wire, strength);
            yield return Slot(wire);
        }
        if (pockets.Length > 0 && !conditions.PocketsBefore) yield return CutPockets(Phase.Halves, square: false);
    }

    private WeightsStep CutWeights()
    {
        bool lead = GlueUp.HoldsLead(design);
        return new()
        {
            Phase = Phase.Halves, Hands = Minutes(10 * pockets.Length), Pockets = pockets,
            Cautions = !lead ? [] : pockets.Any(p => p.IsPoured) ? [Caution.Lead, Caution.PouringLead] : [Caution.Lead],
            Weighings = [.. pockets.Select(p => Weigh(WeighPoint.Piece, p.Piece, p.Mass))],
        };
    }

    // Weighed halves are told one by one; else they are alike, or differ in width by what nobody weighed.
    private ImmutableArray<Weighing> HalvesWeighed()
    {
        double both = dry.Parts.Where(p => p.Kind is PartKind.CarvedWood or PartKind.PartedWood).Sum(p => p.Mass);
        double cut = PocketWood.Sum(p => p.Mass);
        var whole = Weigh(WeighPoint.BothHalves, "", both, null, null, PocketWood);
        if (design.Halves is { RightG: { } right, LeftG: { } left } && cut == 0)
            return [Weigh(WeighPoint.RightHalf, "", right), Weigh(WeighPoint.LeftHalf, "", left), whole];
        bool alike = design.Halves is null or { RightWiderMm: 0, RightG: null, LeftG: null } && pockets.All(p => cut == 0 || p.At.Y == 0);
        return alike ? [Weigh(WeighPoint.RightHalf, "", whole.Expected / 2), Weigh(WeighPoint.LeftHalf, "", whole.Expected / 2), whole] : [whole];
    }

    private WireStep Bend(WireDesign wire, LureStrength chain)
    {
        (double X, string Name, double Mass)[] threaded =
        [
            .. wire.Hangers.Where(h => h.Kind == HangerKind.Swivel).Select(h => (h.XMm, $"swivel of the {h.Name}",
                dry.Of(PartKind.Captive).Where(p => design.Hardware[p.Index].HangsFrom == h.Name).Sum(p => p.Mass))),
            .. pockets.Where(p => p.OnWire).Select(p => (p.At.X, p.Piece, p.Mass)),
        ];
        double bare = dry.Parts.Where(p => p.Kind is PartKind.Wire or PartKind.Binding).Sum(p => p.Mass);
        return new()
        {
            Phase = Phase.Halves, Hands = Minutes(60), Wire = wire, Length = chain.WireLength, Cut = chain.CutLength, Cautions = [Caution.HardWire],
            Threaded = [.. threaded.OrderBy(t => t.X).Select(t => t.Name)],
            Weighings = [Weigh(WeighPoint.Wire, threaded.Length > 0 ? "with what is on it" : "", bare + threaded.Sum(t => t.Mass))],
        };
    }

    private SlotStep Slot(WireDesign wire)
    {
        double width = Math.Max(wire.SlotWidthMm ?? wire.DiameterMm + Allowances.WireSlot, wire.DiameterMm);
        return new()
        {
            Phase = Phase.Halves, Hands = Minutes(40), Width = width, DepthEach = width / 2, Cautions = [Caution.Machines, Caution.EdgeTools],
            Swivels = [.. wire.Hangers.Where(h => h.Kind == HangerKind.Swivel).Select(h =>
                (h.Name, h.XMm, h.SlotMm?[0] ?? Allowances.SwivelSlotLength, h.SlotMm?[1] ?? Allowances.SwivelSlotWidth))],
        };
    }

    private IEnumerable<BuildStep> DryFit()
    {
        Prediction target = Predict(Stage.DryFit, Rig.StandIns, WaterState.Tap);
        yield return new DryFitStep
        {
            Phase = Phase.DryFit, Hands = Minutes(45), Target = target, InTheSea = InTheSea, Cautions = [Caution.Tub, Caution.Lead],
            OneMillimetreAft = [.. design.Ballast.Select((piece, i) => (piece.Name, Aft(i).Posture.Trim - target.Posture.Trim))],
            Weighings =
            [
                .. target.Ledger.Chains.Where(c => c.StandIn is not null).Select(c => Weigh(WeighPoint.StandIn, c.Place, c.StandIn!.Value.Mass)),
                Weigh(WeighPoint.DryFit, "", dry.Weight, null, Stage.DryFit),
            ],
        };
        yield return new GateStep { Phase = Phase.DryFit, Hands = Minutes(15), Checks = Gate() };
    }

    private Prediction Aft(int piece)
    {
        BallastPiece moved = design.Ballast[piece];
        moved = moved with { AtMm = [moved.AtMm[0] + 1, moved.AtMm[1], moved.AtMm[2]] };
        return Prediction.Of(design with { Ballast = design.Ballast.SetItem(piece, moved) },
            new Circumstances(Stage.DryFit, Rig.StandIns, WaterState.Tap) { Mesh = conditions.Mesh });
    }

    private ImmutableArray<GateCheck> Gate()
    {
        bool wire = design.Wire is not null, swivel = design.Wire?.Hangers.Any(h => h.Kind == HangerKind.Swivel) ?? false;
        (GateCheck Check, bool Asked)[] all =
        [
            (GateCheck.TubShowsTarget, true), (GateCheck.ReadingsWritten, true), (GateCheck.WeightsReadBack, pockets.Length > 0),
            (GateCheck.SwivelThreaded, swivel), (GateCheck.PiecesThreaded, pockets.Any(p => p.OnWire)), (GateCheck.EyesInLine, wire),
            (GateCheck.LeftRightNotSwapped, true), (GateCheck.WireLiesBelowFace, wire), (GateCheck.PocketsClean, pockets.Length > 0),
            (GateCheck.GlueIsSlow, true), (GateCheck.ClampsReady, true), (GateCheck.LoopsMasked, wire), (GateCheck.HooksSwing, design.Hardware.Length > 0), (GateCheck.TimeEnough, true),
        ];
        return [.. all.Where(c => c.Asked).Select(c => c.Check)];
    }

    private IEnumerable<BuildStep> Gluing()
    {
        yield return GlueUp.StepOf(glued, box, conditions.TemperatureC) with
        {
            Weighings = [Weigh(WeighPoint.Glued, "", glued.Weight, glued.Weight - dry.Weight, Stage.Glued)],
        };
    }

    private IEnumerable<BuildStep> Sealing()
    {
        yield return new FairStep
        {
            Phase = Phase.Sealing, Hands = Minutes(60), Sockets = design.Eyes, Grits = FairingGrits,
            Cautions = design.Eyes is null ? [Caution.Dust] : [Caution.Dust, Caution.Drilling],
        };
        BoxFinish? product = Products.For(FinishUse.Sealer, box);
        yield return new SealStep
        {
            Phase = Phase.Sealing, Hands = Minutes(20), Mix = design.SoakedG > 0 ? Mix.Of(design.SoakedG, product) : null,
            Times = CureTimes.Of(product, conditions.TemperatureC), Cautions = [Caution.Epoxy, Caution.Solvents],
            Weighings = [Weigh(WeighPoint.Sealed, "", sealedUp.Weight, design.SoakedG, Stage.Sealed, SocketWood)],
        };
        yield return new SoakStep { Phase = Phase.Sealing, Hands = Minutes(10), Under = TimeSpan.FromHours(48), Cautions = [Caution.Tub] };
        if (halves)
            yield return new TubStep { Phase = Phase.Sealing, Hands = Minutes(20), Target = Predict(Stage.Sealed, Rig.StandIns, WaterState.Tap), Cautions = [Caution.Tub] };
    }

    private IEnumerable<BuildStep> Coating()
    {
        ImmutableArray<CoatFilm> films = CoatFilm.All(design, glued.Skin, box);
        double weight = sealedUp.Weight + SocketWood.Sum(p => p.Mass);
        bool eyesOn = design.Eyes is null;
        for (int i = 0; i < films.Length; i++)
        {
            CoatFilm film = films[i];
            // Eyes go on the colour and under the clear.
            if (!eyesOn && film.Use == FinishUse.Clear)
            {
                eyesOn = true;
                weight += design.Eyes!.MassG;
                yield return SetEyes(weight);
            }
            weight += film.Mass;
            bool twoPart = film.Product is null ? film.Use == FinishUse.Clear : MixRatio.Of(film.Product) is not null;
            yield return new CoatStep
            {
                Phase = Phase.Coats, Hands = Minutes(25), Film = film, Mix = Mix.Of(film.Mass, film.Product),
                Times = CureTimes.Of(film.Product, conditions.TemperatureC), IsFirst = i == 0, IsLast = i == films.Length - 1,
                Cautions = twoPart ? [Caution.Epoxy, Caution.CupHeat] : [Caution.Solvents],
                Weighings = [Weigh(WeighPoint.Coat, film.Name, weight, film.Mass, i == films.Length - 1 && eyesOn ? Stage.Finished : null)],
            };
        }
        if (!eyesOn) yield return SetEyes(weight + design.Eyes!.MassG);
        if (films.Length == 0) yield break;
        CureTimes last = CureTimes.Of(films[^1].Product, conditions.TemperatureC);
        yield return new CureStep { Phase = Phase.Coats, Hands = TimeSpan.Zero, Left = last.Cure - last.SandFrom };
    }

    private EyesStep SetEyes(double weight) => new()
    {
        Phase = Phase.Coats, Hands = Minutes(15), Eyes = design.Eyes!, Weighings = [Weigh(WeighPoint.Eyes, "", weight, design.Eyes!.MassG)],
    };

    private IEnumerable<BuildStep> Fishing()
    {
        if (design.Wire is not null)
            yield return new RigStep
            {
                Phase = Phase.Fishing, Hands = Minutes(30), Weakest = strength?.Weakest, Cautions = [Caution.Hooks, Caution.PullTest],
                // What is threaded on the wire hangs there already.
                Chains = [.. design.Hardware.Where((_, i) => !design.IsCaptive(i)).GroupBy(h => h.HangsFrom).Select(g => (g.Key, g.ToImmutableArray()))],
                Weighings = [Weigh(WeighPoint.Rigged, "", InTheSea.Ledger.Weight, null, Stage.Finished)],
            };
        yield return new FishStep { Phase = Phase.Fishing, Hands = TimeSpan.Zero, Prediction = InTheSea, Cautions = [Caution.Casting] };
    }
}
