/* Puts the campaign on a Leaflet map: comb cells, bands for drives, days that come and go.
   Text arrives as finished, escaped HTML; nothing here builds HTML out of words. */
var runplanner = (function () {
  "use strict";

  var INK = "#17302c", PAPER = "#f4f3ea", shape = runplannerBands;
  var sheets = {}, days = [], labels = [], blocks = [];
  var theMap = null, shrink = 1, ways = [], fitting = false;

  /* Tries of the first look, and the pixels that rings and halos stand round a mark. */
  var FITS = 12, RIM = 6;

  function start(map) {
    theMap = map;
    map.createPane("bands").style.zIndex = 410;
    map.createPane("cells").style.zIndex = 600;
    map.createPane("words").style.zIndex = 620;
    map.getPane("words").style.pointerEvents = "none";
    map.createPane("frame");
    if (map.attributionControl) { map.attributionControl.setPrefix(false); }
  }

  function roads(map, facts) { ways = runplannerRoads.draw(map, facts); }

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
    each('.mark [data-day="' + facts.day + '"]', function (part) {
      part.classList.toggle("pale", !on);
    });
  }

  function showOnly(facts) {
    days.forEach(function (other) { show(other, other === facts); });
    bringTab(facts);
    settle();
  }

  function bringTab(facts) {
    each('.tab[data-day="' + facts.day + '"]', function (tab) {
      tab.scrollIntoView({ block: "nearest", inline: "center" });
    });
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
      days.forEach(function (one) { show(one, true); });
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

  /* ---- drives ----------------------------------------------------------------------- */

  function leg(group, facts) {
    var look = sheets[L.stamp(group)];
    facts.gaps = look.gaps;
    facts.clear = [14, 14];
    facts.look = look;
    facts.way = ways[facts.way];
    var band = ink(group, facts, shape.band, facts.driven ?
      { fillColor: PAPER, fillOpacity: 0.6, color: look.colour, weight: 1.6 } :
      { fillColor: look.colour, fillOpacity: 0.92, color: INK, weight: 0.7 });
    ink(group, facts, shape.barb, { fill: false, color: INK, weight: 1.4 });
    if (facts.split && facts.wide > 5) {
      var light = { fill: false, color: PAPER, weight: 1.5, dashArray: facts.split };
      ink(group, facts, shape.spine, light);
    }
    if (facts.stop) {
      ink(group, facts, shape.beads, { fillColor: PAPER, fillOpacity: 1, color: INK, weight: 1.2 });
    }
    var touch = ink(group, facts, shape.spine, { fill: false, color: INK, opacity: 0, weight: 24 });
    touch.options.interactive = true;
    touch.bindPopup(facts.note, popup());
    band.facts = facts;
    facts.box = word(group, facts.label, "", "load");
    facts.box.element.firstChild.dataset.day = look.name;
    facts.box.element.style.borderLeftColor = look.colour;
    facts.box.leg = facts;
    look.legs = (look.legs || []).concat(facts);
    touch.on("mouseover mouseout", function (event) {
      band.setStyle({ weight: event.type === "mouseover" ? 2.2 : facts.driven ? 1.6 : 0.7 });
    });
  }

  function ink(group, facts, draw, style) {
    var path = new shape.Ink([facts.from, facts.to], L.extend({
      pane: "bands", interactive: false, fill: true, stroke: true, opacity: 1, lineJoin: "round",
      draw: function (map) { return draw(map, facts); }
    }, style));
    path.addTo(group);
    return path;
  }

  /* ---- cells and bases ---------------------------------------------------------------- */

  function mark(map, facts, kind) {
    var size = Math.max(44, 2 * facts.radius), aside = (facts.radius + 26) / 2.2;
    facts.aside = [facts.step[0] * aside, facts.step[1] * aside];
    var icon = L.divIcon({
      className: "mark " + kind, html: facts.svg, iconSize: [size, size],
      iconAnchor: [size / 2 - facts.aside[0], size / 2 - facts.aside[1]]
    });
    var marker = L.marker(facts.at, {
      icon: icon, pane: "cells", riseOnHover: true, zIndexOffset: kind === "base" ? 1000 : 0
    });
    marker.bindPopup(facts.note, popup());
    marker.addTo(map);
    var box = word(map, facts.name, facts.words, kind, facts.alarm);
    box.mark = facts;
    facts.kind = kind;
    facts.push = [0, 0];
    facts.element = marker.getElement();
    marker.getElement().setAttribute("aria-label", box.element.textContent);
    blocks.push(facts);
  }

  /* Popups keep clear of the panels. */
  function popup() {
    var small = theMap.getSize().x < 700;
    return {
      maxWidth: 290, offset: [0, -6],
      autoPanPaddingTopLeft: [14, 110], autoPanPaddingBottomRight: [small ? 14 : 310, 90]
    };
  }

  function cell(map, facts) { mark(map, facts, "cell"); }

  function base(map, facts) { mark(map, facts, "base"); }

  /* ---- words ------------------------------------------------------------------------ */
  function word(owner, name, words, kind, alarm) {
    var element = document.createElement("div"), more = null;
    element.className = "word " + kind + (alarm ? " alarm" : "");
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

  function today(facts) {
    return facts.kind === "base" || days.some(function (one) {
      return one.shown && facts.days.indexOf(one.day) >= 0;
    });
  }

  function centre(facts) {
    var p = theMap.latLngToLayerPoint(facts.at);
    return { x: p.x + facts.aside[0] + facts.push[0], y: p.y + facts.aside[1] + facts.push[1] };
  }

  function sized(facts) { return facts.kind === "cell" ? facts.radius * shrink : facts.radius; }

  function visible(box) { return box.owner === theMap || theMap.hasLayer(box.owner); }

  function disc(facts) {
    var p = centre(facts);
    return { x: p.x, y: p.y, r: sized(facts) };
  }

  /* A comb cell stands on a corner, so it is higher than wide; a base is a flat plate. */
  function rect(facts) {
    var p = disc(facts), r = p.r, wide = facts.kind === "base" ? facts.wide : r * 0.87;
    if (facts.kind === "base") { r = 14; }
    return [p.x - wide, p.y - r, p.x + wide, p.y + r];
  }

  function placeWords() {
    runplannerWords(theMap, {
      words: labels, marks: blocks, visible: visible, today: today, disc: disc, rect: rect
    });
  }

  /* ---- the whole --------------------------------------------------------------------- */

  /* Make all cells smaller by one and the same factor where they would crowd. */
  function sizes() {
    var cells = blocks.filter(function (facts) { return facts.kind === "cell"; });
    var spots = cells.map(centre), gaps = spots.map(function (a) {
      return Math.min.apply(null, spots.map(function (b) {
        return a === b ? Infinity : Math.hypot(a.x - b.x, a.y - b.y) || Infinity;
      }));
    }).sort(function (a, b) { return a - b; });
    var radii = cells.map(function (facts) { return facts.radius; }).sort(function (a, b) { return a - b; });
    var gap = gaps[Math.floor(gaps.length / 3)], middle = radii[Math.floor(radii.length / 2)];
    shrink = cells.length ? Math.max(0.45, Math.min(1, gap / (2.1 * middle))) : 1;
    document.documentElement.style.setProperty("--shrink", shrink.toFixed(3));
    spread(blocks.filter(function (facts) { return facts.kind === "base"; }));
    clearances();
  }

  /* Push plates of bases apart that would hide one another at this zoom. */
  function spread(bases) {
    bases.forEach(function (facts) { facts.push = [0, 0]; });
    for (var round = 0; round < 12; round += 1) {
      bases.forEach(function (a, i) { bases.slice(i + 1).forEach(function (b) { part(a, b); }); });
    }
    bases.forEach(function (facts) {
      facts.element.style.translate = facts.push.map(function (by) { return by.toFixed(1) + "px"; })
        .join(" ");
    });
  }

  function part(a, b) {
    var p = rect(a), q = rect(b), gap = 3;
    var over = [0, 1].map(function (k) { return Math.min(p[k + 2], q[k + 2]) - Math.max(p[k], q[k]) + gap; });
    if (over[0] <= 0 || over[1] <= 0) { return; }
    var k = over[0] < over[1] ? 0 : 1, by = over[k] / 2 * (p[k] + p[k + 2] < q[k] + q[k + 2] ? -1 : 1);
    a.push[k] += by;
    b.push[k] -= by;
  }

  function clearances() {
    var near = {};
    blocks.forEach(function (facts) {
      var key = facts.at.join();
      near[key] = Math.max(near[key] || 0, sized(facts) * 0.9);
    });
    days.forEach(function (one) {
      (one.legs || []).forEach(function (facts) {
        facts.clear = [near[facts.from.join()] || 4, near[facts.to.join()] || 4];
      });
    });
  }

  /* Show every place as large as may be, clear of the panels: below the title or beside it,
     whichever gives more room.  A key counts where it stands open beside the map. */
  function fit(spots) {
    var size = theMap.getSize(), small = size.x < 700, edge = small ? 44 : 84;
    var key = document.getElementById("key"), plate = document.querySelector(".plate");
    var title = plate.getBoundingClientRect(), list = key.getBoundingClientRect();
    var right = key.open && !small ? size.x - list.left + 50 : edge;
    var over = Math.max(title.bottom, key.open ? 0 : list.bottom);
    var bounds = L.latLngBounds(spots), bottom = small ? 130 : 140, snap = theMap.options.zoomSnap;
    var ways = [L.point(edge, over + 40), L.point(title.right + 60, key.open ? 60 : list.bottom + 40)];
    function closeness(way) {
      var taken = way.add([right, bottom]);
      // Where nothing is left Leaflet has no answer.
      return taken.x < size.x && taken.y < size.y ? theMap.getBoundsZoom(bounds, false, taken) : -1;
    }
    ways.sort(function (a, b) { return closeness(b) - closeness(a); });
    var pad = [ways[0].x, ways[0].y, right, bottom];
    theMap.options.zoomSnap = 0;
    fitting = true;
    for (var round = 0; round < FITS && (round === 0 || leaves(size, pad)); round += 1) {
      theMap.fitBounds(bounds, {
        maxZoom: 14, animate: false,
        paddingTopLeft: [pad[0], pad[1]], paddingBottomRight: [pad[2], pad[3]]
      });
      sizes();
      var lacks = lacking();
      if (!Math.max.apply(null, lacks)) { break; }
      pad = pad.map(function (px, side) { return px + lacks[side]; });
    }
    fitting = false;
    theMap.options.zoomSnap = snap;
  }

  /* Whether so much is left of the sheet that all may stand there. */
  function leaves(size, pad) { return size.x - pad[0] - pad[2] > 60 && size.y - pad[1] - pad[3] > 60; }

  /* How many pixels more to keep free at the left, top, right and bottom, so that no mark sticks
     out of the sheet or lies under a panel, off which it goes by the shortest way. */
  function lacking() {
    var lacks = [0, 0, 0, 0], room = runplannerWords.room(theMap), panels = runplannerWords.panels(theMap);
    function need(side, px) { lacks[side] = Math.max(lacks[side], Math.ceil(px)); }
    blocks.forEach(function (facts) {
      var r = rect(facts).map(function (px, side) { return px + (side < 2 ? -RIM : RIM); });
      [0, 1].forEach(function (k) {
        need(k, room[k] - r[k]);
        need(k + 2, r[k + 2] - room[k + 2]);
      });
      panels.forEach(function (p) {
        var off = [p[2] - r[0], p[3] - r[1], r[2] - p[0], r[3] - p[1]], least = Math.min.apply(null, off);
        if (least > 0) { need(off.indexOf(least), least); }
      });
    });
    return lacks;
  }

  function finish(map, facts) {
    L.control.scale({ imperial: false, maxWidth: 100, position: "bottomleft" }).addTo(map);
    L.control.zoom({ position: "bottomright" }).addTo(map);
    each("#key", function (key) { key.open = window.innerWidth >= 1000; });
    if (facts.spots.length) { fit(facts.spots); }
    sizes();
    days.forEach(function (one) { show(one, one.shown); });
    days.filter(function (one) { return one.shown; }).slice(0, 1).forEach(bringTab);
    listen(map, runplannerFrame(map));
    keepFitted(map, facts.spots);
    settle();
  }

  /* A phone that is turned, or a window of another size, has its first look anew, as long as
     nobody has moved the sheet. */
  function keepFitted(map, spots) {
    var first = spots.length > 0;
    map.on("movestart", function () { first = first && fitting; });
    map.on("resize", function () { if (first) { fit(spots); } });
  }

  function listen(map, redraw) {
    each("nav.days button", function (button) {
      button.addEventListener("click", function () { tapped(button); });
    });
    each("#key", function (key) {
      key.addEventListener("toggle", placeWords);
      map.on("click popupopen", function () { if (window.innerWidth < 700) { key.open = false; } });
    });
    map.on("move zoomend resize", redraw);
    map.on("zoomstart", function () { map.getContainer().classList.add("zooming"); });
    map.on("zoomend", function () {
      map.getContainer().classList.remove("zooming");
      sizes();
    });
    map.on("moveend resize", placeWords);
  }

  return { start: start, roads: roads, day: day, leg: leg, cell: cell, base: base, finish: finish };
}());
