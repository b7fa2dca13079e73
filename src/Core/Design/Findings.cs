using System.Globalization;

namespace Trimwright.Core.Design;

/// <summary>Collects faults and warnings over a whole file.</summary>
internal sealed class Findings
{
    // Nobody reads more, and a file of five million bytes could hold a fault in each.
    internal const int Most = 100;

    private int more;

    public List<Fault> Faults { get; } = [];

    /// <summary>Whether no further fault is taken; who has to look for its path needn't.</summary>
    public bool AreFull => Faults.Count >= Most;

    public List<Warning> Warnings { get; } = [];

    /// <summary>What the file leaves to names.</summary>
    public NamedKinds Named { get; } = new();

    /// <summary>In which units the file is.</summary>
    public FileUnits Units { get; init; } = new(null);

    /// <summary>A fault at a place, by the program's own keys; it is told by the file's, and in its units there.</summary>
    public void Add(string kind, string path, Remark got, Remark allowed, Remark next)
    {
        if (AreFull) return;
        string there = Units.Path(path);
        bool IsOther(OtherUnit unit) => Units.IsOther(unit, there);
        var fault = new Fault(kind, there, got.In(IsOther), allowed.In(IsOther), next.In(IsOther));
        if (!Faults.Contains(fault)) Faults.Add(fault);
    }

    public void Warn(string path, Remark text)
    {
        if (!TakesWarning()) return;
        string there = Units.Path(path);
        Warnings.Add(new Warning(there, text.In(unit => Units.IsOther(unit, there))));
    }

    /// <summary>Whether a warning that takes some finding is to be worked out and added; otherwise it has been counted.</summary>
    public bool TakesWarning()
    {
        if (Warnings.Count < Most) return true;
        more++;
        return false;
    }

    /// <summary>What is told of them: at the end, how many were left out.</summary>
    public IEnumerable<Warning> Told => more == 0 ? Warnings : [.. Warnings, new Warning("the file", $"{more} more notes of this kind are left out")];

    /// <summary>A number for a message: at most so many decimals, but a small number never as 0.</summary>
    public static string Show(double value, int decimals = 6) =>
        value != 0 && Math.Abs(value) < 0.5 * Math.Pow(10, -decimals)
            ? value.ToString("0.###e0", CultureInfo.InvariantCulture)
            : value.ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
}
