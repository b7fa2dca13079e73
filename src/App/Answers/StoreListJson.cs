using System.Collections.Immutable;
using System.Globalization;
using Trimwright.Core.Box;
using Trimwright.Workshop;

namespace Trimwright.App.Answers;

/// <summary>What is kept.</summary>
/// <param name="Lures">Every lure, put away or not.</param>
/// <param name="Box">Name of the box; only when there is one.</param>
[Answer("store list")]
internal sealed record StoreListJson(
    ImmutableArray<KeptLureJson> Lures, [property: LeftOut] string? Box)
{
    public static StoreListJson Of(IReadOnlyList<KeptLure> lures, IReadOnlyList<Build> builds, Revision<MakersBox>? box) =>
        new([.. lures.Select(lure => KeptLureJson.Of(lure, builds))], box?.Name);
}

/// <summary>A lure that is kept.</summary>
/// <param name="Id">Its number, for --lure and --readings.</param>
/// <param name="Name">Its name.</param>
/// <param name="Revision">How many times it was saved.</param>
/// <param name="Saved">When it was last saved.</param>
/// <param name="PutAway">It is put away.</param>
/// <param name="Builds">How many times it is being built, or was.</param>
internal sealed record KeptLureJson(long Id, string Name, int Revision, string Saved, bool PutAway, int Builds)
{
    public static KeptLureJson Of(KeptLure lure, IReadOnlyList<Build> builds) => new(
        lure.Id, lure.Name, lure.Newest.N, lure.Newest.At.ToString("o", CultureInfo.InvariantCulture), lure.IsPutAway, builds.Count(b => b.Lure == lure.Id));
}

/// <summary>Every row of the store was looked at.</summary>
/// <param name="Whole">True: each is as it was written; anything else is a fault.</param>
/// <param name="Lures">How many lures.</param>
/// <param name="Revisions">In how many revisions.</param>
[Answer("store check")]
internal sealed record StoreCheckJson(bool Whole, int Lures, int Revisions);

/// <summary>A file was written.</summary>
/// <param name="Written">Its name, as it was given.</param>
[Answer("store backup", "store export")]
internal sealed record StoreWrittenJson(string Written);

/// <summary>The store is that of the backup now.</summary>
/// <param name="Replaced">Where the store from before is kept; null: there was none.</param>
[Answer("store restore")]
internal sealed record StoreRestoreJson(string? Replaced);

/// <summary>What a file held and the store lacked.</summary>
/// <param name="Lures">Lures that were not there.</param>
/// <param name="Revisions">Revisions of lures and box that were added, those of new lures among them.</param>
/// <param name="Builds">Builds that were not there.</param>
/// <param name="Entries">Log entries that were not there.</param>
/// <param name="Photos">Photos that were not there.</param>
/// <param name="Differing">What has gone different ways here and in the file, and was left as it is here.</param>
[Answer("store import")]
internal sealed record StoreImportJson(int Lures, int Revisions, int Builds, int Entries, int Photos, ImmutableArray<string> Differing)
{
    public static StoreImportJson Of(Imported added) => new(added.Lures, added.Revisions, added.Builds, added.Entries, added.Photos, [.. added.Differing]);
}
