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

    /// <summary>Reads a box from UTF-8 JSON; refuses and keeps what <see cref="LureFile.Read"/> does, and lists every fault.</summary>
    /// <param name="utf8">The file's bytes.</param>
    public static Reading<MakersBox> Read(ReadOnlySpan<byte> utf8)
    {
        var findings = new Findings();
        if (JsonParser.Parse(utf8, findings) is not { } tree) return new(null, [.. findings.Faults], []);
        if (NewerVersion(tree) is { } newer) return new(null, [newer], []);
        MakersBox box = new BoxReader(findings).Read(new ObjectReader(tree, findings));
        if (findings.Faults.Count == 0) BoxSoundness.Check(box, findings);
        return new(findings.Faults.Count == 0 ? box : null, [.. findings.Faults], [.. findings.Told]);
    }

    /// <summary>The box as indented UTF-8 JSON; reading it back gives the same box, digit for digit.</summary>
    public static byte[] Write(MakersBox box) => BoxWriter.Write(box);

    /// <summary>Whether a file means to be a box: its top object has the box's version key.</summary>
    public static bool IsBox(ReadOnlySpan<byte> utf8) => JsonParser.Parse(utf8, new Findings())?.Member(VersionKey) is not null;

    private static Fault? NewerVersion(JsonTree tree)
    {
        if (tree.Member(VersionKey) is { Kind: JsonKind.Number } value && value.Number > Version)
            return new Fault("newer-version", VersionKey, value.Shown, $"up to {Version}",
                "This box was written by a newer Trimwright; use that one, or save it there as an older version.");
        return null;
    }
}
