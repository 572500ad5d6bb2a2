/* The sheet's ruling and its frame: meridians and parallels at round degrees, counted off in
   ink and paper along the edge.  runplannerFrame(map) draws them and returns a redraw. */
var runplannerFrame = (function () {
  "use strict";

  var INK = "#17302c", PAPER = "#f4f3ea";
  var RULES = [30, 20, 10, 5, 2, 1, 30 / 60, 20 / 60, 10 / 60, 5 / 60, 2 / 60, 1 / 60,
    30 / 3600, 20 / 3600, 10 / 3600, 5 / 3600, 2 / 3600, 1 / 3600];

  function canvas(theMap, className) {
    var made = document.createElement("canvas");
    made.className = className;
    made.setAttribute("aria-hidden", "true");
    theMap.getContainer().appendChild(made);
    return made;
  }

  function pen(theMap, sheet) {
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

  function ruled(theMap, lines, frame) {
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
    var under = pen(theMap, lines);
    drawLines(under, size, xs, ys);
    drawDegrees(under, size, wide, { xs: xs, ys: ys, east: east, north: north });
    drawFrame(pen(theMap, frame), size, wide, xs, ys,
      [east[1] - east[0], north[1] - north[0]], [east, north]);
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
      if (y < 40 || y > size.y - (size.x < 600 ? 110 : 60)) { return; }
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

  return function (theMap) {
    var lines = canvas(theMap, "ruling"), frame = canvas(theMap, "frame"), busy = false;
    function redraw() {
      if (busy) { return; }
      busy = true;
      window.requestAnimationFrame(function () { busy = false; ruled(theMap, lines, frame); });
    }
    ruled(theMap, lines, frame);
    return redraw;
  };
}());
