// Points under a hand. Moves don't go through the framework's events: of all that come while one is being answered, only
// the latest is sent on, one in flight (every move sent, at 8 ms of work each, was 680 ms behind; this way 40).

import { fields } from "./fields.js";

const reach = 13, dot = 5.5, smallDot = 4, least = 24, leastByFinger = 32, step = 0.5, leap = 5, pause = 450;

export function hands(root, net) {
  const ending = new AbortController(), on = { signal: ending.signal };
  let held = null, keyed = null, next = null, flying = null, busy = false, timer = 0;

  async function pump() {
    if (busy) return;
    busy = true;
    try {
      while (next) {
        const { what, key, x, y, at } = flying = next;
        next = null;
        await (what === "Drop" ? net.invokeMethodAsync("Drop") : net.invokeMethodAsync(what, key, x, y));
        // The new picture is in the page by now; whoever measures hears of which moment of the hand it is.
        root.dispatchEvent(new CustomEvent("pictured", { detail: { what, at } }));
        flying = null;
      }
      busy = false;
    } catch {
      // The connection went: the cover says so, what was saved is saved, and the rest goes on when it is back.
    }
  }
  // A hand that let go while nobody listened is heard now; the same landing twice is one.
  document.addEventListener("back", () => {
    if (flying && flying.what !== "Move") next ??= flying;
    [flying, busy] = [null, false];
    pump();
  }, on);
  const send = (what, key, x, y, at = performance.now()) => { next = { what, key, x, y, at }; pump(); };
  const knobs = () => root.querySelector("svg.knobs");
  const knobOf = (target) => target.closest?.(".knob");
  const place = (event) => new DOMPoint(event.clientX, event.clientY).matrixTransform(knobs().getScreenCTM().inverse());
  const centre = (knob) => { const c = knob.querySelector(".dot"); return { x: +c.getAttribute("cx"), y: +c.getAttribute("cy") }; };

  // A larger screen has larger type, and is looked at from further off.
  let larger = 1;
  const type = () => { larger = Math.max(parseFloat(getComputedStyle(document.documentElement).fontSize) / 16, 1); };
  // Knobs are the same size to a finger whatever the scale of the sheet.
  function size() {
    const svg = knobs();
    if (!svg) return;
    const scale = (svg.getScreenCTM()?.a || 1) / larger;
    for (const c of svg.querySelectorAll("circle")) {
      const r = ((c.classList.contains("dot") ? (svg.clientWidth < 500 ? smallDot : dot) : reach) / scale).toFixed(2);
      if (c.getAttribute("r") !== r) c.setAttribute("r", r);
    }
  }
  // Things on the picture too: as wide and high as a finger needs. Their own box is kept, since the page may grow or shrink.
  function widen() {
    const all = root.querySelectorAll(".tap > .reach");
    if (all.length === 0) return;
    const scale = all[0].ownerSVGElement.getScreenCTM()?.a || 1, want = (matchMedia("(pointer: coarse)").matches ? leastByFinger : least) / scale;
    for (const r of all) {
      r.dataset.box ??= ["x", "y", "width", "height"].map((name) => r.getAttribute(name)).join(" ");
      const [x, y, width, height] = r.dataset.box.split(" ").map(Number), w = Math.max(width, want), h = Math.max(height, want);
      for (const [name, value] of Object.entries({ x: x - (w - width) / 2, y: y - (h - height) / 2, width: w, height: h })) r.setAttribute(name, value.toFixed(2));
    }
  }
  // Where reaches lie over each other, the thing that is nearest is meant, not the one that is drawn last.
  function tapAt(event) {
    const hit = event.target.closest?.(".tap");
    if (!hit || event.detail === 0) return hit;
    let best = hit, nearest = Infinity;
    for (const tap of root.querySelectorAll(".tap")) {
      const box = tap.querySelector(".reach").getBoundingClientRect(), dx = event.clientX - (box.left + box.width / 2), dy = event.clientY - (box.top + box.height / 2);
      if (2 * Math.abs(dx) <= box.width && 2 * Math.abs(dy) <= box.height && Math.hypot(dx, dy) < nearest) [best, nearest] = [tap, Math.hypot(dx, dy)];
    }
    return best;
  }
  // Under a hand that holds a point nothing comes that has to be sized, and each picture has only milliseconds: asking for the
  // scale lays the whole page out anew.
  const resize = () => {
    if (held) return;
    size();
    widen();
  };
  const touch = (key) => net.invokeMethodAsync("Touch", key).catch(() => {});
  const typed = fields(root, on, touch);

  const watch = new MutationObserver(resize), resized = new ResizeObserver(() => { type(); resize(); });
  watch.observe(root, { subtree: true, childList: true });
  resized.observe(root);
  type();
  resize();
  root.dataset.ready = "";

  root.addEventListener("pointerdown", (event) => {
    const knob = knobOf(event.target);
    if (!knob || event.button !== 0 || held) return;
    event.preventDefault();
    knob.focus({ preventScroll: true });
    const from = place(event), at = centre(knob);
    held = { key: knob.dataset.key, id: event.pointerId, dx: at.x - from.x, dy: at.y - from.y, moved: false };
    root.setPointerCapture(event.pointerId);
  }, on);
  // A finger on a point moves the point, not the page; inside a drawing touch-action alone doesn't hold the page.
  root.addEventListener("touchstart", (event) => { if (knobOf(event.target)) event.preventDefault(); }, { ...on, passive: false });
  root.addEventListener("pointermove", (event) => {
    if (!held || event.pointerId !== held.id) return;
    const p = place(event);
    held.moved = true;
    held.last = { x: p.x + held.dx, y: p.y + held.dy };
    send("Move", held.key, held.last.x, held.last.y, event.timeStamp);
  }, on);
  const release = (keep) => (event) => {
    if (!held || event.pointerId !== held.id) return;
    const { key, moved, last } = held;
    held = null;
    requestAnimationFrame(resize);
    if (moved) keep ? send("Land", key, last.x, last.y, event.timeStamp) : send("Drop");
  };
  root.addEventListener("pointerup", release(true), on);
  root.addEventListener("pointercancel", release(false), on);

  function land() {
    clearTimeout(timer);
    if (!keyed) return;
    const { key, x, y } = keyed;
    keyed = null;
    send("Land", key, x, y);
  }
  root.addEventListener("keydown", (event) => {
    const tap = event.target.closest?.(".tap");
    if (tap && (event.key === "Enter" || event.key === " ")) { event.preventDefault(); touch(tap.dataset.key); return; }
    const knob = knobOf(event.target);
    if (!knob) return;
    if (event.key === "Escape") {
      if (keyed || held) { clearTimeout(timer); keyed = held = null; send("Drop"); }
      return;
    }
    if (event.key === "Enter") { if (keyed) land(); else touch(knob.dataset.key); return; }
    const by = (event.shiftKey ? leap : step);
    const [dx, dy] = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[event.key] ?? [0, 0];
    if (!dx && !dy) return;
    event.preventDefault();
    if (keyed?.key !== knob.dataset.key) { land(); keyed = { key: knob.dataset.key, ...centre(knob) }; }
    keyed.x += dx;
    keyed.y += dy;
    send("Move", keyed.key, keyed.x, keyed.y);
    clearTimeout(timer);
    timer = setTimeout(land, pause);
  }, on);
  root.addEventListener("focusin", (event) => {
    const knob = knobOf(event.target);
    if (keyed && knob?.dataset.key !== keyed.key) land();
    if (knob) touch(knob.dataset.key);
  }, on);
  root.addEventListener("click", (event) => {
    const tap = tapAt(event);
    if (tap) touch(tap.dataset.key);
  }, on);
  return {
    ...typed,
    show(id) {
      // The row may still be on its way: the place changes with the tap.
      let tries = 20;
      const look = () => {
        const row = document.getElementById(id);
        if (row) { row.scrollIntoView({ block: "nearest" }); row.querySelector("input")?.focus({ preventScroll: true }); } else if (tries-- > 0) setTimeout(look, 50);
      };
      look();
    },
    letGo() {
      ending.abort();
      watch.disconnect();
      resized.disconnect();
      clearTimeout(timer);
    },
  };
}
