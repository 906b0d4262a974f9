// The page Compare: boxes to tick, steps of the plan, a new file, and the bar of long work.
(() => {
  const one = (query, from = document) => from.querySelector(query);
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const ff = window.ff, before = ff.take;
  const ticked = () => all("[data-step]").filter((e) => e.checked).map((e) => Number(e.dataset.step));

  ff.take = (message) => {
    const held = document.activeElement?.dataset ?? {}, aside = one("[data-aside]");
    const written = message.put?.beside && aside ? Object.fromEntries(new FormData(aside)) : null;
    const inForm = written && aside.contains(document.activeElement) ? document.activeElement.name : "";
    before(message);
    if (written) for (const [name, value] of Object.entries(written)) { const e = one(`[data-aside] [name="${name}"]`); if (e && value) { e.value = value; if (name === inForm) e.focus(); } }
    if (held.beside && message.put?.beside) one(`[data-beside="${held.beside}"][data-name="${CSS.escape(held.name)}"]`)?.focus();
    if (message.ticked) ff.ticked = message.ticked;
    if (message.ticked || message.put?.plan) all("[data-step]").forEach((e) => { e.checked = (ff.ticked ?? []).includes(Number(e.dataset.step)); });
    if (one("[data-lay]")) one("[data-lay]").hidden = !one("[data-step]");
    if ("errand" in message) working(message.errand);
  };
  const working = (known) => {
    const place = one("[data-errand]");
    if (!place) return;
    place.hidden = !known;
    all('[data-do="plan"],[data-do="check beside"]').forEach((e) => { e.disabled = Boolean(known); });
    if (!known) return place.replaceChildren();
    let bar = one("progress", place);
    if (!bar) {
      const stop = Object.assign(document.createElement("button"), { type: "button", textContent: "Stop" });
      stop.dataset.do = "halt";
      bar = Object.assign(document.createElement("progress"), { max: 1 });
      bar.setAttribute("aria-label", "Share of this work that is done, roughly");
      place.replaceChildren(bar, document.createElement("span"), stop);
    }
    bar.value = known.share;
    const left = known.left == null ? "" : known.left < 90 ? `, about ${Math.max(Math.round(known.left / 5) * 5, 5)} s left` : `, about ${Math.round(known.left / 60)} min left`;
    one("span", place).textContent = ` ${known.what}${left}. `;
  };
  document.addEventListener("change", (event) => {
    const { beside, name, step } = event.target.dataset ?? {};
    if (beside) ff.send("beside", { [beside]: beside === "trial" ? Number(name) : name, on: event.target.checked });
    if (step !== undefined) ff.send("tick", { steps: ticked() });
  });
  document.addEventListener("click", (event) => { if (event.target.closest("[data-laying]")) ff.send("lay", { steps: ticked() }); });
  document.addEventListener("submit", (event) => {
    if (!event.target.matches("[data-aside]")) return;
    event.preventDefault();
    ff.send("put aside", { ...Object.fromEntries(new FormData(event.target)), steps: ticked() });
  });
})();
