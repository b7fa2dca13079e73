using System.Globalization;
using Trimwright.Core.Design;

namespace Trimwright.Core.Doubt;

/// <summary>
/// The hand file, <c>NAME.hand.json</c>, version 1 of the format, with the manners of <see cref="LureFile"/>: this reader is
/// the only validator, and <c>hand.schema.json</c> accepts everything that it accepts.
/// </summary>
public static class HandFile
{
    public const int Version = 1;

    /// <summary>The key that holds the version of the format, and by which a hand is told from a lure.</summary>
    public const string VersionKey = "trimwright_hand";

    private const string Day = "yyyy-MM-dd";

    /// <summary>The whole of it: what is read, what is written and the schema come from the same keys.</summary>
    internal static readonly FileForm<Hand> Form = new("hand:1", VersionKey, Version, "A maker's hand",
        "How a maker carves, glues, seals and coats, by finished builds; version 1 of the format. Keys that are not listed here are reported, "
        + "but for those that start with x-.",
        "This hand was written by a newer Trimwright; use that one.", Hand.Form);

    /// <summary>Reads a hand from UTF-8 JSON; lists every fault.</summary>
    public static Reading<Hand> Read(ReadOnlySpan<byte> utf8) => Form.Read(utf8, (_, _) => { });

    /// <summary>Whether a file means to be a hand.</summary>
    public static bool IsHand(ReadOnlySpan<byte> utf8) => Form.IsMeant(utf8);

    /// <summary>A day as files write it; null when it is none.</summary>
    public static DateOnly? DayOf(string? text) =>
        DateOnly.TryParseExact(text, Day, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;

    /// <summary>That day in a file.</summary>
    internal static string Of(DateOnly day) => day.ToString(Day, CultureInfo.InvariantCulture);

    /// <summary>The hand as indented UTF-8 JSON; reading it back gives the same hand, digit for digit.</summary>
    public static byte[] Write(Hand hand) => Form.Write(hand);
}
