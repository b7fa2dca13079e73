using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.App.Questions;

/// <summary>A starter read, looked at, moved and drawn, as under a hand.</summary>
internal sealed record TrialLook(LureDesign Design) : IQuestion<Look>
{
    public Look Answer(Pace pace)
    {
        LureFile.Read(LureFile.Write(Design));
        Drawn.Outlines(new OutlineSheet(Design.Body), Design, null, Notation.Metric);
        return Look.Following(Design, Look.At(Design, Circumstances.InTheSea, Notation.Metric), Notation.Metric);
    }
}
