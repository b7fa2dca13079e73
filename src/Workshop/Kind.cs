using System.Text;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>What a chain is of: its table, and Core's reader and writer of the text. The store parses nothing itself.</summary>
internal sealed record Kind<T>(string Table, string Owner, string Text, Func<byte[], Reading<T>> Read, Func<T, byte[]> Write, Func<T, string> Name)
    where T : class
{
    public string TextOf(T value) => Encoding.UTF8.GetString(Write(value));
}

internal static class Kind
{
    public static readonly Kind<LureDesign> Lure =
        new("revision", "lure", "design", bytes => LureFile.Read(bytes), LureFile.Write, design => design.Name);

    public static readonly Kind<MakersBox> Box =
        new("box_revision", "box", "contents", bytes => BoxFile.Read(bytes), BoxFile.Write, box => box.Name);

    public static Kind<T> Of<T>()
        where T : class =>
        Lure as Kind<T> ?? Box as Kind<T> ?? throw new ArgumentException($"no chain of {typeof(T).Name}");
}
