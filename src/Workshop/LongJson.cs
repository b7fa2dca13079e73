using System.Text;
using System.Text.Json;

namespace Trimwright.Workshop;

/// <summary>
/// A JSON file that is longer than memory should be: looked at through a window that slides over it, a piece at a time. What is
/// asked for by its place (a byte of the file) must come from here; everything was held to be sound JSON by <see cref="Whole"/>.
/// </summary>
/// <param name="stream">Can be sought in.</param>
/// <param name="size">Of the window at first, bytes; it grows to the longest text or piece that is asked for.</param>
internal sealed class LongJson(Stream stream, int size = 64 * 1024)
{
    private static readonly JsonReaderOptions Strict = new() { MaxDepth = 64 };

    private byte[] window = new byte[size];
    private long start;
    private int filled;

    // The piece that was walked over last: whoever goes on behind it needn't walk again.
    private (long From, long End) walked = (-1, -1);

    /// <summary>A value of the file.</summary>
    /// <param name="Kind">How it begins.</param>
    /// <param name="Members">Of an object, where the value of each name begins.</param>
    public readonly record struct Piece(JsonTokenType Kind, Dictionary<string, long> Members);

    /// <summary>Reads the file from end to end: sound JSON in which no object says a name twice. Throws <see cref="JsonException"/>.</summary>
    public Piece Whole()
    {
        Fill(0, 3);
        return Walk(filled >= 3 && window.AsSpan(0, 3).SequenceEqual("\uFEFF"u8) ? 3 : 0, whole: true);
    }

    /// <summary>How a value begins, and where its members are.</summary>
    public Piece Look(long at) => Walk(at, whole: false);

    /// <summary>Where each item of a list begins.</summary>
    public IEnumerable<long> Items(long list)
    {
        for (long at = list + 1; ;)
        {
            byte next = Byte(at);
            if (next == ']') yield break;
            if (next is (byte)',' or (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n')
            {
                at++;
                continue;
            }
            yield return at;
            at = End(at);
        }
    }

    /// <summary>A value's own bytes, as they stand in the file.</summary>
    public byte[] Raw(long at)
    {
        int length = checked((int)(End(at) - at));
        Fill(at, length);
        return window.AsSpan((int)(at - start), length).ToArray();
    }

    /// <summary>The first letters of a value, for whoever has to say that it is the wrong one.</summary>
    public string Shown(long at, int most)
    {
        int length = (int)Math.Min(End(at) - at, 4L * (most + 1));
        Fill(at, length);
        string text = Encoding.UTF8.GetString(window, (int)(at - start), length);
        return text.Length > most ? text[..most] + "…" : text;
    }

    private long End(long at)
    {
        if (walked.From != at) Walk(at, whole: false);
        return walked.End;
    }

    private Piece Walk(long from, bool whole)
    {
        var state = new JsonReaderState(Strict);
        var names = new List<HashSet<string>>();
        var members = new Dictionary<string, long>();
        string? named = null;
        JsonTokenType kind = JsonTokenType.None;
        long at = from;
        for (int least = 1; ;)
        {
            bool last = Fill(at, least);
            var reader = new Utf8JsonReader(window.AsSpan((int)(at - start), filled - (int)(at - start)), last, state);
            while (reader.Read())
            {
                int depth = reader.CurrentDepth;
                if (kind == JsonTokenType.None) kind = reader.TokenType;
                if (reader.TokenType == JsonTokenType.PropertyName)
                {
                    if (!whole && depth > 1) continue;
                    string name = Name(ref reader);
                    if (depth == 1) named = name;
                    if (whole && !names[depth].Add(name)) throw new JsonException("a name twice in one object", null, LinesTo(from, at + reader.TokenStartIndex), null);
                    continue;
                }
                if (depth == 1 && named is not null && reader.TokenType is not (JsonTokenType.EndObject or JsonTokenType.EndArray))
                    (members[named], named) = (at + reader.TokenStartIndex, null);
                if (whole && reader.TokenType == JsonTokenType.StartObject)
                {
                    while (names.Count <= depth + 1) names.Add([]);
                    names[depth + 1].Clear();
                }
                if (!whole && depth == 0 && reader.TokenType is not (JsonTokenType.StartObject or JsonTokenType.StartArray))
                {
                    walked = (from, at + reader.BytesConsumed);
                    return new Piece(kind, members);
                }
            }
            if (last)
            {
                walked = (from, at + reader.BytesConsumed);
                return new Piece(kind, members);
            }
            at += reader.BytesConsumed;
            state = reader.CurrentState;
            // A text longer than the window: more of it must be in sight before it can be read.
            least = (int)(start + filled - at) + 1;
        }
    }

    private static string Name(ref Utf8JsonReader reader)
    {
        try
        {
            return reader.GetString()!;
        }
        catch (InvalidOperationException)
        {
            throw new JsonException("half of a character in a name", null, 0, null);
        }
    }

    private long LinesTo(long from, long to)
    {
        long lines = 0;
        for (long at = from; at < to; at++)
            if (Byte(at) == '\n') lines++;
        return lines;
    }

    private byte Byte(long at)
    {
        Fill(at, 1);
        return window[at - start];
    }

    // Brings so many bytes from a place on into the window, or all that there are; true when the file ends in it.
    private bool Fill(long at, int least)
    {
        if (at < start || at > start + filled) (start, filled) = (at, 0);
        int there = (int)(start + filled - at);
        if (there < least)
        {
            byte[] to = least > window.Length ? new byte[Math.Max(least, 2 * window.Length)] : window;
            window.AsSpan((int)(at - start), there).CopyTo(to);
            (window, start, filled) = (to, at, there);
            stream.Position = start + filled;
            for (int got; filled < window.Length && (got = stream.Read(window, filled, window.Length - filled)) > 0;) filled += got;
        }
        return start + filled >= stream.Length;
    }
}
