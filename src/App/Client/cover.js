// The program behind the page can end, the lid can close, the phone can sleep. The page is dimmed, says that nothing is
// lost, comes back by itself, and otherwise loads the same address again.
const tries = 40;

export function cover() {
  const sheet = document.getElementById("components-reconnect-modal");
  let waiting = false;
  async function comeBack() {
    if (waiting) return;
    waiting = true;
    document.documentElement.classList.add("lost");
    sheet?.classList.add("shown");
    for (let i = 0; i < tries; i++) {
      try {
        // False: the program is there but has forgotten this page; the address holds all that it needs.
        if ((await Blazor.reconnect()) === false) { location.reload(); return; }
        document.documentElement.classList.remove("lost");
        sheet?.classList.remove("shown");
        waiting = false;
        document.dispatchEvent(new Event("back"));
        return;
      } catch {
        await new Promise((again) => {
          const done = () => { clearTimeout(timer); document.removeEventListener("visibilitychange", seen); again(); };
          const seen = () => { if (document.visibilityState === "visible") done(); };
          const timer = setTimeout(done, Math.min(250 * 2 ** i, 3000));
          document.addEventListener("visibilitychange", seen);
        });
      }
    }
    waiting = false;
  }
  Blazor.start({ circuit: { reconnectionHandler: { onConnectionDown: comeBack, onConnectionUp: () => {} } } });
}
