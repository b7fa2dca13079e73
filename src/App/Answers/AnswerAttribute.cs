namespace Trimwright.App.Answers;

/// <summary>Marks a record that stands on standard output as a whole, and names the commands that print it.</summary>
/// <param name="commands">As typed, <c>predict</c>; the first also names the published schema.</param>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class AnswerAttribute(params string[] commands) : Attribute
{
    public IReadOnlyList<string> Commands => commands;
}

/// <summary>Marks a text that is one of the words for an enum's members (<see cref="AnswerWords"/>).</summary>
[AttributeUsage(AttributeTargets.Parameter | AttributeTargets.Property)]
internal sealed class WordOfAttribute<T> : Attribute
    where T : struct, Enum;
