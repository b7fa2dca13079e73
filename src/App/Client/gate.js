// What runs before anybody is let in: hands over the key of a printed link, keeps the word that a good key brings, and lets a tab
// that was in before come back.
import { comeBack, hasKey, keepWord, who } from "./tab.js";

const main = document.querySelector("main"), form = document.querySelector("form"), triedAt = "trimwright tried", again = 10_000;

if (main.dataset.word) {
  keepWord(main.dataset.word);
  location.replace("/");
} else if (form) {
  const brought = location.hash.slice(1);
  // Out of the address, and so out of sight and of what is remembered of it, before anything else.
  history.replaceState(null, "", location.pathname);
  form.key.value = brought;
  form.submit();
} else if ("closed" in main.dataset && hasKey()) {
  // Once in a while: a browser that keeps no cookies would go round for ever.
  const tried = Number(sessionStorage.getItem(triedAt) ?? 0);
  if (Date.now() - tried > again) {
    sessionStorage.setItem(triedAt, Date.now());
    const { is, run } = await who();
    if (is !== "stranger" && (await comeBack(run))) location.reload();
  }
}
