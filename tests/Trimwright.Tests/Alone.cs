namespace Trimwright.Tests;

/// <summary>Tests that measure the whole process, its heap above all: nothing else runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
