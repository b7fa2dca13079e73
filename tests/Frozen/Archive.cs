using System.IO.Compression;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Trimwright.Frozen;

/// <summary>
/// The frozen answers in one file: <c>asks.json</c> with everything that was asked, in order, and an entry for what each command
/// said of each lure. Times and order are fixed, so that the same answers make the same file.
/// </summary>
internal static class Archive
{
    private const string List = "asks.json";

    private static readonly DateTimeOffset Fixed = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes asks and answers.</summary>
    public static void Write(string path, IEnumerable<(Ask Ask, Answer Answer)> all)
    {
        using FileStream file = File.Create(path);
        using var zip = new ZipArchive(file, ZipArchiveMode.Create);
        var asks = new List<Ask>();
        var together = new Dictionary<string, Answer>();
        void Close()
        {
            if (together.Count > 0) Put(zip, Entry(asks[^1]), together);
            together = [];
        }
        foreach ((Ask ask, Answer answer) in all)
        {
            if (asks.Count > 0 && Entry(asks[^1]) != Entry(ask)) Close();
            asks.Add(ask);
            together.Add(ask.Name, answer);
        }
        Close();
        Put(zip, List, asks);
    }

    /// <summary>Everything that was asked, in order.</summary>
    public static Ask[] Asks(string path)
    {
        using ZipArchive zip = ZipFile.OpenRead(path);
        using Stream list = zip.GetEntry(List)!.Open();
        return JsonSerializer.Deserialize<Ask[]>(list, Form)!;
    }

    /// <summary>The answers to some asks, in their order.</summary>
    public static IEnumerable<(Ask Ask, Answer Answer)> Read(string path, IEnumerable<Ask> asks)
    {
        using ZipArchive zip = ZipFile.OpenRead(path);
        (string? name, Dictionary<string, Answer> together) = (null, []);
        foreach (Ask ask in asks)
        {
            if (name != Entry(ask))
            {
                using Stream entry = zip.GetEntry(name = Entry(ask))!.Open();
                together = JsonSerializer.Deserialize<Dictionary<string, Answer>>(entry, Form)!;
            }
            yield return (ask, together[ask.Name]);
        }
    }

    // What a command says of one lure is much alike and is pressed together: to a third of what it takes one by one.
    private static string Entry(Ask ask) => ask.Of + ".json";

    private static void Put<T>(ZipArchive zip, string name, T content)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.SmallestSize);
        entry.LastWriteTime = Fixed;
        using Stream into = entry.Open();
        JsonSerializer.Serialize(into, content, Form);
    }
}
