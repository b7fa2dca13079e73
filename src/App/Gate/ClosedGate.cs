namespace Trimwright.App.Gate;

/// <summary>
/// What is shown to who isn't let in: why, and what to do. It stands before every component and file of the page, so it brings
/// its own sheet; that one is the only thing given out without a cookie, and it says nothing of lures.
/// </summary>
internal static class ClosedGate
{
    /// <summary>Where the sheet lies: the policy allows none inside a page.</summary>
    public const string SheetPath = "/gate.css";

    private const string Style = """
        /* The same paper, ink and water as in palette.css, which is not given out here. */
        html{--paper:#F5F0E6;--ink:#22302F;--water:#D9E6E4;--surface:#2F6F73;--wire:#7D8A8C;--steel:#22302F;color-scheme:light dark;
        font-size:clamp(100%,62.5% + min(.44vw,.8vh),200%);background:var(--water)}
        @media (prefers-color-scheme:dark){html{--paper:#12191D;--ink:#EFE8DA;--water:#1B3236;--surface:#7FB7B5;--wire:#9AA6A7;--steel:#E9E2D3}}
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

    /// <summary>A page that says why, and leads to the link that lets in.</summary>
    public static string Page(string sentence, int port) => $"""
        <!doctype html>
        <html lang="en">
        <head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
        <title>Not let in · Trimwright</title><link rel="stylesheet" href="{SheetPath}"></head>
        <body>
        <main><h1>This page opens by its own link</h1>
        <p>{sentence} Only the account that started Trimwright is let in, and its lures are seen by nobody else.</p>
        <ol><li>Look where Trimwright was started: its first line is a link that begins with <code>http://127.0.0.1:{port}</code></li>
        <li>Open that link in this browser. It is needed once; after that the browser is known.</li></ol>
        <p>Can't find it? Start Trimwright again: it opens the page by itself.</p></main>
        <div aria-hidden="true"><svg viewBox="0 0 50 140"><path d="M25 0V96"/><circle cx="25" cy="101" r="5"/></svg></div>
        </body></html>
        """;

    public static Task SendSheet(HttpContext context)
    {
        context.Response.ContentType = "text/css; charset=utf-8";
        return context.Response.WriteAsync(Style);
    }
}
