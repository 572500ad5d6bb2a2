"""Tests of every kind of file that yards are gathered from."""

import json
from pathlib import Path
from typing import Any

import gpxpy.gpx
import openpyxl
import pytest

from tests.scenario.folders import only
from tests.scenario.gathering import file, gathered, gpx, into, kml, mark, refused, wpt


def test_waypoints_of_a_gpx_file(tmp_path: Path) -> None:
    """Name, place and description of each waypoint; a file as another program writes it."""
    made = gpxpy.gpx.GPX()
    made.waypoints = [
        gpxpy.gpx.GPXWaypoint(-38.05, 175.1, name="Pump & House", description="Key under mat"),
        gpxpy.gpx.GPXWaypoint(-38.06, 175.15, name="Hollow Tree", comment="Dog"),
    ]
    made.tracks.append(gpxpy.gpx.GPXTrack(name="a drive"))
    made.routes.append(gpxpy.gpx.GPXRoute(name="a way"))
    told, lines = gathered([file(tmp_path, "a.gpx", made.to_xml())], into(tmp_path))

    assert [
        "Pump & House,-38.05,175.1,,,Key under mat",
        "Hollow Tree,-38.06,175.15,,,Dog",
    ] == lines[3:]
    assert "name,lat,lon,colonies,boxes,notes" == lines[0]
    assert ("a.gpx: tracks and routes left out, as only waypoints are places: 2.",) == told.notes


@pytest.mark.parametrize(
    "root",
    [
        "gpx",
        'gpx xmlns="http://www.topografix.com/GPX/1/0"',
        'gpx xmlns="urn:anything" version="9"',
    ],
)
def test_gpx_of_any_age(tmp_path: Path, root: str) -> None:
    """The namespace says the version, and is not asked."""
    text = gpx(wpt("-38.05", "175.1", "Pump"), root=root)

    assert ("Pump",) == gathered([file(tmp_path, "a.gpx", text)], into(tmp_path))[0].added


def test_placemarks_of_a_kml_file(tmp_path: Path) -> None:
    """Points wherever they are nested, with extra data by column; lines are counted."""
    extra = (
        "<ExtendedData><Data name='Hives'><value>14</value></Data>"
        "<Data name='Colour'><value>red</value></Data>"
        "<SchemaData><SimpleData name='supers'>22</SimpleData></SchemaData></ExtendedData>"
    )
    at = "<Point><coordinates> 175.2 , -38.09 </coordinates></Point>"
    line = "<LineString><coordinates>1,2 3,4</coordinates></LineString>"
    text = kml(
        mark("Pump House", "175.1,-38.05,120", extra),
        mark("Quarry", "175.15,-38.06", "<description>Ring first</description>"),
        f"<Placemark><name>Group</name><MultiGeometry>{at}</MultiGeometry></Placemark>",
        f"<Placemark><name>Road</name>{line}</Placemark>",
    )
    told, lines = gathered([file(tmp_path, "p.kml", text)], into(tmp_path))

    assert [
        "Pump House,-38.05,175.1,14,22,",
        "Quarry,-38.06,175.15,,,Ring first",
        "Group,-38.09,175.2,,,",
    ] == lines[3:]
    assert ("p.kml: placemarks left out that are not one point: 1.",) == told.notes


def test_a_description_in_html_is_left_out(tmp_path: Path) -> None:
    """Markup of a map program is no note; the place is taken without it."""
    more = "<description><![CDATA[<img src=x onerror=alert(1)>]]></description>"
    text = kml(mark("Pump House", "175.1,-38.05", more))
    told, lines = gathered([file(tmp_path, "p.kml", text)], into(tmp_path))

    assert "Pump House,-38.05,175.1,," == lines[3]
    assert ("p.kml placemark 1: a description in HTML was left out.",) == told.notes


def points(*features: Any, **more: Any) -> str:
    """A GeoJSON file."""
    return json.dumps({"type": "FeatureCollection", "features": features, **more})


def point(lon: object, lat: object, **properties: object) -> dict[str, object]:
    """A point feature."""
    geometry = {"type": "Point", "coordinates": [lon, lat]}
    return {"type": "Feature", "geometry": geometry, "properties": properties}


def test_points_of_a_geojson_file(tmp_path: Path) -> None:
    """Longitude first; properties by column, whatever their case; others are named."""
    text = points(
        point(
            175.1, -38.05, Name="Pump House", Colonies=14, boxes=21.5, four_wheel=True, colour="x"
        ),
        point(175.15, -38.06, title="Quarry", name="", nested=[1], nothing=None),
        {"type": "Feature", "geometry": {"type": "LineString", "coordinates": [[1, 2], [3, 4]]}},
        {"type": "Feature", "geometry": None},
        "no feature",
    )
    told, lines = gathered([file(tmp_path, "p.geojson", text)], into(tmp_path))

    assert [
        "name,lat,lon,colonies,boxes,four_wheel",
        "Pump House,-38.05,175.1,14,21.5,yes",
        "Quarry,-38.06,175.15,,,",
    ] == [lines[0], *lines[3:]]
    assert (
        "p.geojson: features left out that are not one point: 3.",
        "p.geojson: left out, as no column means it: colour.",
    ) == told.notes


def test_a_single_feature_and_wgs_84_by_name(tmp_path: Path) -> None:
    """One feature is a file too, and an older file may say that its degrees are WGS 84."""
    one = json.dumps(point(175.1, -38.05, name="Pump"))
    crs = {"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}}
    old = points(point(175.15, -38.06, name="Quarry"), crs=crs)
    files = [file(tmp_path, "a.json", one), file(tmp_path, "b.geojson", old)]

    assert ("Pump", "Quarry") == gathered(files, into(tmp_path))[0].added


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Expecting value"),
        ("{", "Expecting"),
        ("[1]", "list"),
        ('{"type": "Topology"}', "Topology"),
        ('{"type": "FeatureCollection", "features": 3}', "FeatureCollection"),
        ('{"a": NaN}', "NaN is no number"),
        ("[" * 100_000, "nested without end"),
        ('{"a": ' + "9" * 5_000 + "}", "digit"),
        (b"\xff\xfe{}", "decode"),
        (points(crs={"properties": {"name": "urn:ogc:def:crs:EPSG::2193"}}), "2193"),
        (points(crs=None), "another one"),
        (points(crs={"properties": 4}), "another one"),
    ],
    ids=range(12),
)
def test_what_is_no_geojson_is_a_fault(tmp_path: Path, text: str | bytes, said: str) -> None:
    """Not JSON, not features, or not degrees: said in words."""
    fault = only(refused([file(tmp_path, "p.geojson", text)], into(tmp_path)))

    assert "p.geojson" == fault.file
    assert said in fault.said


@pytest.mark.parametrize("spots", [[], [1], ["175", "-38"], [True, False], [None, 1], "175,-38"])
def test_a_point_without_two_numbers_is_a_fault(tmp_path: Path, spots: object) -> None:
    """Coordinates that are none are said with the feature they stand in."""
    broken = {"geometry": {"type": "Point", "coordinates": spots}, "properties": {"name": "Pump"}}
    fault = only(refused([file(tmp_path, "p.geojson", points(broken))], into(tmp_path)))

    assert ("feature 1", "coordinates", "no two numbers") == (fault.where, fault.field, fault.said)


@pytest.mark.parametrize("far", [1e300, 10**400, 1e999])
def test_a_coordinate_far_too_large_is_a_fault(tmp_path: Path, far: float) -> None:
    """Numbers beyond all grids are refused, not printed in full."""
    text = points(point("@", -38, name="Pump")).replace('"@"', repr(far).replace("inf", "1e999"))
    fault = only(refused([file(tmp_path, "p.geojson", text)], into(tmp_path)))

    assert "lon" == fault.field
    assert "a number far too large" == fault.said


def test_metres_of_a_grid_are_told_from_degrees(tmp_path: Path) -> None:
    """Projected coordinates: both numbers are faults with the cure."""
    text = points(point(1780000.5, 5780000.5, name="Pump"))
    found = refused([file(tmp_path, "p.geojson", text)], into(tmp_path))

    assert ["lat", "lon"] == [fault.field for fault in found]
    assert all("metres of a map grid" in fault.cure for fault in found)


def test_a_table_with_columns_by_other_names(tmp_path: Path) -> None:
    """Apiary, hives, supers and a position in one cell; what no column means is named."""
    text = (
        "Apiary;Hives;Supers;GPS;Owner;Hive No\n"
        "Pump House;14;22;38\u00b003'S 175\u00b006'E;Bo;1\n"
        "Quarry;9;10;-38.06, 175.15;Al;2\n"
    )
    told, lines = gathered([file(tmp_path, "t.csv", text)], into(tmp_path))

    assert ["Pump House,-38.05,175.1,14,22", "Quarry,-38.06,175.15,9,10"] == lines[3:]
    assert ("t.csv: left out, as no column means it: owner, hive_no.",) == told.notes


def test_a_columns_own_name_comes_first(tmp_path: Path) -> None:
    """A grid's x and y beside lat and lon, and hives beside colonies: own names count."""
    text = "x,y,lat,lon,title,name,hives,colonies\n17,57,-38.05,175.1,T,Pump,7,\n"
    told, lines = gathered([file(tmp_path, "t.csv", text)], into(tmp_path))

    assert "Pump,-38.05,175.1,7," == lines[3]
    assert ("t.csv: left out, as no column means it: x, y, title.",) == told.notes


def test_a_workbook(tmp_path: Path) -> None:
    """Cells as figures and words; units of the header go with the cell."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["name", "latitude", "longitude", "colonies", "box mass [kg]"])
    sheet.append(["Pump House", -38.05, 175.1, 14, 16.5])
    book.save(tmp_path / "t.xlsx")
    _, lines = gathered([tmp_path / "t.xlsx"], into(tmp_path))

    assert [
        "name,lat,lon,colonies,boxes,box_mass",
        "Pump House,-38.05,175.1,14,,16.5 kg",
    ] == [lines[0], lines[3]]


def test_a_position_that_cannot_be_parted_is_a_fault(tmp_path: Path) -> None:
    """One fault for the cell; a row that has lat and lon needs none."""
    text = "name,position,lat,lon\nPump,by the mill,,\nQuarry,by the mill,-38.06,175.15\n"
    fault = only(refused([file(tmp_path, "t.csv", text)], into(tmp_path)))

    assert ("row 2", "position", "by the mill") == (fault.where, fault.field, fault.said)


# ------------------------------------------------------------ hostile files


SWELL = "".join(
    f'<!ENTITY e{i + 1} "{"&e" + str(i) + ";"}{"&e" + str(i) + ";"}">' for i in range(30)
)


@pytest.mark.parametrize(
    ("head", "body", "said"),
    [
        ("<!DOCTYPE gpx>", "x", "a DOCTYPE"),
        (f'<!DOCTYPE gpx [<!ENTITY e0 "ha">{SWELL}]>', "&e30;", "a DOCTYPE"),
        ('<!DOCTYPE gpx SYSTEM "http://example.org/x.dtd">', "x", "a DOCTYPE"),
        ('<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]>', "&x;", "a DOCTYPE"),
        ("", "&x;", "undefined entity"),
        ("", "<name>", "mismatched tag"),
        ('<?xml version="1.0" encoding="utf-7"?>', "x", "encoding"),
        ('<?xml version="1.0" encoding="no-such"?>', "x", "encoding"),
    ],
    ids=range(8),
)
@pytest.mark.parametrize("kind", ["gpx", "kml"])
def test_xml_that_would_swell_or_fetch_is_refused(
    tmp_path: Path, kind: str, head: str, body: str, said: str
) -> None:
    """No DOCTYPE, no entities, no encodings nobody knows; one fault, no traceback."""
    path = file(tmp_path, f"a.{kind}", f"{head}<{kind}>{body}</{kind}>")
    fault = only(refused([path], into(tmp_path)))

    assert said in fault.said
    assert f"a {kind.upper()} file" in fault.allowed


def test_xml_of_another_kind_is_refused(tmp_path: Path) -> None:
    """The outermost element says what a file is."""
    path = file(tmp_path, "a.gpx", kml(mark("Pump", "175.1,-38.05")))

    assert "<kml>" == only(refused([path], into(tmp_path))).said


def test_xml_nested_without_end_is_read(tmp_path: Path) -> None:
    """Two hundred thousand levels: no crash, no hang; nothing in it is a place."""
    deep = "<Placemark>" * 200_000 + "</Placemark>" * 200_000
    path = file(tmp_path, "a.kml", f"<kml>{deep}</kml>")

    assert "no place" == only(refused([path], into(tmp_path))).said


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.gpx", gpx(wpt("-38.05", "175.1", "&#x202e;turned"))),
        ("a.gpx", gpx(wpt("-38.05", "175.1", "x" * 10_000))),
        ("a.gpx", gpx(wpt("-38.05", "175.1", "=HYPERLINK(&quot;http://x&quot;)"))),
        ("a.gpx", gpx(wpt("-38.05", "175.1", "two\nlines"))),
        ("a.gpx", gpx(wpt("-38.05", "175.1"))),
        ("a.gpx", gpx(wpt("-38.05", "175.1", " @SUM(1)"))),
        ("a.gpx", gpx(wpt("-38.05", "175.1", "Pump", "<desc>=1+1</desc>"))),
        ("a.gpx", gpx(wpt("-38.05", "175.1", "Pump", f"<desc>{'y' * 501}</desc>"))),
        ("a.csv", "name,lat,lon,notes\n+cmd|calc,-38.05,175.1,\n"),
        ("a.geojson", points(point(175.1, -38.05, name="a\x00b"))),
        ("a.geojson", points(point(175.1, -38.05, name="\uff1d1+1"))),
        ("a.geojson", points(point(175.1, -38.05, name="Pump", phone="-2+3+cmd|' /C calc'!A0"))),
    ],
    ids=range(12),
)  # fmt: skip
def test_words_that_would_harm_are_faults(tmp_path: Path, name: str, text: str) -> None:
    """Formulas, turned letters, control signs, line ends and floods are refused by row."""
    fault = only(refused([file(tmp_path, name, text)], into(tmp_path)))

    assert fault.where
    assert fault.field in {"name", "notes", "phone"}
    assert "\u202e" not in fault.sentence()


@pytest.mark.parametrize(
    "said",
    ["{{7*7}}", "<b>Mill</b>", 'O\'Brien, "Top"; left', "\u05d0\u05d1", "NA", "#1 yard", "a=b"],
)
def test_odd_names_come_through_as_typed(tmp_path: Path, said: str) -> None:
    """A name that harms nobody stays what it is, in the table and read again."""
    text = points(point(175.1, -38.05, name=said))
    folder = into(tmp_path)
    told, _ = gathered([file(tmp_path, "a.geojson", text)], folder)

    assert (said,) == told.added
    assert 1 == gathered([file(tmp_path, "a.geojson", text)], folder)[0].same


def test_figures_that_begin_with_a_sign_are_no_formula(tmp_path: Path) -> None:
    """A phone number with a plus is a phone number."""
    text = "name,lat,lon,phone\nPump,-38.05,175.1,+64 21 555 (0)101\n"

    assert gathered([file(tmp_path, "a.csv", text)], into(tmp_path))[1][3].endswith(
        "+64 21 555 (0)101"
    )


# ------------------------------------------------------------ which files


@pytest.mark.parametrize(
    ("name", "cure"),
    [
        ("a.xls", "Save it as .xlsx"), ("a.ods", "Save it as .xlsx"),
        ("a.gpz", "Did you mean '.gpx'?"), ("a", "Known here: .csv"), ("a.txt", "Known here: .csv"),
    ],
)  # fmt: skip
def test_other_kinds_of_file_are_refused_with_a_cure(tmp_path: Path, name: str, cure: str) -> None:
    """Each kind that is near to one that is read has its own words."""
    fault = only(refused([file(tmp_path, name, "x")], into(tmp_path)))

    assert cure in fault.cure
    assert ".geojson" in fault.allowed


@pytest.mark.parametrize("name", ["a.gpx", "a.kml", "a.geojson", "a.csv", "a.xlsx"])
def test_a_file_that_is_not_there_is_a_fault(tmp_path: Path, name: str) -> None:
    """Also a folder in its place."""
    (tmp_path / f"x-{name}").mkdir()
    found = refused([tmp_path / name, tmp_path / f"x-{name}"], into(tmp_path))

    assert [name, f"x-{name}"] == [fault.file for fault in found]
    assert all("Check the file's name." == fault.cure for fault in found)


def test_a_file_too_large_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond 20 MB a file is not opened."""
    monkeypatch.setattr("runplanner.scenario.gather.found.LARGEST_BYTES", 1_000_000)
    path = file(tmp_path, "a.gpx", b" " * 1_000_001)

    assert ("too large", "at most 1 MB") == (
        (fault := only(refused([path], into(tmp_path)))).said, fault.allowed,
    )  # fmt: skip


@pytest.mark.parametrize("kind", ["csv", "gpx", "kml", "geojson"])
def test_too_many_places_are_not_looked_at(
    tmp_path: Path, kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At most so many; one fault says so."""
    monkeypatch.setattr("runplanner.scenario.gather.found.MOST_PLACES", 3)
    spots = [(f"P{i}", -38.05, 175.1 + i / 10) for i in range(9)]
    texts = {
        "csv": "name,lat,lon\n" + "".join(f"{n},{lat},{lon}\n" for n, lat, lon in spots),
        "gpx": gpx(*(wpt(str(lat), str(lon), n) for n, lat, lon in spots)),
        "kml": kml(*(mark(n, f"{lon},{lat}") for n, lat, lon in spots)),
        "geojson": points(*(point(lon, lat, name=n) for n, lat, lon in spots)),
    }
    fault = only(refused([file(tmp_path, f"a.{kind}", texts[kind])], into(tmp_path)))

    assert "more than 3 places" == fault.said


def test_a_file_of_the_wrong_kind_does_not_flood(tmp_path: Path) -> None:
    """Thousands of faults, not in rows of a table: the first two hundred and a count."""
    places = gpx(*(wpt("x", "y", f"P{number}") for number in range(1_500)))
    found = refused([file(tmp_path, "a.gpx", places)], into(tmp_path))

    assert 201 == len(found)
    assert "more faults" in found[-1].said


def test_a_file_without_places_is_a_fault(tmp_path: Path) -> None:
    """Nothing to gather is said, rather than done."""
    found = refused(
        [file(tmp_path, "a.gpx", gpx()), file(tmp_path, "b.kml", kml())], into(tmp_path)
    )

    assert ("a.gpx, b.kml", "no place") == (only(found).file, only(found).said)


def test_boxes_of_each_hive_are_refused_until_told(tmp_path: Path) -> None:
    """Two supers on each of 24 and 30 hives, file by file; totals and unread cells beside them."""
    each = file(
        tmp_path, "each.csv",
        "apiary,lat,lon,hives,supers\nA,-38.2,175.1,24,2\nB,-38.3,175.1,30,2\nC,-38.4,175.1,?,2\n",
    )  # fmt: skip
    total = file(tmp_path, "total.csv", "name,lat,lon,colonies,boxes\nD,-38.5,175.1,24,41\n")
    bare = file(tmp_path, "bare.csv", "name,lat,lon\nE,-38.6,175.1\n")
    folder = into(tmp_path)
    fault = only(refused([each, total, bare], folder))

    assert ("each.csv", "boxes", "4 boxes for 54 colonies in all") == (
        fault.file, fault.field, fault.said,
    )  # fmt: skip
    assert fault.cure.startswith("If they are per colony call the column boxes_per_colony; if")
    told, _ = gathered([each, total, bare], folder, few_is_right=True)
    assert ("A", "B", "C", "D", "E") == told.added
