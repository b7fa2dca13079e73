using System.Text;
using System.Text.Json;

namespace Trimwright.Core.Design;

/// <summary>Text that is not JSON: where, what stands there, and what was probably meant.</summary>
internal static class SyntaxSlip
{
    private const string Json = "JSON: objects, lists, texts in double quotes, numbers with a dot";

    public static Fault At(ReadOnlySpan<byte> file, JsonException e)
    {
        (int line, int start) = Line(file, e.LineNumber ?? 0);
        int at = (int)Math.Clamp(start + (e.BytePositionInLine ?? 0), 0, file.Length);
        string path = $"line {line}, column {1 + Characters(file[start..at])}";
        ReadOnlySpan<byte> before = file[..at].TrimEnd(" \t\r\n"u8), here = file[at..].TrimStart(" \t\r\n"u8);
        if (here.IsEmpty)
            return new Fault("syntax", path, before.IsEmpty ? "an empty file" : "the end of the file, with something still open", Json,
                before.IsEmpty ? "Check that this is a lure file." : "Close the last text, list or object, or copy the file again: it may have been cut off.");
        return new Fault("syntax", path, $"{Shown(here)} where no JSON goes on so", Json, Hint(before, here));
    }

    private static string Hint(ReadOnlySpan<byte> before, ReadOnlySpan<byte> here)
    {
        bool afterComma = before is [.., (byte)','];
        byte first = here[0];
        if (afterComma && char.IsAsciiDigit((char)first) && before is [.., var digit, _] && char.IsAsciiDigit((char)digit))
            return "If this is a decimal comma, write a dot.";
        if (afterComma && first is (byte)'}' or (byte)']') return "Delete the comma before this bracket, if there is one.";
        return first switch
        {
            (byte)'\'' => "Put keys and texts in double quotes.",
            (byte)'/' or (byte)'#' => "Delete the comment: JSON has none. A key that starts with x- may hold a note.",
            (byte)'.' or (byte)'+' or (byte)'N' or (byte)'I' or (byte)'-' => "Write a plain number, such as 0.5.",
            _ => "Look at this place for a missing comma, bracket or quote.",
        };
    }

    private static (int Line, int Start) Line(ReadOnlySpan<byte> file, long line)
    {
        int start = 0, number = 1;
        for (; number <= line && file[start..].IndexOf((byte)'\n') is var end and >= 0; number++) start += end + 1;
        return (number, start);
    }

    private static int Characters(ReadOnlySpan<byte> bytes) => Encoding.UTF8.GetString(bytes).EnumerateRunes().Count();

    // A dozen characters are enough to find the place again.
    private static string Shown(ReadOnlySpan<byte> here)
    {
        string text = Encoding.UTF8.GetString(here[..Math.Min(here.Length, 60)]);
        return $"\"{JsonTree.Shorten(string.Concat(text.EnumerateRunes().Take(12)))}\"";
    }
}
