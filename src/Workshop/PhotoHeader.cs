using System.Buffers.Binary;
using System.Globalization;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>
/// What a file says it is, read from its own structure and never decoded: JPEG by its segments (ITU-T T.81, annex B), PNG by
/// its chunks (ISO/IEC 15948, section 5). Everything else, a drawing with a script in it among them, is refused.
/// </summary>
/// <param name="Type">"jpeg" or "png".</param>
/// <param name="Width">In points.</param>
/// <param name="Height">In points.</param>
public readonly record struct PhotoHeader(string Type, int Width, int Height)
{
    /// <summary>The largest photo that is taken in, bytes.</summary>
    public const int MostBytes = 5_000_000;

    /// <summary>The longest side, points.</summary>
    public const int MostPoints = 2048;

    private const string Next = "Choose the photo on the lure's page: it is redrawn there to what fits.";

    // Where it was taken, with what, and when: in a JPEG's first application segment.
    private const byte TellsMore = 0xE1;

    private static ReadOnlySpan<byte> PngMagic => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>The header, or why this is no photo that can be kept.</summary>
    public static (PhotoHeader? Header, Fault? Fault) Of(ReadOnlySpan<byte> file)
    {
        if (file.Length > MostBytes) return (null, TooLarge(file.Length));
        bool png = file.StartsWith(PngMagic), jpeg = file.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8]), tells = false;
        if (!png && !jpeg) return (null, Bad("something that is neither"));
        if ((png ? Png(file) : Jpeg(file, out tells)) is not { } found) return (null, Bad("one that is cut off or broken"));
        if (tells) return (null, Bad("one that still says where and with what it was taken"));
        return found.Width is >= 1 and <= MostPoints && found.Height is >= 1 and <= MostPoints
            ? (found, null)
            : (null, new Fault("photo", "", string.Create(CultureInfo.InvariantCulture, $"{found.Width} by {found.Height} points"),
                string.Create(CultureInfo.InvariantCulture, $"1 to {MostPoints} each way"), Next));
    }

    public static Fault TooLarge(long bytes) => new("photo", "", string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB"), "at most 5 MB", Next);

    // Segments of a marker and a length each, up to the scan; then nothing is looked at but the end.
    private static PhotoHeader? Jpeg(ReadOnlySpan<byte> file, out bool tells)
    {
        tells = false;
        if (!file.EndsWith((ReadOnlySpan<byte>)[0xFF, 0xD9])) return null;
        PhotoHeader? frame = null;
        for (int at = 2; at + 4 <= file.Length;)
        {
            if (file[at] != 0xFF) return null;
            byte marker = file[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }
            int length = BinaryPrimitives.ReadUInt16BigEndian(file[(at + 2)..]);
            if (length < 2 || at + 2 + length > file.Length) return null;
            if (marker == TellsMore) tells = true;
            // A frame's header; the three left out are tables.
            if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC))
            {
                if (length < 8 || frame is not null) return null;
                frame = new PhotoHeader("jpeg", BinaryPrimitives.ReadUInt16BigEndian(file[(at + 7)..]), BinaryPrimitives.ReadUInt16BigEndian(file[(at + 5)..]));
            }
            if (marker == 0xDA) return frame;
            at += 2 + length;
        }
        return null;
    }

    // Chunks of a length, a name, the data and a check sum; the first is the header and the last the end.
    private static PhotoHeader? Png(ReadOnlySpan<byte> file)
    {
        PhotoHeader? header = null;
        bool drawn = false;
        for (int at = PngMagic.Length; at + 12 <= file.Length;)
        {
            uint length = BinaryPrimitives.ReadUInt32BigEndian(file[at..]);
            if (length > file.Length - at - 12) return null;
            ReadOnlySpan<byte> name = file.Slice(at + 4, 4);
            if (header is null)
            {
                if (!name.SequenceEqual("IHDR"u8) || length != 13) return null;
                uint width = BinaryPrimitives.ReadUInt32BigEndian(file[(at + 8)..]), height = BinaryPrimitives.ReadUInt32BigEndian(file[(at + 12)..]);
                header = new PhotoHeader("png", (int)Math.Min(width, int.MaxValue), (int)Math.Min(height, int.MaxValue));
            }
            drawn |= name.SequenceEqual("IDAT"u8);
            if (name.SequenceEqual("IEND"u8)) return drawn && at + 12 == file.Length ? header : null;
            at += 12 + (int)length;
        }
        return null;
    }

    private static Fault Bad(string got) => new("photo", "", got, "a JPEG or PNG photo", Next);
}
