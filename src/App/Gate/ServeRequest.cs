namespace Trimwright.App.Gate;

/// <summary>The page, on this machine.</summary>
/// <param name="Port">0: any that is free.</param>
/// <param name="OpenBrowser">Open it at once, or only print its address.</param>
/// <param name="Store">The store's file.</param>
internal sealed record ServeRequest(int Port, bool OpenBrowser, string Store);
