// Forces at the joints as arrows over the mechanism, to a scale that is drawn beside them, and the
// same in words. What acts, and where, comes from the server over each cylinder's own crank angle.
(() => {
  const SVG = "http://www.w3.org/2000/svg", rad = Math.PI / 180, THIN = "\u202f";
  const LEAST = 0.06; // share of the largest force under which an arrow is not drawn
  const make = (tag, data, into) => {
    const e = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(data)) e.setAttribute(name, value);
    into.append(e);
    return e;
  };
  const kilo = (v) => `${v < 0.1 ? `${Math.round(1000 * v)}${THIN}N` : `${v.toPrecision(v < 1 ? 2 : 3)}${THIN}kN`}`;
  const round = (v) => { const power = 10 ** Math.floor(Math.log10(v)); return [5, 2, 1].map((s) => s * power).find((s) => s <= v); };
  // of a cylinder's own frame (y along its bore) on the sheet, whose y points down
  const onSheet = (c, mirrored) => {
    const flip = mirrored ? -1 : 1, t = c.turned * rad;
    const turned = ([x, y]) => [Math.cos(t) * flip * x + Math.sin(t) * y, Math.sin(t) * flip * x - Math.cos(t) * y];
    return { way: turned, place: (p) => { const [x, y] = turned(p); return [x + c.shift, y]; } };
  };
  const alike = (mains, most) => mains.every((one) => one.force.every((part, axis) => part.every((v, n) => Math.abs(v - mains[0].force[axis][n]) < 0.01 * most)));

  // Every force of a motion: its name, a letter for it where many would crowd the drawing, where it acts at an own angle, and what it is there.
  const forcesOf = ({ cylinders, joints, mirrored }) => {
    const many = cylinders.length > 1, found = [];
    cylinders.forEach((c, row) => {
      const told = joints.cylinders[row], on = onSheet(c, mirrored), more = many ? ` ${row + 1}` : "";
      const add = (name, letter, force, where) => found.push({ name, letter: many ? letter + (row + 1) : "", force, on, phase: c.phase, where: (at) => where(ff.places(c, at)) });
      add(`piston pin${more}`, "P", told.pin, (p) => p.pin);
      add(`wall${more}`, "W", told.wall, (p) => p.pin);
      add(`crankpin${more}`, "C", told.crankpin, (p) => p.crankpin);
    });
    const same = alike(joints.mains, joints.most), on = onSheet(cylinders[0], mirrored);
    (same ? joints.mains.slice(0, 1) : joints.mains).forEach((main, n) => {
      const name = same && joints.mains.length > 1 ? "each main" : main.name.replace("main bearing", "main");
      found.push({ name, letter: many ? `M${same ? "" : n + 1}` : "", force: main.force, on, phase: 0, where: () => [0, 0] });
    });
    return found;
  };
  const at = (one, shaft) => {
    const own = ff.own(shaft, one.phase), force = one.force.map((part) => ff.along(part, own)), size = Math.hypot(...force);
    return { size, from: one.on.place(one.where(own)), way: one.on.way(force) };
  };

  ff.joints = (motion, shaft) => forcesOf(motion).map((one) => `${one.letter ? `${one.letter} ` : ""}${one.name}${one.letter ? "," : ""} ${kilo(at(one, shaft).size)}`);

  // Places for words at an arrow's head, the nicest first: [x, y, anchor], y of their baseline.
  const places = ([x, y], [ux, uy], size) => {
    const right = [x + 0.5 * size, y + 0.35 * size, "start"], left = [x - 0.5 * size, y + 0.35 * size, "end"];
    const below = [x, y + 1.1 * size, "middle"], above = [x, y - 0.4 * size, "middle"];
    if (Math.abs(uy) > 0.5) return [right, left, ...(uy > 0 ? [below, above] : [above, below])];
    return ux > 0 ? [right, above, below, left] : [left, above, below, right];
  };
  const box = ([x, y, anchor], words, size) => {
    const wide = (words.length < 4 ? 0.75 : 0.6) * size * words.length, from = x - { start: 0, middle: 0.5, end: 1 }[anchor] * wide;
    return [from, y - 0.8 * size, from + wide, y + 0.25 * size];
  };
  const meet = (a, b) => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

  ff.arrows = (motion, svg) => {
    const forces = forcesOf(motion), { most } = motion.joints, per = (1.25 * motion.cylinders[0].bore) / most;
    const layer = make("g", { class: "m-forces" }, svg), reach = [];
    for (let shaft = -360; shaft < 360; shaft += 5) for (const one of forces) { const { from, way } = at(one, shaft); reach.push([from[0] + per * way[0], from[1] + per * way[1]]); }
    const shown = forces.map((one) => ({ one, path: make("path", {}, layer), words: make("text", {}, layer) }));
    const rule = make("path", { class: "m-rule" }, layer), scale = make("text", { class: "m-rule" }, layer), unit = round(most / 2);
    const show = (shaft) => {
      const view = svg.viewBox.baseVal, px = view.width / (svg.getBoundingClientRect().width || view.width), high = view.height / (svg.getBoundingClientRect().height || view.height);
      const taken = [], size = 12 * Math.max(px, high), head = 0.55 * size; // letters of 12 px, however it is scaled
      layer.setAttribute("font-size", size.toFixed(2));
      for (const { one, path, words } of shown) {
        const { size: force, from, way } = at(one, shaft), seen = force > LEAST * most;
        path.style.display = words.style.display = seen ? "" : "none";
        if (!seen) continue;
        const [dx, dy] = way.map((v) => v * per), long = Math.hypot(dx, dy), [ux, uy] = [dx / long, dy / long], k = Math.min(head, 0.6 * long);
        const to = [from[0] + dx, from[1] + dy], back = [to[0] - k * ux, to[1] - k * uy];
        path.setAttribute("d", `M${from}L${to}M${back[0] - 0.45 * k * uy} ${back[1] + 0.45 * k * ux}L${to}L${back[0] + 0.45 * k * uy} ${back[1] - 0.45 * k * ux}`);
        const said = one.letter || one.name, tried = places(to, [ux, uy], size).map((p) => [p, box(p, said, size)]);
        const [[x, y, anchor], around] = tried.find(([, b]) => !taken.some((t) => meet(t, b))) ?? tried[0];
        taken.push(around);
        for (const [name, value] of Object.entries({ x: x.toFixed(2), y: y.toFixed(2), "text-anchor": anchor })) words.setAttribute(name, value);
        words.textContent = said;
      }
      const left = view.x + size, foot = view.y + view.height - 0.6 * size;
      rule.setAttribute("d", `M${left} ${foot}h${unit * per}m0 ${-0.35 * size}v${0.7 * size}m${-unit * per} 0v${-0.7 * size}`);
      scale.setAttribute("x", left); scale.setAttribute("y", foot - 0.6 * size);
      scale.textContent = unit < 1 ? `${Math.round(1000 * unit)}${THIN}N` : `${unit}${THIN}kN`;
    };
    return { reach, show };
  };
})();
