namespace Trimwright.Core.Design;

/// <summary>
/// A kind of ours that answers for itself what others ask of it, so that a new one is a file of its own and a place in the list of its
/// like. It is compared by reference: there is one of each.
/// </summary>
public interface IKind
{
    /// <summary>By which files and answers know it.</summary>
    string Word { get; }
}
