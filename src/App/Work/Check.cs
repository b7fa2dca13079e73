using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Core.Doubt;

namespace Trimwright.App.Work;

/// <summary>What checking a file found; the name is that of what is in it, null when it is not sound.</summary>
internal sealed record Checked(string? Name, IReadOnlyList<Fault> Faults, IReadOnlyList<Warning> Warnings)
{
    public bool IsSound => Name is not null;
}

/// <summary>What a maker asks with <c>check</c>: is this file, a lure, a box, a log or a want, sound?</summary>
internal static class Check
{
    public static Checked Run(string file)
    {
        byte[] bytes = Files.Load(file);
        if (WantFile.IsWant(bytes)) return Of(WantFile.Read(bytes), want => $"The want ({WantWords.Of(want, Notation.Metric)})");
        if (LogFile.IsLog(bytes)) return Of(LogFile.Read(bytes), log => log.Name);
        return BoxFile.IsBox(bytes) ? Of(BoxFile.Read(bytes), box => box.Name) : Of(LureFile.Read(bytes), lure => lure.Name);
    }

    private static Checked Of<T>(Reading<T> reading, Func<T, string> name)
        where T : class => new(reading.Value is { } value ? name(value) : null, reading.Faults, reading.Warnings);
}
