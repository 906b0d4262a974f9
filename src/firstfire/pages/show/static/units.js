// Lengths in millimetres or inches, as somebody likes them: what is shown and what a bare number
// means. The file stays as it was written. The choice lies in a cookie, since ports change.
(() => {
  const ff = window.ff, before = ff.take;
  const kept = () => (document.cookie.match(/(?:^|; )firstfire-lengths=(in|mm)/) ?? [])[1] ?? "mm";
  let unit = kept(), rows = {}, slots = {};
  const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
  const LENGTHS = new RegExp(String.raw`(?<![\d.,/·*])((?:${NUMBER}\s?(?:–|-|to|×|±|\+/-|and|or)\s?)*${NUMBER})[\s\u2009\u00a0]?mm(?![\w²³^/·*])`, "g");
  const inches = (metres) => `${Number((metres / 0.0254).toPrecision(4))}`;
  const converted = (words) => words.replace(LENGTHS, (_, numbers) =>
    `${numbers.replace(new RegExp(NUMBER, "g"), (n) => inches(Number(n.replace(",", ".")) / 1000))} in`);

  const text = (place) => {
    const walk = document.createTreeWalker(place, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode())
      if (node.data.includes("mm") && !node.parentElement.closest("code,pre,textarea,style,option")) {
        const exact = node.parentElement.closest(".ff-measure")?.dataset.value; // the words are rounded for millimetres
        node.data = exact && /^\D*[\d.]+\s?mm$/.test(node.data) ? node.data.replace(/[\d.]+\s?mm$/, `${inches(exact)} in`) : converted(node.data);
      }
  };
  const field = (row) => ({ ...row, v: row.m && !/(in|["”″'])\s*$/.test(row.v) ? `${inches(Number(row.m))} in` : row.v, why: converted(row.why) });
  const shown = (message) => {
    Object.assign(rows, message.rows); Object.assign(slots, message.put);
    if (unit === "mm") return before(message);
    before(message.rows ? { ...message, rows: Object.fromEntries(Object.entries(message.rows).map(([path, row]) => [path, field(row)])) } : message);
    for (const slot of Object.keys(message.put ?? {})) document.querySelectorAll(`[data-slot="${slot}"]`).forEach(text);
    if (message.why) document.querySelectorAll(`details[data-why="${CSS.escape(message.why.id)}"] .opened`).forEach(text);
    if (message.choices) document.querySelectorAll("[data-choices]").forEach(text);
    if (message.problems) document.querySelectorAll(".wrong,[data-problems]").forEach(text);
  };
  ff.take = (message) => { shown(message); mark(); };

  // What a bare number typed in a field of lengths means.
  ff.typed = (input) => unit === "in" && input.dataset.unit === "mm" && /^\s*[+-]?(\d+([.,]\d*)?|[.,]\d+)\s*$/.test(input.value) ? `${input.value.trim()} in` : input.value;
  const mark = () => {
    const choice = document.querySelector("#lengths");
    if (choice && choice.value !== unit) choice.value = unit;
    document.querySelectorAll('[data-unit="mm"]').forEach((e) => { e.title = `a bare number is taken as ${unit}`; });
  };
  document.addEventListener("change", (event) => {
    if (event.target.id !== "lengths") return;
    unit = event.target.value;
    document.cookie = `firstfire-lengths=${unit}; Path=/; SameSite=Strict; Max-Age=31536000`;
    shown({ rows, put: slots });
    mark();
  });
})();
