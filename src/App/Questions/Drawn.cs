using System.Runtime.InteropServices;
using Trimwright.App.Scheduling;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.App.Questions;

/// <summary>What is a lure in the round?</summary>
/// <param name="Of">As it lies.</param>
internal sealed record LookInTheRound(Look Of) : IQuestion<byte[]>
{
    public byte[] Answer(Pace pace) => Drawn.InTheRound(Of);
}

/// <summary>Sheets of a lure as pieces of a page.</summary>
internal static class Drawn
{
    /// <summary>How pictures look, for the part of a page under a selector.</summary>
    public static string StyleUnder(string selector) => Svg.StyleUnder(selector);

    public static string Outlines(OutlineSheet frame, LureDesign design, LureDesign? past, Notation notation) => Svg.Piece(frame.Draw(design, past, notation));

    /// <summary>
    /// The lure in the round as bytes for the page's viewer: count of surfaces, then for each its stuff, count of numbers,
    /// count of indices (32-bit each), its places (32-bit floats) and its triangles. Little-endian, as browsers' machines are.
    /// </summary>
    public static byte[] InTheRound(Look look)
    {
        IReadOnlyList<InTheRound.Surface> all = Drawing.InTheRound.Of(look.Design, look.Prediction, look.Nose);
        using var stream = new MemoryStream();
        using var writer = new BinaryWriter(stream);
        writer.Write(all.Count);
        foreach (InTheRound.Surface surface in all)
        {
            writer.Write((int)surface.Stuff);
            writer.Write(surface.Places.Length);
            writer.Write(surface.Triangles.Length);
            writer.Write(MemoryMarshal.AsBytes(surface.Places.AsSpan()));
            writer.Write(MemoryMarshal.AsBytes(surface.Triangles.AsSpan()));
        }
        return stream.ToArray();
    }
}
