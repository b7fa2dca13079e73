using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Trimwright.Tests.Rules;

/// <summary>
/// A switch over one of our own kinds names each of them, so that a new one is asked for by the compiler (CS8509) wherever it is
/// forgotten: no discard stands for the rest, and no statement passes one by silently. Over a hierarchy its members answer themselves.
/// </summary>
public partial class SilentRests
{
    private static readonly string[] Projects = ["Core", "Drawing", "Workshop", "App"];

    [Fact]
    public void No_switch_over_our_own_kinds_has_a_silent_rest()
    {
        var found = new List<string>();
        int switches = 0;
        var earlier = new List<CSharpCompilation>();
        foreach (string project in Projects)
        {
            CSharpCompilation compilation = Read(project, earlier);
            earlier.Add(compilation);
            foreach (SyntaxTree tree in compilation.SyntaxTrees.Where(t => t.FilePath.Length > 0))
            {
                SemanticModel model = compilation.GetSemanticModel(tree);
                foreach (SyntaxNode node in tree.GetRoot().DescendantNodes())
                    if (Silent(node, model) is { } silent)
                    {
                        switches++;
                        if (silent.Length > 0) found.Add($"{tree.FilePath}:{node.GetLocation().GetLineSpan().StartLinePosition.Line + 1}: {silent}");
                    }
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{switches} switches over our own kinds, {found.Count} with a silent rest");
        Assert.True(switches > 60, "too few switches were found to mean anything; mend the scan");
        Assert.True(found.Count == 0, $"{found.Count}:\n{string.Join("\n", found)}\nName each kind, or let the kinds answer by a member.");
    }

    [Theory]
    [InlineData("string A(K k) => k switch { K.One => \"\", _ => \"x\" };", 1)]
    [InlineData("string A(K k) => k switch { K.One => \"\", var other => $\"{other}\" };", 1)]
    [InlineData("string A(K k, bool b) => (k, b) switch { (K.One, true) => \"\", _ => \"x\" };", 1)]
    [InlineData("string A(K? k) => k switch { K.One => \"\", null => \"\", _ => \"x\" };", 1)]
    [InlineData("string A(H h) => h switch { H.First => \"\", _ => \"x\" };", 1)]
    [InlineData("void A(K k) { switch (k) { case K.One: break; } }", 1)]
    [InlineData("string A(K k) => k switch { K.One => \"\", K.Two => \"x\" };", 0)]
    [InlineData("string A(int n) => n switch { 1 => \"\", _ => \"x\" };", 0)]
    [InlineData("string A(string s) => s switch { \"one\" => \"\", _ => \"x\" };", 0)]
    public void A_silent_rest_is_known_when_it_is_seen(string member, int silent)
    {
        SyntaxTree tree = CSharpSyntaxTree.ParseText($"enum K {{ One, Two }} abstract record H {{ public sealed record First : H; }} class C {{ {member} }}", path: "a.cs");
        CSharpCompilation compilation = CSharpCompilation.Create("a", [tree], Framework());
        SemanticModel model = compilation.GetSemanticModel(tree);
        Assert.Equal(silent, tree.GetRoot().DescendantNodes().Count(n => Silent(n, model) is { Length: > 0 }));
    }

    // Null: no switch over a kind of ours; empty: one that names each of them.
    private static string? Silent(SyntaxNode node, SemanticModel model) => node switch
    {
        SwitchExpressionSyntax s when Kind(s.GoverningExpression, model) is { } kind => s.Arms.FirstOrDefault(a => IsRest(a.Pattern)) is { } rest
            ? $"{kind}: \"{rest.Pattern}{rest.WhenClause} =>\" stands for the rest" : "",
        SwitchStatementSyntax s when Kind(s.Expression, model) is { } kind => $"{kind}: a statement lets what it doesn't name pass",
        _ => null,
    };

    private static bool IsRest(PatternSyntax pattern) => pattern is DiscardPatternSyntax or VarPatternSyntax { Designation: SingleVariableDesignationSyntax or DiscardDesignationSyntax };

    private static string? Kind(ExpressionSyntax governing, SemanticModel model) => governing is TupleExpressionSyntax tuple
        ? tuple.Arguments.Select(a => model.GetTypeInfo(a.Expression).Type).FirstOrDefault(IsOurs)?.Name
        : model.GetTypeInfo(governing).Type is { } type && IsOurs(type) ? Bare(type).Name : null;

    private static ITypeSymbol Bare(ITypeSymbol type) => type is INamedTypeSymbol { OriginalDefinition.SpecialType: SpecialType.System_Nullable_T } nullable ? nullable.TypeArguments[0] : type;

    // An enum of ours, or the root of a hierarchy; of an earlier project too, which stands as a reference of its sources.
    private static bool IsOurs(ITypeSymbol? type) => type is not null && Bare(type) is var bare && bare.Locations.Any(l => l.IsInSource)
        && (bare.TypeKind == TypeKind.Enum || (bare.TypeKind == TypeKind.Class && bare.IsAbstract) || bare.TypeKind == TypeKind.Interface);

    private static CSharpCompilation Read(string project, IReadOnlyList<CSharpCompilation> earlier)
    {
        var options = new CSharpParseOptions(LanguageVersion.Latest);
        string usings = string.Concat(Usings(project).Select(u => $"global using {u};\n"));
        IEnumerable<SyntaxTree> code = Sources.Files($"src/{project}", ".cs").Select(f => CSharpSyntaxTree.ParseText(Sources.Text(f), options, f));
        IEnumerable<SyntaxTree> pages = Sources.Files($"src/{project}", ".razor").Select(f => CSharpSyntaxTree.ParseText(Class(f), options, f));
        return CSharpCompilation.Create($"Trimwright.{project}.Read", [.. code, .. pages, CSharpSyntaxTree.ParseText(usings, options)],
            [.. Framework(), .. earlier.Select(e => e.ToMetadataReference())], new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary, nullableContextOptions: NullableContextOptions.Enable));
    }

    private static string[] Usings(string project) =>
    [
        "System", "System.Collections.Generic", "System.IO", "System.Linq", "System.Net.Http", "System.Threading", "System.Threading.Tasks",
        .. project == "App" ? (string[])["Microsoft.AspNetCore.Builder", "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Http", "Microsoft.AspNetCore.Routing",
            "Microsoft.Extensions.Configuration", "Microsoft.Extensions.DependencyInjection", "Microsoft.Extensions.Hosting", "Microsoft.Extensions.Logging"] : [],
    ];

    // Everything that the tests run on, but our own as it was compiled: that is read from its sources.
    private static IEnumerable<MetadataReference> Framework() => ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
        .Where(p => Path.GetFileNameWithoutExtension(p) is var name && !name.StartsWith("Trimwright", StringComparison.Ordinal) && name != "trimwright").Select(p => MetadataReference.CreateFromFile(p));

    // The code of a component as a class of its own, line for line; what stands between its tags is asked for apart.
    private static string Class(string file)
    {
        string text = Sources.Text(file);
        int code = text.IndexOf("@code {", StringComparison.Ordinal);
        string markup = code < 0 ? text : text[..code];
        Assert.False(Switch().IsMatch(markup), $"{file}: a switch between tags; give it a name in @code");
        if (code < 0) return "";
        string imports = string.Concat(Using().Matches(Sources.Text("src/App/Pages/_Imports.razor") + markup).Select(m => $"using {m.Groups[1].Value};"));
        string fields = string.Concat(Inject().Matches(markup).Select(m => $"private {m.Groups[1].Value} {m.Groups[2].Value} = null!;"));
        string before = new('\n', markup.Count(c => c == '\n'));
        return $"{imports} namespace Trimwright.App.Pages; partial class {Path.GetFileNameWithoutExtension(file)} : Microsoft.AspNetCore.Components.ComponentBase {{ {fields} {before} {text[(code + "@code {".Length)..]}";
    }

    [GeneratedRegex(@"\bswitch\b")]
    private static partial Regex Switch();

    [GeneratedRegex(@"^@using ((?:static )?[\w.]+)", RegexOptions.Multiline)]
    private static partial Regex Using();

    [GeneratedRegex(@"^@inject ([\w<>]+) (\w+)", RegexOptions.Multiline)]
    private static partial Regex Inject();
}
