namespace Trimwright.Frozen;

/// <summary>What an <see cref="Ask"/> got: one part for each command.</summary>
internal sealed record Answer(Said[] Said);

/// <summary>What one command said and wrote.</summary>
/// <param name="Command">Its arguments.</param>
/// <param name="Exit">Its exit status.</param>
/// <param name="Out">Standard output.</param>
/// <param name="Error">Standard error.</param>
/// <param name="Files">What it wrote, by path: text as it is, a PDF as the text on it, of other bytes only their hash.</param>
internal sealed record Said(string[] Command, int Exit, string Out, string Error, SortedDictionary<string, string> Files)
{
    /// <summary>A PDF where no <c>pdftotext</c> is installed: it is there, and nothing is known of its text.</summary>
    public const string Unread = "a PDF that nothing here can read";
}
