namespace Trimwright.Workshop;

/// <summary>What the maker chose for the page, kept by name.</summary>
public sealed partial class Store
{
    /// <summary>A choice, null when it was never made.</summary>
    public string? Setting(string name) => Read(db => db.One("SELECT value FROM setting WHERE name = @1", name));

    /// <summary>Keeps a choice; whoever watches hears of it.</summary>
    public void Choose(string name, string value) => InTransaction(db =>
        (db.Do("INSERT INTO setting (name, value) VALUES (@1, @2) ON CONFLICT (name) DO UPDATE SET value = @2 WHERE value <> @2", name, value), true));

    /// <summary>Looks through the whole store: pages, references, chains, and every row against its seal. Null when it is whole.</summary>
    public Core.Design.Fault? Check() => ReadAtOnce(db => Health.Of(db) is { } damage ? StoreRefusal.Damaged(Path, damage).Fault : null);
}
