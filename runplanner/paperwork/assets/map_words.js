/* Puts names and loads on the sheet where they hide nothing: each word tries places round its
   mark, in full, then the name alone; then places further off, tied to the mark by a thin
   line; else it waits for a closer look.

   runplannerWords(map, sheet) needs of the sheet: words, marks, and what is shown now. */
var runplannerWords = (function () {
  "use strict";

  var CORNERS = 16, FAR = [16, 30, 46], FURTHER = [16, 30, 46, 64, 84, 106];

  /* Who gets room first: bases, yards with a sign, yards of the days shown, loads, others. */
  function rank(word, sheet) {
    if (word.kind === "base") { return 0; }
    if (word.kind === "load") { return word.leg.wide > 2 ? 4.9 - word.leg.wide / 100 : 4.95; }
    if (word.mark.flag) { return 1; }
    if (sheet.today(word.mark)) { return word.more ? 2 : 3; }
    return word.more ? 5 : 6;
  }

  function place(map, sheet) {
    var row = sheet.words.filter(sheet.visible).sort(function (a, b) {
      return rank(a, sheet) - rank(b, sheet);
    });
    measure(map, sheet, row);
    var space = {
      marks: sheet.marks.map(function (mark) { 
        return { owner: mark, rect: sheet.rect(mark), bold: mark.flag || sheet.today(mark) };
      }),
      panels: panelRects(map), room: sheetRect(map), words: [], ties: []
    };
    row.forEach(function (word) { placeOne(map, sheet, word, space); });
    drawTies(map, space.ties);
  }

  function measure(map, sheet, row) {
    var pane = map.getPane("words");
    sheet.words.forEach(function (word) {
      if (!word.element.parentNode) { pane.appendChild(word.element); }
      word.element.classList.remove("brief");
      word.element.style.display = sheet.visible(word) ? "" : "none";
    });
    row.forEach(function (word) {
      word.size = [word.element.offsetWidth, word.element.offsetHeight];
      word.brief = word.more ? [word.element.firstChild.offsetWidth + 4, 15] : word.size;
    });
  }

  /* A place hives move to later always says so: its name alone would stand there twice.  On a
     phone the sign of a base says what it is. */
  function sizesOf(map, word) {
    if (!word.more || word.mark.later) { return [word.size]; }
    return word.kind === "base" && map.getSize().x < 600 ? [word.brief] : [word.size, word.brief];
  }

  function placeOne(map, sheet, word, space) {
    var sizes = sizesOf(map, word), found = null;
    [false, true].forEach(function (far) {
      sizes.forEach(function (size) {
        found = found || freeSpot(tries(map, sheet, word, size, far), word, size, space);
      });
    });
    word.element.style.visibility = found ? "visible" : "hidden";
    if (!found) { return; }
    word.element.classList.toggle("brief", found.size !== word.size);
    lean(sheet, word, found.rect);
    L.DomUtil.setPosition(word.element, L.point(Math.round(found.rect[0]), Math.round(found.rect[1])));
    space.words.push(found.rect);
    if (found.tie) { space.ties.push(found.tie); }
  }

  /* Beside a mark the name stands at the end towards it, however wide the words below are. */
  function lean(sheet, word, rect) {
    var x = word.mark ? sheet.disc(word.mark).x : (rect[0] + rect[2]) / 2;
    word.element.classList.toggle("after", rect[0] >= x);
    word.element.classList.toggle("before", rect[2] <= x);
  }

  function tries(map, sheet, word, size, far) {
    if (word.leg) { return legSpots(map, word.leg, size, far ? FURTHER : [0]); }
    var disc = sheet.disc(word.mark);
    if (!far) { return markSpots(disc, size); }
    return farSpots(disc, size, sheet.today(word.mark) || word.mark.flag ? FURTHER : FAR);
  }

  function freeSpot(spots, word, size, space) {
    for (var i = 0; i < spots.length; i += 1) {
      var spot = spots[i], x = spot[0], y = spot[1], rect = [x, y, x + size[0], y + size[1]];
      var tie = spot[2] && [spot[2], nearest(spot[2], rect)];
      if (within(rect, space.room) && clear(rect, space.marks.map(rectOf)) &&
          clear(rect, space.panels) && clear(rect, space.words) && untied(rect, space.ties) &&
          (!tie || passes(tie, word, space))) {
        return { rect: rect, size: size, tie: tie };
      }
    }
    return null;
  }

  function rectOf(one) { return one.rect; }

  function nearest(point, rect) {
    return [Math.max(rect[0], Math.min(point[0], rect[2])),
      Math.max(rect[1], Math.min(point[1], rect[3]))];
  }

  /* Whether a tie runs over no word and over no mark that matters today, but its own. */
  function passes(tie, word, space) {
    var others = space.marks.filter(function (one) { return one.bold && one.owner !== word.mark; });
    return !along(tie).some(function (dot) {
      return inside(dot, space.words) || inside(dot, others.map(rectOf));
    });
  }

  function untied(rect, ties) {
    return !ties.some(function (tie) {
      return along(tie).some(function (dot) { return inside(dot, [rect]); });
    });
  }

  function along(tie) {
    var a = tie[0], b = tie[1], n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 4));
    var dots = [];
    for (var i = 0; i <= n; i += 1) {
      dots.push([a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n]);
    }
    return dots;
  }

  function inside(dot, rects) {
    return rects.some(function (r) {
      return dot[0] > r[0] && dot[0] < r[2] && dot[1] > r[1] && dot[1] < r[3];
    });
  }

  /* All ties as one path, light under dark, so that they show on any band. */
  function drawTies(map, ties) {
    var pane = map.getPane("words"), drawn = pane.querySelector("svg.ties");
    if (!drawn) {
      pane.insertAdjacentHTML("afterbegin", '<svg class="ties" aria-hidden="true">' +
        '<path class="light"></path><path class="dark"></path></svg>');
      drawn = pane.firstChild;
    }
    var line = ties.map(function (tie) {
      return "M" + tie[0].map(Math.round).join(" ") + "L" + tie[1].map(Math.round).join(" ");
    }).join("") || "M0 0";
    drawn.childNodes.forEach(function (path) { path.setAttribute("d", line); });
  }

  function clear(a, taken) {
    return !taken.some(function (b) {
      return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
    });
  }

  function within(a, room) {
    return a[0] >= room[0] && a[1] >= room[1] && a[2] <= room[2] && a[3] <= room[3];
  }

  function sheetRect(map) {
    var size = map.getSize(), corner = map.containerPointToLayerPoint([0, 0]);
    return [corner.x + 9, corner.y + 9, corner.x + size.x - 9, corner.y + size.y - 9];
  }

  /* The panels' rectangles on the sheet, in the same measure as the words. */
  function panelRects(map) {
    var home = map.getContainer().getBoundingClientRect();
    var panels = document.querySelectorAll(".plate, .key, nav.days, .leaflet-control");
    return Array.prototype.map.call(panels, function (panel) {
      var box = panel.getBoundingClientRect();
      var corner = map.containerPointToLayerPoint([box.left - home.left, box.top - home.top]);
      return [corner.x, corner.y, corner.x + box.width, corner.y + box.height];
    });
  }

  /* Below, right, left, above, and the four corners of a mark. */
  function markSpots(disc, size) {
    var r = disc.r + 4, w = size[0], h = size[1];
    return [
      [disc.x - w / 2, disc.y + r], [disc.x + r, disc.y - h / 2], [disc.x - r - w, disc.y - h / 2],
      [disc.x - w / 2, disc.y - r - h], [disc.x + r * 0.7, disc.y + r * 0.6],
      [disc.x - r * 0.7 - w, disc.y + r * 0.6], [disc.x + r * 0.7, disc.y - r * 0.6 - h],
      [disc.x - r * 0.7 - w, disc.y - r * 0.6 - h]
    ];
  }

  /* All round a mark, near before far, each with the point on its rim where the tie begins. */
  function farSpots(disc, size, offs) {
    var found = [];
    offs.forEach(function (off) {
      for (var k = 0; k < CORNERS; k += 1) {
        var turn = 2 * Math.PI * k / CORNERS, dx = Math.cos(turn), dy = Math.sin(turn);
        var x = disc.x + dx * (disc.r + off + size[0] / 2) - size[0] / 2;
        var y = disc.y + dy * (disc.r + off + size[1] / 2) - size[1] / 2;
        found.push([x, y, [disc.x + dx * disc.r * 0.8, disc.y + dy * disc.r * 0.8]]);
      }
    });
    return found;
  }

  /* On the band, then beside it, at a few shares of its length; off it by more with a tie. */
  function legSpots(map, leg, size, offs) {
    var shape = runplannerBands, points = shape.curve(map, leg), ends = shape.reach(points, leg);
    var length = ends[1] - ends[0], found = [];
    offs.forEach(function (more) {
      (more ? [1, -1] : [0, 1, -1]).forEach(function (side) {
        if (side === 0 && length < size[0]) { return; }
        [0.45, 0.3, 0.6, 0.2, 0.72, 0.1, 0.82].forEach(function (share) {
          var p = shape.at(points, ends[0] + length * share), off = leg.wide / 2 + 3 + more;
          var x = p.x + side * p.nx * (off + size[0] / 2);
          var y = p.y + side * p.ny * (off + size[1] / 2);
          found.push([x - size[0] / 2, y - size[1] / 2, more ? [p.x, p.y] : null]);
        });
      });
    });
    return found;
  }

  place.room = sheetRect;
  place.panels = panelRects;
  return place;
}());
