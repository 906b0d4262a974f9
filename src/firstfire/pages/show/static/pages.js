// The pages' own script: what is done goes out as one event, what comes back is put in its slot.
// Text from files is only ever set as text; fragments of HTML come escaped from the server.
(() => {
  const one = (query, from = document) => from.querySelector(query);
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const ff = (window.ff = { rows: {}, latencies: [], version: 0, lasting: {}, at: {}, events: [], hears: [] });
  let serial = 0, sentAt = new Map(), textTimer = 0, textDirty = false, slide = 0;

  const send = (what, data = {}) => { serial += 1; sentAt.set(serial, performance.now()); emitEvent("ff", { do: what, n: serial, ...data }); };
  ff.send = send;
  const field = (path) => one(`.entry [data-path="${CSS.escape(path)}"]`);

  // --- what comes ---
  ff.take = (message) => {
    if ("name" in message) all("[data-name]").forEach((e) => { e.textContent = message.name; document.title = `${message.name}: firstfire`; });
    for (const [slot, html] of Object.entries(message.put ?? {})) put(slot, html);
    if (message.old) all("[data-slot]").forEach((e) => age(e, message.old.includes(e.dataset.slot)));
    if (message.rows) { Object.assign(ff.rows, message.rows); Object.keys(message.rows).forEach(row); said(); }
    if (message.put?.form) { Object.keys(ff.rows).forEach(row); said(); }
    if (message.decides) { ff.decides = message.decides; deciding(); }
    if (message.put?.form && ff.decides) deciding();
    if (message.problems) problems(message.problems);
    if (message.head) head(message.head);
    if (message.text) text(message.text);
    if (message.events) ff.events = message.events;
    if (message.at) ff.at = message.at;
    if (message.events) events(); else if (message.at) at();
    if (message.lasting) { ff.lasting = message.lasting; chance(); }
    if ("progress" in message) progress(message.progress);
    if (message.say) say(message.say);
    if (message.why) why(message.why);
    for (const hear of ff.hears) hear(message); // a page's own script
    if (message.echo && sentAt.has(message.echo)) {
      const began = sentAt.get(message.echo);
      sentAt.clear();
      requestAnimationFrame(() => ff.latencies.push(performance.now() - began));
    }
  };

  const put = (slot, html) => {
    for (const place of all(`[data-slot="${slot}"]`)) {
      if (slot === "ledger" && place.told === html) continue; // what is pointed at stays
      place.told = html;
      const held = place.contains(document.activeElement) ? document.activeElement : null;
      const point = held?.dataset?.point, part = held?.closest?.("[data-part]")?.dataset.part;
      const open = all("details[open]", place).map((d) => d.dataset.why);
      place.innerHTML = html;
      if (slot === "desk" || slot === "narrow") parts(place);
      // two cylinders are seen beside each other only along the crank: it stands open until closed
      if (slot === "along" && !ff.along && html.includes("data-twin")) { ff.along = true; place.closest("details").open = true; }
      all("details[data-why]", place).filter((d) => open.includes(d.dataset.why)).forEach((d) => { d.open = true; });
      if (point) one(`[data-point="${CSS.escape(point)}"]`, place)?.focus();
      else if (part) one(`[data-part="${CSS.escape(part)}"]`, place)?.focus?.();
    }
  };
  const age = (element, old) => { element.classList.toggle("old", old); element.toggleAttribute("data-old", old); element.setAttribute("aria-busy", old ? "true" : "false"); };

  // --- the form ---
  const row = (path) => {
    const known = ff.rows[path], input = field(path);
    if (!known || !input) return;
    if (document.activeElement !== input || input.tagName === "SELECT") input.value = known.v;
    input.placeholder = known.v ? "" : "not said";
    const around = input.closest(".row"), own = known.l !== "";
    around.classList.toggle("own", own);
    around.dataset.kind = known.k;
    one(".why", around).textContent = known.l === "trial" ? "as tried" : known.why;
    one(".back", around).hidden = known.l !== "file";
  };
  const deciding = () => all(".row[data-row]").forEach((around) => {
    const known = ff.decides[around.dataset.row], line = one(".decides", around);
    line.textContent = known ? `${known.word}: ${known.words}` : "";
    line.dataset.word = known ? known.word.replace(" ", "-") : "";
  });
  const said = () => all("details.section").forEach((s) => { const n = all(".row.own", s).length; one(".said", s).textContent = n ? `${n} set` : ""; });
  const problems = (found) => {
    all(".wrong").forEach((e) => { e.hidden = true; e.textContent = ""; });
    all("[aria-invalid]").forEach((e) => e.removeAttribute("aria-invalid"));
    if (ff.wrong && !found.length) Object.keys(ff.rows).forEach(row);
    ff.wrong = found.length;
    const rest = [];
    for (const problem of found) {
      const path = problem.path.replace(/^cylinders\.\d+\./, ""), input = field(path);
      if (input) {
        const words = one(".wrong", input.closest(".row"));
        words.textContent = problem.words; words.hidden = false;
        input.setAttribute("aria-invalid", "true");
        input.closest("details").open = true;
      }
      rest.push(`${problem.line ? `Line ${problem.line}: ` : ""}${problem.path} ${problem.words}`.trim());
    }
    const list = one("[data-problems]");
    if (list) list.replaceChildren(...rest.map((words) => Object.assign(document.createElement("li"), { textContent: words })));
    const form = one("[data-slot=form]");
    if (form) form.classList.toggle("wrong-somewhere", found.length > 0);
    if (found.length && !list) say(`${found.length === 1 ? "Something is" : `${found.length} things are`} wrong with its description: ${rest[0]} The page Engine shows where.`);
    else if (!found.length && one("[data-say]").dataset.of === "problems") say("");
    if (found.length && !list) one("[data-say]").dataset.of = "problems";
  };
  document.addEventListener("input", (event) => {
    const input = event.target;
    if (input.dataset?.path && input.tagName === "INPUT" && input.value.trim()) send("set", { path: input.dataset.path, said: ff.typed(input) });
    else if (input.id === "text") { textDirty = true; clearTimeout(textTimer); textTimer = setTimeout(() => send("write", { text: input.value, seen: ff.version }), 250); }
    else if (input.id === "find") find(input.value.trim().toLowerCase());
    else if (input.id === "seconds") { cancelAnimationFrame(slide); slide = requestAnimationFrame(() => { words(); send("at", { event: one("#event").value, seconds: seconds() }); }); }
  });
  document.addEventListener("change", (event) => {
    const input = event.target;
    if (input.dataset?.path && (input.tagName === "SELECT" || !input.value.trim())) send("set", { path: input.dataset.path, said: input.value });
    else if (input.id === "event") send("at", { event: input.value, seconds: null });
  });
  document.addEventListener("focusout", (event) => { const path = event.target.dataset?.path; if (path) setTimeout(() => row(path), 400); });
  const find = (asked) => all("details.section").forEach((section) => {
    let any = false;
    all(".row", section).forEach((r) => {
      const fits = !asked || r.dataset.row.replace(/[._]/g, " ").includes(asked) || one("label", r).textContent.toLowerCase().includes(asked);
      r.hidden = !fits; any ||= fits;
    });
    section.hidden = !any;
    if (asked && any) section.open = true;
  });

  // --- head, text, conflict, trials ---
  const head = (known) => {
    const words = { saved: "saved", changed: "changed, not saved", "in conflict": "changed here and on disk", "not saved yet": "not saved yet" }[known.state];
    all("[data-state]").forEach((e) => { e.textContent = `${known.file}: ${words}`; e.dataset.state = known.state; });
    const button = (what) => one(`[data-do="${what}"]`);
    for (const what of ["undo", "redo"]) { button(what).disabled = known[what] === null; button(what).title = known[what] ? `${what === "undo" ? "take back" : "bring back"}: ${known[what]}` : ""; }
    button("save").disabled = known.state === "saved" || known.state === "in conflict";
    if (known.taken_up && !ff.told) { ff.told = true; if (known.state !== "saved") say("What you had not saved when firstfire ended is here again."); }
    conflict(known.conflict);
    trials(known);
  };
  const make = (tag, words = "", data = {}) => { const e = Object.assign(document.createElement(tag), { textContent: words }); Object.assign(e.dataset, data); if (tag === "button") e.type = "button"; return e; };
  const conflict = (sides) => {
    const place = one("[data-conflict]");
    place.hidden = !sides;
    if (!sides) return place.replaceChildren();
    const column = (title, value, what, words) => {
      const box = make("div"), shown = make("pre", value ?? "The file is gone.");
      shown.tabIndex = 0; shown.setAttribute("aria-label", title);
      box.append(make("h3", title), shown);
      if (value !== null || what === "keep_mine") box.append(make("button", words, { do: what }));
      return box;
    };
    const theirs = (sides.theirs ?? "").split("\n"), mine = sides.mine.split("\n");
    const differ = mine.filter((line) => !theirs.includes(line)).length + theirs.filter((line) => !mine.includes(line)).length;
    const both = make("div"); both.className = "both";
    both.append(column("Here", sides.mine, "keep_mine", "Keep what is here"), column("On disk", sides.theirs, "take_theirs", "Take what is on disk"));
    place.replaceChildren(make("h2", "Another program has changed the file"), make("p", `${differ} lines differ. Nothing is written until you choose; what you don't choose can still be had back by Undo where it stood here.`), both);
  };
  const trials = (known) => {
    const place = one("[data-trials]");
    place.hidden = !known.trials.length;
    const choices = [["The present engine", null], ...known.trials.map((t, n) => [t.words, n])].map(([words, n]) => {
      const line = make("div"), button = make("button", words, { show: n === null ? "" : n });
      button.setAttribute("aria-pressed", String(known.shown === n));
      line.append(button);
      if (n !== null) line.append(make("button", "Write into the file's text", { take: n }), make("button", "Take away", { drop: n }));
      return line;
    });
    place.replaceChildren(make("h2", "Shown"), ...choices);
  };
  const text = (known) => {
    ff.version = known.version;
    const area = one("#text");
    if (!area) return;
    if (textDirty && document.activeElement === area && area.value !== known.value) return;
    textDirty = false;
    if (area.value !== known.value) { const [from, to] = [area.selectionStart, area.selectionEnd]; area.value = known.value; if (document.activeElement === area) area.setSelectionRange(from, to); }
  };
  const say = (words) => { const place = one("[data-say]"); delete place.dataset.of; place.replaceChildren(); if (words) place.append(make("p", words), make("button", "Close", { close: "" })); };
  const progress = (known) => {
    const place = one("[data-progress]");
    place.hidden = !known;
    if (!known) return place.replaceChildren();
    if (known.stopped) return place.replaceChildren(make("span", "The whole check is stopped. "), make("button", "Go on", { do: "go on" }));
    let bar = one("progress", place);
    if (!bar) {
      bar = make("progress"); bar.max = 1; bar.setAttribute("aria-label", "Share of the check that is done");
      place.replaceChildren(bar, make("span"), make("button", "Stop", { do: "stop" }));
    }
    bar.value = known.share;
    const left = known.left === null || known.left === undefined ? "" : known.left < 90 ? `, about ${Math.max(Math.round(known.left / 5) * 5, 5)} s left` : `, about ${Math.round(known.left / 60)} min left`;
    one("span", place).textContent = `The whole check: ${known.what}, ${Math.round(known.share * 100)} %${left}.`;
  };

  // --- event, seconds ---
  const events = () => {
    const select = one("#event");
    if (!select || !ff.events.length) return;
    const now = ff.at.event || select.value;
    select.replaceChildren(...ff.events.map(([id, words]) => Object.assign(document.createElement("option"), { value: id, textContent: words })));
    const speed = now.match(/@(\d+)rpm$/)?.[1]; // chosen on another page
    if (speed) select.prepend(Object.assign(document.createElement("option"), { value: now, textContent: `full throttle, ${speed} rpm` }));
    if (now) select.value = now;
    select.disabled = one("#seconds").disabled = false; // what is moved before would be of no event
    at();
  };
  const what = (id) => id.split("@")[0];
  const horizon = () => { const now = one("#event")?.value ?? ""; return (ff.events.find(([id]) => id === now) ?? ff.events.find(([id]) => what(id) === what(now)))?.[2] ?? 0; };
  const seconds = () => { const h = horizon(), x = one("#seconds").value / 1000; return h > 20 ? Math.expm1(x * Math.log1p(h * 10)) / 10 : x * h; };
  const place = (s) => { const h = horizon(); return Math.round(1000 * (h > 20 ? Math.log1p(s * 10) / Math.log1p(h * 10) : s / (h || 1))); };
  const shownSeconds = (s) => s < 10 ? `${s.toFixed(1)} s` : s < 120 ? `${Math.round(s)} s` : `${Math.round(s / 60)} min`;
  const at = () => {
    const select = one("#event");
    if (!select || !ff.events.length) return;
    if (ff.at.event && document.activeElement !== select) {
      if (ff.at.event.endsWith("rpm") && ![...select.options].some((o) => o.value === ff.at.event)) return events();
      select.value = ff.at.event;
    }
    const slider = one("#seconds");
    one("#seconds-row").hidden = horizon() <= 0;
    if (document.activeElement !== slider && ff.at.event) slider.value = place(ff.at.seconds);
    const limit = ff.at.point ? `${ff.at.point}${horizon() > 0 ? `, ${shownSeconds(ff.at.seconds)} into it` : ""}. ` : "";
    one("#at").textContent = limit + (ff.at.settled ? "" : "A first answer: its walls are still as warm as before the change.");
    words();
  };
  const words = () => {
    const slider = one("#seconds");
    if (!slider) return;
    one("#seconds-words").textContent = shownSeconds(seconds());
    slider.setAttribute("aria-valuetext", shownSeconds(seconds()));
    chance();
  };
  const chance = () => {
    const told = one("#chance"), known = ff.lasting[(one("#event")?.value ?? "").split("@")[0]];
    if (!told) return;
    if (!known) { told.textContent = ""; curve(null); return; }
    const s = seconds(); let n = known.seconds.findIndex((x) => x > s); n = n < 0 ? known.seconds.length - 1 : Math.max(n - 1, 0);
    const c = known.chance[n];
    const odds = c > 0.95 ? "better than 19 in 20" : c < 0.05 ? "less than 1 in 20" : `about ${Math.round(c * 20)} in 20`;
    curve(known, s);
    told.textContent = `Chance that nothing judged has given way by then: ${odds}. ${known.words}`;
  };

  // The same chance over the ruler of seconds, as a curve.
  const curve = (known, s) => {
    const box = one("#lasting");
    box.hidden = !known || horizon() <= 0;
    if (box.hidden) return;
    const points = known.seconds.map((x, n) => `${Math.min(place(x), 1000)},${(100 * (1 - known.chance[n])).toFixed(1)}`);
    one("[data-curve]", box).setAttribute("d", `M0,${100 * (1 - known.chance[0])}L${points.join("L")}`);
    one("[data-now]", box).setAttribute("d", `M${place(s)},0V100`);
  };

  // --- parts of the drawing ---
  const parts = (place) => all(".ff-part[data-word]", place).forEach((part) => { part.tabIndex = 0; part.setAttribute("role", "button"); part.setAttribute("aria-label", one("title", part)?.textContent ?? ""); });
  const light = (part) => {
    all(".lit").forEach((e) => e.classList.remove("lit"));
    if (part) all(`[data-part="${CSS.escape(part)}"]`).forEach((e) => e.classList.add("lit"));
  };
  const pointed = (event) => { const on = event.target.closest?.("[data-part]"); if (on) light(on.dataset.part); else if (event.type === "mouseover") light(""); };
  document.addEventListener("mouseover", pointed);
  document.addEventListener("focusin", pointed);
  const follow = (part) => { const line = one(`.ledger [data-part="${CSS.escape(part)}"]`); if (line) { line.scrollIntoView({ block: "nearest" }); (one("button,summary", line) ?? line).focus(); } };

  // --- what is pressed ---
  document.addEventListener("click", (event) => {
    const part = event.target.closest(".ff-part[data-word]");
    if (part) return follow(part.dataset.part);
    const button = event.target.closest("button");
    if (!button) return;
    const data = button.dataset;
    if (data.do) send(data.do);
    else if ("close" in data) say("");
    else if (data.back) send("set", { path: data.back, said: "" });
    else if (data.try !== undefined) send("try", { place: Number(data.try) });
    else if (data.show !== undefined) send("show", { place: data.show === "" ? null : Number(data.show) });
    else if (data.take !== undefined) send("take", { place: Number(data.take) });
    else if (data.drop !== undefined) send("drop", { place: Number(data.drop) });
    else if (data.point) all(`.ff-part[data-part="${CSS.escape(data.point)}"]`).find((e) => e.getClientRects().length)?.focus(); // desk's or narrow's
  });
  document.addEventListener("keydown", (event) => {
    const part = event.target.closest?.(".ff-part[data-word]");
    if (part && (event.key === "Enter" || event.key === " ")) { event.preventDefault(); follow(part.dataset.part); }
    const typing = ["INPUT", "TEXTAREA"].includes(event.target.tagName) && event.target.id !== "seconds";
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s") { event.preventDefault(); send("save"); }
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !typing) { event.preventDefault(); send(event.shiftKey ? "redo" : "undo"); }
  });
  document.addEventListener("toggle", (event) => { const id = event.target.dataset?.why; if (id && event.target.open && !one(".why", event.target)) send("why", { id }); }, true);
  const why = (known) => all(`details[data-why="${CSS.escape(known.id)}"] .opened`).forEach((e) => { e.innerHTML = known.html; });
})();

// A tab joins as soon as the line to the server stands; the first page has a script of its own.
(() => {
  const start = () => {
    if (document.querySelector("[data-name], [data-state]")) {
      const narrow = window.matchMedia("(max-width: 639px)");
      const came = () => emitEvent("ff-came", { narrow: narrow.matches });
      narrow.addEventListener("change", came);
      came();
    }
    document.querySelectorAll("[data-begin]").forEach((b) => b.addEventListener("click", () => begin({ do: b.dataset.begin, name: b.dataset.name })));
    const form = document.querySelector("[data-new]");
    form?.addEventListener("submit", (event) => { event.preventDefault(); begin({ do: "new", said: Object.fromEntries(new FormData(form)) }); });
    const drop = document.querySelector("[data-drop]");
    drop?.addEventListener("dragover", (event) => { event.preventDefault(); drop.classList.add("over"); });
    drop?.addEventListener("dragleave", () => drop.classList.remove("over"));
    drop?.addEventListener("drop", (event) => { event.preventDefault(); drop.classList.remove("over"); file(event.dataTransfer.files[0]); });
    document.querySelector("#file")?.addEventListener("change", (event) => file(event.target.files[0]));
  };
  const begin = (what) => emitEvent("ff-begin", what);
  const file = async (one) => {
    if (!one) return;
    if (one.size > 500000) return window.ff.take({ say: `${one.name} is ${(one.size / 1e6).toFixed(1)} MB. An engine file is some kilobytes.` });
    begin({ do: "file", name: one.name, text: await one.text() });
  };
  const wait = () => (window.socket?.connected && document.querySelector(".pages") ? start() : setTimeout(wait, 20));
  wait();
})();
