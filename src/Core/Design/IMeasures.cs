namespace Trimwright.Core.Design;

/// <summary>How a maker's numbers are written, for kinds that say in words what they are.</summary>
public interface IMeasures
{
    /// <summary>A plain number.</summary>
    string Number(double value, int decimals);

    /// <summary>A length in mm, to the whole mm, with its unit.</summary>
    string Length(double mm);

    /// <summary>A length in mm as a caliper reads it, with its unit.</summary>
    string Caliper(double mm);
}
