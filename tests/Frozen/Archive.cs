using System.IO.Compression;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Trimwright.Frozen;

/// <summary>
/// The frozen answers in one file. It has an entry for each command, a line of JSON for each answer, pressed by Brotli as one, for
/// lures are answered much alike. <c>asks.br</c> lists what was asked. Times and order are fixed, so that the same answers make the same
/// file.
/// </summary>
internal static class Archive
{
    private const string List = "asks";

    // The best that it does; a window of 16 MB holds most commands whole.
    private const int Quality = 11, Window = 24;

    private static readonly DateTimeOffset Fixed = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes asks and answers; those of one command follow each other.</summary>
    public static void Write(string path, IEnumerable<(Ask Ask, Answer Answer)> all)
    {
        using FileStream file = File.Create(path);
        using var zip = new ZipArchive(file, ZipArchiveMode.Create);
        var asks = new List<Ask>();
        var lines = new MemoryStream();
        void Close()
        {
            if (asks.Count > 0) Put(zip, asks[^1].Command, lines);
            lines.SetLength(0);
        }
        foreach ((Ask ask, Answer answer) in all)
        {
            if (asks.Count > 0 && asks[^1].Command != ask.Command) Close();
            asks.Add(ask);
            Line(lines, answer);
        }
        Close();
        foreach (Ask ask in asks) Line(lines, ask);
        Put(zip, List, lines);
    }

    /// <summary>Everything that was asked, in order.</summary>
    public static Ask[] Asks(string path)
    {
        using ZipArchive zip = ZipFile.OpenRead(path);
        return [.. Lines(zip, List).Select(line => JsonSerializer.Deserialize<Ask>(line, Form)!)];
    }

    /// <summary>The answers to some asks, in the order in which they were asked.</summary>
    public static IEnumerable<(Ask Ask, Answer Answer)> Read(string path, IReadOnlyCollection<Ask> some)
    {
        HashSet<string> names = [.. some.Select(a => a.Name)];
        using ZipArchive zip = ZipFile.OpenRead(path);
        foreach (IGrouping<string, Ask> command in Asks(path).GroupBy(a => a.Command))
        {
            if (!command.Any(a => names.Contains(a.Name))) continue;
            foreach ((Ask ask, string line) in command.Zip(Lines(zip, command.Key)))
                if (names.Contains(ask.Name)) yield return (ask, JsonSerializer.Deserialize<Answer>(line, Form)!);
        }
    }

    private static void Line<T>(MemoryStream lines, T value)
    {
        JsonSerializer.Serialize(lines, value, Form);
        lines.WriteByte((byte)'\n');
    }

    private static void Put(ZipArchive zip, string name, MemoryStream lines)
    {
        var pressed = new byte[BrotliEncoder.GetMaxCompressedLength((int)lines.Length)];
        if (!BrotliEncoder.TryCompress(lines.GetBuffer().AsSpan(0, (int)lines.Length), pressed, out int length, Quality, Window)) throw new InvalidOperationException($"{name} can't be pressed");
        ZipArchiveEntry entry = zip.CreateEntry(name + ".br", CompressionLevel.NoCompression);
        entry.LastWriteTime = Fixed;
        using Stream into = entry.Open();
        into.Write(pressed, 0, length);
    }

    private static IEnumerable<string> Lines(ZipArchive zip, string name)
    {
        using var reader = new StreamReader(new BrotliStream(zip.GetEntry(name + ".br")!.Open(), CompressionMode.Decompress));
        while (reader.ReadLine() is { } line) yield return line;
    }
}
