using System.Text;

namespace Trimwright.Core.Design;

/// <summary>
/// One walk through a file's bytes that checks them against the grammar of RFC 8259 and notes what is JSON but refused here: nesting
/// too deep, a key twice in one object, halves of surrogate pairs, numbers that no double holds. It makes nothing for
/// what is sound, since a file of five million bytes may hold as many values; <see cref="JsonTree"/> makes what a reader asks for.
/// </summary>
internal sealed class JsonScan
{
    /// <summary>How a walk ended.</summary>
    public enum End
    {
        /// <summary>At the end of the file; of what was noted, all was noted.</summary>
        Whole,

        /// <summary>Where the nesting gets too deep.</summary>
        TooDeep,

        /// <summary>Where no JSON goes on.</summary>
        Slip,
    }

    // What may stand in a text as it is: all but control characters, the quote and the backslash.
    private static readonly bool[] Plain = [.. Enumerable.Range(0, 256).Select(b => b >= ' ' && b is not ('"' or '\\'))];
    private static readonly System.Buffers.SearchValues<byte> NotPlain =
        System.Buffers.SearchValues.Create([.. Enumerable.Range(0, 256).Where(b => !Plain[b]).Select(b => (byte)b)]);

    private struct Frame
    {
        public int From;
        public bool IsObject;
        public int Opened;
        public int Count;
        // The key in hand, without its quotes.
        public int KeyFrom;
        public int KeyTo;
        public bool IsKeyHalf;
        public bool IsHalfTold;
        public JsonKeys.Object Keys;
        // From where the grammar can be looked at again: the last whole member or item, or the place after it when it was a list or an object.
        public int Resume;
        public bool IsResumedAfter;
    }

    private readonly byte[] bytes;
    private readonly int length;
    private readonly Findings findings;
    private readonly JsonText text;
    private readonly JsonKeys keys;
    // The first stands around the file's value.
    private readonly Frame[] frames = new Frame[JsonParser.Deepest + 1];
    private int depth;
    private bool isEscaped, isHalf;

    /// <param name="text">The file's bytes and zeros after them.</param>
    /// <param name="length">How many of them are the file's.</param>
    /// <param name="findings">Takes what is refused.</param>
    /// <param name="isAtOnce">Whether a key is compared at once with all that an object has, even if it has many.</param>
    public JsonScan(JsonText text, int length, Findings findings, bool isAtOnce)
    {
        (this.text, bytes, this.length, this.findings) = (text, text.Bytes, length, findings);
        keys = new JsonKeys(text) { IsAtOnce = isAtOnce };
    }

    /// <summary>Whether keys were left uncompared and two of them are alike: then the walk has to be done again, comparing at once.</summary>
    public bool HasUntold { get; private set; }

    /// <summary>Where the file's value begins.</summary>
    public int Top { get; private set; }

    public End Walk()
    {
        End end = Walked();
        for (int open = depth; open > 0; open--) Close(frames[open]);
        return end;
    }

    private End Walked()
    {
        int at = Top = text.Space(0);
        ref Frame frame = ref frames[0];
        while (true)
        {
            if (frame.IsObject && (at = Key(ref frame, at)) < 0) return End.Slip;
            int from = at;
            bool isBracketed = bytes[at] is (byte)'[' or (byte)'{';
            if (isBracketed)
            {
                if (depth == JsonParser.Deepest)
                {
                    if (!findings.AreFull)
                        findings.Add("too-deep", PathOf(depth), $"nesting deeper than {JsonParser.Deepest}", $"at most {JsonParser.Deepest} levels", "Flatten the file.");
                    return End.TooDeep;
                }
                at = text.Space(at + 1);
                if (bytes[at] != Closing(bytes[from]))
                {
                    frame = ref frames[++depth];
                    frame = new Frame { From = from, IsObject = bytes[from] == '{', Opened = text.Open(from), Resume = from + 1, Keys = keys.Open() };
                    continue;
                }
                at++;
                if (at - from > JsonText.Short) text.Close(text.Open(from), at, 0);
            }
            else if ((at = ScalarEnd(at)) < 0)
            {
                return End.Slip;
            }
            // After the value: a comma, or the end of what it stands in, and of what that stands in.
            while (true)
            {
                frame.Count++;
                frame.Resume = isBracketed ? at : frame.IsObject ? frame.KeyFrom - 1 : from;
                frame.IsResumedAfter = isBracketed;
                at = text.Space(at);
                byte next = bytes[at];
                if (next == ',' && depth > 0)
                {
                    at = text.Space(at + 1);
                    break;
                }
                if (depth == 0) return at == length ? End.Whole : End.Slip;
                if (next != Closing(bytes[frame.From])) return End.Slip;
                at++;
                text.Close(frame.Opened, at, frame.Count);
                Close(frame);
                frame = ref frames[--depth];
                isBracketed = true;
            }
        }
    }

    private void Close(in Frame frame)
    {
        if (frame.IsObject && keys.AreUntold(frame.Keys)) HasUntold = true;
        keys.Close(frame.Keys);
    }

    private static int Closing(byte bracket) => bracket == '{' ? '}' : ']';

    /// <summary>Past a key and its colon; -1 when there is none.</summary>
    private int Key(ref Frame frame, int at)
    {
        int from = at, to;
        if (bytes[at] != '"' || (to = TextEnd(at)) < 0) return -1;
        at = text.Space(to);
        if (bytes[at] != ':') return -1;
        (frame.KeyFrom, frame.KeyTo, frame.IsKeyHalf) = (from + 1, to - 1, isHalf);
        if (isHalf)
        {
            // Told of the object as a whole, so once.
            if (!frame.IsHalfTold) Half(depth - 1);
            frame.IsHalfTold = true;
        }
        else if (!findings.AreFull && keys.IsAgain(ref frame.Keys, frame.KeyFrom, frame.KeyTo, isEscaped))
        {
            findings.Add("duplicate-key", PathOf(depth), "this key twice in one object", "each key once", "Delete one of the two.");
        }
        return text.Space(at + 1);
    }

    /// <summary>Past a text, a number or a word; -1 when it is none.</summary>
    private int ScalarEnd(int at)
    {
        switch (bytes[at])
        {
            case (byte)'"':
                int end = TextEnd(at);
                if (end >= 0 && isHalf) Half(depth);
                return end;
            case (byte)'t':
                return bytes.AsSpan(at).StartsWith("true"u8) ? at + 4 : -1;
            case (byte)'f':
                return bytes.AsSpan(at).StartsWith("false"u8) ? at + 5 : -1;
            case (byte)'n':
                return bytes.AsSpan(at).StartsWith("null"u8) ? at + 4 : -1;
            default:
                return NumberEnd(at);
        }
    }

    /// <summary>Past a text, and whether it has escapes, and among them halves of pairs; -1 when it is none.</summary>
    private int TextEnd(int at)
    {
        (isEscaped, isHalf) = (false, false);
        at++;
        while (true)
        {
            // Most runs are short.
            for (int soon = at + 16; Plain[bytes[at]];)
                if (++at == soon) at += bytes.AsSpan(at).IndexOfAny(NotPlain);
            if (bytes[at] == '"') return at + 1;
            if (bytes[at] != '\\') return -1;
            isEscaped = true;
            switch (bytes[at + 1])
            {
                case (byte)'"' or (byte)'\\' or (byte)'/' or (byte)'b' or (byte)'f' or (byte)'n' or (byte)'r' or (byte)'t':
                    at += 2;
                    break;
                case (byte)'u' when JsonText.Unit(bytes.AsSpan(at + 2)) is var unit and >= 0:
                    at += 6;
                    if (!char.IsSurrogate((char)unit)) break;
                    if (char.IsHighSurrogate((char)unit) && bytes[at] == '\\' && bytes[at + 1] == 'u' && JsonText.Unit(bytes.AsSpan(at + 2)) is var second and >= 0 && char.IsLowSurrogate((char)second)) at += 6;
                    else isHalf = true;
                    break;
                default:
                    return -1;
            }
        }
    }

    /// <summary>Past a number; -1 when it is none.</summary>
    private int NumberEnd(int at)
    {
        int from = at;
        if (bytes[at] == '-') at++;
        int whole = at, power = 0;
        if (bytes[at] == '0') at++;
        else if ((at = Digits(at)) < 0) return -1;
        whole = at - whole;
        if (bytes[at] == '.' && (at = Digits(at + 1)) < 0) return -1;
        if ((bytes[at] | 0x20) == 'e' && (at = PowerEnd(at, out power)) < 0) return -1;
        // Under 1e308 it is finite; only what may be larger is worked out. What goes on otherwise is a slip, and no number.
        if (whole + power > 308 && (at == length ? depth == 0 : EndsNumber(bytes[at]))) Finite(from, at);
        return at;
    }

    private static bool EndsNumber(byte next) => next is (byte)',' or (byte)']' or (byte)'}' or (byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t' or (byte)'/';

    // A power of four digits counts as a large one, either way.
    private int PowerEnd(int at, out int power)
    {
        power = 0;
        bool isNegative = bytes[++at] == '-';
        if (bytes[at] is (byte)'-' or (byte)'+') at++;
        int from = at;
        for (int digit; (digit = bytes[at] - '0') is >= 0 and <= 9; at++)
            if (power < 1000) power = 10 * power + digit;
        if (isNegative && power < 1000) power = -power;
        return at > from ? at : -1;
    }

    private int Digits(int at)
    {
        byte[] bytes = this.bytes;
        if ((uint)(bytes[at] - '0') > 9) return -1;
        for (int soon = at + 24; (uint)(bytes[++at] - '0') <= 9;)
            if (at == soon) at += bytes.AsSpan(at).IndexOfAnyExceptInRange((byte)'0', (byte)'9') - 1;
        return at;
    }

    private void Finite(int from, int to)
    {
        if (findings.AreFull) return;
        if (double.IsFinite(JsonTree.NumberOf(text.Slice(from, to)))) return;
        string written = Encoding.UTF8.GetString(text.Slice(from, Math.Min(to, from + 61)));
        findings.Add("not-finite", PathOf(depth), $"{JsonTree.Shorten(written)}, too large to hold", "finite numbers", "Correct this number.");
    }

    private void Half(int deep)
    {
        if (!findings.AreFull) findings.Add("encoding", PathOf(deep), "half of a surrogate pair", "whole characters", "Write the character itself, in UTF-8.");
    }

    // Of the value in hand, so many levels down.
    private string PathOf(int deep)
    {
        string path = "";
        for (int i = 1; i <= deep; i++)
        {
            ref Frame frame = ref frames[i];
            path = !frame.IsObject ? $"{path}[{frame.Count}]"
                : JsonTree.Inside(path, frame.IsKeyHalf ? "" : JsonMembers.Decoded(text.Slice(frame.KeyFrom - 1, frame.KeyTo + 1)));
        }
        return path;
    }

    /// <summary>
    /// After a slip: where a reader that tells slips by their place can take up, and what to read before that, so that it stands
    /// in as many lists and objects. Nothing of what lies further back has to be read again.
    /// </summary>
    public (string Before, int From) Resume()
    {
        var before = new StringBuilder();
        for (int i = 1; i < depth; i++) before.Append(frames[i].IsObject ? "{\"\":" : "[");
        ref Frame frame = ref frames[depth];
        if (depth > 0) before.Append(frame.IsObject ? "{" : "[");
        if (frame.IsResumedAfter) before.Append(frame.IsObject ? "\"\":[]" : "[]");
        return (before.ToString(), text.Space(depth == 0 && frame.Count == 0 ? Top : frame.Resume));
    }
}
