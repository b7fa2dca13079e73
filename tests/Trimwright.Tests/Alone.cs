namespace Trimwright.Tests;

/// <summary>Tests that measure the whole process or its heap, or turn what is the whole process's: nothing else runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
