using System.Text;

namespace Trimwright.Core.Design;

/// <summary>An object's keys and where their values begin, in the file's order.</summary>
internal sealed class JsonMembers
{
    // The key's text without its quotes; the complement of its end when it was written with escapes.
    private readonly record struct Member(int KeyFrom, int KeyTo, int From, int To);

    public static JsonMembers None { get; } = new(new JsonText([]), 0);

    private readonly JsonText text;
    private readonly Member[] members;
    // A byte of each key, the same for the same key: most keys that are not meant are passed over by it.
    private readonly byte[] marks;

    private byte[] spelled = [];

    private JsonMembers(JsonText text, int count) => (this.text, members, marks) = (text, new Member[count], new byte[count]);

    public static JsonMembers Of(JsonText text, int from)
    {
        var found = new JsonMembers(text, text.Extent(from).Count);
        int at = from;
        for (int i = 0; i < found.Count; i++)
        {
            // After the brace, then after each comma.
            int key = text.Space(at + 1), keyEnd = text.TextEnd(key, out bool escaped), value = text.Space(text.Space(keyEnd) + 1), to = text.EndOf(value);
            found.members[i] = new Member(key + 1, escaped ? ~(keyEnd - 1) : keyEnd - 1, value, to);
            found.marks[i] = Mark(found.Key(i));
            at = text.Space(to);
        }
        return found;
    }

    public int Count => members.Length;

    private static byte Mark(ReadOnlySpan<byte> key) => key.IsEmpty ? (byte)0 : (byte)(key.Length + 5 * key[0] + 11 * key[^1] + 23 * key[key.Length / 2]);

    /// <summary>The place of one of the program's own keys, which are plain ASCII; -1 when it isn't there.</summary>
    public int Find(string key)
    {
        Span<byte> ascii = stackalloc byte[key.Length];
        Encoding.ASCII.GetBytes(key, ascii);
        byte mark = Mark(ascii);
        for (int at = 0; marks.AsSpan(at).IndexOf(mark) is var i and >= 0; at += i + 1)
            if (Key(at + i).SequenceEqual(ascii)) return at + i;
        return -1;
    }

    /// <summary>A key in UTF-8, until the next is asked for.</summary>
    public ReadOnlySpan<byte> Key(int i)
    {
        Member member = members[i];
        if (member.KeyTo >= 0) return text.Slice(member.KeyFrom, member.KeyTo);
        ReadOnlySpan<byte> written = text.Slice(member.KeyFrom, ~member.KeyTo);
        if (spelled.Length < written.Length) spelled = new byte[2 * written.Length];
        return spelled.AsSpan(0, JsonText.Spell(written, spelled));
    }

    /// <summary>How many bytes a key and its value have, or fewer once the key is spelled out.</summary>
    public int Length(int i)
    {
        Member member = members[i];
        return (member.KeyTo >= 0 ? member.KeyTo : ~member.KeyTo) - member.KeyFrom + member.To - member.From;
    }

    /// <summary>Where a member's value begins.</summary>
    public int ValueAt(int i) => members[i].From;

    /// <summary>A member's value as it was written, in UTF-8.</summary>
    public ReadOnlySpan<byte> Value(int i) => text.Slice(members[i].From, members[i].To);

    /// <summary>What a quoted text says.</summary>
    public static string Decoded(ReadOnlySpan<byte> quoted)
    {
        ReadOnlySpan<byte> written = quoted[1..^1];
        if (!written.Contains((byte)'\\')) return Encoding.UTF8.GetString(written);
        var spelled = new byte[written.Length];
        return Encoding.UTF8.GetString(spelled, 0, JsonText.Spell(written, spelled));
    }
}
