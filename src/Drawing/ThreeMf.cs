using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing;

/// <summary>
/// A body as 3MF, which unlike STL says that its numbers are millimetres. The package is a zip of three parts; its times are
/// fixed, so that the same body makes the same bytes.
/// </summary>
public static class ThreeMf
{
    private const string Core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
    private static readonly DateTimeOffset Fixed = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private const string Types = """
        <?xml version="1.0" encoding="UTF-8"?>
        <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
        """;

    private const string Relations = """
        <?xml version="1.0" encoding="UTF-8"?>
        <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
        """;

    public static byte[] Of(ClosedMesh mesh)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, "[Content_Types].xml", Types);
            Add(zip, "_rels/.rels", Relations);
            Add(zip, "3D/3dmodel.model", Model(mesh));
        }
        return stream.ToArray();
    }

    private static void Add(ZipArchive zip, string name, string text)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = Fixed;
        using Stream into = entry.Open();
        into.Write(Encoding.UTF8.GetBytes(text));
    }

    private static string Model(ClosedMesh mesh)
    {
        var text = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        using (var xml = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, NewLineChars = "\n" }))
        {
            xml.WriteStartElement("model", Core);
            xml.WriteAttributeString("unit", "millimeter");
            xml.WriteStartElement("resources");
            xml.WriteStartElement("object");
            xml.WriteAttributeString("id", "1");
            xml.WriteAttributeString("type", "model");
            xml.WriteStartElement("mesh");
            xml.WriteStartElement("vertices");
            for (int i = 0; i < mesh.VertexCount; i++) Element(xml, "vertex", ("x", N(mesh.X[i])), ("y", N(mesh.Y[i])), ("z", N(mesh.Z[i])));
            xml.WriteEndElement();
            xml.WriteStartElement("triangles");
            for (int t = 0; t < mesh.Triangles.Length; t += 3)
                Element(xml, "triangle", ("v1", I(mesh.Triangles[t])), ("v2", I(mesh.Triangles[t + 1])), ("v3", I(mesh.Triangles[t + 2])));
            xml.WriteEndElement();
            xml.WriteEndElement();
            xml.WriteEndElement();
            xml.WriteEndElement();
            xml.WriteStartElement("build");
            Element(xml, "item", ("objectid", "1"));
            xml.WriteEndElement();
            xml.WriteEndElement();
        }
        return text.ToString();
    }

    private static void Element(XmlWriter xml, string name, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        xml.WriteStartElement(name);
        foreach ((string key, string value) in attributes) xml.WriteAttributeString(key, value);
        xml.WriteEndElement();
    }

    private static string N(double value) => (Math.Round(value, 6) + 0.0).ToString("0.######", CultureInfo.InvariantCulture);

    private static string I(int value) => value.ToString(CultureInfo.InvariantCulture);
}
