namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>serve</c>: the page, on this machine.</summary>
/// <param name="Port">0: any that is free.</param>
/// <param name="OpenBrowser">Open it at once, or only print its address.</param>
/// <param name="Store">The store's file; null: the account's own.</param>
internal sealed record ServeRequest(int Port, bool OpenBrowser, string? Store);
