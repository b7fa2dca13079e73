// The phone at the tub. A reading that is saved here waits in the browser, under an id of its own, until the desk says that it
// is on the disk; sent twice it is kept once. No camera, no lock on the screen: plain HTTP gives neither.

const place = document.getElementById("place"), whose = document.getElementById("whose"), back = document.getElementById("back"), waiting = document.getElementById("waiting");
const key = "readings", wordAt = "trimwright word", again = 3000, refusals = [400, 404, 422];
let lure = null, kind = null, sending = false;

const queue = () => JSON.parse(localStorage.getItem(key) ?? "[]");
const keep = (list) => localStorage.setItem(key, JSON.stringify(list));
// The cookie goes to every port of the desk, this half to nobody else.
const word = () => ({ "Trimwright-Word": localStorage.getItem(wordAt) ?? "" });
const get = (path) => fetch(path, { headers: word() });
const post = (path, body) => fetch(path, { method: "POST", headers: { "Content-Type": "application/json", ...word() }, body: JSON.stringify(body) });
// randomUUID is for encrypted pages only.
const newId = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

function make(name, properties = {}, ...inside) {
  const element = Object.assign(document.createElement(name), properties);
  element.append(...inside);
  return element;
}
const say = (text, className = "") => make("p", { textContent: text, className });

function tell() {
  const n = queue().length;
  waiting.hidden = n === 0;
  waiting.textContent = n === 0 ? "" : `${n === 1 ? "One reading waits" : `${n} readings wait`} here until the desk answers.`;
}

// What the desk refuses goes back to the fields; what it doesn't answer to waits.
async function send() {
  if (sending) return;
  sending = true;
  try {
    for (let list = queue(); list.length > 0; list = queue()) {
      const [first] = list;
      let answer;
      try {
        answer = await post(`/lure/${first.lure}/reading`, first.body);
      } catch {
        break;
      }
      const said = await answer.text();
      // Only what the desk has, or has understood and can't take, leaves the queue.
      if (!answer.ok && !refusals.includes(answer.status)) { note(said || "The desk can't take it just now; it waits here.", "fault"); break; }
      keep(queue().filter((r) => r.body.editId !== first.body.editId));
      if (answer.ok) { note("Kept.", "kept"); after(first.lure); } else giveBack(first, said);
    }
  } finally {
    sending = false;
    tell();
    if (queue().length > 0) setTimeout(send, again);
  }
}

// Back into the fields, to be mended.
function giveBack({ lure: of, body: { reading } }, said) {
  for (const [number, text] of Object.entries(reading.numbers)) sessionStorage.setItem(`${of} ${reading.kind} ${number}`, text);
  if (lure?.id === of) {
    kind = lure.kinds.find((k) => k.kind === reading.kind) ?? kind;
    form();
  }
  note(said, "fault");
}

function note(text, className) {
  const spot = document.getElementById("note");
  if (!spot) return;
  spot.className = className;
  spot.textContent = text;
}

// What all readings say together takes the desk some seconds.
async function after(id) {
  if (lure?.id !== id) return;
  note("Kept. Working out what it says …", "kept");
  try {
    const said = await (await get(`/lure/${id}/said`)).text();
    if (lure?.id === id && said) note(`Kept. ${said}`, "kept");
  } catch {
    note("Kept.", "kept");
  }
}

async function home() {
  lure = null;
  back.hidden = true;
  whose.textContent = "Trimwright, at the tub";
  let answer;
  try {
    answer = await get("/lures");
  } catch {
    place.replaceChildren(say("The desk doesn't answer. Is it on, and on the same network? This page tries again by itself."));
    setTimeout(() => { if (!lure) home(); }, again);
    return;
  }
  if (!answer.ok) { door(await answer.text()); return; }
  const lures = await answer.json();
  const list = make("ul", { className: "lures" });
  for (const { id, name } of lures) list.append(make("li", {}, make("button", { type: "button", textContent: name, onclick: () => open(id) })));
  place.replaceChildren(make("h2", { textContent: "Which lure is in the tub?" }), lures.length ? list : say("There is no lure yet. Start one on the desk."));
}

// Without a cookie: the code from the picture, or typed.
function door(why = "", typed = "") {
  const field = make("input", { id: "code", value: typed, autocomplete: "off", autocapitalize: "off", spellcheck: false });
  place.replaceChildren(say(why || "Scan the code on the desk, or type it here.", why ? "fault" : ""),
    make("div", { className: "ask" }, make("label", { htmlFor: "code", textContent: "code from the desk" }), field),
    make("button", { type: "button", className: "go", textContent: "Join", onclick: () => join(field.value.trim()) }));
}

async function join(code) {
  const name = /iPhone|iPad|Android/.exec(navigator.userAgent)?.[0] ?? navigator.platform ?? "";
  try {
    const answer = await post("/join", { code, name });
    const said = await answer.text();
    if (!answer.ok) { door(said); return; }
    localStorage.setItem(wordAt, said);
    home();
  } catch {
    door("The desk doesn't answer. Is this phone on the same network?", code);
  }
}

async function open(id) {
  let answer;
  try {
    answer = await get(`/lure/${id}`);
  } catch {
    place.prepend(say("The desk doesn't answer just now.", "fault"));
    return;
  }
  if (!answer.ok) { door(await answer.text()); return; }
  lure = await answer.json();
  kind = lure.kinds[0];
  back.hidden = false;
  whose.textContent = lure.name;
  const picture = make("div", { className: "picture" });
  // The desk's own drawing, of which every text goes through a writer of XML.
  picture.innerHTML = lure.picture;
  picture.querySelectorAll("[tabindex]").forEach((e) => e.removeAttribute("tabindex"));
  place.replaceChildren(picture, say(lure.sentence, "says"), make("div", { id: "form" }), make("p", { id: "note", role: "status" }));
  form();
}

function choose(id, word, options) {
  const select = make("select", { id });
  for (const [value, text] of options) select.append(make("option", { value, textContent: text }));
  select.value = sessionStorage.getItem(id) ?? options[0][0];
  if (select.selectedIndex < 0) select.selectedIndex = 0;
  select.onchange = () => sessionStorage.setItem(id, select.value);
  return make("div", { className: "ask" }, make("label", { htmlFor: id, textContent: word }), select);
}

const typed = (number) => `${lure.id} ${kind.kind} ${number.key}`;

function form() {
  const kinds = make("fieldset", { className: "kinds" }, make("legend", { textContent: "What did you read? It …" }));
  for (const k of lure.kinds) {
    const button = make("button", { type: "button", textContent: k.word, onclick: () => { kind = k; form(); } });
    button.setAttribute("aria-pressed", k === kind);
    kinds.append(button);
  }
  const asks = [choose("stage", "how far it is", [["blank", "blank"], ["dry-fit", "dry-fit"], ["glued", "glued"], ["sealed", "sealed"], ["finished", "finished"]]),
    choose("rig", "what hangs on it", [["bare", "nothing"], ["standins", "stand-ins"], ["rigged", "its hooks"]])];
  if (kind.kind === "tub") asks.push(choose("sat", "it", [["level", "lies level"], ["slanted", "sits slanted, tail down"], ["stands", "stands"], ["on_side", "lies on its side"], ["belly_up", "lies belly up"], ["nose_down", "sits nose down"]]));
  for (const number of kind.numbers) {
    const field = make("input", { id: number.key, inputMode: "decimal", autocomplete: "off", value: sessionStorage.getItem(typed(number)) ?? "" });
    field.oninput = () => sessionStorage.setItem(typed(number), field.value);
    asks.push(make("div", { className: "ask" }, make("label", { htmlFor: number.key, textContent: number.word }), field, make("span", { textContent: number.unit })));
  }
  document.getElementById("form").replaceChildren(kinds, ...asks, make("button", { type: "button", className: "go", textContent: "Save this reading", onclick: save }));
}

function save() {
  const numbers = Object.fromEntries(kind.numbers.map((n) => [n.key, document.getElementById(n.key).value]));
  if (kind.kind !== "tub" && Object.values(numbers).every((v) => v.trim() === "")) { note("Type what you read.", "fault"); return; }
  const reading = { kind: kind.kind, stage: document.getElementById("stage").value, rig: document.getElementById("rig").value, sat: document.getElementById("sat")?.value, numbers };
  keep([...queue(), { lure: lure.id, body: { editId: newId(), at: new Date().toISOString(), reading } }]);
  for (const number of kind.numbers) sessionStorage.removeItem(typed(number));
  form();
  note("Saved here; on its way to the desk.", "");
  tell();
  send();
}

back.onclick = home;
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") send(); });
addEventListener("online", send);
tell();
send();
const code = location.hash.slice(1);
history.replaceState(null, "", "/");
if (code) join(code); else home();
