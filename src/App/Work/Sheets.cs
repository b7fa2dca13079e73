using Trimwright.Core.Design;
using Trimwright.Drawing;

namespace Trimwright.App.Work;

/// <summary>Sheets of a lure as pieces of a page.</summary>
internal static class Sheets
{
    public static string Outlines(OutlineSheet frame, LureDesign design, LureDesign? past) => Svg.Piece(frame.Draw(design, past));
}
