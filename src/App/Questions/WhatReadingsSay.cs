using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.App.Questions;

/// <summary>What do all the readings of a build say of the lure in the sea, and by how much surer did they make it? A few sentences.</summary>
/// <param name="Design">The lure that it was begun on.</param>
/// <param name="Log">Its readings.</param>
/// <param name="Notation">The maker's units.</param>
internal sealed record WhatReadingsSay(LureDesign Design, TubLog Log, Notation Notation) : IQuestion<string>
{
    public bool IsWide => true;

    public string Answer(Pace pace)
    {
        Knowing knowing = Knowing.Of(new BuildModel(Design), Log, Circumstances.InTheSea, pace: pace);
        string said = $"In the sea, finished and rigged: {DoubtWords.GiveOrTake(knowing.After.Spare, Notation)}. Before any reading: {DoubtWords.GiveOrTake(knowing.Before.Spare, Notation, knowing.Drawn())}.";
        return string.Join(' ', (string[])[said, .. knowing.Flags.Where(f => f.Reading == Log.Readings.Length - 1).Select(f => DoubtWords.Of(f, Log.Readings[f.Reading], Notation) + ".")]);
    }
}
