using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Doubt;

/// <summary>What a maker would call the reason for a doubt.</summary>
public enum Cause
{
    Carving,
    Sanding,
    Wood,
    Moisture,
    Wire,
    Weights,
    Places,
    Glue,
    Sealer,
    Coats,
    Eyes,
    Hardware,
    Drag,
    Scale,
    Reading,
}

/// <summary>
/// One thing that is not known for sure, as an independent unit normal ξ. It acts as sd·ξ in its own unit, or as the
/// factor e^(sd·ξ) on what the design says, which can never turn a thickness or a weight negative.
/// </summary>
/// <param name="Id">Fixed word for files and programs: <c>carving.mean</c>, <c>weight[0].x</c>.</param>
/// <param name="Name">In the maker's words.</param>
/// <param name="Cause">What it belongs to.</param>
/// <param name="Sd">One standard deviation: mm, g, share, or of the logarithm for a factor.</param>
/// <param name="IsFactor">It multiplies.</param>
/// <param name="Middle">Where ξ = 0 lies, in the same unit as the deviation: 0 but for a maker whose own habit is known.</param>
public readonly record struct Unknown(string Id, string Name, Cause Cause, double Sd, bool IsFactor, double Middle = 0)
{
    /// <summary>What ξ stands for: an amount, or a factor whose median is 1 for the usual maker.</summary>
    public double At(double xi) => IsFactor ? Math.Exp(Middle + Sd * xi) : Middle + Sd * xi;
}

/// <summary>All unknowns of one design, in a fixed order; the numbers of places in a vector ξ.</summary>
public sealed class Unknowns
{
    public const int Mean = 0, Slope = 1, Ends = 2, Tall = 3, Raised = 4, Lopsided = 5, Sanding = 6;
    public const int Density = 7, TailHeavy = 8, RightHeavy = 9, Moisture = 10;
    public const int WireMass = 11, WireHeight = 12, GlueLine = 13, Filler = 14, Sealer = 15, Eyes = 16;
    public const int Across = 17, HookDrag = 18, EndDrag = 19, Wake = 20;
    private const int Fixed = 21;

    /// <summary>How many shapes carving errors take: <see cref="Mean"/> to <see cref="Lopsided"/>, then <see cref="Sanding"/>.</summary>
    public const int Modes = 7;

    public ImmutableArray<Unknown> All { get; }

    public int Count => All.Length;

    private readonly int coats;
    private readonly int pieces;

    public Unknown this[int i] => All[i];

    /// <summary>Thickness of a coat.</summary>
    public int Coat(int index) => Fixed + index;

    /// <summary>Mass, and places along x, y, z, of a weight.</summary>
    public int PieceMass(int index) => Fixed + coats + 4 * index;

    public int PieceX(int index) => PieceMass(index) + 1;

    public int PieceY(int index) => PieceMass(index) + 2;

    public int PieceZ(int index) => PieceMass(index) + 3;

    /// <summary>Mass of a piece of hardware, in the design's order.</summary>
    public int Hardware(int index) => Fixed + coats + 4 * pieces + index;

    /// <summary>How far a coat leans, as a share of its film; −1 where nobody says how it hung.</summary>
    public int Lean(int coat) => leans[coat];

    private readonly ImmutableArray<int> leans;

    public Unknowns(LureDesign design, Priors priors)
    {
        coats = design.Finish.Length;
        pieces = design.Ballast.Length;
        var all = ImmutableArray.CreateBuilder<Unknown>();
        void Amount(string id, string name, Cause cause, double sd) => all.Add(new Unknown(id, name, cause, sd, false));
        void Factor(string id, string name, Cause cause, double sd) => all.Add(new Unknown(id, name, cause, sd, true));
        Amount("carving.mean", "carved fat or lean all over", Cause.Carving, priors.CarvingMeanMm);
        Amount("carving.slope", "carved fatter at one end", Cause.Carving, priors.CarvingSlopeMm);
        Amount("carving.ends", "ends fatter than the middle", Cause.Carving, priors.CarvingEndsMm);
        Amount("carving.tall", "carved tall rather than wide", Cause.Carving, priors.CarvingTallMm);
        Amount("carving.raised", "back high and belly shallow", Cause.Carving, priors.CarvingRaisedMm);
        Amount("carving.lopsided", "right side fatter than the left", Cause.Carving, priors.CarvingLopsidedMm);
        Amount("sanding", "sanded off after gluing", Cause.Sanding, priors.SandingMm);
        Factor("wood.density", "density of the wood", Cause.Wood, design.Wood.DensitySdGPerCm3 is { } sd ? sd / design.Wood.DensityGPerCm3 : priors.WoodDensity);
        Amount("wood.tail_heavy", "wood heavier towards the tail", Cause.Wood, priors.WoodAlong);
        Amount("wood.right_heavy", "right half heavier than the left", Cause.Wood, design.Halves?.RightG is null ? priors.WoodSides : priors.WoodSidesWeighed);
        Amount("moisture", "moisture taken up or lost since it was weighed", Cause.Moisture, priors.Moisture);
        Factor("wire.mass", "weight of the wire", Cause.Wire, priors.WireMass);
        Amount("wire.height", "height of the wire and its loops", Cause.Places, priors.WireHeightMm);
        Factor("glue_line", "thickness of the glue line", Cause.Glue, priors.GlueLine);
        Factor("filler", "filler in slots and pockets", Cause.Glue, priors.Filler);
        if (design.SoakedG > 0) Factor("sealer", "sealer soaked in", Cause.Sealer, priors.Sealer);
        else Amount("sealer", "sealer soaked in", Cause.Sealer, priors.SealerUnplannedG);
        Factor("eyes", "weight of the eyes", Cause.Eyes, priors.Eyes);
        Factor("drag.across", "drag of the body across its way", Cause.Drag, priors.DragAcross);
        Factor("drag.hooks", "drag of hooks and rings", Cause.Drag, priors.DragHooks);
        Factor("drag.ends", "drag of the body end-on", Cause.Drag, priors.DragEnds);
        Amount("drag.wake", "turning moment that the wake leaves", Cause.Drag, priors.Wake);
        foreach ((int i, Coat coat) in design.Finish.Index()) Factor($"coat[{i}]", $"thickness of {coat.Name}", Cause.Coats, priors.CoatThickness);
        foreach ((int i, BallastPiece piece) in design.Ballast.Index())
        {
            UnseenPrior? unseen = i == pieces - 1 ? priors.Unseen : null;
            Factor($"weight[{i}].mass", $"grams of {piece.Name}", Cause.Weights, unseen?.Share ?? (piece.MassG is { } g ? priors.WeighedG / Math.Max(g, priors.WeighedG) : priors.PieceMass));
            Amount($"weight[{i}].x", $"{piece.Name} fore and aft", Cause.Places, unseen?.XMm ?? priors.PlaceXMm);
            Amount($"weight[{i}].y", $"{piece.Name} left or right", Cause.Places, priors.PlaceYMm);
            Amount($"weight[{i}].z", $"{piece.Name} up or down", Cause.Places, unseen?.ZMm ?? (piece.OnWire ? priors.PlaceYMm : priors.PlaceZMm));
        }
        foreach ((int i, HardwareItem item) in design.Hardware.Index())
            Factor($"hardware[{i}].mass", $"grams of {item.Name} at {item.HangsFrom.Replace('_', ' ')}", Cause.Hardware, priors.HardwareMass);
        // Last, and only where a file says it: what other lures' builds are drawn from stays as it was.
        var leaning = new int[coats];
        foreach ((int i, Coat coat) in design.Finish.Index())
        {
            leaning[i] = coat.Hung is null ? -1 : all.Count;
            if (coat.Hung is not null) Amount($"lean[{i}]", $"how far {coat.Name} sagged", Cause.Coats, Ledger.Hanging.LeanSd(coat));
        }
        leans = [.. leaning];
        for (int i = 0; i < all.Count; i++)
            if (Hand.HabitOf(all[i]) is { } habit && priors.Habits.TryGetValue(habit, out Habit own))
                all[i] = all[i] with { Middle = own.Mean * all[i].Sd, Sd = own.Spread * all[i].Sd };
        All = all.ToImmutable();
    }
}
