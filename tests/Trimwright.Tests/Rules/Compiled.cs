using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Trimwright.Tests.Rules;

/// <summary>The program as it was compiled, components of pages included: which type uses what.</summary>
internal static class Compiled
{
    private static readonly Lazy<ModuleDefinition> app = new(() =>
    {
        var beside = new DefaultAssemblyResolver();
        beside.AddSearchDirectory(AppContext.BaseDirectory);
        return ModuleDefinition.ReadModule(typeof(global::Trimwright.App.Faults.Exit).Assembly.Location, new ReaderParameters { AssemblyResolver = beside });
    });

    private const string Ours = "Trimwright.App.";

    /// <summary>The types of a room, those that the compiler made inside them among them.</summary>
    public static IEnumerable<TypeDefinition> Of(string room) => app.Value.Types.Where(t => RoomOf(t) == room).SelectMany(WithNested);

    /// <summary>All types of App that stand in no room but the program's own entry and what the compiler put apart.</summary>
    public static IEnumerable<string> RoomsInUse => app.Value.Types.Select(RoomOf).OfType<string>().Distinct();

    /// <summary>The room of a type; null when it is none of App's rooms.</summary>
    public static string? RoomOf(TypeReference type)
    {
        while (type.DeclaringType is { } outer) type = outer;
        return type.Namespace.StartsWith(Ours, StringComparison.Ordinal) ? type.Namespace[Ours.Length..].Split('.')[0] : null;
    }

    /// <summary>Every type that a type names: in bases, fields, properties, signatures, attributes and code.</summary>
    public static IEnumerable<TypeReference> Uses(TypeDefinition type)
    {
        IEnumerable<TypeReference?> own = [type.BaseType, .. type.Interfaces.Select(i => i.InterfaceType), .. type.Fields.Select(f => f.FieldType), .. type.CustomAttributes.Select(a => a.AttributeType)];
        IEnumerable<TypeReference?> signatures = type.Methods.SelectMany(m => m.Parameters.Select(p => p.ParameterType).Append(m.ReturnType).Concat(m.CustomAttributes.Select(a => a.AttributeType)));
        IEnumerable<TypeReference?> code = Code(type).SelectMany(i => i.Operand switch
        {
            TypeReference used => [used],
            FieldReference field => [field.DeclaringType, field.FieldType],
            MethodReference method => [method.DeclaringType, method.ReturnType, .. method.Parameters.Select(p => p.ParameterType), .. method is GenericInstanceMethod g ? g.GenericArguments : []],
            _ => (IEnumerable<TypeReference?>)[],
        });
        return own.Concat(signatures).Concat(code).OfType<TypeReference>().SelectMany(Spelt).DistinctBy(t => t.FullName);
    }

    /// <summary>What a type calls: the methods themselves.</summary>
    public static IEnumerable<MethodReference> Calls(TypeDefinition type) => Code(type).Select(i => i.Operand).OfType<MethodReference>();

    /// <summary>The texts in a type's code and constants.</summary>
    public static IEnumerable<string> Texts(TypeDefinition type) =>
        Code(type).Where(i => i.OpCode == OpCodes.Ldstr).Select(i => (string)i.Operand).Concat(type.Fields.Where(f => f.HasConstant).Select(f => f.Constant).OfType<string>());

    private static IEnumerable<Instruction> Code(TypeDefinition type) => type.Methods.Where(m => m.HasBody).SelectMany(m => m.Body.Instructions);

    // A list of a thing names both.
    private static IEnumerable<TypeReference> Spelt(TypeReference type) => type switch
    {
        GenericInstanceType generic => generic.GenericArguments.SelectMany(Spelt).Append(generic.ElementType),
        TypeSpecification wrapped => Spelt(wrapped.ElementType),
        GenericParameter => [],
        _ => [type],
    };

    private static IEnumerable<TypeDefinition> WithNested(TypeDefinition type) => type.NestedTypes.SelectMany(WithNested).Prepend(type);
}
