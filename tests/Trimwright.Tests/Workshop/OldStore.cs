using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A store that the program kept when it knew lures and box only; the file lies beside this one.</summary>
internal static class OldStore
{
    public static string Kept => Path.Combine(Here.Root, "tests", "Trimwright.Tests", "Workshop", "store-v1.trimwright");

    public static void Put(string path) => File.Copy(Kept, path);

    /// <summary>Everything that was in it is there, with its times and their offset.</summary>
    public static void Check(Store store)
    {
        Assert.Equal(["Tidegate 185", "Tidegate, with 3/0 [8.5 g]", "Tidegate 185"], store.History(1).Select(r => r.Name));
        Assert.Equal(["new", "renamed", "undo"], store.History(1).Select(r => r.Cause));
        Assert.Equal(1, store.Newest(1)!.SameAs);
        Assert.Equal("fixture-02", store.Revision(1, 2)!.EditId);
        Assert.Equal(new DateTimeOffset(2026, 10, 24, 20, 3, 0, TimeSpan.FromHours(2)), store.Revision(1, 2)!.At);
        Assert.Equal(TimeSpan.FromHours(2), store.Revision(1, 2)!.At.Offset);
        Assert.True(store.Revision(1, 1)!.Read().IsSound);
        KeptLure away = Assert.Single(store.Lures(withPutAway: true), l => l.Id == 2);
        Assert.True(away.IsPutAway);
        Assert.Equal(("first box", 1), (store.Box()!.Cause, store.Box()!.N));
        Assert.True(store.Box()!.Read().IsSound);
    }

    /// <summary>Whether a copy holds what the old store held, at its old version.</summary>
    public static bool IsWhole(string copy)
    {
        using var theirs = Connections.OpenToLook(copy);
        using var ours = Connections.OpenToLook(Kept);
        const string All = "SELECT lure || n || edit_id || at_utc || offset_min || cause || design FROM revision UNION ALL SELECT n || contents FROM box_revision";
        return theirs.Number("PRAGMA user_version") == 1 && theirs.One("PRAGMA integrity_check") == "ok"
            && ours.All(All, r => r.GetString(0)).SequenceEqual(theirs.All(All, r => r.GetString(0)));
    }
}
