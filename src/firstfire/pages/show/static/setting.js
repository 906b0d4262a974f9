// Setting up: the degree wheel, what was measured, ticks. The wheel's nodes stay: focus does too.
(() => {
  const one = (query, from = document) => from.querySelector(query);
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const make = (tag, words = "", data = {}) => { const e = Object.assign(document.createElement(tag), { textContent: words }); Object.assign(e.dataset, data); if (tag === "button") e.type = "button"; return e; };
  const drawn = (tag, attributes = {}, words = "") => { const e = document.createElementNS("http://www.w3.org/2000/svg", tag); for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v); if (words) e.textContent = words; return e; };
  const OUT = 96, IN = 60, FIRST = -90, WHOLE = 720, RING = 112;
  let events = [], sense = 1, held = null, sent = 0, later = 0, file = "";
  // what keys have turned stays as they left it until an answer has caught up: an older one would take presses back
  let pressed = null;
  // angles that the table was last told of: while the wheel stands elsewhere it is of before
  let answered = {};

  // --- where things lie: own degrees after the firing top, on a spiral of two turns ---
  const radius = (own) => OUT - ((OUT - IN) * (own - FIRST)) / WHOLE;
  const spot = (own, r = radius(own)) => { const a = ((90 + sense * own) * Math.PI) / 180; return [r * Math.cos(a), -r * Math.sin(a)]; };
  const along = (from, to) => { const n = Math.max(2, Math.ceil(Math.abs(to - from) / 4)); return "M" + Array.from({ length: n + 1 }, (_, i) => spot(from + ((to - from) * i) / n).map((v) => v.toFixed(2)).join(" ")).join("L"); };
  const words = (event) => `${event.name} ${Math.abs(event.value)}° ${event.value >= 0 ? event.sides[0] : event.sides[1]}`;
  const changed = (event) => Math.abs(event.own - event.present) > 0.01;

  const paper = () => {
    const svg = drawn("svg", { class: "wheel", viewBox: "-128 -128 256 256", role: "group", "aria-labelledby": "wheel-title", "aria-describedby": "wheel-how" });
    const still = drawn("g", { "aria-hidden": "true" });
    still.append(drawn("circle", { class: "line", r: RING }), drawn("path", { class: "thin", d: along(FIRST, FIRST + WHOLE) }));
    for (let d = 0; d < 360; d += 5) {
      const [x, y] = spot(d, RING), [u, v] = spot(d, RING - (d % 30 ? (d % 10 ? 2 : 3.5) : 5));
      still.append(drawn("path", { class: "thin", d: `M${x} ${y}L${u} ${v}` }));
      if (d % 30 === 0 && d !== 0 && d !== 180) { const [a, b] = spot(d, RING + 7); still.append(drawn("text", { class: "figure", x: a, y: b }, `${d < 180 ? d : 360 - d}`)); }
    }
    still.append(drawn("text", { x: 0, y: -RING - 8 }, "top"), drawn("text", { x: 0, y: RING + 8 }, "bottom"));
    still.append(drawn("text", { x: 0, y: -36 }, "seen at the flywheel's end"), drawn("text", { class: "figure", x: 0, y: -25 }, "outer turn: compression,"), drawn("text", { class: "figure", x: 0, y: -17 }, "firing top, power"), drawn("text", { class: "figure", x: 0, y: -6 }, "inner turn: exhaust, top, intake"));
    svg.append(still, drawn("g", { class: "bands", "aria-hidden": "true" }), drawn("g", { class: "ghosts", "aria-hidden": "true" }), drawn("g", { class: "handles" }));
    return svg;
  };

  const wheel = (known) => {
    const place = one("[data-wheel]");
    if (!place || !known?.events) return;
    const own = held?.id ?? (pressed && performance.now() < pressed.until ? pressed.id : null);
    const mine = own && events.find((e) => e.id === own);
    if (!held && mine && known.events.find((e) => e.id === own)?.value === mine.value) pressed = null;
    const same = known.sense === sense && known.events.map((e) => e.id).join() === events.map((e) => e.id).join() && one("svg", place);
    sense = known.sense;
    answered = Object.fromEntries(known.events.map((e) => [e.id, e.value]));
    events = known.events.map((e) => (mine && e.id === mine.id ? { ...e, own: mine.own, value: mine.value } : e));
    if (!same) { place.replaceChildren(paper()); handles(place); rows(); }
    show();
  };
  const handles = (place) => one(".handles", place).append(...events.map((event, n) => {
    const g = drawn("g", { class: `handle${event.spark ? " spark" : ""}`, tabindex: 0, role: "slider", "aria-label": `${event.name}, degrees ${event.sides[0]}`, "aria-orientation": "horizontal", "data-turn": event.id });
    g.append(drawn("circle", { class: "reach", r: 13 }), drawn("circle", { class: "ball", r: 6.4 }), drawn("text", {}, `${n + 1}`));
    return g;
  }));
  const rows = () => one("[data-turns]").replaceChildren(...events.map((event, n) => {
    const li = make("li", "", { row: event.id }), label = make("label", event.name), input = make("input", "", { degrees: event.id });
    const ball = make("span", `${n + 1}`);
    ball.className = "ball"; ball.setAttribute("aria-hidden", "true");
    Object.assign(input, { type: "text", inputMode: "decimal", autocomplete: "off", id: `turn-${event.id}` });
    input.setAttribute("aria-describedby", `turned-${event.id}`);
    label.htmlFor = input.id;
    const told = make("output"); told.id = `turned-${event.id}`;
    li.append(ball, label, input, told);
    return li;
  }));
  // two events at one place would hide each other: the later one stands beside the line, at its own angle
  const APART = 13.5;
  const spots = () => {
    const taken = [];
    return events.map((event) => {
      const base = radius(event.own), out = base > (OUT + IN) / 2 ? 1 : -1;
      const tried = [0, 1, -1].map((n) => spot(event.own, base + n * out * APART));
      const free = tried.find(([x, y]) => taken.every(([u, v]) => Math.hypot(x - u, y - v) >= APART - 0.5)) ?? tried[0];
      taken.push(free);
      return free;
    });
  };
  const show = () => {
    const place = one("[data-wheel]"), lies = spots();
    for (const [n, event] of events.entries()) {
      const g = one(`[data-turn="${event.id}"]`, place), [x, y] = lies[n], li = one(`[data-row="${event.id}"]`), input = one("input", li);
      g.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
      g.classList.toggle("changed", changed(event));
      for (const [k, v] of [["valuemin", event.low], ["valuemax", event.high], ["valuenow", event.value], ["valuetext", words(event)]]) g.setAttribute(`aria-${k}`, v);
      li.classList.toggle("changed", changed(event));
      if (document.activeElement !== input) input.value = event.value;
      one("output", li).textContent = `° ${event.value >= 0 ? event.sides[0] : event.sides[1]}${changed(event) ? `; present ${+(event.value - event.sign * (event.own - event.present)).toFixed(2)}°` : ""}`;
    }
    one(".ghosts", place).replaceChildren(...events.filter(changed).map((event) => { const [cx, cy] = spot(event.present); return drawn("circle", { class: "ghost", r: 5, cx, cy }); }));
    mark();
    const span = (which) => [events.find((e) => e.id === `${which}-opens`), events.find((e) => e.id === `${which}-closes`)];
    one(".bands", place).replaceChildren(...["exhaust", "inlet"].flatMap((which) => {
      const [opens, closes] = span(which);
      if (!opens || !closes || closes.own <= opens.own) return [];
      const d = along(opens.own, closes.own), middle = (opens.own + closes.own) / 2, [x, y] = spot(middle, radius(middle) - 8);
      return [drawn("path", { class: `band ${which}`, d }), drawn("path", { class: "line", d }), drawn("text", { x, y: y + 6, style: `text-anchor:${x < 0 ? "start" : "end"}` }, `${which} open`)];
    }));
  };

  const mark = () => {
    const before = events.some((e) => answered[e.id] !== e.value), slot = one("[data-slot=turned]");
    slot.classList.toggle("before", before);
    slot.setAttribute("aria-busy", String(before || slot.classList.contains("old")));
    one("#turned-of").textContent = before ? "Of before the last turn: being worked out anew." : "Of the wheel as it stands.";
  };

  // --- turning: what appears above must not move the wheel away under finger or eye ---
  let steady = 0;
  const wheelTop = () => one("[data-wheel] svg")?.getBoundingClientRect().top ?? 0;
  const keep = () => { if (held || document.activeElement?.closest?.("[data-wheel]")) window.scrollBy({ top: wheelTop() - steady, behavior: "instant" }); };
  window.addEventListener("scroll", () => { steady = wheelTop(); }, { passive: true });
  const turn = (event, value, now = false) => {
    const kept = Math.min(event.high, Math.max(event.low, Math.round(value * 2) / 2));
    event.own += event.sign * (kept - event.value);
    event.value = kept;
    pressed = { id: event.id, until: performance.now() + 5000 };
    show();
    clearTimeout(later);
    const go = () => { sent = performance.now(); ff.send("turn", { path: event.path, degrees: event.value }); };
    if (now || performance.now() - sent > 120) go(); else later = setTimeout(go, 120);
  };
  const pointed = (pointer) => {
    const box = one("[data-wheel] svg").getBoundingClientRect();
    const x = pointer.clientX - box.left - box.width / 2, y = pointer.clientY - box.top - box.height / 2;
    return sense * ((Math.atan2(-y, x) * 180) / Math.PI - 90);
  };
  document.addEventListener("pointerdown", (pointer) => {
    const g = pointer.target.closest?.("[data-turn]");
    if (!g || pointer.button > 0) return;
    const event = events.find((e) => e.id === g.dataset.turn);
    steady = wheelTop();
    held = { id: event.id, last: pointed(pointer), wanted: event.value, g };
    g.setPointerCapture(pointer.pointerId); g.classList.add("held"); g.focus({ preventScroll: true });
    pointer.preventDefault();
  });
  document.addEventListener("pointermove", (pointer) => {
    if (!held) return;
    const event = events.find((e) => e.id === held.id), at = pointed(pointer);
    let step = at - held.last;
    step -= 360 * Math.round(step / 360);
    held.last = at; held.wanted += event.sign * step;
    turn(event, held.wanted);
  });
  const letGo = () => {
    if (!held) return;
    const event = events.find((e) => e.id === held.id);
    held.g.classList.remove("held"); held = null;
    if (event && later) { clearTimeout(later); ff.send("turn", { path: event.path, degrees: event.value }); }
    later = 0;
  };
  document.addEventListener("click", (click) => { if (click.target.closest?.("[data-do]")) pressed = null; }, true);
  document.addEventListener("pointerup", letGo);
  document.addEventListener("pointercancel", letGo);
  const KEYS = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 5, PageDown: -5 };
  document.addEventListener("keydown", (key) => {
    if (key.ctrlKey || key.metaKey) pressed = null; // undo and redo
    const g = key.target.closest?.("[data-turn]");
    if (!g || !(key.key in KEYS) || key.ctrlKey || key.metaKey || key.altKey) return;
    const event = events.find((e) => e.id === g.dataset.turn);
    steady = wheelTop();
    key.preventDefault();
    turn(event, event.value + KEYS[key.key]);
  });
  document.addEventListener("change", (change) => {
    const input = change.target, event = events.find((e) => e.id === input.dataset?.degrees);
    if (event) { const value = Number(input.value.replace(",", ".").replace("°", "").trim()); if (Number.isFinite(value) && input.value.trim()) turn(event, value, true); input.value = event.value; }
    if (input.dataset?.tick) localStorage.setItem(`firstfire ${file} ${input.dataset.tick}`, input.checked ? "1" : "");
  });

  // --- what was measured ---
  document.addEventListener("submit", (submit) => {
    const form = submit.target.closest("[data-measured]");
    if (!form) return;
    submit.preventDefault();
    one("[data-wrong]", form).replaceChildren();
    one("[data-done]", form).textContent = "Reading it ...";
    ff.send("measured", { kind: form.dataset.measured, said: Object.fromEntries(new FormData(form)) });
  });
  const measured = (known) => {
    const form = one(`[data-measured="${CSS.escape(known.kind)}"]`);
    if (!form) return;
    one("[data-wrong]", form).replaceChildren(...known.wrong.map((w) => make("li", w)));
    one("[data-done]", form).textContent = known.wrong.length ? "" : `Laid over: ${known.words}.`;
  };
  const laid = (head) => {
    const place = one("[data-laid]");
    if (!place) return;
    place.hidden = !head.laid.length;
    place.replaceChildren(make("h2", "Measured"), ...head.laid.map((said, n) => {
      const chip = make("div"), link = make("a", "its file");
      chip.className = "chip"; link.href = `/setup/measured/${n}`;
      link.setAttribute("aria-label", `${said}: fetch it as a file for --layer`);
      const away = make("button", "Take away", { lift: n });
      away.setAttribute("aria-label", `Take away: ${said}`);
      chip.append(make("span", said), link, away);
      return chip;
    }));
  };
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-lift]");
    if (button) ff.send("lift", { place: Number(button.dataset.lift) });
    const link = event.target.closest("[data-old] a[href^='/setup/files/']");
    if (link) { event.preventDefault(); ff.take({ say: "That sheet is of the engine before the last change. Wait until its chapter is no longer grey." }); }
  });

  // --- what comes ---
  let once = location.hash;
  const folds = new Map();
  document.addEventListener("toggle", (event) => { const name = event.target.dataset?.fold; if (name) folds.set(name, event.target.open); }, true);
  const chapters = () => {
    all("details[data-fold]").forEach((fold) => { if (folds.has(fold.dataset.fold)) fold.open = folds.get(fold.dataset.fold); });
    all("[data-tick]").forEach((tick) => { tick.checked = localStorage.getItem(`firstfire ${file} ${tick.dataset.tick}`) === "1"; });
    all("[data-chapter]").forEach((li) => { li.hidden = !one(`[data-slot="${li.dataset.chapter}"]`)?.firstElementChild; });
    if (once && one(`.chapter > ${CSS.escape ? `#${CSS.escape(once.slice(1))}` : once}`)) { one(`#${CSS.escape(once.slice(1))}`).scrollIntoView(); once = ""; }
  };
  const said = () => {
    const row = (id) => one(`[data-turned="${id}"]`);
    const told = ["gap inlet", "gap exhaust", "kick"].map(row).filter((r) => r && !r.classList.contains("old")).map((r) => `${one("th", r).firstChild.textContent.trim()} ${one("td:nth-last-child(2)", r).textContent}`);
    const place = one("#wheel-said");
    if (place && told.length) place.textContent = `${told.join("; ")}.`;
  };
  ff.hears.push((message) => {
    if (message.head) { file = message.head.file; laid(message.head); }
    if (message.head || message.put) keep();
    if (message.wheel) wheel(message.wheel);
    if (message.measured) measured(message.measured);
    if (message.put?.turned) said();
    if (message.put && Object.keys(message.put).some((slot) => slot.startsWith("set"))) chapters();
  });
})();
