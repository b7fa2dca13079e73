using System.Buffers.Binary;
using System.Text;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing;

/// <summary>
/// A body's skin as a binary STL, for printers and other people's programs. STL has no units: these are mm, in body axes
/// (x aft, y to starboard, z up). Coordinates become 32-bit floats, about 1e-5 mm on a 200 mm lure.
/// </summary>
public static class Stl
{
    private const int HeaderLength = 80;
    private const int RecordLength = 50;

    /// <summary>The file's bytes, the same for the same mesh on every machine.</summary>
    public static byte[] Of(ClosedMesh mesh)
    {
        List<(Vec3 A, Vec3 B, Vec3 C)> facets = Facets(mesh);
        var file = new byte[HeaderLength + sizeof(uint) + RecordLength * facets.Count];
        // A header that begins with "solid" is taken for the text form.
        Encoding.ASCII.GetBytes("binary STL, mm, x aft, y starboard, z up", file);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(HeaderLength), (uint)facets.Count);
        int at = HeaderLength + sizeof(uint);
        foreach ((Vec3 a, Vec3 b, Vec3 c) in facets)
        {
            Put(file.AsSpan(at), Vec3.Cross(b - a, c - a).Unit());
            Put(file.AsSpan(at + 12), a);
            Put(file.AsSpan(at + 24), b);
            Put(file.AsSpan(at + 36), c);
            at += RecordLength;
        }
        return file;
    }

    // Readers join facets by equal coordinates, so rounding comes first; an edge that rounding closes takes both of its
    // triangles with it and the skin stays closed.
    private static List<(Vec3, Vec3, Vec3)> Facets(ClosedMesh mesh)
    {
        var facets = new List<(Vec3, Vec3, Vec3)>(mesh.TriangleCount);
        for (int t = 0; t < mesh.Triangles.Length; t += 3)
        {
            Vec3 a = Rounded(mesh.Vertex(mesh.Triangles[t]));
            Vec3 b = Rounded(mesh.Vertex(mesh.Triangles[t + 1]));
            Vec3 c = Rounded(mesh.Vertex(mesh.Triangles[t + 2]));
            if (a != b && b != c && c != a) facets.Add((a, b, c));
        }
        return facets;
    }

    // Adding 0 makes a negative zero positive: some readers compare bytes.
    private static Vec3 Rounded(Vec3 p) => new((float)p.X + 0.0, (float)p.Y + 0.0, (float)p.Z + 0.0);

    private static void Put(Span<byte> at, Vec3 v)
    {
        BinaryPrimitives.WriteSingleLittleEndian(at, (float)v.X);
        BinaryPrimitives.WriteSingleLittleEndian(at[4..], (float)v.Y);
        BinaryPrimitives.WriteSingleLittleEndian(at[8..], (float)v.Z);
    }
}
