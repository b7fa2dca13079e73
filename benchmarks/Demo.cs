using Trimwright.Core.Design;
using Trimwright.Core.Doubt;

namespace Trimwright.Benchmarks;

/// <summary>The demo lures, built in so that a benchmark needs no path.</summary>
internal static class Demo
{
    public static byte[] File(string name)
    {
        using Stream stream = typeof(Demo).Assembly.GetManifestResourceStream(name)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    public static LureDesign Lure(string name) => LureFile.Read(File(name + ".lure.json")).Value!;

    public static TubLog Log(string name) => LogFile.Read(File(name + ".log.json")).Value!;
}
