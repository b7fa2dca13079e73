using Trimwright.App.Scheduling;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.App.Questions;

/// <summary>Is what was written, a lure, a box, a log or a want, sound?</summary>
/// <param name="Text">As UTF-8.</param>
/// <param name="Notation">The maker's units.</param>
internal sealed record IsItSound(ReadOnlyMemory<byte> Text, Notation Notation) : IQuestion<Checked>
{
    public Checked Answer(Pace pace)
    {
        byte[] bytes = Text.ToArray();
        if (WantFile.IsWant(bytes)) return Of(WantFile.Read(bytes), want => $"The want ({WantWords.Of(want, Notation)})");
        if (LogFile.IsLog(bytes)) return Of(LogFile.Read(bytes), log => log.Name);
        return BoxFile.IsBox(bytes) ? Of(BoxFile.Read(bytes), box => box.Name) : Of(LureFile.Read(bytes), lure => lure.Name);
    }

    private static Checked Of<T>(Reading<T> reading, Func<T, string> name)
        where T : class => new(reading.Value is { } value ? name(value) : null, reading.Faults, reading.Warnings);
}

/// <summary>What was found; the name is that of what is in it, null when it is not sound.</summary>
internal sealed record Checked(string? Name, IReadOnlyList<Fault> Faults, IReadOnlyList<Warning> Warnings)
{
    public bool IsSound => Name is not null;
}
