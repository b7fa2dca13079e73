using System.Collections.Immutable;

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

    /// <summary>
    /// Reads a design from UTF-8 JSON (a byte-order mark is skipped). Refuses files over 5 MB, nesting deeper than
    /// 32, duplicate keys, numbers that are not finite, halves of surrogate pairs and newer versions; keeps unknown
    /// keys and warns of them; lists every fault that it finds.
    /// </summary>
    /// <param name="utf8">The file's bytes.</param>
    public static Reading<LureDesign> Read(ReadOnlySpan<byte> utf8)
    {
        var findings = new Findings();
        if (JsonParser.Parse(utf8, findings) is not { } tree) return new(null, [.. findings.Faults], []);
        if (NewerVersion(tree) is { } newer) return new(null, [newer], []);
        LureDesign design = LureReader.Read(new ObjectReader(tree, findings), findings);
        if (findings.Faults.Count == 0) Soundness.Check(design, findings);
        return new(findings.Faults.Count == 0 ? design : null, [.. findings.Faults], [.. findings.Told]);
    }

    /// <summary>The design as indented UTF-8 JSON; reading it back gives the same design, digit for digit.</summary>
    public static byte[] Write(LureDesign design) => LureWriter.Write(design);

    private static Fault? NewerVersion(JsonTree tree)
    {
        if (tree.Member("trimwright") is { Kind: JsonKind.Number } value && value.Number > Version)
            return new Fault("newer-version", "trimwright", value.Shown, $"up to {Version}",
                "This file was written by a newer Trimwright; use that one, or save it there as an older version.");
        return null;
    }
}
