(function () {
  "use strict";
  var all = function (what, from) { return Array.prototype.slice.call((from || document).querySelectorAll(what)); };
  // Numbers read off a chart where it is pointed at, or with the arrow keys.
  function scale(text) {
    var n = text.split(" ").map(Number);
    return {
      value: function (place) {
        var share = (place - n[2]) / (n[3] - n[2]);
        return n[4] ? n[0] * Math.pow(n[1] / n[0], share) : n[0] + share * (n[1] - n[0]);
      }, start: n[2], end: n[3]
    };
  }
  function figures(v) {
    if (!v) return "0";
    return String(Number(v.toPrecision(3))).replace("-", "\u2212");
  }
  function at(points, x) {
    for (var i = 1; i < points.length; i++) {
      var a = points[i - 1], b = points[i];
      if ((x - a[0]) * (x - b[0]) <= 0 && a[0] !== b[0]) return a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]);
    }
    return null;
  }
  all("svg.chart").forEach(function (svg) {
    var out = svg.parentNode.querySelector("output");
    if (!out || !svg.dataset.x) return;
    var sx = scale(svg.dataset.x), sy = scale(svg.dataset.y), place = null, cursor = null;
    var curves = all("polyline[data-name]", svg).map(function (p) {
      return { name: p.dataset.name, points: p.getAttribute("points").split(" ").map(function (s) { return s.split(",").map(Number); }) };
    });
    if (!curves.length) return;
    function tell(x) {
      place = Math.max(sx.start, Math.min(sx.end, x));
      if (!cursor) {
        cursor = document.createElementNS("http://www.w3.org/2000/svg", "line");
        cursor.setAttribute("class", "cursor");
        svg.appendChild(cursor);
      }
      ["x1", "x2"].forEach(function (n) { cursor.setAttribute(n, place); });
      cursor.setAttribute("y1", sy.start); cursor.setAttribute("y2", sy.end);
      var said = curves.map(function (c) {
        var y = at(c.points, place);
        return y === null ? "" : c.name + " " + figures(sy.value(y)) + "\u202f" + svg.dataset.uy;
      }).filter(Boolean);
      var unit = svg.dataset.ux;
      out.textContent = figures(sx.value(place)) + (unit === "°" ? "" : "\u202f") + unit + ": " + said.join("; ");
    }
    function away() { if (cursor) { cursor.remove(); cursor = null; } out.textContent = ""; place = null; }
    svg.addEventListener("pointermove", function (e) {
      var box = svg.getBoundingClientRect();
      tell((e.clientX - box.left) / box.width * svg.viewBox.baseVal.width);
    });
    svg.addEventListener("pointerleave", away);
    svg.addEventListener("blur", away);
    svg.addEventListener("keydown", function (e) {
      if (e.key === "Escape") return away();
      var step = { ArrowLeft: -1, ArrowRight: 1 }[e.key];
      if (!step) return;
      e.preventDefault();
      tell(place === null ? (sx.start + sx.end) / 2 : place + step * (sx.end - sx.start) / 72);
    });
  });
  // A pointed ledger line lights its part, a pointed part its lines.
  function light(on, part, from) {
    all("[data-part]").forEach(function (e) {
      if (e.dataset.part === part && e !== from) e.classList.toggle("lit", on);
    });
  }
  all("[data-part]").forEach(function (e) {
    [["pointerenter", true], ["pointerleave", false], ["focusin", true], ["focusout", false]].forEach(function (pair) {
      e.addEventListener(pair[0], function () { light(pair[1], e.dataset.part, e); });
    });
  });
  // The crank turned by hand: outlines move as drawn at each angle, words stay where they are.
  (function () {
    var turns = all("script[data-turns]").filter(function (s) { return s.textContent; }).map(function (s) {
      var svg = document.querySelector("." + s.dataset.turns + " svg.ff-drawing"), moves = JSON.parse(s.textContent);
      var leaves = all("path,circle,text", svg).filter(function (e) { return !e.closest("defs"); });
      return Object.keys(moves).map(function (n) {
        return { now: leaves[n], first: leaves[n].outerHTML, states: moves[n] };
      });
    }), slider = document.getElementById("crank-angle"), words = document.getElementById("crank-angle-words");
    if (!turns.length) return;
    document.getElementById("turning").hidden = false;
    function shown(e, state) {
      var holder = document.createElementNS("http://www.w3.org/2000/svg", "g"), c, s;
      if (typeof state === "string") { holder.innerHTML = state; return holder.firstChild; }
      c = Math.cos(state[0]); s = Math.sin(state[0]);
      function place(x, y) { return [x * c - y * s + state[1], x * s + y * c + state[2]].map(function (v) { return +v.toFixed(3); }); }
      holder.innerHTML = e.first;
      var made = holder.firstChild;
      if (made.tagName === "circle") {
        var p = place(+made.getAttribute("cx"), +made.getAttribute("cy"));
        made.setAttribute("cx", p[0]); made.setAttribute("cy", p[1]);
      } else made.setAttribute("d", made.getAttribute("d").replace(/([ML]|0 0 [01] )(-?[\d.]+) (-?[\d.]+)/g, function (_, k, x, y) {
        return k + place(+x, +y).join(" ");
      }));
      return made;
    }
    function turn() {
      var at = Number(slider.value), n = (at + 360) / slider.step;
      turns.forEach(function (moves) {
        moves.forEach(function (e) {
          var state = e.states[n];
          if (typeof state === "number") state = e.states[state];
          var made = shown(e, state);
          e.now.replaceWith(made); e.now = made;
        });
      });
      words.textContent = at ? Math.abs(at) + "° " + (at < 0 ? "before" : "after") + " firing top centre" : "firing top centre";
      slider.setAttribute("aria-valuetext", words.textContent);
    }
    slider.addEventListener("input", turn);
    slider.setAttribute("aria-valuetext", words.textContent);
    var run = document.getElementById("turn-on"), timer = 0;
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) { run.hidden = true; return; }
    run.addEventListener("click", function () {
      if (timer) { clearInterval(timer); timer = 0; } else timer = setInterval(function () {
        var step = Number(slider.step);
        slider.value = (slider.value >= 360 ? -360 : Number(slider.value)) + step; turn();
      }, 80);
      run.textContent = timer ? "Stop" : "Run";
      run.setAttribute("aria-pressed", String(!!timer));
    });
  })();
  // All lines stand open on paper.
  var closed = [];
  addEventListener("beforeprint", function () {
    closed = all("details:not([open])");
    closed.forEach(function (d) { d.open = true; });
  });
  // One sheet for the bench: the address chooses what is printed, with or without scripts.
  all("#print-sheet").forEach(function (a) {
    a.addEventListener("click", function () { setTimeout(function () { print(); location.hash = "sentence"; }, 50); });
  });
  addEventListener("afterprint", function () { closed.forEach(function (d) { d.open = false; }); });
})();
