"""Tests of the tables."""

import csv
import io
import json
from dataclasses import replace
from decimal import Decimal

from runplanner.paperwork.data.geo_file import plan_geojson
from runplanner.paperwork.data.tables import TABLE_NAMES, plan_tables, tables_csv
from runplanner.paperwork.lists.intake_sheet import intake
from runplanner.paperwork.lists.take_off_register import loads
from runplanner.paperwork.traces.traced import trace
from tests.audit.wet_plan import wet_boxes
from tests.paperwork.plans import (
    HOSTILE,
    eight_stop_plan,
    feed,
    hostile_plan,
    small_plan,
    take_off,
)
from tests.paperwork.test_living import out


def rows(text: str) -> list[dict[str, str]]:
    """The rows of a CSV text as a spreadsheet reads them."""
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline="")))


def test_there_is_a_table_for_each_name() -> None:
    """The names the index links to are those that are written."""
    assert list(TABLE_NAMES) == list(plan_tables(small_plan()))
    assert list(TABLE_NAMES) == list(tables_csv(small_plan()))


def test_trips_and_stops_are_rows() -> None:
    """Three trips; a row for each job at each stop."""
    tables = plan_tables(small_plan())

    assert ["0301-truck1-0001", "0302-truck1-0001", "0304-truck1-0001"] == list(
        tables["trips"]["trip"]
    )
    assert [15, 0, 11] == list(tables["trips"]["boxes"])
    assert ("Truck 1", "Ann, Bob") == tuple(tables["trips"].loc[0, ["truck_name", "crew_names"]])
    assert ["take-off", "block", "feed", "strips", "boards", "take-off", "block"] == list(
        tables["stops"]["job"]
    )
    assert 21 == tables["stops"]["stop_loading_at"][0]


def test_a_trip_is_from_leaving_home_to_being_back() -> None:
    """Home half an hour from the store: table and plan.geojson tell the shift's own ends."""
    plan = small_plan()
    first, *others = plan.shifts
    (trip,) = first.trips
    longer = replace(
        first, start_min=trip.calls[0].start_min - 30, end_min=trip.calls[-1].end_min + 25
    )
    plan = replace(plan, shifts=(longer, *others))
    trips = plan_tables(plan)["trips"]
    drawn = [
        one["properties"]
        for one in json.loads(plan_geojson(plan))["features"]
        if one["properties"]["kind"] == "trip"
    ]

    assert ["05:30", "09:00"] == list(trips.loc[0, ["starts", "ends"]])
    assert [(one["starts"], one["ends"]) for one in drawn] == list(
        zip(trips["starts"], trips["ends"], strict=True)
    )


def test_loads_go_leg_by_leg() -> None:
    """Load, eight yards, unload: ten legs of the long day, as the plan has them."""
    plan = eight_stop_plan()
    loads = plan_tables(plan)["loads"]
    legs = loads[loads["trip"] == "0302-truck1-0001"]

    calls = plan.shifts[1].trips[0].calls
    assert [call.after.load_g / 1000 for call in calls] == list(legs["load_kg"])
    assert [call.after.ml / 1000 for call in calls] == list(legs["syrup_L"])
    assert ["load", *["yard"] * 8, "unload"] == list(legs["leaving"])


def test_wet_boxes_have_their_columns() -> None:
    """15 ride out and stay on day 1, and come home on day 4, at the stops and on the legs."""
    found = {name: rows(text) for name, text in tables_csv(wet_boxes()).items()}
    stops = {row["job"]: row["wet_boxes"] for row in found["stops"]}

    assert [("0", "0"), ("15", "0"), ("0", "15")] == [
        (row["wet_up"], row["wet_down"]) for row in found["trips"]
    ]
    assert ("15", "15", "0") == (stops["wet boxes up"], stops["wet boxes down"], stops["feed"])
    assert ["15", "0", "0"] == [r["wet_boxes"] for r in found["loads"] if r["trip"] == "up"]
    assert ["0", "15", "0"] == [r["wet_boxes"] for r in found["loads"] if r["trip"] == "down"]


def test_the_honey_house_has_a_row_for_each_lot() -> None:
    """Where from, when here and unloaded, by when to spin, when spun."""
    first = rows(tables_csv(small_plan())["honey_house"])[0]

    assert ("L20270301-yard1", "15", "2027-03-01", "08:15", "2027-03-04", "08:05") == (
        first["lot"], first["boxes"], first["arrives_date"], first["arrives"],
        first["spin_by_date"], first["spin_by"],
    )  # fmt: skip
    assert ("2027-03-01", "08:35") == (first["unloaded_date"], first["unloaded"])
    assert ("2027-03-03", "08:00", "09:24") == (
        first["first_spun_date"], first["first_spun"], first["last_spun"],
    )  # fmt: skip
    assert (
        "" == rows(tables_csv(replace(small_plan(), spinning=()))["honey_house"])[0]["first_spun"]
    )


def test_a_lot_arrives_at_the_same_minute_on_every_paper() -> None:
    """Table, intake sheet, take-off register and trace: when the truck stands there."""
    plan = small_plan()
    first = rows(tables_csv(plan)["honey_house"])[0]
    (there,) = intake(plan, 0).arrivals
    (boxes,) = trace(plan, plan.outfit.yards[0]).boxes

    assert "08:15" == first["arrives"] == there.at
    assert loads(plan)[0].head.startswith("Mon 1 Mar 08:15")
    assert "Mon 1 Mar 08:15" == boxes.came_in


def test_costs_add_up() -> None:
    """The heads add up to the total; the bound stands beside it."""
    found = rows(tables_csv(small_plan())["costs"])
    costs = {row["head"]: Decimal(row["sum"]) for row in found}

    # 100 + 80 + 900 + 5 + 200 + 30 + 40 + 150 + 80 + 20 + 0.50.
    assert Decimal("1605.50") == costs.pop("total")
    assert 1500 == costs.pop("bound")
    assert Decimal("1605.50") == sum(costs.values())
    assert {"NZD"} == {row["currency"] for row in found}
    assert ("km", "kilometres") == (found[0]["head"], found[0]["words"])


def test_an_empty_table_keeps_its_columns() -> None:
    """A plan that leaves nothing undone has a head and no rows."""
    assert (
        "\ufeffyard,yard_name,job,colonies,stores_kg,why,cost,worth,currency,colony_days\r\n"
        == (tables_csv(replace(small_plan(), undone=()))["undone"])
    )


def test_hostile_words_start_no_formula_and_break_no_row() -> None:
    """Every cell is safe in a spreadsheet; rows are as many as with plain names."""
    plain = tables_csv(small_plan())
    for name, text in tables_csv(hostile_plan()).items():
        found = rows(text)
        assert len(rows(plain[name])) == len(found)
        for cell in (cell for row in found for cell in row.values()):
            assert not cell.lstrip().startswith(("=", "+", "-", "@"))
            assert "\n" not in cell
    trips = plan_tables(hostile_plan())["stops"]
    assert HOSTILE[0] == trips["yard_name"][0]


def test_a_formula_for_a_name_gets_an_apostrophe() -> None:
    """=HYPERLINK stays text."""
    plan = small_plan()
    yard = replace(plan.outfit.yards[0], name="=HYPERLINK(1)")
    outfit = replace(plan.outfit, yards=(yard, plan.outfit.yards[1]))

    stops = rows(tables_csv(replace(plan, outfit=outfit))["stops"])
    assert "'=HYPERLINK(1)" == stops[0]["yard_name"]


def test_stops_to_come_are_for_those_that_live() -> None:
    """Ten were planned and loaded for, two died while the truck is out: as on its manifest."""
    plan = out(8, (take_off(10, 15), feed(10, 90)), now=0)
    stops = plan_tables(plan)["stops"]

    assert [("take-off", 8, 15), ("feed", 8, 0)] == list(
        stops[["job", "colonies", "boxes"]].itertuples(index=False, name=None)
    )
    assert [0, 72] == list(stops["syrup_L"])
    assert 90 == plan_tables(plan)["trips"]["syrup_L"][0]
