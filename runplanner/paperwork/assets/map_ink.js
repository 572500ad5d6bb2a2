/* Draws the campaign's sheet on a Leaflet map: comb cells, ink bands, beads, a ruled frame.
   Text arrives as finished, escaped HTML; nothing here builds HTML out of words. */
var runplanner = (function () {
  "use strict";

  var INK = "#17302c", PAPER = "#f4f3ea", STEPS = 26, TIP = 0.28;
  var sheets = {}, days = [], labels = [], blocks = [];
  var theMap = null, busy = false;

  function start(map) {
    theMap = map;
    map.createPane("bands").style.zIndex = 410;
    map.createPane("cells").style.zIndex = 600;
    map.createPane("words").style.zIndex = 620;
    map.getPane("words").style.pointerEvents = "none";
    map.createPane("frame");
    if (map.attributionControl) { map.attributionControl.setPrefix(false); }
  }

  /* ---- days ------------------------------------------------------------------------- */

  function day(group, facts) {
    facts.group = group;
    days.push(facts);
    sheets[L.stamp(group)] = facts;
  }

  function show(facts, on) {
    facts.shown = on;
    if (on) { facts.group.addTo(theMap); } else { facts.group.remove(); }
    each('.tab[data-day="' + facts.day + '"]', function (tab) {
      tab.setAttribute("aria-pressed", on ? "true" : "false");
    });
    each('svg [data-day="' + facts.day + '"]', function (part) {
      part.classList.toggle("pale", !on);
    });
  }

  function showOnly(facts) {
    days.forEach(function (other) { show(other, other === facts); });
    each('.tab[data-day="' + facts.day + '"]', function (tab) {
      tab.scrollIntoView({ block: "nearest", inline: "center" });
    });
    settle();
  }

  function step(by) {
    var on = days.map(function (one, at) { return one.shown ? at : -1; })
      .filter(function (at) { return at >= 0; });
    var from = on.length ? (by > 0 ? on[on.length - 1] : on[0]) : (by > 0 ? -1 : days.length);
    if (on.length > 1) { from = by > 0 ? on[0] - 1 : on[on.length - 1] + 1; }
    showOnly(days[(from + by + days.length) % days.length]);
  }

  function tapped(button) {
    if (button.dataset.step) { step(Number(button.dataset.step)); return; }
    if (button.dataset.all) {
      var all = !days.every(function (one) { return one.shown; });
      days.forEach(function (one) { show(one, all); });
    } else {
      days.forEach(function (one) {
        if (String(one.day) === button.dataset.day) { show(one, !one.shown); }
      });
    }
    settle();
  }

  function settle() {
    var many = days.filter(function (one) { return one.shown; }).length > 1;
    theMap.getContainer().classList.toggle("many", many);
    placeWords();
  }

  function each(rule, act) { Array.prototype.forEach.call(document.querySelectorAll(rule), act); }

  /* ---- bands ------------------------------------------------------------------------ */

  /* A path that draws itself anew at every zoom with the function it was given. */
  var Ink = L.Polyline.extend({
    _update: function () { if (this._map) { this._updatePath(); } },
    _updatePath: function () {
      this._renderer._setPath(this, this.options.draw(this._map) || "M0 0");
    }
  });

  function curve(map, facts) {
    var a = map.latLngToLayerPoint(facts.from), b = map.latLngToLayerPoint(facts.to);
    var dx = b.x - a.x, dy = b.y - a.y, bow = bowOf(facts);
    var mid = { x: (a.x + b.x) / 2 - dy * bow * 2, y: (a.y + b.y) / 2 + dx * bow * 2 };
    var points = [], along = 0, last = a;
    for (var i = 0; i <= STEPS; i += 1) {
      var t = i / STEPS, s = 1 - t;
      var x = s * s * a.x + 2 * s * t * mid.x + t * t * b.x;
      var y = s * s * a.y + 2 * s * t * mid.y + t * t * b.y;
      along += Math.hypot(x - last.x, y - last.y);
      last = { x: x, y: y, s: along };
      points.push(last);
    }
    return points;
  }

  function bowOf(facts) { return 0.07 + 0.055 * (facts.lane % 6); }

  function at(points, s) {
    for (var i = 1; i < points.length; i += 1) {
      var a = points[i - 1], b = points[i];
      if (s <= b.s || i === points.length - 1) {
        var span = b.s - a.s || 1, t = (s - a.s) / span;
        return {
          x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y),
          nx: -(b.y - a.y) / span, ny: (b.x - a.x) / span
        };
      }
    }
    return null;
  }

  /* Where the visible part starts and ends: outside the marks at both ends, if there is room. */
  function reach(points, facts) {
    var all = points[points.length - 1].s;
    var from = facts.clear[0] + 3, to = all - facts.clear[1] - 3;
    return to - from > 12 ? [from, to] : [all * 0.15, all * 0.85];
  }

  function bandPath(map, facts) {
    var points = curve(map, facts), ends = reach(points, facts), out = "";
    dashes(ends, facts.gaps).forEach(function (dash) { out += dashPath(points, ends, dash, facts); });
    return out;
  }

  function dashes(ends, gaps) {
    if (!gaps.length) { return [ends]; }
    var found = [], s = ends[0], k = 0;
    while (s < ends[1]) {
      var next = Math.min(s + gaps[k % gaps.length], ends[1]);
      if (k % 2 === 0) { found.push([s, next]); }
      s = next;
      k += 1;
    }
    return found;
  }

  function dashPath(points, ends, dash, facts) {
    var left = [], right = [], n = Math.max(1, Math.ceil((dash[1] - dash[0]) / 12));
    for (var i = 0; i <= n; i += 1) {
      var s = dash[0] + (dash[1] - dash[0]) * i / n, p = at(points, s);
      var half = halfWidth(s, ends, facts);
      left.push(xy(p.x + p.nx * half, p.y + p.ny * half));
      right.unshift(xy(p.x - p.nx * half, p.y - p.ny * half));
    }
    return "M" + left.concat(right).join("L") + "Z";
  }

  function halfWidth(s, ends, facts) {
    var done = (s - ends[0]) / (ends[1] - ends[0]);
    return Math.max(0.8, facts.wide / 2 * (1 - (1 - TIP) * done));
  }

  function xy(x, y) { return x.toFixed(1) + " " + y.toFixed(1); }

  function spinePath(map, facts) {
    var points = curve(map, facts), ends = reach(points, facts), spots = [];
    for (var i = 0; i <= 16; i += 1) {
      var p = at(points, ends[0] + (ends[1] - ends[0]) * i / 16);
      spots.push(xy(p.x, p.y));
    }
    return "M" + spots.join("L");
  }

  /* An open barb just before the thin end, so that light lines tell their way as well. */
  function barbPath(map, facts) {
    var points = curve(map, facts), ends = reach(points, facts);
    var tip = at(points, ends[1]), back = at(points, Math.max(ends[0], ends[1] - 8));
    return "M" + [xy(back.x + back.nx * 4.5, back.y + back.ny * 4.5), xy(tip.x, tip.y),
      xy(back.x - back.nx * 4.5, back.y - back.ny * 4.5)].join("L");
  }

  /* Stop beads: one for the first stop, two for the second; a bar for every five. */
  function beadPath(map, facts) {
    var points = curve(map, facts), ends = reach(points, facts), out = "";
    var s = ends[1] - 14, left = facts.stop;
    while (left > 0 && s > ends[0]) {
      var p = at(points, s);
      out += left >= 5 ? barPath(p) : ringPath(p, 3.2);
      left -= left >= 5 ? 5 : 1;
      s -= 8;
    }
    return out;
  }

  function ringPath(p, r) {
    return "M" + xy(p.x - r, p.y) + "a" + r + " " + r + " 0 1 0 " + 2 * r + " 0a" +
      r + " " + r + " 0 1 0 " + -2 * r + " 0Z";
  }

  function barPath(p) {
    var a = p.nx * 8, b = p.ny * 8, c = -p.ny * 2.4, d = p.nx * 2.4;
    return "M" + [xy(p.x + a + c, p.y + b + d), xy(p.x + a - c, p.y + b - d),
      xy(p.x - a - c, p.y - b - d), xy(p.x - a + c, p.y - b + d)].join("L") + "Z";
  }

  function leg(group, facts) {
    var look = sheets[L.stamp(group)];
    facts.gaps = look.gaps;
    facts.clear = [14, 14];
    facts.look = look;
    var band = ink(group, facts, bandPath, facts.driven ?
      { fillColor: PAPER, fillOpacity: 0.6, color: look.colour, weight: 1.6 } :
      { fillColor: look.colour, fillOpacity: 0.92, color: INK, weight: 0.7 });
    ink(group, facts, barbPath, { fill: false, color: INK, weight: 1.4 });
    if (facts.split && facts.wide > 5) {
      ink(group, facts, spinePath, { fill: false, color: PAPER, weight: 1.5 });
    }
    if (facts.stop) {
      ink(group, facts, beadPath, { fillColor: PAPER, fillOpacity: 1, color: INK, weight: 1.2 });
    }
    var touch = ink(group, facts, spinePath, { fill: false, color: INK, opacity: 0, weight: 24 });
    touch.options.interactive = true;
    touch.bindPopup(facts.note, { maxWidth: 280 });
    band.facts = facts;
    facts.box = word(group, facts.label, "", "load");
    facts.box.leg = facts;
    look.legs = (look.legs || []).concat(facts);
    touch.on("mouseover mouseout", function (event) {
      band.setStyle({ weight: event.type === "mouseover" ? 2.2 : facts.driven ? 1.6 : 0.7 });
    });
  }

  function ink(group, facts, draw, style) {
    var path = new Ink([facts.from, facts.to], L.extend({
      pane: "bands", interactive: false, stroke: true, opacity: 1, lineJoin: "round",
      draw: function (map) { return draw(map, facts); }
    }, style));
    path.addTo(group);
    return path;
  }

  /* ---- cells and bases ---------------------------------------------------------------- */

  function mark(map, facts, kind) {
    var icon = L.divIcon({
      className: "mark " + kind, html: facts.svg, iconSize: [44, 44],
      iconAnchor: [22 - facts.step[0] * 14, 22 - facts.step[1] * 14]
    });
    var marker = L.marker(facts.at, { icon: icon, pane: "cells", riseOnHover: true });
    marker.bindPopup(facts.note, { maxWidth: 300, offset: [0, -8] });
    marker.addTo(map);
    var box = word(map, facts.name, facts.words, kind);
    box.mark = facts;
    marker.getElement().setAttribute("aria-label", box.element.textContent);
    blocks.push(facts);
  }

  function cell(map, facts) { mark(map, facts, "cell"); }

  function base(map, facts) { mark(map, facts, "base"); }

  /* ---- words, each put where it hides nothing ---------------------------------------- */

  function word(owner, name, words, kind) {
    var element = document.createElement("div"), more = null;
    element.className = "word " + kind;
    element.innerHTML = "<b>" + name + "</b>";
    if (words) {
      more = document.createElement("span");
      more.innerHTML = words;
      element.appendChild(more);
    }
    var box = { element: element, owner: owner, more: more, kind: kind };
    labels.push(box);
    return box;
  }

  function visible(box) { return box.owner === theMap || theMap.hasLayer(box.owner); }

  function rank(box) {
    return box.kind === "base" ? 0 : box.kind === "cell" ? (box.more ? 1 : 2) : 3;
  }

  function placeWords() {
    var pane = theMap.getPane("words"), taken = blocks.map(blockRect);
    labels.forEach(function (box) {
      if (!box.element.parentNode) { pane.appendChild(box.element); }
      box.element.classList.remove("brief");
      box.element.style.display = visible(box) ? "" : "none";
    });
    var row = labels.filter(visible).sort(function (a, b) { return rank(a) - rank(b); });
    row.forEach(function (box) {
      box.size = [box.element.offsetWidth, box.element.offsetHeight];
      box.brief = box.more ? [box.element.firstChild.offsetWidth + 4, 15] : box.size;
    });
    row.forEach(function (box) { placeOne(box, taken); });
  }

  function placeOne(box, taken) {
    var full = freeSpot(box, box.size, taken);
    var spot = full || (box.more && freeSpot(box, box.brief, taken));
    box.element.style.visibility = spot ? "visible" : "hidden";
    if (!spot) { return; }
    box.element.classList.toggle("brief", !full);
    L.DomUtil.setPosition(box.element, L.point(Math.round(spot[0]), Math.round(spot[1])));
    taken.push(spot);
  }

  function freeSpot(box, size, taken) {
    var tries = box.leg ? legSpots(box.leg, size) : markSpots(box.mark, size);
    for (var i = 0; i < tries.length; i += 1) {
      var x = tries[i][0], y = tries[i][1], rect = [x, y, x + size[0], y + size[1]];
      if (!taken.some(function (other) { return meets(rect, other); })) { return rect; }
    }
    return null;
  }

  function meets(a, b) { return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]; }

  function centre(facts) {
    var p = theMap.latLngToLayerPoint(facts.at);
    return { x: p.x + facts.step[0] * 14, y: p.y + facts.step[1] * 14 };
  }

  function blockRect(facts) {
    var p = centre(facts), r = facts.radius * 0.9;
    return [p.x - r, p.y - r, p.x + r, p.y + r];
  }

  function markSpots(facts, size) {
    var p = centre(facts), r = facts.radius + 4, w = size[0], h = size[1];
    return [
      [p.x - w / 2, p.y + r], [p.x + r, p.y - h / 2], [p.x - r - w, p.y - h / 2],
      [p.x - w / 2, p.y - r - h], [p.x + r * 0.7, p.y + r * 0.6],
      [p.x - r * 0.7 - w, p.y + r * 0.6]
    ];
  }

  function legSpots(facts, size) {
    var points = curve(theMap, facts), ends = reach(points, facts), length = ends[1] - ends[0];
    if (length < size[0] * 0.8) { return []; }
    return [0.45, 0.32, 0.58].map(function (share) {
      var p = at(points, ends[0] + length * share);
      return [p.x - size[0] / 2, p.y - size[1] / 2];
    });
  }

  /* ---- frame and graticule ------------------------------------------------------------ */

  var RULES = [30, 20, 10, 5, 2, 1, 30 / 60, 20 / 60, 10 / 60, 5 / 60, 2 / 60, 1 / 60,
    30 / 3600, 20 / 3600, 10 / 3600, 5 / 3600, 2 / 3600, 1 / 3600];

  function canvas(className) {
    var made = document.createElement("canvas");
    made.className = className;
    made.setAttribute("aria-hidden", "true");
    theMap.getContainer().appendChild(made);
    return made;
  }

  function pen(sheet) {
    var size = theMap.getSize(), dots = window.devicePixelRatio || 1;
    sheet.width = size.x * dots;
    sheet.height = size.y * dots;
    var made = sheet.getContext("2d");
    made.scale(dots, dots);
    return made;
  }

  function spacing(perDegree, least) {
    var fit = RULES.filter(function (rule) { return rule * perDegree >= least; });
    return fit[fit.length - 1] || RULES[0];
  }

  function ticks(low, high, rule) {
    var found = [];
    for (var k = Math.floor(low / rule); k * rule <= high + rule; k += 1) { found.push(k * rule); }
    return found;
  }

  function ruled(lines, frame) {
    var size = theMap.getSize(), bounds = theMap.getBounds(), wide = size.x < 600 ? 5 : 7;
    var east = ticks(bounds.getWest(), bounds.getEast(),
      spacing(size.x / (bounds.getEast() - bounds.getWest()), 88));
    var north = ticks(bounds.getSouth(), bounds.getNorth(),
      spacing(size.y / (bounds.getNorth() - bounds.getSouth()), 88));
    var xs = east.map(function (lon) {
      return theMap.latLngToContainerPoint([bounds.getSouth(), lon]).x;
    });
    var ys = north.map(function (lat) {
      return theMap.latLngToContainerPoint([lat, bounds.getWest()]).y;
    });
    drawLines(pen(lines), size, xs, ys);
    var ink = pen(frame);
    drawFrame(ink, size, wide, xs, ys, [east[1] - east[0], north[1] - north[0]], [east, north]);
    drawDegrees(ink, size, wide, { xs: xs, ys: ys, east: east, north: north });
  }

  function drawLines(ink, size, xs, ys) {
    ink.strokeStyle = "rgba(23,48,44,0.16)";
    ink.lineWidth = 1;
    ink.beginPath();
    xs.forEach(function (x) { ink.moveTo(x, 0); ink.lineTo(x, size.y); });
    ys.forEach(function (y) { ink.moveTo(0, y); ink.lineTo(size.x, y); });
    ink.stroke();
  }

  function drawFrame(ink, size, wide, xs, ys, rules, values) {
    ink.fillStyle = PAPER;
    border(ink, size, wide);
    ink.fillStyle = INK;
    xs.forEach(function (x, i) {
      if (Math.round(values[0][i] / rules[0]) % 2) { return; }
      var end = i + 1 < xs.length ? xs[i + 1] : size.x;
      ink.fillRect(x, 0, end - x, wide);
      ink.fillRect(x, size.y - wide, end - x, wide);
    });
    ys.forEach(function (y, i) {
      if (Math.round(values[1][i] / rules[1]) % 2) { return; }
      var end = i + 1 < ys.length ? ys[i + 1] : 0;
      ink.fillRect(0, end, wide, y - end);
      ink.fillRect(size.x - wide, end, wide, y - end);
    });
    ink.strokeStyle = INK;
    ink.lineWidth = 1;
    ink.strokeRect(0.5, 0.5, size.x - 1, size.y - 1);
    ink.strokeRect(wide + 0.5, wide + 0.5, size.x - 2 * wide - 1, size.y - 2 * wide - 1);
  }

  function border(ink, size, wide) {
    ink.fillRect(0, 0, size.x, wide);
    ink.fillRect(0, size.y - wide, size.x, wide);
    ink.fillRect(0, 0, wide, size.y);
    ink.fillRect(size.x - wide, 0, wide, size.y);
  }

  function drawDegrees(ink, size, wide, rows) {
    ink.font = "11px ui-sans-serif, system-ui, sans-serif";
    ink.textBaseline = "middle";
    rows.xs.forEach(function (x, i) {
      if (x < 60 || x > size.x - 60) { return; }
      halo(ink, degrees(rows.east[i], "E", "W"), x, wide + 9, "center");
    });
    rows.ys.forEach(function (y, i) {
      if (y < 40 || y > size.y - 40) { return; }
      halo(ink, degrees(rows.north[i], "N", "S"), wide + 4, y, "left");
    });
  }

  function halo(ink, text, x, y, align) {
    ink.textAlign = align;
    ink.lineWidth = 3;
    ink.strokeStyle = PAPER;
    ink.strokeText(text, x, y);
    ink.fillStyle = "#4c615c";
    ink.fillText(text, x, y);
  }

  function degrees(value, plus, minus) {
    var turned = plus === "E" ? ((value + 180) % 360 + 360) % 360 - 180 : value;
    var seconds = Math.round(Math.abs(turned) * 3600), rest = seconds % 3600;
    var text = Math.floor(seconds / 3600) + "\u00b0";
    if (rest) { text += String(Math.floor(rest / 60)).padStart(2, "0") + "\u2032"; }
    if (rest % 60) { text += String(rest % 60).padStart(2, "0") + "\u2033"; }
    return text + (seconds === 0 || seconds === 648000 ? "" : turned > 0 ? plus : minus);
  }

  /* ---- the whole --------------------------------------------------------------------- */

  function clearances() {
    var near = {};
    blocks.forEach(function (facts) {
      var key = facts.at.join();
      near[key] = Math.max(near[key] || 0, facts.radius * 0.9);
    });
    days.forEach(function (one) {
      (one.legs || []).forEach(function (facts) {
        facts.clear = [near[facts.from.join()] || 4, near[facts.to.join()] || 4];
      });
    });
  }

  function fit(spots) {
    var size = theMap.getSize(), small = size.x < 600;
    if (!spots.length) { theMap.setView([0, 0], 3); return; }
    theMap.fitBounds(L.latLngBounds(spots), {
      maxZoom: 14, animate: false,
      paddingTopLeft: small ? [46, 104] : [70, 90],
      paddingBottomRight: small ? [46, 118] : [70, 112]
    });
  }

  function finish(map, facts) {
    var lines = canvas("ruling"), frame = canvas("frame");
    L.control.scale({ imperial: false, maxWidth: 140, position: "bottomleft" }).addTo(map);
    L.control.zoom({ position: "bottomright" }).addTo(map);
    clearances();
    fit(facts.spots);
    days.forEach(function (one) { show(one, one.shown); });
    each("nav.days button", function (button) {
      button.addEventListener("click", function () { tapped(button); });
    });
    each("#key", function (key) { key.open = window.innerWidth >= 1000; });
    function redraw() {
      if (busy) { return; }
      busy = true;
      window.requestAnimationFrame(function () { busy = false; ruled(lines, frame); });
    }
    map.on("move zoomend resize", redraw);
    map.on("zoomstart", function () { map.getContainer().classList.add("zooming"); });
    map.on("zoomend resize", function () {
      map.getContainer().classList.remove("zooming");
      placeWords();
    });
    ruled(lines, frame);
    settle();
  }

  return { start: start, day: day, leg: leg, cell: cell, base: base, finish: finish };
}());
