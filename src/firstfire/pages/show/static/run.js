// The page Will it run: crank angle moves mechanism and cursors, a curve moves both; a start in time.
(() => {
  const one = (query, from = document) => from.querySelector(query);
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const SVG = "http://www.w3.org/2000/svg", THIN = "\u202f";
  const still = () => matchMedia("(prefers-reduced-motion: reduce)").matches;
  let cycle = null, start = null, story = null, angle = -90, ready = false;

  const figures = (v) => (v ? String(Number(v.toPrecision(3))) : "0").replace("-", "−");
  const degrees = (a) => (Math.round(a) ? `${Math.abs(Math.round(a))}° ${a < 0 ? "before" : "after"} firing top` : "firing top");

  // --- charts: scales, cursors, readouts ---
  const scale = (words) => {
    const [low, high, from, to, log] = words.split(" ").map(Number);
    return {
      low, high, from, to,
      at: (v) => from + (to - from) * (log ? Math.log(v / low) / Math.log(high / low) : (v - low) / (high - low)),
      value: (x) => { const s = (x - from) / (to - from); return log ? low * (high / low) ** s : low + s * (high - low); },
    };
  };
  const curves = (svg) => (svg.curves ??= all("polyline[data-name]", svg).map((p) => ({ name: p.dataset.name, points: p.getAttribute("points").split(" ").map((s) => s.split(",").map(Number)) })));
  const height = (points, x) => {
    for (let n = 1; n < points.length; n += 1) {
      const [a, b] = [points[n - 1], points[n]];
      if ((x - a[0]) * (x - b[0]) <= 0 && a[0] !== b[0]) return a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
    }
    return null;
  };
  const mark = (svg, tag, data) => {
    let e = one(`${tag}.cursor`, svg);
    if (!e) { e = document.createElementNS(SVG, tag); e.setAttribute("class", "cursor"); svg.append(e); }
    for (const [name, value] of Object.entries(data)) e.setAttribute(name, value);
  };
  const cursor = (svg, x, words) => {
    const up = scale(svg.dataset.y), out = svg.parentElement.querySelector("output");
    mark(svg, "line", { x1: x, x2: x, y1: up.from, y2: up.to });
    const read = curves(svg).map((c) => { const y = height(c.points, x); return y === null ? "" : `${c.name} ${figures(up.value(y))}${THIN}${svg.dataset.uy}`; });
    const said = read.filter(Boolean).join("; ");
    if (out) out.textContent = said ? `${words}: ${said}` : words;
  };
  const across = (svg, event) => { const box = svg.getBoundingClientRect(), view = svg.viewBox.baseVal; return [((event.clientX - box.left) / box.width) * view.width, ((event.clientY - box.top) / box.height) * view.height]; };

  // --- one cycle ---
  const phase = (row) => cycle?.motion.cylinders[row - 1]?.phase ?? 0;
  const charts = () => all("[data-slot=cycle] .cycle-chart").map((holder) => ({ svg: one("svg.chart", holder), row: Number(holder.dataset.cylinder), loop: holder.dataset.chart === "loop" }));
  const placed = (svg, row, at) => { const x = scale(svg.dataset.x), here = ff.own(at, row ? phase(row) : 0); return x.at(x.low === 0 ? (here + 720) % 720 : here); };
  const turn = (to) => {
    angle = ((((Math.round(to) + 360) % 720) + 720) % 720) - 360;
    if (!cycle?.motion) return;
    cycle.show(angle);
    const slider = one("#turn"), words = gasWords();
    if (Number(slider.value) !== angle && !(Number(slider.value) === 360 && angle === -360)) slider.value = angle;
    one("#turn-words").textContent = degrees(angle);
    slider.setAttribute("aria-valuetext", `${degrees(angle)}. ${words.join(". ")}`);
    one("#joint-words").textContent = `At the joints: ${ff.joints(cycle.motion, angle).join("; ")}.`;
    one("#gas-words").replaceChildren(...words.map((w) => Object.assign(document.createElement("p"), { textContent: w })));
    all("[data-turn]").forEach((b) => b.setAttribute("aria-pressed", String(stroke(Number(b.dataset.turn)) === stroke(angle))));
    for (const { svg, row, loop } of charts()) {
      if (loop) dots(svg);
      else cursor(svg, placed(svg, row, angle), degrees(ff.own(angle, row ? phase(row) : 0)));
    }
  };
  const stroke = (at) => Math.floor((at + 360) / 180) % 4;
  const gasWords = () => cycle.motion.cylinders.map((c, row, many) => {
    const at = ff.own(angle, c.phase), [, word, words] = ff.state(c, at), share = Math.round(100 * ff.along(word === "burns" ? c.flame : c.residue, at));
    const burned = share < 1 || word === "works" ? "" : word === "burns" ? `, ${share}${THIN}% of it by now` : `; ${share}${THIN}% of what it holds has burned`;
    const name = many.length > 1 ? `Cylinder ${row + 1}: ` : "";
    const said = `${name}${words}${burned}. ${figures(ff.along(c.pressure, at))}${THIN}bar, ${Math.round(ff.along(c.temperature, at))}${THIN}°C`;
    return ff.gas(c, at).spark ? `${said}. The spark is here` : said;
  });
  const dots = (svg) => {
    const x = scale(svg.dataset.x), y = scale(svg.dataset.y), out = svg.parentElement.querySelector("output");
    all("circle.cursor", svg).forEach((e) => e.remove());
    const said = cycle.motion.cylinders.map((c, row) => {
      const at = ff.own(angle, c.phase), volume = ff.along(c.volume, at), pressure = ff.along(c.pressure, at), e = document.createElementNS(SVG, "circle");
      for (const [name, value] of Object.entries({ class: "cursor", cx: x.at(volume), cy: y.at(pressure), r: 4.5 })) e.setAttribute(name, value);
      svg.append(e);
      return `${cycle.motion.cylinders.length > 1 ? `cylinder ${row + 1} ` : ""}${figures(volume)}${THIN}cm³, ${figures(pressure)}${THIN}bar`;
    });
    if (out) out.textContent = `${degrees(angle)}: ${said.join("; ")}`;
  };
  const nearest = (svg, [px, py]) => { // the angle whose dot on the loop is nearest
    const x = scale(svg.dataset.x), y = scale(svg.dataset.y); let best = [Infinity, 0];
    for (const c of cycle.motion.cylinders) for (let at = -360; at < 360; at += 1) {
      const far = Math.hypot(x.at(ff.along(c.volume, at)) - px, y.at(ff.along(c.pressure, at)) - py);
      if (far < best[0]) best = [far, at + c.phase];
    }
    return best[1];
  };
  const pressed = (event) => {
    const svg = event.target.closest?.("svg.chart"), holder = svg?.closest(".cycle-chart");
    if (!svg?.dataset.x) return;
    const [px, py] = across(svg, event);
    if (holder && cycle?.motion) {
      if (holder.dataset.chart === "loop") return turn(nearest(svg, [px, py]));
      const x = scale(svg.dataset.x), row = Number(holder.dataset.cylinder);
      return turn(x.value(Math.min(Math.max(px, x.from), x.to)) + (row ? phase(row) : 0));
    }
    if (inTime().includes(svg)) return ff.sound.stop(), seconds(scale(svg.dataset.x).value(px));
    const x = scale(svg.dataset.x), at = Math.min(Math.max(px, x.from), x.to);
    if (curves(svg).length) cursor(svg, at, `${figures(x.value(at))}${svg.dataset.ux === "°" ? "" : THIN}${svg.dataset.ux}`);
  };

  // --- power and torque against speed: the speed that is run stands in them, a press runs another ---
  const speeds = () => all("[data-slot=speeds] svg.chart").filter((svg) => svg.dataset.x && svg.dataset.ux === "rpm");
  const markSpeed = () => {
    const rpm = cycle?.motion?.rpm;
    if (rpm && ff.at.event?.startsWith("full_throttle")) speeds().forEach((svg) => { const x = scale(svg.dataset.x); if (rpm >= x.low && rpm <= x.high) cursor(svg, x.at(rpm), `run at ${Math.round(rpm)}${THIN}rpm`); });
  };
  const runAt = (rpm) => { ff.sound.stop(); ff.send("at", { event: `full_throttle@${rpm}rpm`, seconds: null }); };

  // --- playing: only when asked, never where motion is to be reduced ---
  const player = (button, step) => {
    let on = 0;
    const stop = () => { cancelAnimationFrame(on); on = 0; button.textContent = "Run slowly"; button.setAttribute("aria-pressed", "false"); };
    button.hidden = still();
    button.addEventListener("click", () => {
      if (on) return stop();
      ff.sound.stop();
      button.textContent = "Hold"; button.setAttribute("aria-pressed", "true");
      let before = performance.now();
      const frame = (now) => { const more = step((now - before) / 1000); before = now; if (more === false) stop(); else on = requestAnimationFrame(frame); };
      on = requestAnimationFrame(frame);
    });
    return stop;
  };

  // --- a start in time: its charts over the same seconds go along ---
  const inTime = () => all("[data-slot=start] svg.chart").filter((svg) => svg.dataset.ux === "s" && /^(story|peaks)/.test(one("desc", svg)?.id ?? ""));
  const seconds = (s) => {
    if (!story || !start?.motion) return;
    const ends = story.time.at(-1), at = Math.min(Math.max(s, 0), ends), step = ends / (story.time.length - 1);
    const n = Math.min(Math.floor(at / step), story.time.length - 2), share = at / step - n;
    const between = (list) => list[n] + (list[n + 1] - list[n]) * share, shaft = between(story.angle), rpm = between(story.rpm);
    const turnTime = rpm > 1 ? 120 / rpm : 1;
    start.show(shaft, (row, here, c) => {
      const lit = story.burns.filter(([r, t]) => r === row && t <= at && t > at - turnTime).at(-1), tried = [...story.burns, ...story.misses].some(([r, t]) => r === row && Math.abs(t - at) < turnTime * 0.012);
      const opens = ff.opens(c), burned = lit && here > -60 && here < opens ? 1 : 0, open = here >= opens || here < -350;
      return { fill: open ? "exhaust" : "fresh", burned, burns: false, spark: tried, flows: false };
    });
    one("#story-time").value = Math.round((1000 * at) / ends);
    const told = story.told.filter(([t]) => t <= at + 1e-9).at(-1), words = `${at.toFixed(2)}${THIN}s, ${Math.round(rpm)}${THIN}rpm`.replace("-", "−");
    one("#story-at").textContent = words;
    one("#story-said").textContent = told ? told[1] : "";
    const gas = start.motion.cylinders.map((c, row) => {
      const here = ff.own(shaft, c.phase), lit = story.burns.some(([r, t]) => r === row && t <= at && t > at - turnTime);
      const does = here < -180 ? "takes in" : here < 0 ? "compresses" : here >= 180 ? "lets out" : lit ? "burned gas drives it" : "expands, unburned";
      return `${start.motion.cylinders.length > 1 ? `cylinder ${row + 1} ` : ""}${does}, ${figures(between(story.pressure[row]))}${THIN}bar`;
    });
    one("#story-gas").textContent = `${degrees(ff.own(shaft, 0))}: ${gas.join("; ")}`;
    one("#story-time").setAttribute("aria-valuetext", `${words}: ${told ? told[1] : ""}`);
    for (const svg of inTime()) cursor(svg, scale(svg.dataset.x).at(at), `${at.toFixed(2)}${THIN}s`);
    all("[data-slot=start] .moments li").forEach((li, m) => li.classList.toggle("here", told === story.told[m]));
    start.at = at;
  };
  ff.opens = (c) => (c.states.find(([from, word]) => from > 0 && ["leaves", "back", "both"].includes(word)) ?? [180])[0];

  // --- sound: of the tab that asked for it alone ---
  let wanted = "", heard = null;
  const ask = (which, words) => { wanted = which; ff.sound.awake(); one(words).textContent = "Computing ..."; };
  const hear = (told) => {
    one("#hear-words").textContent = told.words;
    if (wanted !== "cycle") return;
    wanted = "";
    ff.sound.stop();
    if (!told.samples) return;
    ff.heard = ff.sound.play(told, { loop: true, ended: () => { one("#hush").hidden = true; } });
    one("#hush").hidden = false;
  };
  const hearStart = () => { // from where the slider is, and it moves along
    one("#story-heard").textContent = `${heard.words}${still() ? " Nothing moves along: your system asks for less motion." : ""}`;
    if (wanted !== "start") return;
    wanted = "";
    ff.sound.stop();
    if (!heard.samples) return;
    holdStory();
    const lasts = (heard.samples.length * 3) / 8 / heard.rate, begins = start.at - heard.from > lasts - 0.05 ? 0 : start.at, moves = !still();
    let frame = 0;
    const step = () => { const at = ff.sound.at(); if (at !== null) { seconds(heard.from + at); frame = requestAnimationFrame(step); } };
    ff.heardStart = ff.sound.play(heard, { from: Math.max(begins - heard.from, 0), ended: () => { cancelAnimationFrame(frame); one("#story-hush").hidden = true; } });
    one("#story-hush").hidden = false;
    if (moves) frame = requestAnimationFrame(step);
  };

  // --- what comes ---
  const events = () => {
    const select = one("#run-event"), now = ff.at.event || select.value;
    select.replaceChildren(...ff.events.map(([value, words]) => Object.assign(document.createElement("option"), { value, textContent: words })));
    const chosen = now.match(/@(\d+)rpm$/)?.[1], speed = one("#run-speed");
    if (chosen) select.prepend(Object.assign(document.createElement("option"), { value: now, textContent: `full throttle, ${chosen} rpm` }));
    if (document.activeElement !== speed) speed.value = chosen ?? "";
    if (now) select.value = now;
  };
  const progress = (known, problems) => {
    const place = one("#start-progress");
    place.hidden = !known;
    one("#start-go").textContent = known ? "Start it anew" : "Start it";
    if (known) {
      one("progress", place).value = known.share;
      const left = known.left == null ? "" : `, about ${Math.max(5, Math.round(known.left / 5) * 5)}${THIN}s left`;
      one("span", place).textContent = known.ending ? "Ending with what is known ..." : `${known.what}, ${Math.round(100 * known.share)}${THIN}%${left}`;
    }
    all("[data-wrong]").forEach((e) => {
      const wrong = problems.find((p) => p.field === e.dataset.wrong), input = one("input,select", e.parentElement);
      e.hidden = !wrong; e.textContent = wrong ? wrong.words : "";
      input.toggleAttribute("aria-invalid", Boolean(wrong));
      if (wrong) { input.setAttribute("aria-invalid", "true"); if (e.closest("details")) e.closest("details").open = true; }
    });
  };
  // What an empty field stands for, as the description has it.
  const FILED = { temperature: "surroundings.air_temperature", stood: "use.stood", spark: "spark.start_angle", throttle: "intake.throttle_opening", starter: "starter.kind" };
  const filed = () => {
    for (const [name, where] of Object.entries(FILED)) {
      const input = one(`#start-${name}`), value = ff.rows[where]?.v;
      if (value === undefined) continue;
      const share = name === "throttle" && Number.isFinite(Number(value)); // its field is one of per cent
      const chosen = input.tagName === "SELECT" && [...input.options].find((o) => o.value === value);
      const words = `as the file has it: ${chosen ? chosen.textContent : share ? `${figures(100 * value)} %` : value.replace(/ deg$/, "°")}`;
      if (input.tagName === "SELECT") input.options[0].textContent = words; else input.placeholder = words;
    }
  };
  const setUp = () => {
    ready = true;
    ff.ends = () => story.time.at(-1);
    ff.cylinder = () => cycle.motion.cylinders[0];
    cycle = ff.mechanism(one("#mechanism")); start = ff.mechanism(one("#story-mechanism")); start.at = 0;
    player(one("#play"), (passed) => turn(exact = (exact === null || Math.round(exact) !== angle ? angle : exact) + passed * 90));
    holdStory = player(one("#story-play"), (passed) => { if (start.at >= story.time.at(-1)) return false; seconds(start.at + passed * 0.1); });
    one("#start-form").addEventListener("submit", (event) => { event.preventDefault(); ff.send("start", { said: set() }); });
    one("#start-form").addEventListener("change", () => { const n = all("[data-fault]:checked").length; one("#faults-said").textContent = n ? `${n} given` : ""; });
  };
  let exact = null, holdStory = () => {};
  const set = () => {
    const said = Object.fromEntries(new FormData(one("#start-form")));
    for (const box of all("[data-fault]:checked")) said[`fault.${box.dataset.fault}`] = one(`[data-size="${box.dataset.fault}"]`)?.value ?? "";
    return said;
  };
  ff.hears.push((message) => {
    if (!one("#mechanism")) return;
    if (!ready) setUp();
    if (message.events || message.at) events();
    if (message.rows) filed();
    if (message.at) one("#run-at").textContent = `${one("#run-event").selectedOptions[0]?.textContent.includes("rpm") ? "" : `${ff.at.point}. `}${ff.at.settled ? "" : "A first answer: its walls are still as warm as before the change."}`;
    if (message.motion) {
      cycle.begin(message.motion); start.begin(message.motion);
      one("#story-move").hidden = !story;
    }
    if (message.put?.cycle) keepFocus();
    if (message.motion || message.put?.cycle) turn(angle);
    if (message.motion || message.put?.speeds || message.at) markSpeed();
    if ("story" in message) { if (story !== message.story) { heard = null; one("#story-heard").textContent = ""; } story = message.story; one("#story-move").hidden = !story || !start.motion; }
    if (story && (message.motion || message.story || message.put?.start)) seconds(start.at);
    if (message.start) progress(message.start.progress, message.start.problems);
    if (message.sound) hear(message.sound);
    if (message.start_sound) { heard = message.start_sound; hearStart(); }
  });

  // --- what is done ---
  document.addEventListener("input", (event) => {
    if (event.target.id === "turn") turn(Number(event.target.value));
    if (event.target.id === "story-time" && story) { ff.sound.stop(); seconds((event.target.value / 1000) * story.time.at(-1)); }
    if (event.target.id === "forces") one("#mechanism").classList.toggle("no-forces", !event.target.checked);
  });
  document.addEventListener("change", (event) => { if (event.target.id === "run-event") { ff.sound.stop(); ff.send("at", { event: event.target.value, seconds: null }); }
    if (event.target.id === "run-speed" && event.target.value.trim()) runAt(Math.round(Number(event.target.value.replace(",", ".")))); });
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (button?.dataset.turn) turn(Number(button.dataset.turn));
    else if (button?.id === "start-stop") ff.send("end start");
    else if (button?.id === "hush" || button?.id === "story-hush") ff.sound.stop();
    else if (button?.id === "hear") { ask("cycle", "#hear-words"); ff.send("sound"); }
    else if (button?.id === "story-hear") { ask("start", "#story-heard"); if (heard) hearStart(); else ff.send("start sound"); }
  });
  document.addEventListener("click", (event) => {
    const svg = event.target.closest?.("svg.chart");
    if (!svg || !speeds().includes(svg)) return;
    const x = scale(svg.dataset.x), rpm = x.value(Math.min(Math.max(across(svg, event)[0], x.from), x.to));
    runAt(Math.round(rpm / 50) * 50);
  });
  // A chart that keys turn keeps them when the next answer takes its place.
  let onChart = null;
  document.addEventListener("focusin", (event) => { onChart = event.target.closest?.(".cycle-chart")?.dataset.chart ?? null; });
  const keepFocus = () => { if (onChart && document.activeElement === document.body) one(`.cycle-chart[data-chart="${CSS.escape(onChart)}"] svg.chart`)?.focus({ preventScroll: true }); };
  let dragging = false;
  document.addEventListener("pointerdown", (event) => { if (event.target.closest?.(".pages svg.chart")) { dragging = event.pointerType === "mouse"; pressed(event); } });
  document.addEventListener("pointermove", (event) => { if (dragging) pressed(event); });
  document.addEventListener("pointerup", () => { dragging = false; });
  document.addEventListener("keydown", (event) => {
    const holder = event.target.closest?.("svg.chart")?.closest(".cycle-chart"), step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (holder && step) { event.preventDefault(); turn(angle + step * (event.shiftKey ? 10 : 1)); }
  });
})();
