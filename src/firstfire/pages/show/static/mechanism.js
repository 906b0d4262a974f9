// The mechanism to scale, turned to any crank angle: lengths and gas come from the server, what
// moves is the slider-crank's own law. `ff.mechanism(place)` gives one that shows itself there.
(() => {
  const SVG = "http://www.w3.org/2000/svg", rad = Math.PI / 180;
  const make = (tag, data = {}, into = null) => {
    const e = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(data)) e.setAttribute(name, value);
    into?.append(e);
    return e;
  };
  const set = (e, data) => { for (const [name, value] of Object.entries(data)) e.setAttribute(name, value); };
  const path = (points) => `M${points.map((p) => p.map((n) => n.toFixed(2)).join(" ")).join("L")}Z`;
  const own = (angle, phase) => ((((angle - phase + 360) % 720) + 720) % 720) - 360;
  const along = (list, at) => { // told at each degree from -360 to 360
    const n = Math.min(Math.floor(at + 360), 719), share = at + 360 - n;
    return list[n] + (list[n + 1] - list[n]) * share;
  };
  const state = (c, at) => c.states.filter(([from]) => from <= at).at(-1) ?? c.states[0];
  ff.own = own; ff.along = along; ff.state = state;

  // Where the pin and the crankpin are at an own angle, mm from the crank's axis.
  const places = (c, at) => {
    const turn = (at + c.top) * rad, across = c.throw * Math.sin(turn);
    const pin = c.throw * Math.cos(turn) + Math.sqrt(c.rod ** 2 - (across - c.x) ** 2);
    return { turn, crankpin: [across, c.throw * Math.cos(turn)], pin: [c.x, pin] };
  };
  ff.places = places;

  const head = (c, g) => {
    const left = c.x - c.half, right = c.x + c.half, low = c.deck;
    make("path", { class: "m-cut", d: path([[left, low], [left, c.block], [right, c.block], [right, low], [c.x + c.bore, low], ...[...c.roof].reverse(), [c.x - c.bore, low]]) }, g);
    for (const side of [-1, 1]) make("path", { class: "m-cut", d: path([[c.x + side * c.bore, c.liner], [c.x + side * c.bore, low], [c.x + side * c.tube, low], [c.x + side * c.tube, c.liner]]) }, g);
    if (c.body > c.tube) for (const side of [-1, 1]) make("path", { class: "m-thin", d: `M${c.x + side * c.body} ${low}V${c.liner + (low - c.liner) * 0.3}H${c.x + side * c.tube}` }, g);
  };
  const port = (c, v, g) => {
    const place = make("g", { transform: `translate(${v.x} ${v.y}) rotate(${-v.lean})` }, g);
    const side = v.x < c.x ? -1 : 1, out = side * (Math.abs(c.half - Math.abs(v.x - c.x)) + 8);
    const low = v.port_top - v.port;
    make("path", { class: `m-port ${v.which === "inlet" ? "fresh" : "exhaust"}`, d: path([[-side * v.throat, 0], [-side * v.throat, v.port_top], [out, v.port_top], [out, low], [side * v.throat, low], [side * v.throat, 0]]) }, place);
    return place;
  };
  const valve = (c, v, g) => {
    const place = port(c, v, g), moves = make("g", {}, place), thick = Math.max(v.head * 0.12, 0.8);
    make("path", { class: "m-part", d: path([[-v.head, -thick], [v.head, -thick], [v.head, 0], [v.stem, v.head * 0.55], [v.stem, v.long + 7], [-v.stem, v.long + 7], [-v.stem, v.head * 0.55], [-v.head, 0]]) }, moves);
    const side = v.x < c.x ? -1 : 1, level = v.port_top - v.port / 2, from = side * (v.throat + 2), to = side * (Math.abs(c.half - Math.abs(v.x - c.x)) + 6);
    const arrow = make("path", { class: "m-flow" }, place);
    const into = [to, level, from, level], back = [from, level, to, level];
    const draw = ([x1, y1, x2, y2]) => { const s = Math.sign(x2 - x1), k = v.port * 0.3; return `M${x1} ${y1}L${x2} ${y2}M${x2 - s * k} ${y2 + k}L${x2} ${y2}L${x2 - s * k} ${y2 - k}`; };
    return { moves, arrow, into: draw(into), back: draw(back), lift: v.lift, flow: c[v.which] };
  };
  const crank = (c, g) => {
    const moves = make("g", {}, g), wide = Math.max(c.main, c.crankpin) * 1.35, far = c.throw + c.crankpin * 0.7;
    const heavy = [];
    for (let t = 110; t <= 250; t += 10) heavy.push([far * Math.sin(t * rad), far * Math.cos(t * rad)]);
    make("path", { class: "m-part", d: path([[-wide, 0], [-c.crankpin * 1.25, c.throw + c.crankpin * 0.8], [c.crankpin * 1.25, c.throw + c.crankpin * 0.8], [wide, 0], ...heavy]) }, moves);
    make("circle", { class: "m-part", r: c.main, cx: 0, cy: 0 }, moves);
    make("path", { class: "m-thin", d: `M${-c.main * 0.6} 0H${c.main * 0.6}M0 ${-c.main * 0.6}V${c.main * 0.6}` }, moves);
    return moves;
  };
  const piston = (c, g) => {
    const moves = make("g", { class: "m-piston" }, g), b = c.bore * 0.985;
    make("path", { class: "m-part", d: path([[c.x - b, c.crown], [c.x + b, c.crown], [c.x + b, -c.skirt], [c.x - b, -c.skirt]]) }, moves);
    for (const at of [0.18, 0.32]) make("path", { class: "m-thin", d: `M${c.x - b} ${c.crown - at * (c.crown + c.skirt)}H${c.x + b}` }, moves);
    return moves;
  };
  const rod = (c, g) => {
    const big = c.crankpin + c.eye, small = c.pin + c.eye, l = c.rod, s = c.shank, moves = make("g", {}, g);
    make("path", { class: "m-part", d: path([[-s * 1.1, -l + big * 0.9], [-s, -small * 0.8], [s, -small * 0.8], [s * 1.1, -l + big * 0.9]]) }, moves);
    make("circle", { class: "m-part", r: small, cx: 0, cy: 0 }, moves);
    make("circle", { class: "m-part", r: big, cx: 0, cy: -l }, moves);
    make("circle", { class: "m-pin", r: c.pin, cx: 0, cy: 0 }, moves);
    make("circle", { class: "m-pin", r: c.crankpin, cx: 0, cy: -l }, moves);
    return moves;
  };
  const spark = (c, g) => {
    const top = Math.max(...c.roof.map(([, y]) => y)), star = make("g", { class: "m-spark", transform: `translate(${c.x} ${top - 1.5})` }, g);
    make("path", { class: "m-thin", d: `M${c.x - 1.6} ${c.block + 4}V${top}H${c.x + 1.6}V${c.block + 4}` }, g);
    for (let t = 0; t < 180; t += 45) make("path", { d: `M${-5 * Math.cos(t * rad)} ${-5 * Math.sin(t * rad)}L${5 * Math.cos(t * rad)} ${5 * Math.sin(t * rad)}` }, star);
    return star;
  };
  const build = (c, mirrored, g) => {
    set(g, { transform: `translate(${c.shift} 0) rotate(${-c.turned})${mirrored ? " scale(-1 1)" : ""}` });
    const gas = make("path", { class: "m-gas" }, g), burned = make("path", { class: "m-burned" }, g);
    head(c, g);
    const star = spark(c, g), moving = { c, gas, burned, star, crank: crank(c, g), piston: piston(c, g) };
    moving.rod = rod(c, g);
    moving.valves = c.valves.map((v) => valve(c, v, g));
    return moving;
  };
  const turn = (m, at, told) => {
    const { c } = m, where = places(c, at), crown = where.pin[1] + c.crown;
    const d = path([[c.x - c.bore, crown], [c.x - c.bore, c.deck], ...c.roof, [c.x + c.bore, c.deck], [c.x + c.bore, crown]]);
    set(m.gas, { d, class: `m-gas ${told.fill}` });
    set(m.burned, { d, class: `m-burned${told.burns ? " burns" : ""}`, opacity: told.burned.toFixed(2) });
    m.star.style.display = told.spark ? "" : "none";
    set(m.crank, { transform: `rotate(${-(where.turn / rad)})` });
    set(m.piston, { transform: `translate(0 ${where.pin[1]})` });
    const lean = Math.atan2(where.crankpin[0] - c.x, where.pin[1] - where.crankpin[1]) / rad;
    set(m.rod, { transform: `translate(${c.x} ${where.pin[1]}) rotate(${lean})` });
    for (const v of m.valves) {
      set(v.moves, { transform: `translate(0 ${-along(v.lift, at)})` });
      const flow = told.flows ? along(v.flow, at) : 0, most = v.most ??= Math.max(...v.flow.map(Math.abs));
      v.arrow.style.display = Math.abs(flow) > 0.03 * most ? "" : "none";
      set(v.arrow, { d: flow > 0 ? v.into : v.back });
    }
  };

  ff.mechanism = (holder) => {
    let moving = [], told = null, arrows = null;
    const begin = (motion) => {
      told = motion;
      holder.replaceChildren();
      const svg = make("svg", { role: "img", class: "m-drawing", "aria-label": "The mechanism to scale; its words stand below." }, holder), sheet = make("g", { transform: "scale(1 -1)" }, svg);
      moving = motion.cylinders.map((c) => build(c, motion.mirrored, make("g", {}, sheet)));
      const box = motion.cylinders.flatMap((c) => {
        const far = c.throw + c.crankpin, flip = motion.mirrored ? -1 : 1, t = c.turned * rad;
        return [[c.x - c.half - 9, c.block + 9], [c.x + c.half + 9, c.block + 9], [-far, -far], [far, -far], [-far, far], [far, far]]
          .map(([x, y]) => [c.shift + Math.cos(t) * flip * x + Math.sin(t) * y, -(-Math.sin(t) * flip * x + Math.cos(t) * y)]);
      });
      arrows = motion.joints && holder.dataset.forces !== undefined ? ff.arrows(motion, svg) : null;
      box.push(...(arrows?.reach ?? []));
      const xs = box.map(([x]) => x), ys = box.map(([, y]) => y), left = Math.min(...xs) - 2, top = Math.min(...ys) - 2;
      const wide = Math.max(...xs) + 2 - left, high = Math.max(...ys) + 2 - top, foot = arrows ? 0.07 * Math.max(wide, high) : 0; // for the arrows' scale
      svg.setAttribute("viewBox", [left, top, wide, high + foot].map((n) => n.toFixed(1)).join(" "));
    };
    // at: shaft angle, degrees after cylinder 1's firing top; what: of a cylinder, or null as the cycle has it.
    const show = (at, what = null) => {
      moving.forEach((m, row) => {
        const here = own(at, m.c.phase);
        turn(m, here, what ? what(row, here, m.c) : ff.gas(m.c, here));
      });
      arrows?.show(at);
    };
    return { begin, show, get motion() { return told; } };
  };
  ff.gas = (c, at) => {
    const [, word, , fill] = state(c, at), from = c.spark === null ? 999 : at - c.spark;
    return { fill, burned: along(c.residue, at), burns: word === "burns", spark: c.fires && from >= 0 && from < 8, flows: true };
  };
})();
