// The program behind the page can end, the lid can close, the phone can sleep. The page is dimmed, says that nothing is
// lost, comes back by itself, and otherwise loads the same address again.
import { comeBack, renew, renewNowAndThen, who, word } from "./tab.js";

const first = 250, later = 500, atLast = 5000, tries = 240;

export async function cover() {
  const sheet = document.getElementById("components-reconnect-modal");
  let waiting = false;
  for (const port of sheet?.querySelectorAll(".port") ?? []) port.textContent = `--port ${location.port}`;
  const show = (stranger) => {
    document.documentElement.classList.add("lost");
    sheet?.classList.add("shown");
    sheet?.classList.toggle("stranger", stranger);
  };
  const pause = (i) => new Promise((again) => {
    const done = () => { clearTimeout(timer); document.removeEventListener("visibilitychange", seen); again(); };
    const seen = () => { if (document.visibilityState === "visible") done(); };
    const timer = setTimeout(done, i < tries ? Math.min(first * 2 ** i, later) : atLast);
    document.addEventListener("visibilitychange", seen);
  });
  async function lost() {
    if (waiting) return;
    waiting = true;
    show(false);
    for (let i = 0; ; i++) {
      try {
        // Somebody else may listen there by now. Nothing is said and nothing is loaded before it has proved to be the program: what
        // is loaded from there could read all that this tab keeps, and so could whoever is at the other end of its socket.
        const { is, run } = await who();
        if (is === "anew") {
          await comeBack(run);
          location.reload();
          return;
        }
        show(is === "stranger");
        if (is === "same") {
          // False: the program is there but has forgotten this page; the address holds all that it needs.
          if ((await Blazor.reconnect()) === false) { location.reload(); return; }
          document.documentElement.classList.remove("lost");
          sheet?.classList.remove("shown");
          waiting = false;
          document.dispatchEvent(new Event("back"));
          return;
        }
      } catch {
        // Nobody answers.
        show(false);
      }
      await pause(i);
    }
  }
  // A page that answers to hands can come back.
  if (!(await renew().catch(() => true))) { show(true); return; }
  renewNowAndThen();
  Blazor.start({
    circuit: {
      configureSignalR: (line) => { line.withUrl("_blazor", { headers: word() }); },
      reconnectionHandler: { onConnectionDown: lost, onConnectionUp: () => {} },
    },
  });
}
