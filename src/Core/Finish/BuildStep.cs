using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Strength;

namespace Trimwright.Core.Finish;

/// <summary>The chapters of a build, in their order.</summary>
public enum Phase
{
    Boards,
    Carving,
    Halves,
    DryFit,
    Gluing,
    Sealing,
    Coats,
    Fishing,
}

/// <summary>What can hurt at a step.</summary>
public enum Caution
{
    EdgeTools,
    Machines,
    Drilling,
    Dust,
    Lead,
    PouringLead,
    HardWire,
    Cyanoacrylate,
    Epoxy,
    CupHeat,
    Solvents,
    Tub,
    Hooks,
    PullTest,
    Casting,
}

/// <summary>When a step is done, counted from the plan's start.</summary>
/// <param name="From">Hands on.</param>
/// <param name="To">Hands off.</param>
/// <param name="Opens">The earliest that it could begin; null: any time.</param>
/// <param name="Closes">The latest that it may begin unsanded; null: it doesn't matter.</param>
public readonly record struct Visit(TimeSpan From, TimeSpan To, TimeSpan? Opens = null, TimeSpan? Closes = null);

/// <summary>One step of a build: a typed record for each kind, so that text, sheet and page tell the same things.</summary>
public abstract record BuildStep
{
    public required Phase Phase { get; init; }

    /// <summary>How long hands are on it; typical, from memory.</summary>
    public required TimeSpan Hands { get; init; }

    public Visit Visit { get; init; }

    public ImmutableArray<Caution> Cautions { get; init; } = [];

    /// <summary>What to weigh at its end, and what to expect.</summary>
    public ImmutableArray<Weighing> Weighings { get; init; } = [];

    /// <summary>What passes between hands off and the next step.</summary>
    public virtual TimeSpan Waits => TimeSpan.Zero;

    /// <summary>What is mixed for it; null when nothing is.</summary>
    public virtual Mix? Mixed => null;

    /// <summary>Has it told by its kind.</summary>
    public abstract T Tell<T>(IStepTeller<T> teller);
}

/// <summary>What is told of a step, for each kind of it: who tells of steps leaves none out.</summary>
public interface IStepTeller<out T>
{
    T Of(BoardsStep s);

    T Of(PocketsStep s);

    T Of(TackStep s);

    T Of(SawStep s);

    T Of(FaceStep s);

    T Of(RoundStep s);

    T Of(WeighBlankStep s);

    T Of(SplitStep s);

    T Of(WireStep s);

    T Of(SlotStep s);

    T Of(WeightsStep s);

    T Of(DryFitStep s);

    T Of(GateStep s);

    T Of(GlueStep s);

    T Of(FairStep s);

    T Of(SealStep s);

    T Of(SoakStep s);

    T Of(TubStep s);

    T Of(CoatStep s);

    T Of(EyesStep s);

    T Of(CureStep s);

    T Of(RigStep s);

    T Of(FishStep s);
}

/// <summary>Boards are cut to size, paired and weighed.</summary>
public sealed record BoardsStep : BuildStep
{
    public required BoardPlan Boards { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Cavities for the weights.</summary>
public sealed record PocketsStep : BuildStep
{
    public required ImmutableArray<Pocket> Pockets { get; init; }

    /// <summary>While the boards are square and can be clamped; else in the carved halves, bedded in their offcuts.</summary>
    public required bool InSquareBoards { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Boards are tacked face to face, or the block gets its middle line; outlines and prick points go on.</summary>
public sealed record TackStep : BuildStep
{
    public required Tack Tack { get; init; }

    public required double Thickness { get; init; }

    public required bool OneBlock { get; init; }

    /// <summary>Locating pins, mm.</summary>
    public ImmutableArray<(double X, double Z)> Pins { get; init; } = [];

    /// <summary>Where screw eyes go, mm from the nose.</summary>
    public ImmutableArray<(string Name, double X)> ScrewEyes { get; init; } = [];

    /// <summary>Eye sockets to prick, mm.</summary>
    public EyesDesign? Eyes { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Side outline, then plan outline, out of the block.</summary>
public sealed record SawStep : BuildStep
{
    public required double Length { get; init; }

    public required double Height { get; init; }

    public required double Breadth { get; init; }

    /// <summary>Where it is highest and widest, mm from the nose.</summary>
    public required double HighestAt { get; init; }

    public required double WidestAt { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>A popper's face, cut while the blank is whole.</summary>
public sealed record FaceStep : BuildStep
{
    public required NoseFaceDesign Face { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Corners off: 8 sides, 16, round; then sanded, coarse to fine.</summary>
public sealed record RoundStep : BuildStep
{
    /// <summary>Finished breadth and height at stations, for the caliper, mm.</summary>
    public required ImmutableArray<(double X, double Height, double Breadth)> Calipers { get; init; }

    public required ImmutableArray<int> Grits { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>The carved blank is weighed, in air and under water.</summary>
public sealed record WeighBlankStep : BuildStep
{
    public required UnderWater UnderWater { get; init; }

    /// <summary>Pockets are cut already: their air is inside.</summary>
    public required bool HasPockets { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>The halves are parted.</summary>
public sealed record SplitStep : BuildStep
{
    public required Tack Tack { get; init; }

    /// <summary>Width of the saw's cut, mm; 0: it is split.</summary>
    public required double Kerf { get; init; }

    /// <summary>Taken off each glue face, mm.</summary>
    public required double CleanedOff { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>The through-wire is bent.</summary>
public sealed record WireStep : BuildStep
{
    public required WireDesign Wire { get; init; }

    /// <summary>Along the bends, and with what the pliers hold, mm.</summary>
    public required double Length { get; init; }

    public required double Cut { get; init; }

    /// <summary>Swivels and pieces with a bore that are threaded on before the last eye is closed, nose to tail.</summary>
    public required ImmutableArray<string> Threaded { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>The bent wire is traced on the glue face and its slot cut, half in each half.</summary>
public sealed record SlotStep : BuildStep
{
    public required double Width { get; init; }

    public required double DepthEach { get; init; }

    /// <summary>Open slots of swivels: place, station, length, width, mm.</summary>
    public required ImmutableArray<(string Name, double X, double Length, double Width)> Swivels { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Weights are cut, filed and weighed, each.</summary>
public sealed record WeightsStep : BuildStep
{
    public required ImmutableArray<Pocket> Pockets { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Taped up with wire and weights, stand-ins hung on it, into the tub.</summary>
public sealed record DryFitStep : BuildStep
{
    /// <summary>In tap water, with stand-ins: what the tub must show.</summary>
    public required Prediction Target { get; init; }

    /// <summary>Finished, rigged, in the sea: what that stands for.</summary>
    public required Prediction InTheSea { get; init; }

    /// <summary>By how much a piece's lying 1 mm further aft turns it in the tub, radians, positive tail down.</summary>
    public required ImmutableArray<(string Piece, double Trim)> OneMillimetreAft { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>What must be true before the halves are glued.</summary>
public enum GateCheck
{
    TubShowsTarget,
    ReadingsWritten,
    WeightsReadBack,
    SwivelThreaded,
    PiecesThreaded,
    EyesInLine,
    LeftRightNotSwapped,
    WireLiesBelowFace,
    PocketsClean,
    GlueIsSlow,
    ClampsReady,
    LoopsMasked,
    HooksSwing,
    TimeEnough,
}

public sealed record GateStep : BuildStep
{
    public required ImmutableArray<GateCheck> Checks { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>The halves are glued shut.</summary>
public sealed record GlueStep : BuildStep
{
    /// <summary>For the glue line and for slots and pockets.</summary>
    public required Mix Mix { get; init; }

    /// <summary>Dry, g, of the line and of the gaps.</summary>
    public required double LineMass { get; init; }

    public required double GapMass { get; init; }

    public required CureTimes Times { get; init; }

    // Common practice, from memory.
    /// <summary>Step that a fingernail may feel along the seam, mm.</summary>
    public double SeamStep => 0.2;

    /// <summary>How far the two halves' noses and tails may be apart, mm.</summary>
    public double EndsStep => 0.5;

    /// <summary>How far the eyes may lie out of the seam's plane, mm.</summary>
    public double EyesOff => 0.5;

    public override TimeSpan Waits => Times.SandFrom;

    public override Mix? Mixed => Mix;

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Gaps filled, seam sanded, eye sockets cut.</summary>
public sealed record FairStep : BuildStep
{
    public required EyesDesign? Sockets { get; init; }

    public required ImmutableArray<int> Grits { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Sealer soaks in.</summary>
public sealed record SealStep : BuildStep
{
    /// <summary>Null: the design counts no sealer.</summary>
    public required Mix? Mix { get; init; }

    public required CureTimes Times { get; init; }

    public override TimeSpan Waits => Times.SandFrom;

    public override Mix? Mixed => Mix;

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Two days under water tell whether the seal holds.</summary>
public sealed record SoakStep : BuildStep
{
    public required TimeSpan Under { get; init; }

    // Common practice: a good one gained 0.2 g on 83 g; 3 g cracks paint.
    public double GoodGain => 0.2;

    public double BadGain => 3;

    /// <summary>To dry again before colour; common practice, no source.</summary>
    public static readonly TimeSpan Drying = TimeSpan.FromHours(24);

    public override TimeSpan Waits => Under + Drying;

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>In the tub with stand-ins, sealed or finished.</summary>
public sealed record TubStep : BuildStep
{
    public required Prediction Target { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>One coat.</summary>
public sealed record CoatStep : BuildStep
{
    public required CoatFilm Film { get; init; }

    public required Mix Mix { get; init; }

    public required CureTimes Times { get; init; }

    /// <summary>It goes on a coat that is past its window, and that is sanded first.</summary>
    public bool SandFirst { get; init; }

    /// <summary>There is no coat under it.</summary>
    public required bool IsFirst { get; init; }

    /// <summary>Not sanded after.</summary>
    public required bool IsLast { get; init; }

    public override Mix? Mixed => Mix;

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Eyes are set.</summary>
public sealed record EyesStep : BuildStep
{
    public required EyesDesign Eyes { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Waiting until it is hard.</summary>
public sealed record CureStep : BuildStep
{
    public required TimeSpan Left { get; init; }

    public override TimeSpan Waits => Left;

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Hooks and rings go on; the pull test.</summary>
public sealed record RigStep : BuildStep
{
    public required ImmutableArray<(string Place, ImmutableArray<HardwareItem> Items)> Chains { get; init; }

    /// <summary>The link that lets go first of those whose strength is known; null: of none it is.</summary>
    public required (LoadPath Path, Link Link)? Weakest { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}

/// <summary>Into the sea.</summary>
public sealed record FishStep : BuildStep
{
    public required Prediction Prediction { get; init; }

    public override T Tell<T>(IStepTeller<T> teller) => teller.Of(this);
}
