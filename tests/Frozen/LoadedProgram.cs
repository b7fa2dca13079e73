using System.Reflection;
using System.Runtime.Loader;
using System.Text;

namespace Trimwright.Frozen;

/// <summary>
/// The program loaded from its folder and entered at its own entry point, again and again in this process: starting costs more than
/// most answers. The console, the current folder and the environment are the whole process's, so nothing else may run in it.
/// </summary>
internal sealed class LoadedProgram : IProgram
{
    private readonly Assembly program;
    private readonly TurnedWriter output = new(), error = new();

    public LoadedProgram(string folder)
    {
        string path = Path.GetFullPath(Path.Combine(folder, "trimwright.dll"));
        program = new Beside(path).LoadFromAssemblyPath(path);
        Version = program.GetName().Version!.ToString(3);
        // Libraries keep the console's writer once they have it; these stay, and what they write into changes.
        Console.SetOut(output);
        Console.SetError(error);
    }

    public string Version { get; }

    public (int Exit, string Out, string Error) Run(string[] arguments)
    {
        (output.Into, error.Into) = (new StringBuilder(), new StringBuilder());
        int exit = program.EntryPoint!.Invoke(null, [arguments]) as int? ?? 0;
        return (exit, output.Into.ToString(), error.Into.ToString());
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

    private sealed class TurnedWriter : TextWriter
    {
        public StringBuilder Into { get; set; } = new();

        public override Encoding Encoding { get; } = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

        public override void Write(char value)
        {
            lock (this) Into.Append(value);
        }

        public override void Write(char[] buffer, int index, int count)
        {
            lock (this) Into.Append(buffer, index, count);
        }

        public override void Write(string? value)
        {
            lock (this) Into.Append(value);
        }
    }
}
