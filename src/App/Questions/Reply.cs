using Trimwright.Core.Design;

namespace Trimwright.App.Questions;

/// <summary>
/// What comes of a question that may have no answer: one of three, and nothing else. Whoever asks says what to do with each, so
/// that none is forgotten. A question that always has an answer gives it plainly.
/// </summary>
internal abstract record Reply<T>
    where T : class
{
    private Reply()
    {
    }

    /// <summary>Does with each what is said for it.</summary>
    public abstract TOut Match<TOut>(Func<T, TOut> found, Func<Cannot, TOut> cannot, Func<Wrong, TOut> wrong);

    public static implicit operator Reply<T>(T found) => new Found(found);

    public static implicit operator Reply<T>(Flaw flaw) => new Wrong(flaw);

    /// <summary>The answer.</summary>
    internal sealed record Found(T Value) : Reply<T>
    {
        public override TOut Match<TOut>(Func<T, TOut> found, Func<Cannot, TOut> cannot, Func<Wrong, TOut> wrong) => found(Value);
    }

    /// <summary>All was understood, and there is no answer.</summary>
    /// <param name="Because">What stands in the way.</param>
    /// <param name="Sought">What was worked out on the way and is worth showing; null when nothing was.</param>
    internal sealed record Cannot(Fault Because, T? Sought = null) : Reply<T>
    {
        public override TOut Match<TOut>(Func<T, TOut> found, Func<Cannot, TOut> cannot, Func<Wrong, TOut> wrong) => cannot(this);
    }

    /// <summary>Something in the question is wrong.</summary>
    internal sealed record Wrong(Flaw Flaw) : Reply<T>
    {
        public override TOut Match<TOut>(Func<T, TOut> found, Func<Cannot, TOut> cannot, Func<Wrong, TOut> wrong) => wrong(this);
    }
}

/// <summary>What is wrong with a question.</summary>
/// <param name="Part">Which part of it: the name of its property. Whoever asks knows what that is called where it was said.</param>
/// <param name="Fault">What is wrong there, in words that fit a page as well as a command; its path is in that part.</param>
internal sealed record Flaw(string Part, Fault Fault);
