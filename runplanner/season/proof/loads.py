"""Which take-offs ride home together: whole yards seldom fill a truck.

The flow lets any share of a take-off ride on any trip.  Here every trip that brings honey has
a load: some yards whole, and of one more at most a lot, as much as there is room for.  A yard
that goes off in lots is called at more often, and all its colonies but those of the last lot
want blocks.  Loads are chosen beside the drives, and whoever brings one has entered every group
of yards that some of it is from.  There are too many to have them all in the program; those
come in that lower the cost (column generation for packing, Gilmore & Gomory, Operations
Research 9, 1961).

Why every plan is such a choice: what a trip brings of each yard is at most the whole yard, and
all of it at most the truck's load.  Such a trip lies between loads of whole yards and one lot,
the corners of what can be brought.  A yard's last lot is at most its largest, so its blocks are
at least the sum, over its lots, of half the smaller of what a lot is and what it lacks; that
grows ever more slowly, so the trip pays no less than the corners it lies between.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from runplanner.season.lanes import Arc, entries, grown
from runplanner.season.proof.cuts import Demand, Group, Mark
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.owed import (
    Part,
    always_honey,
    blocks_each,
    least_blocks,
    least_loads,
    least_lots,
)
from runplanner.season.proof.way_rows import WayRows
from runplanner.trips.ground import Ground

SMALL = 1e-6
SHORT = 1e-3
MOST = 4_000
"""Sets of whole yards that one trip may bring; where there are more, loads are left out."""
AT_ONCE = 60
"""Loads of each way of going out that come in together."""
CUTS = 3
"""Cuts that come in together, for each yard."""

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


class Load(NamedTuple):
    """A load by the number of its way of going out, its whole yards, and the yard of its lot.

    ``whole`` is a row of the way's table of sets; ``lot`` is a place in the list of yards that
    have honey, or one past its end where there is no lot.
    """

    road: int
    whole: int
    lot: int


class Table(NamedTuple):
    """All loads of one way of going out: sets of whole yards, and lots beside each of them.

    Args:
        whole: Which yards are in a set; of a yard that is too large, the most that fits.
        lot_g: What room is left for a lot of a yard beside a set, grams; 0 for no such load.
        most_g: The most of every yard that one trip brings.
    """

    whole: Flags
    lot_g: Floats
    most_g: Floats


class Tie(NamedTuple):
    """A row over the drives into a group of yards, and over the loads with something from there."""

    road: int | None
    group: Flags
    row: Any


class Loads:
    """Adds loads to a flow of a campaign that leaves nothing and of which nothing is driven.

    The flow has been solved: what it costs in all is what leaving one yard on would cost here,
    so that there is a solution before all loads are in.
    """

    def __init__(self, flow: Flow, tables: list[Table]) -> None:
        self.flow, self.tables = flow, tables
        self.parts = _honey(flow.parts)
        self.all_g = np.array([part.out_g for part in self.parts], float)
        least = [least_lots(flow.ground, part) for part in self.parts]
        self.work_s = [work_s for work_s, _ in least]
        self.gram_cents = np.array([
            blocks_each(flow.ground, part.yard) * colonies * _block_cents(flow.ground)
            for part, (_, colonies) in zip(self.parts, least, strict=True)
        ])  # fmt: skip
        self.place = {part.yard: i for i, part in enumerate(self.parts)}
        self.opened = [np.zeros((len(t.whole), len(self.parts) + 1), bool) for t in tables]
        self.in_use: list[list[tuple[Load, Any]]] = [[] for _ in tables]
        self.ties: dict[Mark, Tie] = {}
        self.ways: WayRows | None = None
        self.brought: list[list[Any]] = [[] for _ in tables]
        dear = flow.cents()
        self.off = [flow.row(1, 1, [(flow.var(dear), 1)]) for _ in self.parts]
        self.blocks = [self._blocks(part) for part in self.parts]
        self.trips = [flow.row(0, None, [(road.trips, 1)]) for road in flow.roads]
        yards = flow.outfit.yards
        honey = np.array([always_honey(yards[part.yard]) for part in self.parts], bool)
        self.by_house = [_by_house(table, honey & flow.apart) for table in tables]
        self.homes = [
            flow.row(0, None, [(home, 1) for home, _ in road.homes]) for road in flow.roads
        ]
        self.worked = [
            [flow.row(0, None, [(road.work[part.yard], 1)]) for part in self.parts]
            for road in flow.roads
        ]
        for demand in self._visits():
            self._tie(demand)
        for load in self._single():
            self._open(load)

    def _blocks(self, part: Part) -> Any:  # noqa: ANN401 - the solver's
        """Pay for the blocks of lots, as far as they are not in the yard's part already."""
        ground = self.flow.ground
        paid = least_blocks(ground, part.yard, part.out_g) * _block_cents(ground)
        return self.flow.row(-paid, None, [(self.flow.var(1.0), 1)])

    def _visits(self) -> Iterator[Demand]:
        """Call at a yard for each of its lots, and for what wants other days."""
        flow = self.flow
        for part in self.parts:
            visits = flow.visits(part.yard) - least_loads(flow.ground, part.yard, part.out_g)
            yield Demand((part.yard,), "visits for lots", visits, [], "trips")

    def _single(self) -> Iterator[Load]:
        none = len(self.parts)
        for number, table in enumerate(self.tables):
            for whole in np.flatnonzero(table.whole.sum(axis=1) == 1):
                yield Load(number, int(whole), none)

    # Rows over drives and loads

    def _tie(self, demand: Demand) -> None:
        """Let the drives into a group make up for what is demanded, and for loads from there."""
        of = demand.group if demand.of is None else (demand.of,)
        group = np.array([part.yard in of for part in self.parts])
        tie = Tie(demand.only, group, None)
        loads = [
            (variable, -1.0)
            for used in self.in_use
            for load, variable in used
            if self._from(load, tie)
        ]
        row = self.flow.cut(replace(demand, owed=[*demand.owed, *loads]))
        self.ties[demand.mark] = tie._replace(row=row)

    def _from(self, load: Load, tie: Tie) -> bool:
        """Tell whether a load counts in a tie."""
        if tie.road not in {None, load.road}:
            return False
        return bool(self._yards(load)[tie.group].any())

    def _yards(self, load: Load) -> Flags:
        """Return which yards a load has something of."""
        yards: Flags = self.tables[load.road].whole[load.whole].copy()
        if load.lot < len(yards):
            yards[load.lot] = True
        return yards

    def short(self, seen: set[Mark]) -> list[Demand]:
        """Return demands not ``seen`` yet that the last solution does not meet, worst first."""
        found: list[tuple[float, Demand]] = []
        all_flows = self.flow.into()
        lots = np.zeros(len(self.parts))
        for road, drives in enumerate(self.flow.used):
            used = [(load, v.solution_value()) for load, v in self.in_use[road]]
            share = np.array([value for _, value in used if value > SMALL])
            yards = np.array([self._yards(load) for load, value in used if value > SMALL])
            if len(share):
                lots += share @ yards
                found += self._short(road, dict(drives), yards, share)
        for demand, count in zip(self._visits(), lots, strict=True):
            found.append((demand.least + count - entries(all_flows, demand.group), demand))
        fresh = [(-by, d.mark, d) for by, d in found if by > SHORT and d.mark not in seen]
        return [demand for _, _, demand in sorted(fresh)[: CUTS * len(self.parts)]]

    def _short(
        self, road: int, flows: dict[Arc, float], yards: Flags, share: Floats
    ) -> Iterator[tuple[float, Demand]]:
        """Yield by how much groups are entered less often than loads come from there."""
        groups = {*grown(flows, self.flow.n), *((part.yard,) for part in self.parts)}
        for group in sorted(groups):
            mine = [self.place[yard] for yard in group if yard in self.place]
            wanted = float(share[yards[:, mine].any(axis=1)].sum())
            demand = Demand(group, f"loads {road}", 0, [], "trips", only=road)
            entered = entries(flows, group)
            yield wanted - entered, demand
            calls = [(float(share[yards[:, i]].sum()), d) for i, d in self.calls(road, group)]
            short = [(lots + demand.wanted() - entered, demand) for lots, demand in calls]
            yield from sorted(short, key=lambda one: -one[0])[:1]

    def calls(self, road: int, group: Group) -> Iterator[tuple[int, Demand]]:
        """Yield visits a way owes to each yard of a group: those of its loads, and later ones."""
        if self.ways is not None:
            for yard in (yard for yard in group if yard in self.place):
                later = self.ways.later(road, yard)
                name = f"loads and rounds {yard} {road}"
                demand = Demand(group, name, 0, later, "trips", only=road, of=yard)
                if later:
                    yield self.place[yard], demand

    def heed(self, ways: WayRows) -> None:
        """Tie loads to what each way does: what a way's loads bring is what it takes off."""
        self.ways = ways
        for road, held in enumerate(self.brought):
            for part in self.parts:
                held.append(self.flow.row(0, None, [(ways.off_by(road, part.yard), -1)]))
            for load, variable in self.in_use[road]:
                self._bring(load, variable, self._brought_g(load))

    def _bring(self, load: Load, variable: Any, brought: Floats) -> None:  # noqa: ANN401
        """Let a load count in what its way takes off, once that is told apart."""
        for grams, all_g, held in zip(brought, self.all_g, self.brought[load.road], strict=False):
            if grams:
                held.SetCoefficient(variable, float(grams / all_g))

    def cut(self, demands: list[Demand]) -> None:
        """Add rows for groups that are entered too seldom."""
        for demand in demands:
            self._tie(demand)

    def forget(self, marks: set[Mark]) -> None:
        """Forget cuts that are left out."""
        for mark in marks & self.ties.keys():
            del self.ties[mark]

    # Loads that are not in the program yet

    def gaining(self) -> list[Load]:
        """Return the loads that would lower the cost most; without any, none does."""
        found: list[Load] = []
        for number, table in enumerate(self.tables):
            reduced = self._reduced(number, table)
            reduced[self.opened[number]] = 0.0
            gains = np.argwhere(reduced < -SMALL)
            order = np.argsort(reduced[reduced < -SMALL], kind="stable")[:AT_ONCE]
            found += [Load(number, int(whole), int(lot)) for whole, lot in gains[order]]
        return found

    def _reduced(self, number: int, table: Table) -> Floats:
        """Return what the cost rises by, in cents, for one more of each load of a way."""
        off = np.array([row.dual_value() for row in self.off])
        blocks = np.array([row.dual_value() for row in self.blocks])
        worked = np.array([row.dual_value() for row in self.worked[number]])
        if self.ways is not None:
            off += np.array([row.dual_value() for row in self.brought[number]])
        grams = worked * self.work_s - off / self.all_g
        each = self.lot_cents(table.most_g) * blocks + table.most_g * grams
        beside = self.lot_cents(table.lot_g) * blocks + table.lot_g * grams
        beside[table.lot_g <= 0] = np.inf
        reduced = np.hstack([beside, np.zeros((len(beside), 1))])
        reduced += (table.whole @ each + self.trips[number].dual_value())[:, None]
        reduced[self.by_house[number]] += self.homes[number].dual_value()
        for tie in self.ties.values():
            price = tie.row.dual_value()
            if abs(price) > SMALL and tie.road in {None, number}:
                touched = np.flatnonzero(table.whole[:, tie.group].any(axis=1))
                lots = np.flatnonzero(tie.group)
                reduced[touched] += price
                reduced[:, lots] += price
                reduced[np.ix_(touched, lots)] -= price
        return reduced

    def open(self, wanted: list[Load]) -> None:
        """Take loads into the program."""
        for load in wanted:
            self._open(load)

    def _brought_g(self, load: Load) -> Floats:
        """Return what a load brings of every yard, in grams."""
        table = self.tables[load.road]
        brought = np.where(table.whole[load.whole], table.most_g, 0.0)
        if load.lot < len(brought):
            brought[load.lot] = table.lot_g[load.whole, load.lot]
        return brought

    def _open(self, load: Load) -> None:
        variable = self.flow.var(0)
        brought = self._brought_g(load)
        cents = self.lot_cents(brought)
        for i in np.flatnonzero(brought):
            self.off[i].SetCoefficient(variable, float(brought[i] / self.all_g[i]))
            self.blocks[i].SetCoefficient(variable, -float(cents[i]))
            least_s = float(brought[i] * self.work_s[i])
            self.worked[load.road][i].SetCoefficient(variable, -least_s)
        self._bring(load, variable, brought)
        self.trips[load.road].SetCoefficient(variable, -1)
        if self.by_house[load.road][load.whole, load.lot]:
            self.homes[load.road].SetCoefficient(variable, -1)
        for tie in self.ties.values():
            if self._from(load, tie):
                tie.row.SetCoefficient(variable, -1)
        self.opened[load.road][load.whole, load.lot] = True
        self.in_use[load.road].append((load, variable))

    def lot_cents(self, grams: Floats) -> Floats:
        """Return what lots of so many grams, one of every yard, cost in blocks at least."""
        return self.gram_cents * np.minimum(grams, self.all_g - grams) / 2


def loads_of(flow: Flow) -> Loads | None:
    """Return the loads of a campaign, or None where there are none, or too many."""
    parts = _honey(flow.parts)
    tables = [_table(flow.ground, road.way.hauler, parts) for road in flow.roads]
    known = [table for table in tables if table is not None]
    return Loads(flow, known) if parts and len(known) == len(tables) else None


def _by_house(table: Table, honey: Flags) -> Flags:
    """Tell which loads, lot by lot beside each set, have honey in them for certain."""
    found: Flags = np.zeros((len(table.whole), len(honey) + 1), bool)
    found[:, :-1] = honey
    found[table.whole[:, honey].any(axis=1)] = True
    return found


def _honey(parts: tuple[Part, ...]) -> list[Part]:
    """Return the take-offs that bring something."""
    return [part for part in parts if part.not_off and part.out_g]


def _table(ground: Ground, hauler: int, parts: list[Part]) -> Table | None:
    """Return the loads of a way of going out, or None for too many."""
    load_g, into = ground.haulers[hauler].load_max_g, ground.load_into[hauler]
    most_g = np.array([max(0, min(part.out_g, load_g, into[part.yard])) for part in parts], float)
    sets: list[tuple[int, ...]] = [()]
    masses = [0.0]
    at = 0
    while at < len(sets):
        after = sets[at][-1] + 1 if sets[at] else 0
        for i in range(after, len(parts)):
            if most_g[i] and masses[at] + most_g[i] <= load_g:
                sets.append((*sets[at], i))
                masses.append(masses[at] + most_g[i])
        if len(sets) > MOST:
            return None
        at += 1
    whole = np.zeros((len(sets), len(parts)), bool)
    for row, members in zip(whole, sets, strict=True):
        row[list(members)] = True
    room = load_g - np.array(masses)[:, None]
    lot_g = np.where(~whole & (room < most_g), room, 0.0)
    return Table(whole, lot_g, most_g)


def _block_cents(ground: Ground) -> float:
    """Return what a block costs with the work of giving it."""
    prices, pace = ground.outfit.prices, ground.outfit.pace
    return prices.block_cents + pace.block_s * prices.hour_cents / 3600
