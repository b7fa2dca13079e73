using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace Trimwright.Core.Design;

/// <summary>Text that is not JSON: where, what stands there, and what was probably meant.</summary>
internal static class SyntaxSlip
{
    private const string Json = "JSON: objects, lists, texts in double quotes, numbers with a dot";

    /// <summary>The first slip after a place.</summary>
    /// <param name="file">The whole text.</param>
    /// <param name="resume">The place, and what opens as many lists and objects as are open there.</param>
    public static Fault After(ReadOnlySpan<byte> file, (string Before, int From) resume)
    {
        byte[] text = [.. Encoding.UTF8.GetBytes(resume.Before), .. file[resume.From..]];
        int at = Math.Clamp(Place(text) - resume.Before.Length + resume.From, 0, file.Length);
        int start = file[..at].LastIndexOf((byte)'\n') + 1;
        string path = $"line {1 + file[..start].Count((byte)'\n')}, column {1 + JsonText.Characters(file[start..at])}";
        return Of(path, file[..at], file[at..]);
    }

    /// <summary>A slip at a place, by what stands before it and from it on.</summary>
    internal static Fault Of(string path, ReadOnlySpan<byte> before, ReadOnlySpan<byte> here)
    {
        before = before[..(1 + before.LastIndexOfAnyExcept(JsonText.Spaces))];
        here = here.IndexOfAnyExcept(JsonText.Spaces) is var first and >= 0 ? here[first..] : [];
        if (here.IsEmpty)
            return new Fault("syntax", path, before.IsEmpty ? "an empty file" : "the end of the file, with something still open", Json,
                before.IsEmpty ? "Check that this is a lure file or a box." : "Close the last text, list or object, or copy the file again: it may have been cut off.");
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

    // Where the library's reader stops; what it calls a line ends in a line feed.
    private static int Place(ReadOnlySpan<byte> text)
    {
        // The reader's own limit of nesting lies above ours, which has been told by its path.
        var reader = new Utf8JsonReader(text, new JsonReaderOptions { MaxDepth = JsonParser.Deepest + 2 });
        try
        {
            while (reader.Read()) ;
            throw new UnreachableException("what one reader calls a slip the other reads");
        }
        catch (JsonException e)
        {
            return LineStart(text, e.LineNumber ?? 0) + (int)(e.BytePositionInLine ?? 0);
        }
    }

    private static int LineStart(ReadOnlySpan<byte> text, long line)
    {
        const int Stride = 4096;
        int start = 0;
        // By strides, as a file of five million bytes may have as many lines.
        while (text.Length - start > Stride && text.Slice(start, Stride).Count((byte)'\n') is var lines && lines < line) (start, line) = (start + Stride, line - lines);
        for (; line > 0 && text[start..].IndexOf((byte)'\n') is var end and >= 0; line--) start += end + 1;
        return start;
    }

    // A dozen characters are enough to find the place again.
    private static string Shown(ReadOnlySpan<byte> here)
    {
        string text = Encoding.UTF8.GetString(here[..Math.Min(here.Length, 60)]);
        return $"\"{JsonTree.Shorten(string.Concat(text.EnumerateRunes().Take(12)))}\"";
    }
}
