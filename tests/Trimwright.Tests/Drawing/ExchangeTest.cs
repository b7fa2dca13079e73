using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml.Linq;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.Tests.Drawing;

/// <summary>Check 29 (DXF by <c>ezdxf</c>), half bodies of check 24 by <c>admesh</c>, and 3MF read back as what it is, a zip with XML in it.</summary>
public sealed class ExchangeTest
{
    public static TheoryData<string> Demos => ["tidegate-185", "mooring-post-210", "slipway-150"];

    private const string Script = """
        import sys, ezdxf
        from ezdxf import bbox
        for name in sys.argv[1:]:
            doc = ezdxf.readfile(name)
            audit = doc.audit()
            print(len(audit.errors), len(audit.fixes), doc.header.get("$INSUNITS"), doc.header.get("$MEASUREMENT"))
            space = doc.modelspace()
            print(",".join(sorted({e.dxf.layer for e in space})))
            widest = max((bbox.extents([e]) for e in space if e.dxftype() == "POLYLINE" and e.dxf.layer == "CUT"), key=lambda b: b.size.x)
            print(widest.size.x, widest.size.y)
        """;

    [Theory]
    [MemberData(nameof(Demos))]
    public void Ezdxf_opens_a_drawing_without_complaint_in_millimetres_at_its_size(string lure)
    {
        Outside.NeedType();
        Outside.NeedPython("ezdxf", "python3-ezdxf");
        LureDesign design = Lures.Demo(lure) with { Name = "Ölhaken ½ \u202E" };
        Body body = design.Body.Surface();
        double high = Enumerable.Range(0, 2001).Max(i => body.BackAt(body.Length * i / 2000)) - Enumerable.Range(0, 2001).Min(i => body.BellyAt(body.Length * i / 2000));
        Sheet[] sheets = [.. SheetSet.Of(design, new SheetOptions(PaperSize.A4, Notation.Metric), []).Where(s => s.Drawn)];
        TemporaryFile[] files = [.. sheets.Select(sheet => new TemporaryFile(Encoding.ASCII.GetBytes(Dxf.Write(sheet.Fields[0])), ".dxf"))];
        // Asked of all at once: a start of the other program costs more than a drawing.
        string[] lines = Outside.RunPython(Script, [.. files.Select(f => f.Path)]).Split('\n');
        foreach (TemporaryFile file in files) file.Dispose();
        Assert.Equal(3 * sheets.Length + 1, lines.Length);
        foreach ((Sheet sheet, string[] said) in sheets.Zip(lines.Chunk(3)))
        {
            Assert.Equal("0 0 4 1", said[0]);
            Assert.All(said[1].Split(','), l => Assert.Contains(l, new[] { "CUT", "MARKS", "LATER", "STATIONS", "WIRE", "TEXT" }));
            if (sheet.Id is not ("side" or "glue-left" or "glue-right")) continue;
            double[] size = [.. said[2].Split(' ').Select(t => double.Parse(t, CultureInfo.InvariantCulture))];
            Assert.Equal(body.Length, size[0], 0.01);
            Assert.Equal(high, size[1], 0.01);
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_half_body_is_closed_faces_outward_and_holds_half_the_wood(string lure)
    {
        ClosedMesh whole = BodyMesh.Of(Lures.Demo(lure).Body.Surface(), MeshSize.Live), half = HalfMesh.Right(whole);
        Assert.Equal(0, half.Defects());
        SolidProperties all = SolidProperties.Of(whole), part = SolidProperties.Of(half);
        Assert.Equal(all.Volume / 2, part.Volume, 1e-9 * all.Volume);
        Assert.True(part.Centroid.Y > 0);
        Outside.NeedProgram("admesh", "admesh");
        using var file = new TemporaryFile(Stl.Of(half), ".stl");
        string said = Outside.Run("admesh", [file.Path]).Output;
        foreach (string defect in new[] { "Degenerate facets", "Edges fixed", "Facets removed", "Facets added", "Facets reversed", "Backwards edges" })
            Assert.Matches($@"{defect}\s*:\s*0\b", said);
        Assert.Matches(@"Number of parts\s*:\s*1\b", said);
    }

    [Fact]
    public void Random_bodies_have_closed_halves()
    {
        for (int seed = 0; seed < Tier.Count(20, 200); seed++)
        {
            ClosedMesh whole = BodyMesh.Of(RandomLures.Of(seed).Design.Body.Surface(), MeshSize.Coarse), half = HalfMesh.Right(whole);
            Assert.Equal(0, half.Defects());
            Assert.Equal(SolidProperties.Of(whole).Volume / 2, SolidProperties.Of(half).Volume, 1e-8 * SolidProperties.Of(whole).Volume);
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_3mf_says_millimetres_and_holds_the_same_solid(string lure)
    {
        ClosedMesh mesh = HalfMesh.Right(BodyMesh.Of(Lures.Demo(lure).Body.Surface(), MeshSize.Live));
        byte[] bytes = ThreeMf.Of(mesh);
        Assert.Equal(bytes, ThreeMf.Of(mesh));
        using var zip = new ZipArchive(new MemoryStream(bytes));
        Assert.Equal(["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"], zip.Entries.Select(e => e.FullName));
        using Stream stream = zip.GetEntry("3D/3dmodel.model")!.Open();
        XElement model = XDocument.Load(stream).Root!;
        XNamespace ns = model.Name.Namespace;
        Assert.Equal("millimeter", model.Attribute("unit")!.Value);
        double D(XElement e, string key) => double.Parse(e.Attribute(key)!.Value, CultureInfo.InvariantCulture);
        (double X, double Y, double Z)[] v = [.. model.Descendants(ns + "vertex").Select(e => (D(e, "x"), D(e, "y"), D(e, "z")))];
        double volume = model.Descendants(ns + "triangle").Sum(t =>
        {
            var (a, b, c) = (v[(int)D(t, "v1")], v[(int)D(t, "v2")], v[(int)D(t, "v3")]);
            return (a.X * (b.Y * c.Z - b.Z * c.Y) + a.Y * (b.Z * c.X - b.X * c.Z) + a.Z * (b.X * c.Y - b.Y * c.X)) / 6;
        });
        Assert.Equal(SolidProperties.Of(mesh).Volume, volume, 1e-6 * volume);
    }
}
