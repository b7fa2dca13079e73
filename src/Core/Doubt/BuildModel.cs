using System.Collections.Concurrent;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>
/// A design together with what is not known of it: any build of it, at any stage, is a vector ξ of unit normals. ξ = 0 is
/// the design itself, as <see cref="Prediction.Of"/> has it.
/// </summary>
public sealed class BuildModel
{
    /// <summary>
    /// The mesh of sampled builds: fitted to the live one's volume and centroid, it differs from it by less than 0.05 g and
    /// 0.1° (held by a test over random lures).
    /// </summary>
    public static readonly MeshSize Sampling = new(57, 44);

    private readonly ConcurrentDictionary<Stage, StageShape> shapes = new();
    private readonly ConcurrentDictionary<(Stage, Rig, WaterState), StageModel> models = new();
    private readonly ConcurrentDictionary<(Stage, Rig, WaterState), Sitting> sittings = new();

    public LureDesign Design { get; }

    public Priors Priors { get; }

    public Unknowns Unknowns { get; }

    /// <summary>The mesh that builds are tried on.</summary>
    public MeshSize Mesh { get; }

    /// <summary>
    /// Whether a reading tells how much wood was cut away. Then filler beyond the planned is taken as filling what was cut too wide: it comes
    /// with wood gone. Else it is a weight alone.
    /// </summary>
    internal bool AreCutsTold { get; private init; }

    /// <summary>The same design and doubts for the readings of a log.</summary>
    internal BuildModel For(TubLog log) =>
        AreCutsTold || !log.Readings.Any(r => r.Kind.TellsOfCuts) ? this : new BuildModel(Design, Priors, Mesh) { AreCutsTold = true };

    private Part? gaps;

    /// <summary>The filler that is to come into slots and pockets, as designed: grams and where.</summary>
    internal Part Gaps => gaps ??= Bookkeeper.Of(Design, Stage.Glued, Rig.Bare, 1e-3, MeshSize.Coarse).Of(PartKind.Filler)
        .FirstOrDefault(Part.At(PartKind.Filler, 0, "", 0, Numerics.Vec3.Zero));

    /// <summary>Density of that filler, g/mm³.</summary>
    internal double FillerDensity => Units.FromGramsPerCm3((Design.Joint ?? new JointDesign()).FillerDensityGPerCm3);

    /// <param name="design">Sound.</param>
    /// <param name="priors">What is believed before readings.</param>
    /// <param name="mesh">Null: <see cref="Sampling"/>. The live mesh is the oracle of it: exact cutter, tight tolerances.</param>
    public BuildModel(LureDesign design, Priors? priors = null, MeshSize? mesh = null)
    {
        Design = design;
        Priors = priors ?? Priors.Usual;
        Mesh = mesh ?? Sampling;
        Unknowns = new Unknowns(design, Priors);
    }

    internal bool IsOracle => Mesh == MeshSize.Live;

    internal StageModel At(Stage stage, Rig rig, WaterState water) => models.GetOrAdd((stage, rig, water), _ =>
    {
        double effective = water.Density - Units.AirDensity;
        WeightLedger ledger = Bookkeeper.Of(Design, stage, rig, effective, MeshSize.Live);
        return new StageModel(Design, Unknowns, Priors, shapes.GetOrAdd(stage, Shape), ledger, effective)
        {
            OverCut = AreCutsTold && stage >= Stage.DryFit ? (Gaps.Mass / FillerDensity, Gaps.Centre) : default,
        };
    });

    /// <summary>How builds sit and fall in given circumstances; made once for each.</summary>
    internal Sitting In(Circumstances where) =>
        sittings.GetOrAdd((where.Stage, where.Rig, where.Water), _ => new Sitting(this, At(where.Stage, where.Rig, where.Water), where.Water));

    private StageShape Shape(Stage stage)
    {
        (ClosedMesh, ClosedMesh) Skins(MeshSize size)
        {
            ClosedMesh outer = Bookkeeper.Of(Design, stage, Rig.Bare, 1e-3, size).Skin;
            if (stage != Stage.Finished || Design.Finish.IsEmpty) return (outer, outer);
            return (Bookkeeper.Of(Design, Stage.Sealed, Rig.Bare, 1e-3, size).Skin, outer);
        }
        double film = stage == Stage.Finished ? Design.Finish.Sum(c => c.Coats * c.ThicknessMm) : 0;
        bool split = Design.Wire is not null || !Design.Ballast.IsEmpty || Design.Joint is not null || Design.Halves is not null;
        double glueLine = split ? (Design.Joint ?? new JointDesign()).GlueLineMm : 0;
        return new StageShape(stage, Skins(Mesh), Skins(MeshSize.Live), film, glueLine);
    }
}
