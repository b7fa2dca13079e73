using System.IO.Pipes;
using System.Runtime.InteropServices;
using System.Text;

namespace Trimwright.Frozen;

/// <summary>
/// What this process writes to standard output or standard error, by whichever way: the descriptor itself leads into a pipe from here
/// on. A writer that was opened before still writes to where it did. Not on Windows, where handles are no descriptors.
/// </summary>
internal sealed class Caught
{
    private readonly AnonymousPipeServerStream from = new(PipeDirection.In);
    private readonly AnonymousPipeClientStream into;
    private readonly byte[] end = Guid.NewGuid().ToByteArray();
    private readonly List<byte> read = [];
    private readonly SemaphoreSlim ended = new(0);

    /// <param name="descriptor">1 for standard output, 2 for standard error.</param>
    public Caught(int descriptor)
    {
        into = new(PipeDirection.Out, from.ClientSafePipeHandle);
        if (Duplicate((int)into.SafePipeHandle.DangerousGetHandle(), descriptor) < 0)
            throw new IOException($"descriptor {descriptor} can't be led into a pipe: {Marshal.GetLastPInvokeErrorMessage()}");
        new Thread(Read) { IsBackground = true }.Start();
    }

    /// <summary>What was written since the last time.</summary>
    public string Take()
    {
        // Copies of the descriptor may stay open, so that the pipe never ends; a mark behind everything says where this part does.
        into.Write(end);
        ended.Wait();
        lock (read)
        {
            int length = CollectionsMarshal.AsSpan(read).IndexOf(end);
            string text = Encoding.UTF8.GetString(CollectionsMarshal.AsSpan(read)[..length]);
            read.RemoveRange(0, length + end.Length);
            return text;
        }
    }

    private void Read()
    {
        var buffer = new byte[65536];
        while (from.Read(buffer) is var count and > 0)
            lock (read)
            {
                int known = Math.Max(read.Count - end.Length, 0);
                read.AddRange(buffer.AsSpan(0, count));
                if (CollectionsMarshal.AsSpan(read)[known..].IndexOf(end) >= 0) ended.Release();
            }
    }

    [DllImport("libc", EntryPoint = "dup2", SetLastError = true)]
    private static extern int Duplicate(int descriptor, int onto);
}
