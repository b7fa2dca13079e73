// What is typed stays in this tab until it is on the disk, also through a lost connection and a reload.

export function fields(root, on, touch) {
  const slot = (field) => `${root.dataset.lure} ${field}`;
  const mine = () => Object.keys(sessionStorage).filter((key) => key.startsWith(`${root.dataset.lure} `));
  const waiting = new Set();

  root.addEventListener("input", ({ target }) => {
    if (target.dataset?.field) sessionStorage.setItem(slot(target.dataset.field), target.value);
  }, on);

  function bring(field) {
    const key = slot(field.dataset.field), typed = sessionStorage.getItem(key);
    waiting.delete(key);
    if (typed === null) return;
    if (typed === field.value) { sessionStorage.removeItem(key); return; }
    field.value = typed;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }
  // The fields of a point come when the point is chosen again.
  const late = new MutationObserver(() => {
    if (waiting.size === 0) return;
    for (const field of root.querySelectorAll("[data-field]")) if (waiting.has(slot(field.dataset.field))) bring(field);
  });
  late.observe(root, { subtree: true, childList: true, attributeFilter: ["data-field"] });
  on.signal.addEventListener("abort", () => late.disconnect());

  return {
    // Only the very text that was taken is forgotten: another may have been typed while it was being saved.
    took(field, text) {
      if (sessionStorage.getItem(slot(field)) === text) sessionStorage.removeItem(slot(field));
    },
    restore() {
      const there = [...root.querySelectorAll("[data-field]")];
      for (const key of mine()) if (!there.some((field) => slot(field.dataset.field) === key)) waiting.add(key);
      for (const field of there) bring(field);
      const point = [...waiting].map((key) => key.split(" ")[2]).find((key) => key && root.querySelector(`[data-key="${key}"]`));
      if (point) touch(point);
    },
  };
}
