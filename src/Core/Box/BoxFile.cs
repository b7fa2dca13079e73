using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>
/// The box file, <c>NAME.box.json</c>, version 1, with the manners of <see cref="LureFile"/>: this reader is the only
/// validator, and the JSON Schema beside it (<c>box.schema.json</c>) accepts everything that the reader accepts.
/// </summary>
public static class BoxFile
{
    /// <summary>The version that this program writes.</summary>
    public const int Version = 1;

    /// <summary>The key that holds the version, and by which a box is told from a lure.</summary>
    public const string VersionKey = "trimwright_box";

    internal const double Longest = 1_000_000;

    /// <summary>The whole of it: what is read, what is written and the schema come from the same keys.</summary>
    internal static readonly FileForm<MakersBox> Form = new("box:1", VersionKey, Version, "A box",
        "What one maker has, version 1 of the format. Units stand in the names of keys; numbers use a dot. Every mass and density is as weighed in air. "
        + "An optional key may be null, which is as if it were left out. Keys that are not listed here are kept, written back and reported, but for those "
        + "that start with x-. A reader refuses more than a schema can say: ids twice in the box, a bore wider than its piece, a board no wood can be.",
        "This box was written by a newer Trimwright; use that one, or save it there as an older version.", MakersBox.Form);

    /// <summary>Reads a box from UTF-8 JSON; refuses and keeps what <see cref="LureFile.Read"/> does, and lists every fault.</summary>
    /// <param name="utf8">The file's bytes.</param>
    public static Reading<MakersBox> Read(ReadOnlySpan<byte> utf8) => Form.Read(utf8, BoxSoundness.Check);

    /// <summary>The box as indented UTF-8 JSON; reading it back gives the same box, digit for digit.</summary>
    public static byte[] Write(MakersBox box) => Form.Write(box);

    /// <summary>Whether a file means to be a box: its top object has the box's version key.</summary>
    public static bool IsBox(ReadOnlySpan<byte> utf8) => Form.IsMeant(utf8);
}
