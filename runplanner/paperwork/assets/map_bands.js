/* The shapes of a drive: a bowed band as wide as its load, narrowing to where it leads, with
   beads for the number of the stop.  All in screen pixels, drawn anew at every zoom. */
var runplannerBands = (function () {
  "use strict";

  var STEPS = 26, TIP = 0.28;

  /* A path that draws itself anew at every zoom with the function it was given. */
  var Ink = L.Polyline.extend({
    _update: function () { if (this._map) { this._updatePath(); } },
    _updatePath: function () {
      this._renderer._setPath(this, this.options.draw(this._map) || "M0 0");
    }
  });

  function curve(map, facts) {
    if (facts.way) { return runplannerRoads.curve(map, facts); }
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

  return {
    Ink: Ink, band: bandPath, barb: barbPath, beads: beadPath, spine: spinePath,
    curve: curve, reach: reach, at: at
  };
}());
