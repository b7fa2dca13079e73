// Photos behind the outlines. A photo is redrawn here before it leaves the page: to what is needed, and without what it says
// of where and with what it was taken. Marks on it are moved here and told when they are let go.

import { word } from "./tab.js";

const most = 2048, quality = 0.85, reach = 13, reachByFinger = 22, leap = 10, pause = 450;

async function redrawn(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const k = Math.min(1, most / Math.max(picture.width, picture.height));
  const sheet = document.createElement("canvas");
  [sheet.width, sheet.height] = [Math.max(1, Math.round(picture.width * k)), Math.max(1, Math.round(picture.height * k))];
  const pen = sheet.getContext("2d");
  // A drawing on nothing becomes one on paper.
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, sheet.width, sheet.height);
  pen.drawImage(picture, 0, 0, sheet.width, sheet.height);
  return new Promise((then, not) => sheet.toBlob((jpeg) => (jpeg ? then(jpeg) : not(new Error("no picture"))), "image/jpeg", quality));
}

export function photos(root, net) {
  const ending = new AbortController(), on = { signal: ending.signal };
  let held = null, keyed = null, timer = 0;

  root.addEventListener("change", async ({ target }) => {
    const view = target.dataset?.photo, file = target.files?.[0];
    if (!view || !file) return;
    let said = "";
    try {
      const answer = await fetch(`/lure/${root.dataset.lure}/photo/${view}`, { method: "POST", body: await redrawn(file), headers: { "Content-Type": "image/jpeg", ...word() } });
      if (!answer.ok) said = await answer.text();
    } catch (e) {
      said = e instanceof TypeError ? "The program doesn't answer. Choose the photo again when it is back." : `Not like that: “${file.name}” is no picture that this browser can read; allowed: a photo or sketch, as JPEG, PNG or WebP. Choose another, or save it as JPEG first.`;
    }
    target.value = "";
    net.invokeMethodAsync("Came", view, said).catch(() => {});
  }, on);

  const drawing = (mark) => mark.closest("svg");
  const scale = (svg) => svg.getScreenCTM()?.a || 1;
  const spot = (mark) => ({ x: +mark.dataset.x, y: +mark.dataset.y });
  function put(mark, x, y) {
    const svg = drawing(mark), { width, height } = svg.viewBox.baseVal;
    [x, y] = [Math.min(Math.max(x, 0), width), Math.min(Math.max(y, 0), height)];
    [mark.dataset.x, mark.dataset.y] = [x, y];
    mark.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
    const line = svg.querySelector("line"), end = mark.dataset.mark === "a" ? 1 : 2;
    line.setAttribute(`x${end}`, x);
    line.setAttribute(`y${end}`, y);
  }
  const tell = (mark) => { const { x, y } = spot(mark); return net.invokeMethodAsync("Mark", mark.dataset.view, mark.dataset.mark === "a", x, y).catch(() => {}); };

  // Marks are the same size to a finger whatever the photo's.
  function size() {
    const wide = matchMedia("(pointer: coarse)").matches ? reachByFinger : reach;
    for (const mark of root.querySelectorAll(".mark")) {
      const k = `scale(${(1 / scale(drawing(mark))).toFixed(4)})`, inner = mark.firstElementChild;
      if (inner.getAttribute("transform") !== k) inner.setAttribute("transform", k);
      const disc = inner.querySelector(".reach");
      if (+disc.getAttribute("r") !== wide) disc.setAttribute("r", wide);
    }
  }
  const watch = new MutationObserver(size), resized = new ResizeObserver(size);
  watch.observe(root, { subtree: true, childList: true });
  resized.observe(root);
  root.addEventListener("toggle", size, { ...on, capture: true });
  size();

  root.addEventListener("pointerdown", (event) => {
    const mark = event.target.closest?.(".mark");
    if (!mark || event.button !== 0 || held) return;
    event.preventDefault();
    mark.focus({ preventScroll: true });
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing(mark).getScreenCTM().inverse()), was = spot(mark);
    held = { mark, id: event.pointerId, dx: was.x - at.x, dy: was.y - at.y };
    root.setPointerCapture(event.pointerId);
  }, on);
  root.addEventListener("touchstart", (event) => { if (event.target.closest?.(".mark")) event.preventDefault(); }, { ...on, passive: false });
  root.addEventListener("pointermove", (event) => {
    if (!held || event.pointerId !== held.id) return;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing(held.mark).getScreenCTM().inverse());
    put(held.mark, at.x + held.dx, at.y + held.dy);
  }, on);
  for (const end of ["pointerup", "pointercancel"])
    root.addEventListener(end, (event) => {
      if (!held || event.pointerId !== held.id) return;
      const { mark } = held;
      held = null;
      tell(mark);
    }, on);

  function land() {
    clearTimeout(timer);
    if (keyed) tell(keyed);
    keyed = null;
  }
  root.addEventListener("keydown", (event) => {
    const mark = event.target.closest?.(".mark");
    if (!mark) return;
    if (event.key === "Enter") { land(); return; }
    const by = (event.shiftKey ? leap : 1) / scale(drawing(mark));
    const [dx, dy] = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[event.key] ?? [0, 0];
    if (!dx && !dy) return;
    event.preventDefault();
    if (keyed !== mark) land();
    keyed = mark;
    const { x, y } = spot(mark);
    put(mark, x + dx, y + dy);
    clearTimeout(timer);
    timer = setTimeout(land, pause);
  }, on);
  root.addEventListener("focusout", land, on);

  return {
    letGo() {
      ending.abort();
      watch.disconnect();
      resized.disconnect();
      clearTimeout(timer);
    },
  };
}
