using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Water;
using static Trimwright.Core.Design.ObjectWriter;

namespace Trimwright.Core.Doubt;

/// <summary>
/// The tub log, <c>NAME.log.json</c>, version 1, with the manners of <see cref="LureFile"/>: this reader is the only
/// validator, and the JSON Schema beside it (<c>log.schema.json</c>) accepts everything that the reader accepts.
/// </summary>
public static class LogFile
{
    /// <summary>The version that this program writes.</summary>
    public const int Version = 1;

    /// <summary>The key that holds the version, and by which a log is told from a lure.</summary>
    public const string VersionKey = "trimwright_log";

    internal const int MostReadings = 500;
    internal const int MostScales = 20;
    private const double Heaviest = 100_000;
    private const double Longest = 2_000;

    /// <summary>Each kind's word, and of its numbers those that it needs and those that it may have.</summary>
    internal static readonly ImmutableArray<(ReadingKind Kind, string Word, string[] Needs, string[] May)> Kinds =
    [
        (ReadingKind.Boards, "boards", ["mass_g"], []),
        (ReadingKind.Part, "part", ["mass_g"], []),
        (ReadingKind.Halves, "halves", ["right_g", "left_g"], []),
        (ReadingKind.Weight, "weight", ["mass_g"], []),
        (ReadingKind.UnderWater, "under_water", [], ["sinker_g", "with_lure_g", "reading_g", "before_g", "after_g"]),
        (ReadingKind.Needle, "needle", ["x_mm"], []),
        (ReadingKind.Balance, "balance", ["x_mm"], []),
        (ReadingKind.Caliper, "caliper", ["x_mm"], ["width_mm", "height_mm", "right_mm", "left_mm"]),
        (ReadingKind.Inclining, "inclining", ["mass_g", "x_mm", "z_mm", "turned_deg"], []),
        (ReadingKind.Tub, "tub", [], ["trim_deg", "nose_out_mm", "tail_out_mm", "waterline_back_mm", "waterline_belly_mm", "back_proud_mm"]),
        (ReadingKind.Drop, "drop", ["depth_mm", "seconds"], ["from_mm"]),
        (ReadingKind.Soak, "soak", ["before_g", "after_g"], []),
    ];

    /// <summary>Reads a log from UTF-8 JSON; refuses and keeps what <see cref="LureFile.Read"/> does, and lists every fault.</summary>
    /// <param name="utf8">The file's bytes.</param>
    public static Reading<TubLog> Read(ReadOnlySpan<byte> utf8)
    {
        var findings = new Findings();
        if (JsonParser.Parse(utf8, findings) is not { } tree) return new(null, [.. findings.Faults], []);
        if (tree.Member(VersionKey) is { Kind: JsonKind.Number } value && value.Number > Version)
            return new(null, [new Fault("newer-version", VersionKey, value.Shown, $"up to {Version}",
                "This log was written by a newer Trimwright; use that one, or save it there as an older version.")], []);
        TubLog log = ReadForm(new ObjectReader(tree, findings));
        if (findings.Faults.Count == 0) LogSoundness.Check(log, findings);
        return new(findings.Faults.Count == 0 ? log : null, [.. findings.Faults], [.. findings.Told]);
    }

    /// <summary>Whether a file means to be a log: its top object has the log's version key.</summary>
    public static bool IsLog(ReadOnlySpan<byte> utf8) => JsonParser.Parse(utf8, new Findings())?.Member(VersionKey) is not null;

    internal static TubLog ReadForm(ObjectReader file)
    {
        file.Number(VersionKey, Version, Version);
        return new TubLog
        {
            Name = file.Text("name", "which lure this is"),
            Begun = file.TextOrNone("begun", "the day it was begun, like 2026-05-30"),
            Finished = file.TextOrNone("finished", "the day it was finished, like 2026-05-30"),
            Scales = file.Each("scales", MostScales, "a list of scales", r => new LogScale
            {
                Id = r.Text("id", "a short name"),
                ResolutionG = r.Number("resolution_g", 0.001, 50),
                CapacityG = r.Number("capacity_g", 0.1, Heaviest),
                Kept = r.Close(),
            }),
            Readings = file.Each("readings", MostReadings, "a list of readings", ReadReading),
            Kept = file.Close(),
        };
    }

    private static LogReading ReadReading(ObjectReader r)
    {
        (string, ReadingKind)[] kinds = [.. Kinds.Select(k => (k.Word, k.Kind))];
        r.Text("kind", string.Join(", ", kinds.Select(k => k.Item1)));
        ObjectReader? water = r.ObjectOrNone("water");
        double? salinity = water?.Number("salinity", 0, WaterState.SaltiestAllowed, 0);
        double? temperature = water?.NumberOrNone("temperature_c", WaterState.ColdestAllowed, WaterState.WarmestAllowed);
        double? Grams(string key) => r.NumberOrNone(key, 0, Heaviest);
        double? Mm(string key, double least = 0) => r.NumberOrNone(key, least, Longest);
        var reading = new LogReading
        {
            Kind = r.Choice("kind", ReadingKind.Weight, kinds),
            Stage = r.Choice("stage", Stage.Blank, ("blank", Stage.Blank), ("dry-fit", Stage.DryFit), ("glued", Stage.Glued), ("sealed", Stage.Sealed), ("finished", Stage.Finished)),
            Rig = r.Choice("rig", Rig.Bare, ("bare", Rig.Bare), ("standins", Rig.StandIns), ("rigged", Rig.Rigged)),
            Scale = r.TextOrNone("scale", "the id of one of the scales"),
            Salinity = salinity ?? 0,
            TemperatureC = temperature,
            Way = r.Choice("way", UnderWaterWay.Sinker, ("sinker", UnderWaterWay.Sinker), ("jar", UnderWaterWay.Jar)),
            Film = r.Truth("film", false),
            Soap = r.Truth("soap", false),
            Sat = r.Find("sat") is null ? null : r.Choice("sat", Sat.Level, ("stands", Sat.Stands), ("slanted", Sat.Slanted), ("level", Sat.Level), ("on_side", Sat.OnSide), ("belly_up", Sat.BellyUp), ("nose_down", Sat.NoseDown)),
            Part = r.TextOrNone("part", "the name of the part"),
            SizeMm = r.Numbers("size_mm", 3, 0.1, Longest),
            MassG = Grams("mass_g"),
            RightG = Grams("right_g"),
            LeftG = Grams("left_g"),
            SinkerG = Grams("sinker_g"),
            WithLureG = Grams("with_lure_g"),
            ReadingG = Grams("reading_g"),
            BeforeG = Grams("before_g"),
            AfterG = Grams("after_g"),
            XMm = Mm("x_mm"),
            ZMm = Mm("z_mm", -Longest),
            WidthMm = Mm("width_mm"),
            HeightMm = Mm("height_mm"),
            RightMm = Mm("right_mm"),
            LeftMm = Mm("left_mm"),
            TurnedDeg = r.NumberOrNone("turned_deg", -180, 180),
            TrimDeg = r.NumberOrNone("trim_deg", -90, 90),
            NoseOutMm = Mm("nose_out_mm"),
            TailOutMm = Mm("tail_out_mm"),
            WaterlineBackMm = Mm("waterline_back_mm"),
            WaterlineBellyMm = Mm("waterline_belly_mm"),
            BackProudMm = Mm("back_proud_mm"),
            DepthMm = r.NumberOrNone("depth_mm", 1, 100_000),
            FromMm = r.NumberOrNone("from_mm", 0, 100_000),
            Seconds = r.NumberOrNone("seconds", 0.01, 100_000),
        };
        return reading with { WaterKept = water?.Close() ?? default, Kept = r.Close() };
    }

    /// <summary>The log as indented UTF-8 JSON; reading it back gives the same log, digit for digit.</summary>
    public static byte[] Write(TubLog log) => ObjectWriter.File(json =>
    {
        json.WriteNumber(VersionKey, Version);
        json.WriteString("name", log.Name);
        Text(json, "begun", log.Begun);
        Text(json, "finished", log.Finished);
        List(json, "scales", log.Scales, (j, s) =>
        {
            j.WriteString("id", s.Id);
            j.WriteNumber("resolution_g", s.ResolutionG);
            j.WriteNumber("capacity_g", s.CapacityG);
            Close(j, s.Kept);
        });
        List(json, "readings", log.Readings, (j, r) =>
        {
            j.WriteString("kind", Kinds.First(k => k.Kind == r.Kind).Word);
            if (r.Stage != Stage.Blank) j.WriteString("stage", r.Stage == Stage.DryFit ? "dry-fit" : Word(r.Stage));
            if (r.Rig != Rig.Bare) j.WriteString("rig", r.Rig == Rig.StandIns ? "standins" : Word(r.Rig));
            Text(j, "scale", r.Scale);
            if (r.Salinity != 0 || r.TemperatureC is not null || r.WaterKept.Count > 0)
            {
                j.WriteStartObject("water");
                Unless(j, "salinity", r.Salinity, 0);
                Number(j, "temperature_c", r.TemperatureC);
                Close(j, r.WaterKept);
            }
            if (r.Way != UnderWaterWay.Sinker) j.WriteString("way", Word(r.Way));
            if (r.Film) j.WriteBoolean("film", true);
            if (r.Soap) j.WriteBoolean("soap", true);
            if (r.Sat is { } sat) j.WriteString("sat", Word(sat));
            Text(j, "part", r.Part);
            if (r.SizeMm is { } size) Numbers(j, "size_mm", size);
            foreach ((string key, double? value) in r.Numbers) Number(j, key, value);
            Close(j, r.Kept);
        });
        Close(json, log.Kept);
    });
}

/// <summary>The file's words for kinds and ways, for other programs.</summary>
public static class LogWords
{
    public static string Of(ReadingKind kind) => LogFile.Kinds.First(k => k.Kind == kind).Word;

    public static string Of(Sat way) => Word(way);

    public static string Of(Box.Instrument instrument) => Word(instrument);
}
