using System.Buffers.Binary;
using System.Text;

namespace Trimwright.Tests.Workshop;

/// <summary>Photos as far as their structure goes: what lies between is never looked at by the program.</summary>
internal static class SamplePhotos
{
    public static byte[] Jpeg(int width = 1600, int height = 600, string inside = "a picture", bool tells = false)
    {
        var file = new List<byte> { 0xFF, 0xD8 };
        Segment(file, 0xE0, [.. "JFIF\0"u8, 1, 1, 0, 0, 1, 0, 1, 0, 0]);
        if (tells) Segment(file, 0xE1, [.. "Exif\0\0"u8, .. "GPSLatitude"u8]);
        Segment(file, 0xC4, [0, 1, 2, 3]);
        Segment(file, 0xC0, [8, (byte)(height >> 8), (byte)height, (byte)(width >> 8), (byte)width, 1, 1, 0x11, 0]);
        Segment(file, 0xDA, [1, 1, 0, 0, 63, 0]);
        file.AddRange(Encoding.UTF8.GetBytes(inside));
        file.AddRange([0xFF, 0xD9]);
        return [.. file];
    }

    public static byte[] Png(uint width = 1600, uint height = 600)
    {
        var file = new List<byte> { 0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A };
        byte[] head = new byte[13];
        BinaryPrimitives.WriteUInt32BigEndian(head, width);
        BinaryPrimitives.WriteUInt32BigEndian(head.AsSpan(4), height);
        Chunk(file, "IHDR", head);
        Chunk(file, "IDAT", [1, 2, 3]);
        Chunk(file, "IEND", []);
        return [.. file];
    }

    private static void Segment(List<byte> file, byte marker, byte[] data) => file.AddRange([0xFF, marker, (byte)((data.Length + 2) >> 8), (byte)(data.Length + 2), .. data]);

    private static void Chunk(List<byte> file, string name, byte[] data)
    {
        byte[] length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, data.Length);
        file.AddRange([.. length, .. Encoding.ASCII.GetBytes(name), .. data, 0, 0, 0, 0]);
    }

    /// <summary>What is no photo that can be kept, and a word of why.</summary>
    public static IEnumerable<(string What, byte[] File, string Why)> Hostile()
    {
        byte[] jpeg = Jpeg(), png = Png();
        yield return ("nothing", [], "neither");
        yield return ("a drawing with a script", "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>alert(1)</script></svg>"u8.ToArray(), "neither");
        yield return ("a page", "<!doctype html><script>alert(1)</script>"u8.ToArray(), "neither");
        yield return ("a GIF", "GIF89a\u0001\0\u0001\0\0\0\0;"u8.ToArray(), "neither");
        yield return ("a WebP", "RIFF\u0010\0\0\0WEBPVP8 "u8.ToArray(), "neither");
        yield return ("a JPEG cut off", jpeg[..^4], "cut off");
        yield return ("a JPEG of its head alone", jpeg[..20], "cut off");
        yield return ("a JPEG with a page behind it", [.. jpeg, .. "<html>"u8], "cut off");
        yield return ("a JPEG without a frame", [0xFF, 0xD8, 0xFF, 0xDA, 0, 3, 1, 0xFF, 0xD9], "cut off");
        yield return ("a JPEG whose segment reaches beyond it", [0xFF, 0xD8, 0xFF, 0xE0, 0xFF, 0xFF, 0xFF, 0xD9], "cut off");
        yield return ("a JPEG that says where it was taken", Jpeg(tells: true), "where and with what");
        yield return ("a giant JPEG", Jpeg(width: 60000), "60000 by 600");
        yield return ("a JPEG of no height", Jpeg(height: 0), "by 0");
        yield return ("a PNG cut off", png[..^3], "cut off");
        yield return ("a PNG with a page behind it", [.. png, .. "<html>"u8], "cut off");
        yield return ("a giant PNG", Png(width: 3_000_000_000), "2147483647 by 600");
        yield return ("a PNG too high", Png(height: 2049), "1600 by 2049");
        yield return ("one too large", new byte[5_000_001], "5.0 MB");
    }
}
