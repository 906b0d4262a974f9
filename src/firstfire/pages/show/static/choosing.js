// What is laid over the drawing; and rows of the catalog below a field: asked for when it is opened, each a button that sets it.
(() => {
  const ff = window.ff, before = ff.take;
  const box = (path) => document.querySelector(`[data-choices="${CSS.escape(path)}"]`);
  let open = "";
  const close = () => {
    document.querySelectorAll('[data-rows][aria-expanded="true"]').forEach((e) => e.setAttribute("aria-expanded", "false"));
    document.querySelectorAll("[data-choices]").forEach((e) => { e.hidden = true; e.replaceChildren(); });
  };
  ff.take = (message) => {
    before(message);
    if (message.over) document.querySelectorAll("[data-over]").forEach((e) => { e.checked = message.over.includes(e.dataset.over); });
    const known = message.choices;
    if (!known || known.path !== open) return;
    const place = box(open), held = place.contains(document.activeElement) ? document.activeElement.dataset.choose : undefined;
    place.innerHTML = known.html;
    if (held) place.querySelector(`[data-choose="${CSS.escape(held)}"]`)?.focus();
  };
  document.addEventListener("change", (event) => {
    if (!event.target.dataset?.over) return;
    ff.send("over", Object.fromEntries([...document.querySelectorAll("[data-over]")].map((e) => [e.dataset.over, e.checked])));
  });
  document.addEventListener("click", (event) => {
    const { rows, choose, of } = event.target.closest("button")?.dataset ?? {};
    if (choose) return ff.send("set", { path: of, said: choose });
    if (!rows) return;
    const again = open === rows;
    close();
    open = again ? "" : rows;
    ff.send("choose", { path: open });
    if (again) return;
    event.target.closest("button").setAttribute("aria-expanded", "true");
    box(open).hidden = false;
    box(open).textContent = "Each row is put there to see whether it fits ...";
  });
})();
