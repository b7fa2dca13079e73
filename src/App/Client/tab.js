// What this tab holds of the gate. The word is this address's, for all tabs of this browser, and ends with the program. The key is
// this tab's own: with it the tab comes back when the program was started again, and knows it from somebody else at its port.
// Src/App/Gate has the other side, and says what each is worth to whom.

const wordAt = "trimwright word", keyAt = "trimwright key", anew = 3600_000, patience = 5000;
let given = 0;

const text = new TextEncoder();
const letters = (bytes) => btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
async function proof(secret, ...words) {
  const key = await crypto.subtle.importKey("raw", text.encode(secret), { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
  return letters(new Uint8Array(await crypto.subtle.sign("HMAC", key, text.encode(words.join("|")))));
}
const say = (path, body, more) => fetch(path, {
  method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" }, cache: "no-store",
  signal: AbortSignal.timeout(patience), ...more,
});

export const keepWord = (word) => localStorage.setItem(wordAt, word);

// Said with everything that brings or changes something.
export const word = () => ({ "Trimwright-Word": localStorage.getItem(wordAt) ?? "" });

const key = () => JSON.parse(sessionStorage.getItem(keyAt) ?? "null");
function keepKey(one) {
  sessionStorage.setItem(keyAt, JSON.stringify(one));
  given = performance.now();
}

// A key for this tab; false when it isn't let in. Without the browser's own HMAC (a page that is not of this machine) there is none.
export async function renew() {
  if (!crypto.subtle) return true;
  const answer = await fetch("/tab/new", { method: "POST", headers: word(), cache: "no-store" });
  if (answer.ok) keepKey(await answer.json());
  return answer.ok;
}

export function renewNowAndThen() {
  const look = () => { if (given && performance.now() - given > anew) renew().catch(() => {}); };
  setInterval(look, anew / 6);
  document.addEventListener("visibilitychange", look);
}

// Who answers at this tab's address: "same" for the program as it was, "anew" for it after another start, "stranger" for somebody who
// can't prove to be it. Throws when nobody answers.
export async function who() {
  const mine = key();
  // No key: a browser without HMAC, which can't tell, or a tab that never got one, which believes nobody.
  if (!mine) return { is: crypto.subtle ? "stranger" : "same" };
  const { run, id, until, secret } = mine, said = letters(crypto.getRandomValues(new Uint8Array(32)));
  // Without cookies: who listens isn't known yet.
  const answer = await say("/tab/ask", { run, id, until, word: said }, { credentials: "omit" });
  const told = answer.ok ? await answer.json().catch(() => null) : null;
  if (!told || (await proof(secret, "program", said, String(told.run))) !== told.proof) return { is: "stranger" };
  return { is: told.run === run ? "same" : "anew", run: told.run };
}

// Comes back in: only to who has proved to be the program. False when this key is used or too old; it is told to nobody.
export async function comeBack(now) {
  const { run, id, until, secret } = key();
  const answer = await say("/tab/back", { run, id, until, proof: await proof(secret, "tab", now) });
  if (!answer.ok) return false;
  const got = await answer.json();
  keepWord(got.word);
  keepKey(got.key);
  return true;
}

export const hasKey = () => key() !== null;
