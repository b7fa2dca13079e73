namespace Trimwright.Drawing;

/// <summary>To which side of a drawing the nose points: makers draw it as they hold it.</summary>
public enum Nose
{
    Left,
    Right,
}
