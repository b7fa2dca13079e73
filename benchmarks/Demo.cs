using Trimwright.Core.Design;

namespace Trimwright.Benchmarks;

/// <summary>The demo lures, built in so that a benchmark needs no path.</summary>
internal static class Demo
{
    public static byte[] File(string name)
    {
        using Stream stream = typeof(Demo).Assembly.GetManifestResourceStream(name + ".lure.json")!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    public static LureDesign Lure(string name) => LureFile.Read(File(name)).Value!;
}
