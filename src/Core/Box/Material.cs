namespace Trimwright.Core.Box;

/// <summary>
/// A metal that weights are made of. The density is as tabled; cast pieces with voids come 1 to 3 % lighter (common
/// practice, no source). <c>IsLead</c>: it holds lead, whatever else it holds.
/// </summary>
public sealed record Material(string Id, string Name, double DensityGPerCm3, Source Source, bool IsLead = false);
