/* Puts names and loads on the sheet where they hide nothing: each word tries a few places
   round its mark, first in full, then the name alone, else it waits for a closer look.

   runplannerWords(map, sheet) needs of the sheet: words, marks, and what is shown now. */
var runplannerWords = (function () {
  "use strict";

  /* Who gets room first: bases, yards of the days shown, their loads, then the others. */
  function rank(word, sheet) {
    if (word.kind === "base") { return 0; }
    if (word.kind === "load") { return 3; }
    return (sheet.today(word.mark) ? 1 : word.mark.flag ? 3.5 : 4) + (word.more ? 0 : 1);
  }

  function place(map, sheet) {
    var row = sheet.words.filter(sheet.visible).sort(function (a, b) {
      return rank(a, sheet) - rank(b, sheet);
    });
    measure(map, sheet, row);
    var panels = panelRects(map), room = sheetRect(map), taken = [];
    var all = sheet.marks.map(sheet.rect).concat(panels);
    var near = sheet.marks.filter(sheet.today).map(sheet.rect).concat(panels);
    /* A load may lie on a cell that has no part in the days shown; a name may lie on none. */
    row.forEach(function (word) { placeOne(map, sheet, word, [word.leg ? near : all, taken, room]); });
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

  function placeOne(map, sheet, word, space) {
    var full = freeSpot(map, sheet, word, word.size, space);
    var spot = full || (word.more && freeSpot(map, sheet, word, word.brief, space));
    word.element.style.visibility = spot ? "visible" : "hidden";
    if (!spot) { return; }
    word.element.classList.toggle("brief", !full);
    L.DomUtil.setPosition(word.element, L.point(Math.round(spot[0]), Math.round(spot[1])));
    space[1].push(spot);
  }

  function freeSpot(map, sheet, word, size, space) {
    var tries = word.leg ? legSpots(map, word.leg, size) : markSpots(sheet.disc(word.mark), size);
    for (var i = 0; i < tries.length; i += 1) {
      var x = tries[i][0], y = tries[i][1], rect = [x, y, x + size[0], y + size[1]];
      if (within(rect, space[2]) && clear(rect, space[0]) && clear(rect, space[1])) { return rect; }
    }
    return null;
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

  /* Below, right, left, above, and the two lower corners of a mark. */
  function markSpots(disc, size) {
    var r = disc.r + 4, w = size[0], h = size[1];
    return [
      [disc.x - w / 2, disc.y + r], [disc.x + r, disc.y - h / 2], [disc.x - r - w, disc.y - h / 2],
      [disc.x - w / 2, disc.y - r - h], [disc.x + r * 0.7, disc.y + r * 0.6],
      [disc.x - r * 0.7 - w, disc.y + r * 0.6]
    ];
  }

  /* On the band, then beside it, at a few shares of its length. */
  function legSpots(map, leg, size) {
    var shape = runplannerBands, points = shape.curve(map, leg), ends = shape.reach(points, leg);
    var length = ends[1] - ends[0], found = [];
    [0, 1, -1].forEach(function (side) {
      if (side === 0 && length < size[0]) { return; }
      [0.45, 0.3, 0.6, 0.2, 0.72].forEach(function (share) {
        var p = shape.at(points, ends[0] + length * share), off = leg.wide / 2 + 3;
        var x = p.x + side * p.nx * (off + size[0] / 2), y = p.y + side * p.ny * (off + size[1] / 2);
        found.push([x - size[0] / 2, y - size[1] / 2]);
      });
    });
    return found;
  }

  return place;
}());
