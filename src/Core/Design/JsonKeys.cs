using System.Buffers.Binary;

namespace Trimwright.Core.Design;

/// <summary>The keys of all objects that are open while a file is looked through, to tell a key that comes twice in one.</summary>
internal sealed class JsonKeys(JsonText text)
{
    // Up to so many keys each is compared with each.
    private const int Few = 8;

    // From so many on it is only asked in the end whether there are two alike: a table of all of them would be larger than what lies near a
    // processor, and most objects have none. Where there are, the file is looked through again, one key after the other.
    private const int Many = 1024;

    // A part of the keys of an object with many.
    private const int Parts = 512;

    // Others in every process: nobody can write a file whose keys all fall into one slot. No answer depends on them.
    private static readonly ulong Seed = (ulong)HashCode.Combine(1) << 32 | (uint)HashCode.Combine(2), Odd = (ulong)HashCode.Combine(3) << 32 | (uint)HashCode.Combine(4) | 1;

    private const uint Told = 1u << 31;

    // Where it stands, or, spelled out, the complement of where its length stands; a hash, and above it whether it has been told of.
    private record struct Key(int From, uint Hash);

    private Key[] keys = new Key[64];
    private int count;
    // Keys that were written with escapes, spelled out, each after its length.
    private byte[] spelled = [];
    private int spelledTo;

    /// <summary>Whether each key is compared at once, however many there are.</summary>
    public bool IsAtOnce { get; init; }

    /// <summary>The keys of one open object.</summary>
    public struct Object
    {
        internal int From;
        internal int SpelledFrom;
        internal int[]? Slots;
    }

    public Object Open() => new() { From = count, SpelledFrom = spelledTo };

    /// <summary>Whether an object has two keys alike that <see cref="IsAgain"/> couldn't tell of, since it has many.</summary>
    public bool AreUntold(in Object open) => !IsAtOnce && count - open.From > Many && AreAlike(open.From);

    public void Close(in Object open) => (count, spelledTo) = (open.From, open.SpelledFrom);

    /// <summary>Adds a key, given by where it stands without its quotes; true when it was there and hasn't been told of yet.</summary>
    public bool IsAgain(ref Object open, int from, int to, bool escaped)
    {
        if (count == keys.Length) Array.Resize(ref keys, 2 * count);
        if (escaped) from = ~Spell(text.Slice(from, to));
        var key = new Key(from, Hash(escaped ? Written(from) : text.Slice(from, to)));
        keys[count] = key;
        int here = count - open.From;
        int earlier = here < Few ? AmongFew(open.From, key) : here < Many || IsAtOnce ? AmongMany(ref open) : -1;
        if (earlier < 0)
        {
            count++;
            return false;
        }
        bool isFirst = (keys[earlier].Hash & Told) == 0;
        keys[earlier].Hash |= Told;
        return isFirst;
    }

    private ReadOnlySpan<byte> Written(int from) => from < 0
        ? spelled.AsSpan(~from + sizeof(int), BinaryPrimitives.ReadInt32LittleEndian(spelled.AsSpan(~from)))
        : text.Slice(from, text.TextEnd(from - 1, out _) - 1);

    private bool Same(in Key a, in Key b) => ((a.Hash ^ b.Hash) & ~Told) == 0 && Written(a.From).SequenceEqual(Written(b.From));

    private int AmongFew(int from, in Key key)
    {
        for (int i = from; i < count; i++)
            if (Same(keys[i], key)) return i;
        return -1;
    }

    private int AmongMany(ref Object open)
    {
        if (open.Slots is null || 2 * (count - open.From) >= open.Slots.Length)
        {
            open.Slots = new int[open.Slots is null ? 8 * Few : 4 * open.Slots.Length];
            for (int i = open.From; i < count; i++) Put(open.Slots, i);
        }
        int found = Put(open.Slots, count);
        return found == count ? -1 : found;
    }

    // The key that is there already, or this one.
    private int Put(int[] slots, int i)
    {
        int slot = (int)(keys[i].Hash & ~Told) & (slots.Length - 1);
        for (; slots[slot] != 0; slot = (slot + 1) & (slots.Length - 1))
            if (Same(keys[slots[slot] - 1], keys[i])) return slots[slot] - 1;
        slots[slot] = i + 1;
        return i;
    }

    // Parted by their hashes, so that each part lies near the processor while it is looked at.
    private bool AreAlike(int from)
    {
        var ends = new int[Parts];
        for (int i = from; i < count; i++) ends[(keys[i].Hash & ~Told) % Parts]++;
        int most = ends.Max();
        for (int p = 0, end = 0; p < Parts; p++) (ends[p], end) = (end, end + ends[p]);
        var parted = new int[count - from];
        for (int i = from; i < count; i++) parted[ends[(keys[i].Hash & ~Told) % Parts]++] = i;
        var slots = new int[(int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(2 * most + 2))];
        for (int p = 0, i = 0; p < Parts; p++)
        {
            Array.Clear(slots);
            for (; i < ends[p]; i++)
            {
                Key key = keys[parted[i]];
                int slot = (int)((key.Hash & ~Told) / Parts) & (slots.Length - 1);
                for (; slots[slot] != 0; slot = (slot + 1) & (slots.Length - 1))
                    if (Same(keys[slots[slot] - 1], key)) return true;
                slots[slot] = parted[i] + 1;
            }
        }
        return false;
    }

    // Eight bytes at a time, the last eight with those beyond the key's end taken out.
    private static uint Hash(ReadOnlySpan<byte> key)
    {
        ulong hash = Seed + (ulong)key.Length;
        for (; key.Length >= 8; key = key[8..]) hash = Mixed(hash ^ BinaryPrimitives.ReadUInt64LittleEndian(key));
        ulong rest = 0;
        for (int i = 0; i < key.Length; i++) rest |= (ulong)key[i] << 8 * i;
        return (uint)Mixed(hash ^ rest) & ~Told;
    }

    private static ulong Mixed(ulong value) => Math.BigMul(value, Odd, out ulong low) ^ low;

    private int Spell(ReadOnlySpan<byte> written)
    {
        int from = spelledTo;
        if (spelled.Length < from + sizeof(int) + written.Length) Array.Resize(ref spelled, 2 * (from + sizeof(int) + written.Length));
        int length = JsonText.Spell(written, spelled.AsSpan(from + sizeof(int)));
        BinaryPrimitives.WriteInt32LittleEndian(spelled.AsSpan(from), length);
        spelledTo += sizeof(int) + length;
        return from;
    }
}
