namespace Trimwright.App.Gate;

/// <summary>
/// What is seen by who isn't let in yet: why, and what to do; and the two pages through which one comes in. They stand before every
/// component and file of the page, so they bring their own sheet and script, the only files given out without a cookie. Nothing here
/// says anything of lures.
/// </summary>
internal static class Porch
{
    /// <summary>Where the sheet lies: the policy allows none inside a page.</summary>
    public const string SheetPath = "/gate.css";

    /// <summary>Where the script lies, among the page's own.</summary>
    public const string ScriptPath = "/dist/gate.js";

    private const string Style = """
        /* The same paper, ink and water as in palette.css, which is not given out here. */
        html{--paper:#F5F0E6;--ink:#22302F;--water:#D9E6E4;--surface:#2F6F73;--wire:#7D8A8C;--steel:#22302F;
        color-scheme:light dark;font-size:clamp(100%,62.5% + min(.44vw,.8vh),200%);background:var(--water)}
        @media (prefers-color-scheme:dark){
        html{--paper:#12191D;--ink:#EFE8DA;--water:#1B3236;--surface:#7FB7B5;--wire:#9AA6A7;--steel:#E9E2D3}}
        body{margin:0;min-height:100dvh;display:grid;grid-template-rows:auto minmax(14rem,1fr);background:var(--paper);color:var(--ink);
        font:1.0625rem/1.5 Georgia,"DejaVu Serif",serif}
        main{box-sizing:border-box;width:100%;max-width:44rem;margin:0 auto;padding:clamp(1.5rem,9vh,8rem) 1rem clamp(3rem,9vh,8rem)}
        h1{font-size:clamp(1.25rem,2.2vw,1.75rem);line-height:1.25;font-weight:400;margin:0}
        p,ol{margin:.75rem 0}ol{padding-left:1.4em}code{font:0.9375rem ui-monospace,"DejaVu Sans Mono",monospace;overflow-wrap:anywhere}
        div{position:relative;background:var(--water);border-top:2px solid var(--surface)}
        svg{position:absolute;left:50%;top:-3.5rem;height:14rem;width:5rem;margin-left:-2.5rem;fill:none}
        path{stroke:var(--steel);stroke-width:.4}circle{stroke:var(--wire);stroke-width:.9}
        @media (forced-colors:active){path,circle{stroke:CanvasText}}
        """;

    /// <summary>Says why, and how one is let in. A tab that was in before this start comes back from here by itself.</summary>
    public static string Closed(string sentence) => Page("Not let in · Trimwright", $"""
        <main data-closed><h1>This page opens by a link of its own</h1>
        <p>{sentence} Only the account that started Trimwright is let in, and its lures are seen by nobody else.</p>
        <ol><li>Start Trimwright again, in the way you started it: it finds the one that runs, and opens the page.</li>
        <li>In another browser, or without one: add <code>--no-browser</code>, and open the link that it prints. Each link is good for one
        browser and five minutes; after that the browser is known until Trimwright ends.</li></ol>
        <p>What you typed in this tab is kept in it, and is there again when the page is.</p></main>
        """);

    /// <summary>Where the printed link leads: the key stands behind its #, and the script hands it over.</summary>
    public static string FromLink => Page("Trimwright", $"""
        <main><h1>One moment</h1>
        <form method="post" action="{Gatekeeper.Enter}"><input type="hidden" name="key"></form>
        <noscript><p>Trimwright's page needs its script: allow it for this address, then open the link again.</p></noscript></main>
        """);

    /// <summary>What a good key brings: the word, for this address's own storage.</summary>
    public static string Welcome(string word) => Page("Trimwright", $"""
        <main data-word="{word}"><h1>One moment</h1>
        <noscript><p>Trimwright's page needs its script: allow it for this address, then start Trimwright again.</p></noscript></main>
        """);

    private static string Page(string title, string main) => $"""
        <!doctype html>
        <html lang="en">
        <head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
        <meta name="color-scheme" content="light dark"><title>{title}</title>
        <link rel="stylesheet" href="{SheetPath}"><script type="module" src="{ScriptPath}"></script></head>
        <body>
        {main}
        <div aria-hidden="true"><svg viewBox="0 0 50 140"><path d="M25 0V96"/><circle cx="25" cy="101" r="5"/></svg></div>
        </body></html>
        """;

    public static Task SendSheet(HttpContext context)
    {
        context.Response.ContentType = "text/css; charset=utf-8";
        return context.Response.WriteAsync(Style);
    }
}
