using System.Reflection;
using System.Runtime.Loader;

namespace Trimwright.Frozen;

/// <summary>
/// The program loaded from its folder and entered at its own entry point, again and again in this process: starting costs more than
/// most answers. The console, the current folder and the environment are the whole process's, so nothing else may run in it.
/// </summary>
internal sealed class LoadedProgram : IProgram
{
    private readonly Assembly program;
    private readonly Caught output = new(1), error = new(2);

    public LoadedProgram(string folder)
    {
        string path = Path.GetFullPath(Path.Combine(folder, "trimwright.dll"));
        program = new Beside(path).LoadFromAssemblyPath(path);
        Version = program.GetName().Version!.ToString(3);
    }

    public string Version { get; }

    public (int Exit, string Out, string Error) Run(string[] arguments)
    {
        int exit = program.EntryPoint!.Invoke(null, [arguments]) as int? ?? 0;
        Console.Out.Flush();
        Console.Error.Flush();
        return (exit, output.Take(), error.Take());
    }

    /// <summary>Loads what lies beside the program; .NET itself comes from this process, also where the program brings its own.</summary>
    private sealed class Beside(string program) : AssemblyLoadContext("program")
    {
        private static readonly HashSet<string> OfDotNet = [.. ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!)
            .Split(Path.PathSeparator).Select(p => Path.GetFileNameWithoutExtension(p))];

        private readonly AssemblyDependencyResolver resolver = new(program);

        protected override Assembly? Load(AssemblyName name) =>
            OfDotNet.Contains(name.Name!) ? null : resolver.ResolveAssemblyToPath(name) is { } path ? LoadFromAssemblyPath(path) : null;

        protected override nint LoadUnmanagedDll(string name) =>
            resolver.ResolveUnmanagedDllToPath(name) is { } path ? LoadUnmanagedDllFromPath(path) : 0;
    }
}
