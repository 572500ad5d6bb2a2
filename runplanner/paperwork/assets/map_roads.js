/* Real roads: lines that arrive as whole steps of a hundred-thousandth of a degree, the roads
   round about on a canvas under everything, and the ways of drives for the bands to follow. */
var runplannerRoads = (function () {
  "use strict";

  var LOOKS = [
    { color: "#8d988a", weight: 2.4, opacity: 0.9 },
    { color: "#aab2a4", weight: 1.2, opacity: 0.9 },
    { color: "#aab2a4", weight: 1.1, opacity: 0.9, dashArray: "3 4" }
  ];
  var STEP = 6, MOST = 260;

  /* Steps to [lat, lon], on the side of the date line where the sheet is. */
  function line(steps, middle) {
    var found = [], lat = 0, lon = 0, around = 0;
    for (var i = 0; i + 1 < steps.length; i += 2) {
      lat += steps[i];
      lon += i ? short(steps[i + 1]) : steps[1];
      if (i === 0) { around = 360 * Math.round((middle - lon / 1e5) / 360); }
      found.push([lat / 1e5, lon / 1e5 + around]);
    }
    return found;
  }

  /* A step over the date line is a short one. */
  function short(step) { return step - 36e6 * Math.round(step / 36e6); }

  function lines(all, middle) {
    return all.map(function (steps) { return line(steps, middle); });
  }

  /* Draw the ground and return the ways. */
  function draw(map, facts) {
    map.createPane("ground").style.zIndex = 250;
    map.getPane("ground").style.pointerEvents = "none";
    var canvas = L.canvas({ pane: "ground", padding: 0.3 });
    for (var rank = facts.ground.length - 1; rank >= 0; rank -= 1) {
      if (!facts.ground[rank].length) { continue; }
      L.polyline(lines(facts.ground[rank], facts.middle), L.extend({
        pane: "ground", renderer: canvas, interactive: false, smoothFactor: 1.2
      }, LOOKS[rank])).addTo(map);
    }
    return lines(facts.ways, facts.middle);
  }

  /* The way on the screen: even steps, bends eased, shifted to the driver's right so that out
     and back lie side by side. */
  function curve(map, facts) {
    var spots = facts.way.map(function (spot) { return map.latLngToLayerPoint(spot); });
    var even = eased(evenly(L.LineUtil.simplify(spots, 1)));
    return measured(shifted(even, facts.wide / 2 + 1.5 + 3 * (facts.lane % 4)));
  }

  function evenly(spots) {
    var all = measured(spots), length = all[all.length - 1].s;
    var count = Math.max(8, Math.min(MOST, Math.ceil(length / STEP))), found = [], k = 1;
    for (var i = 0; i <= count; i += 1) {
      var s = length * i / count;
      while (k < all.length - 1 && all[k].s < s) { k += 1; }
      var a = all[k - 1], b = all[k], span = b.s - a.s || 1, t = (s - a.s) / span;
      found.push({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
    }
    return found;
  }

  function eased(spots) {
    var last = spots.length - 1;
    return spots.map(function (spot, i) {
      var reach = Math.min(2, i, last - i), x = 0, y = 0;
      for (var j = i - reach; j <= i + reach; j += 1) { x += spots[j].x; y += spots[j].y; }
      return { x: x / (2 * reach + 1), y: y / (2 * reach + 1) };
    });
  }

  function shifted(spots, by) {
    var last = spots.length - 1;
    return spots.map(function (spot, i) {
      var a = spots[Math.max(0, i - 1)], b = spots[Math.min(last, i + 1)];
      var long = Math.hypot(b.x - a.x, b.y - a.y) || 1;
      return { x: spot.x - by * (b.y - a.y) / long, y: spot.y + by * (b.x - a.x) / long };
    });
  }

  function measured(spots) {
    var s = 0;
    return spots.map(function (spot, i) {
      if (i) { s += Math.hypot(spot.x - spots[i - 1].x, spot.y - spots[i - 1].y); }
      return { x: spot.x, y: spot.y, s: s };
    });
  }

  return { draw: draw, curve: curve };
}());
