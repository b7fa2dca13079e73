using System.Globalization;

namespace Trimwright.Frozen;

/// <summary>Asks a program what was asked of the frozen one, and tells what it says otherwise.</summary>
internal sealed class Comparison(Findings findings, TextWriter to, bool table)
{
    private const int Shown = 200;

    private readonly Dictionary<string, int> counts = [];
    private int asked, differing;

    /// <summary>The asks for a share of the whole: those of the quick tier, a sixth with an eighteenth of the slow, or all.</summary>
    public static Ask[] Share(Ask[] all, string share)
    {
        if (share == "all") return all;
        // Each command and manner starts elsewhere, so that every lure is asked something.
        var groups = all.GroupBy(a => (a.Command, a.Rest.How)).ToList();
        HashSet<Ask> some = [.. groups.SelectMany((group, g) => group.Where((ask, i) => ask.Pace switch
        {
            Pace.Quick => true,
            Pace.Usual => share == "sixth" && (i + g) % 6 == 0,
            Pace.Slow => share == "sixth" && (i + g) % 18 == 0,
            _ => false,
        }))];
        return [.. all.Where(some.Contains)];
    }

    /// <summary>Asks one thing again and writes what differs.</summary>
    public void Hold(Ask ask, Answer frozen, Answer now)
    {
        asked++;
        Difference[] all = [.. Differences.Of(ask, frozen, now)];
        if (all.Length > 0) differing++;
        foreach (Difference d in all)
        {
            string? finding = findings.Of(d)?.Id;
            string key = finding ?? "";
            counts[key] = counts.GetValueOrDefault(key) + 1;
            if (table) Row(d, finding);
            else if (finding is null) Tell(d);
        }
    }

    /// <summary>Sums up; false when something changed that no finding lets change, or, of all asks, a finding is no longer needed.</summary>
    public bool Close(bool all)
    {
        int unexplained = counts.GetValueOrDefault("");
        string[] unused = all ? [.. findings.Unused] : [];
        foreach (string line in unused) to.WriteLine(line);
        to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{asked} asked, {differing} answered otherwise: {string.Join("", counts.Where(c => c.Key != "").OrderBy(c => c.Key).Select(c => $"{c.Value} places by finding {c.Key}, "))}{unexplained} places by no finding"));
        return unexplained == 0 && unused.Length == 0;
    }

    /// <summary>The head of the table.</summary>
    public void Head()
    {
        if (table) to.WriteLine("ask\tplace\told\tnew\tfinding");
    }

    // A row for each number; where more than numbers changed, one for the place.
    private void Row(Difference d, string? finding)
    {
        string place = d.Part + " " + d.Place;
        if (d.Kind == PlaceKind.Line) place += ": " + Short(Difference.Words((d.Old ?? d.New)!).Trim(), 60);
        IReadOnlyList<(string Old, string New)> numbers = d.Numbers;
        if (numbers.Count == 0) numbers = [(Short(d.Old ?? ""), Short(d.New ?? ""))];
        foreach ((string old, string now) in numbers) to.WriteLine(string.Join('\t', d.Ask, place, old, now, finding ?? "none"));
    }

    private void Tell(Difference d)
    {
        to.WriteLine($"{d.Ask}, {d.Part}, {d.Place}");
        to.WriteLine(d.Old is null ? "  was not there" : "  was " + Short(d.Old));
        to.WriteLine(d.New is null ? "  is gone" : "  is  " + Short(d.New));
    }

    private static string Short(string text, int length = Shown)
    {
        text = text.Replace('\n', '⏎').Replace('\t', ' ');
        return text.Length <= length ? text : text[..length] + "…";
    }
}
