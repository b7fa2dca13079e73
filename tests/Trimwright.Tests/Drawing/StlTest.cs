using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;
using Trimwright.Drawing;

namespace Trimwright.Tests.Drawing;

/// <summary>
/// Check 24: exported bodies as other people's programs see them: <c>admesh</c>, and VTK as an independent mesh library.
/// STL holds 32-bit floats, so volumes are compared with that of the mesh rounded to them.
/// </summary>
public sealed class StlTest
{
    public static TheoryData<string> Bodies => ["tidegate-185", "mooring-post-210", "slipway-150"];

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Admesh_finds_no_defect_and_the_same_volume(string lure)
    {
        Outside.NeedProgram("admesh", "admesh");
        ClosedMesh skin = Skin(lure);
        using var file = new TemporaryFile(Stl.Of(skin));
        using var rewritten = new TemporaryFile([]);
        (int exit, string said, string complaint) = Outside.Run("admesh", [file.Path, $"--write-binary-stl={rewritten.Path}"]);
        TestContext.Current.TestOutputHelper?.WriteLine(said + complaint);
        Assert.Equal(0, exit);
        foreach (string defect in new[]
        {
            "Total disconnected facets", "Degenerate facets", "Edges fixed", "Facets removed", "Facets added",
            "Facets reversed", "Backwards edges", "Normals fixed",
        })
            Assert.All(Numbers(said, defect), number => Assert.Equal(0, number));
        Assert.Equal([1], Numbers(said, "Number of parts").Take(1));
        // Admesh adds its own volume up in 32-bit floats, which 20 000 facets wear down to five digits; the mesh that it
        // has checked and written out again is added up in 64 bits.
        Tolerances.Check("volume of an exported body, admesh's own sum", Numbers(said, "Volume").First(), Rounded(skin).Volume, lure);
        Tolerances.Check("volume of an exported body as admesh writes it again", Volume(File.ReadAllBytes(rewritten.Path)), Rounded(skin).Volume, lure);
    }

    private static double Volume(byte[] stl)
    {
        double volume = 0;
        Vec3 Read(int at) => new(BitConverter.ToSingle(stl, at), BitConverter.ToSingle(stl, at + 4), BitConverter.ToSingle(stl, at + 8));
        Assert.Equal(84 + 50L * BitConverter.ToUInt32(stl, 80), stl.Length);
        for (int at = 84; at < stl.Length; at += 50)
            volume += Vec3.Dot(Read(at + 12), Vec3.Cross(Read(at + 24), Read(at + 36))) / 6;
        return volume;
    }

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Vtk_finds_it_closed_facing_outward_and_of_the_same_volume(string lure)
    {
        Outside.NeedPython("vtkmodules.vtkIOGeometry", "python3-vtk9");
        ClosedMesh skin = Skin(lure);
        using var file = new TemporaryFile(Stl.Of(skin));
        string[] said = Outside.RunPython(Script, file.Path).Split('\n');
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" | ", said));
        Assert.Equal("open or manifold edges: 0", said[0]);
        Assert.Equal("facets turned by orienting them outward: 0", said[1]);
        SolidProperties solid = Rounded(skin);
        Tolerances.Check("volume of an exported body by VTK", double.Parse(said[2], CultureInfo.InvariantCulture), solid.Volume, lure);
        Tolerances.Check("area of an exported body by VTK", double.Parse(said[3], CultureInfo.InvariantCulture), solid.Area, lure);
    }

    [Fact]
    public void The_same_body_makes_the_same_bytes_of_the_format_s_length()
    {
        ClosedMesh skin = Skin("tidegate-185");
        byte[] once = Stl.Of(skin), again = Stl.Of(Skin("tidegate-185"));
        Assert.Equal(once, again);
        Assert.Equal(84 + 50 * skin.TriangleCount, once.Length);
        Assert.NotEqual((byte)'s', once[0]);
    }

    [Fact]
    public void An_edge_too_short_for_floats_leaves_the_skin_closed()
    {
        // A tetrahedron with one corner split into two that round to the same float.
        Vec3 near = new(100, 0, 0), split = near + new Vec3(1e-9, 0, 0);
        var mesh = new ClosedMesh(
            [new(0, 0, 0), near, new(0, 100, 0), new(0, 0, 100), split],
            [0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 4, 2, 3, 4, 3, 1, 4]);
        Assert.Equal(0, mesh.Defects());
        Assert.Equal(84 + 50 * 4, Stl.Of(mesh).Length);
    }

    private const string Script = """
        import sys
        from vtkmodules.vtkIOGeometry import vtkSTLReader
        from vtkmodules.vtkFiltersCore import vtkFeatureEdges, vtkMassProperties, vtkPolyDataNormals
        reader = vtkSTLReader()
        reader.SetFileName(sys.argv[1])
        edges = vtkFeatureEdges()
        edges.SetInputConnection(reader.GetOutputPort())
        edges.BoundaryEdgesOn(); edges.NonManifoldEdgesOn(); edges.FeatureEdgesOff(); edges.ManifoldEdgesOff()
        edges.Update()
        print("open or manifold edges:", edges.GetOutput().GetNumberOfCells())
        outward = vtkPolyDataNormals()
        outward.SetInputConnection(reader.GetOutputPort())
        outward.SplittingOff(); outward.ConsistencyOn(); outward.AutoOrientNormalsOn()
        outward.Update()
        before, after = reader.GetOutput(), outward.GetOutput()
        def turn(mesh, i):
            ids = [mesh.GetCell(i).GetPointId(k) for k in range(3)]
            least = ids.index(min(ids))
            return ids[least:] + ids[:least]
        assert before.GetNumberOfCells() == after.GetNumberOfCells()
        print("facets turned by orienting them outward:", sum(turn(before, i) != turn(after, i) for i in range(before.GetNumberOfCells())))
        mass = vtkMassProperties()
        mass.SetInputConnection(reader.GetOutputPort())
        print(repr(mass.GetVolume()))
        print(repr(mass.GetSurfaceArea()))
        """;

    private static ClosedMesh Skin(string lure)
    {
        LureDesign design = Lures.Demo(lure);
        double water = WaterState.Ocean.Density;
        return Bookkeeper.Of(design, Stage.Finished, Rig.Bare, water, MeshSize.Live).Skin;
    }

    private static SolidProperties Rounded(ClosedMesh mesh) =>
        SolidProperties.Of(mesh.Mapped((_, p) => new Vec3((float)p.X, (float)p.Y, (float)p.Z)));

    /// <summary>Numbers after "name :" in what admesh prints, which stands in one or two columns.</summary>
    private static double[] Numbers(string said, string name)
    {
        Match match = Regex.Match(said, Regex.Escape(name) + @"\s*:\s*([-+0-9.eE]+)(?:[ \t]+([-+0-9.eE]+))?");
        Assert.True(match.Success, $"admesh says nothing of \"{name}\"");
        return [.. match.Groups.Values.Skip(1).Where(g => g.Success).Select(g => double.Parse(g.Value, CultureInfo.InvariantCulture))];
    }

    private sealed class TemporaryFile : IDisposable
    {
        public string Path { get; } = System.IO.Path.ChangeExtension(System.IO.Path.GetTempFileName(), ".stl");

        public TemporaryFile(byte[] bytes) => File.WriteAllBytes(Path, bytes);

        public void Dispose()
        {
            File.Delete(Path);
            File.Delete(System.IO.Path.ChangeExtension(Path, ".tmp"));
        }
    }
}
