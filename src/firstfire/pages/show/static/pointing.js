// The page Will it hold: a line of the ledger that is pointed at shows the path of its load.
(() => {
  const ff = window.ff;
  const REST = 180; // ms that it is pointed at: not every line that is passed on the way
  let pointed = "", timer = 0, where = "";

  const point = (way) => {
    clearTimeout(timer);
    if (way === pointed) return;
    timer = setTimeout(() => { pointed = way; ff.send("point", { way }); }, REST);
  };
  const at = (event) => {
    if (!document.querySelector("ol.at-hand") || !ff.at.settled) return;
    const line = event.target.closest?.("ol.at-hand li[data-way]");
    if (line) point(line.dataset.way);
    // the drawing is looked at meanwhile, and the list may stand anew under the pointer
    else if (!event.target.closest?.("[data-slot=desk],[data-slot=narrow],[data-slot=ledger]")) point("");
  };
  document.addEventListener("mouseover", (event) => {
    const now = `${event.screenX} ${event.screenY}`;
    if (now !== where) at(event); // else the page moved under a pointer that stands still
    where = now;
  });
  document.addEventListener("focusin", at);
})();
