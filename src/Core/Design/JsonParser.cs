using System.Text.Unicode;

namespace Trimwright.Core.Design;

/// <summary>
/// Bytes to a tree. Refuses what no later step should have to think of: files too large or nested too deep, other
/// encodings, halves of surrogate pairs, a key twice, numbers that no double holds. Where the text goes on to make
/// sense it is read to its end, so that every such fault is told.
/// </summary>
internal static class JsonParser
{
    /// <summary>Largest file that is read, bytes.</summary>
    public const int LargestFile = 5_000_000;

    /// <summary>Deepest nesting that is read.</summary>
    public const int Deepest = 32;

    /// <summary>The whole file's value; null when findings say why not.</summary>
    /// <param name="file">The file's bytes.</param>
    /// <param name="findings">Empty so far.</param>
    public static JsonTree? Parse(ReadOnlySpan<byte> file, Findings findings)
    {
        if (file.Length > LargestFile)
        {
            findings.Add("too-large", "", $"{file.Length} bytes or more", $"at most {LargestFile} bytes", "Check that this is a lure file or a box.");
            return null;
        }
        if (file.StartsWith<byte>([0xEF, 0xBB, 0xBF])) file = file[3..];
        if (!Utf8.IsValid(file) || IsWide(file))
        {
            findings.Add("encoding", "", IsWide(file) ? "UTF-16 or UTF-32 text" : "bytes that are not UTF-8", "UTF-8 text", "Save the file again as UTF-8.");
            return null;
        }
        byte[] bytes = GC.AllocateUninitializedArray<byte>(file.Length + JsonText.Beyond);
        file.CopyTo(bytes);
        bytes.AsSpan(file.Length).Clear();
        var text = new JsonText(bytes);
        var scan = new JsonScan(text, file.Length, findings, isAtOnce: false);
        JsonScan.End end = scan.Walk();
        if (scan.HasUntold)
        {
            findings.Faults.Clear();
            text = new JsonText(bytes);
            scan = new JsonScan(text, file.Length, findings, isAtOnce: true);
            end = scan.Walk();
        }
        if (end == JsonScan.End.Slip) findings.Faults.Add(SyntaxSlip.After(file, scan.Resume()));
        return findings.Faults.Count == 0 ? new JsonTree(text, scan.Top, null, null, 0) : null;
    }

    // The marks of wide encodings, or a first character with a zero byte beside it.
    private static bool IsWide(ReadOnlySpan<byte> file) =>
        file.StartsWith<byte>([0xFF, 0xFE]) || file.StartsWith<byte>([0xFE, 0xFF]) || file is [0, _, ..] or [_, 0, ..];
}
