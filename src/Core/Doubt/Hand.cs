using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Doubt;

/// <summary>What one finished build told about one habit of its maker: by its readings alone, in usual standard deviations.</summary>
/// <param name="Habit">One of <see cref="Hand.Habits"/>.</param>
/// <param name="Mean">Where the update puts it.</param>
/// <param name="Variance">How surely.</param>
public readonly record struct Lesson(string Habit, double Mean, double Variance)
{
    /// <summary>A lesson in the file.</summary>
    internal static readonly FileObject<Lesson> Form = new(default, _ => default, (l, _) => l,
    [
        new NeededChoice<Lesson, string>("habit", "Of what", "", [.. Hand.Habits.Select(h => (h, h))],
            l => l.Habit, (l, v) => l with { Habit = v }),
        new NeededNumber<Lesson>("mean", "Where the readings put it", -1000, 1000, l => l.Mean, (l, v) => l with { Mean = v }),
        new NeededNumber<Lesson>("variance", "How surely", 1e-9, 1000, l => l.Variance, (l, v) => l with { Variance = v }),
    ]);
}

/// <summary>A finished build that taught.</summary>
/// <param name="Name">Of the lure.</param>
/// <param name="Finished">The day.</param>
/// <param name="Lessons">What it told.</param>
public sealed record Taught(string Name, DateOnly Finished, ImmutableArray<Lesson> Lessons)
{
    /// <summary>A build in the file.</summary>
    internal static readonly FileObject<Taught> Form = new(new("", default, []), _ => default, (t, _) => t,
    [
        new NeededText<Taught>("name", "Name of the lure", "the name of the lure", t => t.Name, (t, v) => t with { Name = v }),
        new NeededText<Taught>("finished", "The day it was finished", "the day, like 2026-05-30",
            t => HandFile.Of(t.Finished), (t, v) => t with { Finished = HandFile.DayOf(v) ?? default }) { More = "Like 2026-05-30." },
        new ObjectList<Taught, Lesson>("lessons", "What its readings told", 200, "a list of lessons", Lesson.Form,
            t => t.Lessons, (t, v) => t with { Lessons = v })
            { More = "In usual standard deviations." },
    ]) { Then = HasDay };

    // Not every text is a day.
    private static Taught HasDay(ObjectReader from, Taught build)
    {
        if (from.Find("finished") is { Kind: JsonKind.Text, TextLength: <= ObjectReader.LongestText } day && HandFile.DayOf(day.Text) is null)
            from.Add("range", "finished", $"\"{JsonTree.Shorten(day.Text)}\"", "a day like 2026-05-30", "Write year, month and day.");
        return build;
    }
}

/// <summary>One habit as it is believed to be, in usual standard deviations: the usual maker has mean 0 and spread 1.</summary>
/// <param name="Mean">This maker's own middle.</param>
/// <param name="Spread">How far the next build may lie from it, one standard deviation.</param>
/// <param name="Builds">How many builds told of it.</param>
public readonly record struct Habit(double Mean, double Spread, int Builds);

/// <summary>
/// How this maker carves, glues, seals and coats, from finished builds.
/// <para>
/// <b>What a build tells.</b> The update gives an unknown, before standard normal, the mean m and variance c. The readings'
/// own share of the precision is 1/v = 1/c − 1. Taken alone they would put it at m/(1 − c); but where they fix only a sum, as
/// of three coats weighed together, that would charge the whole of it to each. So m stays as it is, drawn towards the usual
/// maker by what was not told: a hand is learned a little too small rather than too big. A build whose readings say nothing
/// of it (c near 1) tells nothing.
/// </para>
/// <para>
/// <b>What builds tell together.</b> The true values of builds, x_i, are normal about the maker's μ with variance τ²; of μ
/// is believed N(0, τ²/κ), of τ² scaled inverse χ² with ν degrees of freedom about s². What the next build may do then has
/// the variance τ² + Var μ, and before any build that must be the usual 1: s²(1 + 1/κ) = 1. With κ = 3 and ν = 6 one
/// build moves the middle by at most a quarter of what it shows, ten by ten thirteenths. μ and τ² are found where the
/// posterior is highest, by expectation and maximisation over the x_i (Dempster, Laird and Rubin 1977, J. R. Statist. Soc. B
/// 39, 1): x_i has the precision 1/τ² + 1/v_i; μ = Σx_i/(n + κ); τ² = (ν·s² + κ·μ² + Σ((x_i − μ)² + var x_i))/(ν + n).
/// Var μ = 1/(κ/τ² + Σ1/(τ² + v_i)).
/// </para>
/// <para>
/// <b>No look ahead.</b> Builds are kept each by itself with its day, and <see cref="On"/> takes those that were finished before
/// a day: what was believed then comes out the same however many follow.
/// </para>
/// </summary>
/// <param name="Version">Counts up with each lesson, and with each forgetting.</param>
/// <param name="Builds">By day, then by name.</param>
public sealed record Hand(int Version, ImmutableArray<Taught> Builds)
{
    /// <summary>Whoever nothing is known of.</summary>
    public static readonly Hand Unknown = new(0, []);

    // Pseudo-counts of the middle and of the spread; common practice, no source.
    private const double Kappa = 3, Nu = 6;

    // Above this share of the doubt left, a build said nothing.
    private const double Untold = 0.95;

    private const int Rounds = 200;

    /// <summary>The word for every coat's thickness: a maker brushes all of them alike.</summary>
    public const string Coats = "coat";

    /// <summary>What a maker does alike from build to build.</summary>
    public static readonly ImmutableArray<string> Habits = ["carving.mean", "carving.slope", "carving.ends", "carving.tall", "sanding", "glue_line", "filler", "sealer", Coats];

    /// <summary>The file's top object, but for its version; after the habits, which it asks for.</summary>
    internal static readonly FileObject<Hand> Form = new(new(0, []), _ => default, (h, _) => h,
    [
        new UsualCount<Hand>("version", "Counts up with each lesson and each forgetting", 0, int.MaxValue, 0,
            h => h.Version, (h, v) => h with { Version = v }),
        new ObjectList<Hand, Taught>("builds", "Builds that taught", 1000, "a list of builds", Taught.Form,
            h => h.Builds, (h, v) => h with { Builds = v }),
    ]);

    /// <summary>The habit that an unknown belongs to; null: to none.</summary>
    public static string? HabitOf(Unknown unknown) =>
        unknown.Id.StartsWith("coat[", StringComparison.Ordinal) ? Coats
        // Sealer that was not planned is grams, not a share.
        : unknown.Id == "sealer" && !unknown.IsFactor ? null
        : Habits.Contains(unknown.Id) ? unknown.Id : null;

    /// <summary>What a finished build tells, by the usual priors, so that nothing is counted twice.</summary>
    /// <param name="design">As drawn.</param>
    /// <param name="log">All its readings.</param>
    /// <param name="pace">How to go about it.</param>
    public static ImmutableArray<Lesson> Of(LureDesign design, TubLog log, Pace? pace = null)
    {
        var build = new BuildModel(design);
        Belief belief = Knowing.Learn(build, log, pace);
        var lessons = ImmutableArray.CreateBuilder<Lesson>();
        foreach (var own in Enumerable.Range(0, build.Unknowns.Count).Where(i => HabitOf(build.Unknowns[i]) is not null).GroupBy(i => HabitOf(build.Unknowns[i])!))
        {
            // All coats of a build are one lesson: they are mostly weighed together.
            double left = own.Average(i => belief.Covariance[i, i]);
            if (left < Untold) lessons.Add(new Lesson(own.Key, own.Average(i => belief.Mean[i]), left / (1 - left)));
        }
        return lessons.ToImmutable();
    }

    /// <summary>The hand with one more build; the same lure finished on the same day is the same build.</summary>
    public Hand With(Taught build) =>
        new(Version + 1, [.. Builds.Where(b => b.Name != build.Name || b.Finished != build.Finished).Append(build).OrderBy(b => b.Finished).ThenBy(b => b.Name, StringComparer.Ordinal)]);

    /// <summary>Nothing learned any more.</summary>
    public Hand Forgotten() => new(Version + 1, []);

    /// <summary>The hand as it was when a day began: builds finished before it, and not the lure in question itself.</summary>
    /// <param name="day">Null: all of them.</param>
    /// <param name="but">Name of a lure that must not teach of itself.</param>
    public Hand On(DateOnly? day, string? but = null) => this with { Builds = [.. Builds.Where(b => (day is null || b.Finished < day) && b.Name != but)] };

    /// <summary>One habit.</summary>
    public Habit this[string habit]
    {
        get
        {
            Lesson[] told = [.. Builds.SelectMany(b => b.Lessons).Where(l => l.Habit == habit)];
            double usual = Kappa / (1 + Kappa), mu = 0, tau = usual;
            for (int round = 0; round < Rounds && told.Length > 0; round++)
            {
                double sum = 0, square = 0;
                var x = new (double Mean, double Variance)[told.Length];
                foreach ((int i, Lesson l) in told.Index())
                {
                    double variance = 1 / (1 / tau + 1 / l.Variance);
                    x[i] = (variance * (mu / tau + l.Mean / l.Variance), variance);
                    sum += x[i].Mean;
                }
                mu = sum / (told.Length + Kappa);
                foreach ((double mean, double variance) in x) square += (mean - mu) * (mean - mu) + variance;
                tau = (Nu * usual + Kappa * mu * mu + square) / (Nu + told.Length);
            }
            double ofMu = 1 / (Kappa / tau + told.Sum(l => 1 / (tau + l.Variance)));
            return new Habit(mu, Math.Sqrt(tau + ofMu), Builds.Count(b => b.Lessons.Any(l => l.Habit == habit)));
        }
    }

    /// <summary>The usual priors with this maker's own habits.</summary>
    public Priors Priors => Priors.Usual with { Habits = Habits.Where(h => this[h].Builds > 0).ToImmutableDictionary(h => h, h => this[h]) };
}
