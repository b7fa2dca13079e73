using System.Diagnostics.Tracing;
using Microsoft.Diagnostics.NETCore.Client;
using Microsoft.Diagnostics.Tracing;
using Microsoft.Diagnostics.Tracing.Parsers;

namespace Trimwright.Browser;

/// <summary>What another .NET program still holds after a full collection, asked from outside by its own diagnostics.</summary>
internal static class LiveHeap
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>Collects everything there and returns the megabytes that stay, all generations and large objects.</summary>
    public static async Task<double> Megabytes(int process)
    {
        var client = new DiagnosticsClient(process);
        // Asking for this keyword is what makes the runtime collect; the sizes come with the end of that collection.
        using EventPipeSession session = await client.StartEventPipeSessionAsync(
            [new EventPipeProvider("Microsoft-Windows-DotNETRuntime", EventLevel.Informational, (long)(ClrTraceEventParser.Keywords.GC | ClrTraceEventParser.Keywords.GCHeapCollect))],
            requestRundown: false, circularBufferMB: 16, CancellationToken.None);
        var size = new TaskCompletionSource<double>(TaskCreationOptions.RunContinuationsAsynchronously);
        int full = -1;
        Task reading = Task.Run(() =>
        {
            using var source = new EventPipeEventSource(session.EventStream);
            source.Clr.GCStart += begun =>
            {
                // The program's own collections of young objects may come between.
                if (begun.Depth == 2) full = begun.Count;
            };
            source.Clr.GCHeapStats += heap =>
            {
                if (full >= 0) size.TrySetResult((heap.GenerationSize0 + heap.GenerationSize1 + heap.GenerationSize2 + heap.GenerationSize3 + heap.GenerationSize4) / 1e6);
            };
            source.Process();
        });
        try
        {
            return await size.Task.WaitAsync(Patience);
        }
        finally
        {
            await session.StopAsync(CancellationToken.None);
            await reading.WaitAsync(Patience);
        }
    }
}
