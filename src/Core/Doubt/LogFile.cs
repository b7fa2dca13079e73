using Trimwright.Core.Design;
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

    /// <summary>The whole of it: what is read, what is written and the schema come from the same keys.</summary>
    internal static readonly FileForm<TubLog> Form = new("log:1", VersionKey, Version, "A tub log",
        "The readings of one lure, version 1 of the format, in the order in which they were made. Units stand in the names of keys; numbers use a dot. "
        + "Keys that are not listed are kept, written back and reported, but for those that start with x-. A reader refuses more than a schema can say: "
        + "a reading without the numbers that its kind needs, a scale that is not listed or not that strong.",
        "This log was written by a newer Trimwright; use that one, or save it there as an older version.", TubLog.Form);

    /// <summary>Reads a log from UTF-8 JSON; refuses and keeps what <see cref="LureFile.Read"/> does, and lists every fault.</summary>
    /// <param name="utf8">The file's bytes.</param>
    public static Reading<TubLog> Read(ReadOnlySpan<byte> utf8) => Form.Read(utf8, LogSoundness.Check);

    /// <summary>Whether a file means to be a log: its top object has the log's version key.</summary>
    public static bool IsLog(ReadOnlySpan<byte> utf8) => Form.IsMeant(utf8);

    /// <summary>The log as indented UTF-8 JSON; reading it back gives the same log, digit for digit.</summary>
    public static byte[] Write(TubLog log) => Form.Write(log);
}

/// <summary>The file's words for ways and instruments, for other programs.</summary>
public static class LogWords
{
    public static string Of(Sat way) => Word(way);

    public static string Of(Box.Instrument instrument) => Word(instrument);
}
