using System.Collections.Concurrent;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>
/// The demo lures finished, on a coarse mesh, predicted once for all tests of the collection. A body's cutter keeps a
/// workspace, so these tests run one after the other.
/// </summary>
[CollectionDefinition(Name)]
public sealed class DemosAfloat
{
    public const string Name = "demo lures afloat";

    private static readonly ConcurrentDictionary<(string, Rig, WaterState), Prediction> Made = new();

    internal static Prediction Of(LureDesign demo, Rig rig, WaterState water) =>
        Made.GetOrAdd((demo.Name, rig, water), _ => Afresh(demo, rig, water));

    /// <summary>For a design that differs from the demo of its name.</summary>
    internal static Prediction Afresh(LureDesign design, Rig rig, WaterState water) =>
        Prediction.Of(design, new Circumstances(Stage.Finished, rig, water) { Mesh = MeshSize.Coarse });
}
