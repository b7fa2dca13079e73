using System.Globalization;
using System.Text.Json;
using Trimwright.Core.Doubt;

namespace Trimwright.Workshop;

/// <summary>The readings of a build, put together as the log file.</summary>
public static class BuildLog
{
    /// <summary>The kind of an entry in the store's log that holds a reading of the log file.</summary>
    public const string Entry = "reading";

    /// <summary>A build's log as the log file, without what was struck out.</summary>
    public static string Of(Store store, Build build, string name) => Around(name,
        [.. store.LogOf(build.Id).Where(e => !e.IsStruckOut && e.Entry.Kind == Entry).Select(e => e.Entry.Json)]);

    /// <summary>The build of a lure that readings go to: the newest, begun on the lure as it is now where there is none.</summary>
    public static Build? Begun(Store store, long lure, int n, string editId) => store.Builds(lure) is [.., var last] ? last : store.NewBuild(lure, n, "the first", editId);

    /// <summary>A log file around its readings. They are put together as they are kept, so that an export is what came in.</summary>
    public static string Around(string name, IEnumerable<string> readings) => string.Create(CultureInfo.InvariantCulture,
        $"{{\"{LogFile.VersionKey}\":{LogFile.Version},\"name\":{JsonSerializer.Serialize(name)},\"readings\":[{string.Join(',', readings)}]}}");
}
