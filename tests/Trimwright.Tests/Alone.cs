namespace Trimwright.Tests;

/// <summary>Tests that measure the whole process, its heap, or the clock: nothing else runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
