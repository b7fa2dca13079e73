namespace Trimwright.Core.Design;

/// <summary>
/// The design file, <c>NAME.lure.json</c>, version 2: reading, which is the only validator, and writing. The JSON
/// Schema beside it (<c>lure.schema.json</c>) describes the same format to other programs and accepts everything that
/// the reader accepts.
/// </summary>
public static class LureFile
{
    /// <summary>The version that this program writes.</summary>
    public const int Version = 2;

    /// <summary>
    /// The oldest version that it reads. Version 1 knew no kinds of hardware and no uses of coats: names told them, and tell them
    /// once more when such a file is read. It also hung a swivel that is threaded on the wire like anything that unhooks.
    /// </summary>
    public const int OldestVersion = 1;

    internal const int MostPoints = 500;
    internal const int MostPieces = 200;
    internal const double Longest = 2000;
    internal const double Farthest = 1000;
    internal const double Lightest = 0.01;
    internal const double Densest = 25;
    internal const double Strongest = 5000;

    /// <summary>The whole of it: what is read, what is written and the schema come from the same keys.</summary>
    internal static readonly FileForm<LureDesign> Form = new("lure:1", "trimwright", Version, "A lure",
        "One lure as its maker describes it, version 2 of the format. Units stand in the names of keys; numbers use a dot. x runs aft from the nose, "
        + "y to starboard, z up. Every mass and density is as weighed in air. An optional key may be null, which is as if it were left out. "
        + "Keys that are not listed here are kept, written back and reported, but for those that start with x-. A reader refuses more than a schema "
        + "can say: outlines that cross, pieces outside the wood, hardware on a hanger that is not there.",
        "This file was written by a newer Trimwright; use that one, or save it there as an older version.", LureDesign.Form)
    {
        OldestRead = OldestVersion,
        OtherUnitsSince = 2,
        OlderHad = "Version 1 had no kind and size of hardware and no use of coats; a reader takes them from names, once, and says what it took them for. It had no inches and ounces.",
    };

    /// <summary>
    /// Reads a design from UTF-8 JSON (a byte-order mark is skipped). Refuses files over 5 MB, nesting deeper than
    /// 32, duplicate keys, numbers that are not finite, halves of surrogate pairs and newer versions; keeps unknown
    /// keys and warns of them; lists every fault that it finds.
    /// </summary>
    /// <param name="utf8">The file's bytes.</param>
    public static Reading<LureDesign> Read(ReadOnlySpan<byte> utf8) => Form.Read(utf8, Soundness.Check);

    /// <summary>The design as indented UTF-8 JSON; reading it back gives the same design, digit for digit.</summary>
    public static byte[] Write(LureDesign design) => Form.Write(design);
}
