using System.Runtime.CompilerServices;
using System.Text;

namespace Trimwright.Core.Design;

/// <summary>
/// The bytes of a file whose grammar <see cref="JsonScan"/> has checked, with the ends of its longer lists and objects, so that
/// nothing is looked through twice. The file's own bytes are followed by zeros, which end every walk.
/// </summary>
internal sealed class JsonText(byte[] bytes)
{
    /// <summary>Zeros after the file's last byte: an escape may be looked at whole without asking where the file ends.</summary>
    public const int Beyond = 12;

    /// <summary>A list or object of no more bytes is walked through again instead of being written down.</summary>
    public const int Short = 64;

    public static readonly System.Buffers.SearchValues<byte> Spaces = System.Buffers.SearchValues.Create(" \t\r\n"u8);

    private static readonly System.Buffers.SearchValues<byte> OfNumbers = System.Buffers.SearchValues.Create("0123456789.-+eE"u8);

    private (int From, int To, int Count)[] longer = new (int, int, int)[16];
    private int longerCount;

    public byte[] Bytes { get; } = bytes;

    public ReadOnlySpan<byte> Slice(int from, int to) => Bytes.AsSpan(from, to - from);

    /// <summary>Notes that a list or object begins; those within it are noted after it, and before its end.</summary>
    /// <returns>What to hand to <see cref="Close"/>.</returns>
    public int Open(int from)
    {
        if (longerCount == longer.Length) Array.Resize(ref longer, 2 * longerCount);
        longer[longerCount].From = from;
        return longerCount++;
    }

    /// <summary>Notes where a list or object ends and how many it holds; a short one is forgotten, and with it all within it.</summary>
    public void Close(int opened, int to, int count)
    {
        if (to - longer[opened].From <= Short) longerCount = opened;
        else (longer[opened].To, longer[opened].Count) = (to, count);
    }

    /// <summary>The first byte from here on that is no space.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Space(int at) => Bytes[at] > ' ' ? at : PastSpaces(at);

    private int PastSpaces(int at)
    {
        for (int i = 0; i < 24; i++, at++)
            if (Bytes[at] is not ((byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t')) return at;
        // The zeros at the end are none.
        return at + Bytes.AsSpan(at).IndexOfAnyExcept(Spaces);
    }

    /// <summary>Where the value that begins here ends.</summary>
    public int EndOf(int at) => Bytes[at] switch
    {
        (byte)'"' => TextEnd(at, out _),
        (byte)'[' or (byte)'{' => Extent(at).To,
        (byte)'t' or (byte)'n' => at + 4,
        (byte)'f' => at + 5,
        _ => NumberEnd(at),
    };

    /// <summary>Where the text that begins here ends, after its closing quote.</summary>
    public int TextEnd(int at, out bool escaped)
    {
        escaped = false;
        for (at++; ; at += 2)
        {
            // Most runs are short.
            for (int soon = at + 16; Bytes[at] is not ((byte)'"' or (byte)'\\');)
                if (++at == soon) at += Bytes.AsSpan(at).IndexOfAny((byte)'"', (byte)'\\');
            if (Bytes[at] == '"') return at + 1;
            escaped = true;
        }
    }

    private int NumberEnd(int at)
    {
        for (int soon = at + 24; Bytes[at] is >= (byte)'0' and <= (byte)'9' or (byte)'.' or (byte)'-' or (byte)'+' or (byte)'e' or (byte)'E';)
            if (++at == soon) at += Bytes.AsSpan(at).IndexOfAnyExcept(OfNumbers);
        return at;
    }

    /// <summary>Where the list or object that begins here ends, and how many it holds.</summary>
    public (int To, int Count) Extent(int from)
    {
        int low = 0, high = longerCount - 1;
        while (low <= high)
        {
            int middle = (low + high) / 2;
            if (longer[middle].From == from) return (longer[middle].To, longer[middle].Count);
            if (longer[middle].From < from) low = middle + 1;
            else high = middle - 1;
        }
        return ShortExtent(from);
    }

    private (int To, int Count) ShortExtent(int from)
    {
        int at = Space(from + 1), count = 0;
        bool isObject = Bytes[from] == '{';
        while (Bytes[at] is not ((byte)']' or (byte)'}'))
        {
            if (isObject) at = Space(Space(TextEnd(at, out _)) + 1);
            at = Space(EndOf(at));
            count++;
            if (Bytes[at] == ',') at = Space(at + 1);
        }
        return (at + 1, count);
    }

    /// <summary>Spells out what a text with escapes says, sound as it is; never more bytes than it was written with.</summary>
    /// <returns>How many bytes that takes.</returns>
    public static int Spell(ReadOnlySpan<byte> written, Span<byte> to)
    {
        int length = 0;
        for (int i = 0; i < written.Length; i++)
        {
            if (written[i] != '\\') to[length++] = written[i];
            else if (written[++i] == 'u')
            {
                int unit = Unit(written[(i + 1)..]);
                i += 4;
                Rune rune = char.IsHighSurrogate((char)unit) ? new Rune((char)unit, (char)Unit(written[(i + 3)..])) : new Rune((char)unit);
                if (!rune.IsBmp) i += 6;
                length += rune.EncodeToUtf8(to[length..]);
            }
            else
            {
                to[length++] = written[i] switch
                {
                    (byte)'n' => (byte)'\n', (byte)'r' => (byte)'\r', (byte)'t' => (byte)'\t', (byte)'b' => (byte)'\b', (byte)'f' => (byte)'\f',
                    byte itself => itself,
                };
            }
        }
        return length;
    }

    /// <summary>What four hexadecimal digits say; -1 when they are none.</summary>
    public static int Unit(ReadOnlySpan<byte> digits)
    {
        int unit = 0;
        for (int i = 0; i < 4; i++)
        {
            int b = digits[i], digit = b is >= '0' and <= '9' ? b - '0' : (b | 0x20) is >= 'a' and <= 'f' ? (b | 0x20) - 'a' + 10 : -1;
            if (digit < 0) return -1;
            unit = unit << 4 | digit;
        }
        return unit;
    }

    /// <summary>How many characters some UTF-8 has; a pair is one.</summary>
    public static int Characters(ReadOnlySpan<byte> utf8)
    {
        int characters = Encoding.UTF8.GetCharCount(utf8);
        // What takes four bytes takes two characters of UTF-16.
        for (byte four = 0xF0; four <= 0xF4; four++) characters -= utf8.Count(four);
        return characters;
    }
}
