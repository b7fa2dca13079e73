using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;

namespace Trimwright.App.Answers;

/// <summary>A maker's own habits, from finished builds.</summary>
/// <param name="Version">Of the hand: counts up with each lesson, and with each forgetting.</param>
/// <param name="Builds">Builds that taught, by day, then by name.</param>
/// <param name="Habits">Each habit.</param>
/// <param name="Untaught">Builds that could not teach.</param>
/// <param name="Warnings">Of the files.</param>
[Answer("learn")]
internal sealed record LearnJson(
    int Version, ImmutableArray<TaughtJson> Builds, ImmutableArray<HabitJson> Habits, ImmutableArray<UntaughtJson> Untaught, ImmutableArray<WarningJson> Warnings)
{
    public static LearnJson Of(Learned learned, IReadOnlyList<Warning> warnings) => new(
        learned.Told.Version, [.. learned.Told.Builds.Select(b => new TaughtJson(b.Name, b.Finished))],
        [.. Hand.Habits.Select(habit => HabitJson.Of(habit, learned.Told[habit]))], [.. learned.Untaught.Select(b => new UntaughtJson(b.Name, b.Why))],
        WarningJson.Of(warnings));
}

/// <summary>A build that taught.</summary>
/// <param name="Name">Of the lure.</param>
/// <param name="Finished">The day.</param>
internal sealed record TaughtJson(string Name, DateOnly Finished);

/// <summary>One habit.</summary>
/// <param name="Habit">What it is of.</param>
/// <param name="Builds">How many builds told of it.</param>
/// <param name="Middle">This maker's own, in usual standard deviations from the usual middle.</param>
/// <param name="Spread">How far the next build may lie from it, one standard deviation, likewise.</param>
internal sealed record HabitJson(string Habit, int Builds, double Middle, double Spread)
{
    public static HabitJson Of(string habit, Habit own) => new(habit, own.Builds, own.Mean, own.Spread);
}

/// <summary>A build that could not teach.</summary>
/// <param name="Name">Of the lure.</param>
/// <param name="Why">Why not.</param>
internal sealed record UntaughtJson(string Name, string Why);
