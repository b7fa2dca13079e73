using Trimwright.Core.Design;

namespace Trimwright.Core.Ballast;

/// <summary>
/// The want file, <c>NAME.want.json</c>, version 1, with the manners of <see cref="LureFile"/>: this reader is the only
/// validator, and <c>want.schema.json</c> accepts everything that it accepts.
/// </summary>
public static class WantFile
{
    public const int Version = 1;

    /// <summary>The key that holds the version, and by which a want is told from a lure.</summary>
    public const string VersionKey = "trimwright_want";

    /// <summary>The whole of it: what is read and the schema come from the same keys.</summary>
    internal static readonly FileForm<Want> Form = new("want:1", VersionKey, Version, "A want",
        "How a lure is to sit or fall, version 1 of the format. Units stand in the names of keys; numbers use a dot. Keys that are not listed here are "
        + "reported, but for those that start with x-. A reader refuses more than a schema can say: a floating lure has one of spare_g, nose_out_mm and eyes_at_waterline, "
        + "a falling one seconds_per_metre, and neither has the other's.",
        "This want was written by a newer Trimwright; use that one.", Want.Form);

    /// <summary>Reads a want from UTF-8 JSON; lists every fault.</summary>
    public static Reading<Want> Read(ReadOnlySpan<byte> utf8) => Form.Read(utf8, (_, _) => { });

    /// <summary>Whether a file means to be a want.</summary>
    public static bool IsWant(ReadOnlySpan<byte> utf8) => Form.IsMeant(utf8);
}
