"""Tests of files as phones and spreadsheets really write them: zipped, with commas, abroad."""

import pickle
from io import BytesIO
from pathlib import Path
from zipfile import ZIP_BZIP2, ZIP_DEFLATED, ZipFile

import openpyxl
import pytest

from runplanner.errors import ScenarioError
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.scenario.gather.found import Basket
from runplanner.scenario.gather.gathered import gather
from runplanner.scenario.gather.waypoints import gather_kml
from runplanner.scenario.places.lands import country_at, zone_at
from runplanner.scenario.starter.new import new_scenario
from tests.scenario.folders import a_folder, faults_of, only
from tests.scenario.gathering import file, gathered, gpx, into, kml, mark, refused, wpt

PUMP = kml(mark("Pump", "175.1,-38.05,12"))
SLOVENIA = "name,lat,lon,colonies,boxes\nHill,46.40,15.60,3,4\nDale,46.42,15.70,3,4\n"


def kmz(parts: dict[str, str | bytes], packing: int = ZIP_DEFLATED) -> bytes:
    """A zip of parts by name."""
    raw = BytesIO()
    with ZipFile(raw, "w", packing) as archive:
        for name, body in parts.items():
            archive.writestr(name, body)
    return raw.getvalue()


@pytest.mark.parametrize("packing", [ZIP_DEFLATED, ZIP_BZIP2])
def test_the_kml_in_a_kmz_is_read(tmp_path: Path, packing: int) -> None:
    """The one at the top counts, whatever pictures and other KML lie beside and below it."""
    below = kml(mark("Other", "1,1"))
    raw = kmz({"files/a.png": b"\x89", "links/b.kml": below, "Doc.KML": PUMP}, packing)
    told, lines = gathered([file(tmp_path, "a.kmz", raw)], into(tmp_path))

    assert ("Pump",) == told.added
    assert "Pump,-38.05,175.1,," == lines[-1]


def test_a_kmz_that_swells_is_not_unpacked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A hundred kilobytes of blanks in a zip of few bytes, where 10 kB are allowed."""
    monkeypatch.setattr("runplanner.scenario.gather.kmz.LARGEST_BYTES", 10_000)
    raw = kmz({"doc.kml": b" " * 100_000})
    assert len(raw) < 1_000
    fault = only(refused([file(tmp_path, "a.kmz", raw)], into(tmp_path)))

    assert ("too large", "a.kmz") == (fault.said, fault.file)


def locked() -> bytes:
    """A zip that says it has a password: bit 0 of the flags, here and in the directory."""
    raw = bytearray(kmz({"doc.kml": PUMP}))
    raw[6] |= 1
    raw[raw.index(b"PK\x01\x02") + 8] |= 1
    return bytes(raw)


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "no zip, or a damaged one"),
        (b"PK\x03\x04 and no more", "no zip, or a damaged one"),
        (kmz({"doc.kml": PUMP * 50})[:-40], "no zip, or a damaged one"),
        (kmz({"doc.kml": PUMP}).replace(PUMP.encode()[:9], b"?" * 9), None),
        (kmz({"readme.txt": "x"}), "no KML inside"),
        (kmz({}), "no KML inside"),
        (locked(), "a zip with a password or packed strangely"),
        (kmz({"doc.kml": "<!DOCTYPE kml><kml/>"}), "a DOCTYPE"),
    ],
)
def test_other_zips_are_refused(tmp_path: Path, raw: bytes, said: str | None) -> None:
    """Damaged, empty, locked or with a DOCTYPE inside: one fault in words."""
    path = file(tmp_path, "a.kmz", raw)
    if said is None:
        # What was deflated does not hold those nine letters: the file is as it was.
        assert ("Pump",) == gathered([path], into(tmp_path))[0].added
        return
    assert said == only(refused([path], into(tmp_path))).said


def test_every_flipped_byte_of_a_kmz_is_survived(tmp_path: Path) -> None:
    """Whatever single byte is turned over, there is a yard or there is a fault."""
    whole = kmz({"doc.kml": PUMP})
    faults = []
    for at in range(0, len(whole), 3):
        path = file(tmp_path, "a.kmz", whole[:at] + bytes([whole[at] ^ 0xFF]) + whole[at + 1 :])
        basket = Basket()
        gather_kml(path, basket)
        assert len(basket.book) or ["Pump"] == [found.name for found in basket.found]
        faults.append(len(basket.book))

    assert {0, 1} == set(faults)


@pytest.mark.parametrize(
    "text",
    [
        "name;lat;lon;colonies;boxes\nPump;-38,05;175,1;12;20\n",
        "\ufeffName;Position;Hives;Supers\r\nPump;-38,05 175,1;12;20\r\n",
        "name\tlat\tlon\tcolonies\tboxes\nPump\t38,05 S\tE 175,1°\t12\t20\n",
        "name;lat;lon;colonies;boxes\nPump;38 3,0 S;175° 6,0' E;12;20\n",
    ],
)
def test_decimal_commas_of_degrees_are_dots(tmp_path: Path, text: str) -> None:
    """Semicolons, tabs and a byte order mark: read as meant, and said once."""
    told, lines = gathered([file(tmp_path, "a.csv", text)], into(tmp_path))

    assert "Pump,-38.05,175.1,12,20" == lines[-1]
    assert ("a.csv: decimal commas of degrees were read as dots.",) == told.notes


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Mill,46.2,16.3\nB,46.3,16.3\n", "mill, 46.2, 16.3"),
        ("Bienenstand,lat,lon\nA,46.2,16.3\n", "bienenstand, lat, lon"),
    ],
)
def test_a_table_without_a_name_has_one_fault(tmp_path: Path, text: str, said: str) -> None:
    """No header, or another word for it: said once, with the columns that were found."""
    fault = only(refused([file(tmp_path, "a.csv", text)], into(tmp_path)))

    assert (said, "a column for the name", "header") == (fault.said, fault.allowed, fault.where)


def test_a_workbook_says_which_sheet_is_read(tmp_path: Path) -> None:
    """Places on the second sheet: the first is read, and that is said."""
    book = openpyxl.Workbook()
    book.worksheets[0].append(["to do"])
    book.create_sheet("Places").append(["name", "lat", "lon"])
    book.save(tmp_path / "b.xlsx")
    fault = only(refused([tmp_path / "b.xlsx"], into(tmp_path)))

    assert ("to_do", "header") == (fault.said, fault.where)
    assert fault.cure.endswith("the first sheet is read, or one named like the file.")


@pytest.mark.parametrize("heads", ["easting,northing", "E,N", "Rechtswert,Hochwert", "x,y"])
def test_metres_of_a_grid_by_their_own_names(tmp_path: Path, heads: str) -> None:
    """They are positions, of the kind that is refused."""
    path = file(tmp_path, "a.csv", f"name,{heads}\nA,612345,5912345\n")

    assert all("map grid" in fault.cure for fault in refused([path], into(tmp_path)))


def test_what_was_left_out_is_told_with_the_faults(tmp_path: Path) -> None:
    """A column that no word knows holds the position that is said to lack."""
    path = file(tmp_path, "a.csv", 'name,pos,hives\nA,"-38.05, 175.1",10\n')
    with pytest.raises(ScenarioError) as refusal:
        gather([path], into(tmp_path))

    told = pickle.loads(pickle.dumps(refusal.value))  # noqa: S301 - as it comes from a process
    assert ("a.csv: left out, as no column means it: pos.",) == told.notes
    assert ["nothing"] == [fault.said for fault in told.faults]
    assert str(told).endswith("pos.")


def test_places_without_names_are_not_one_place(tmp_path: Path) -> None:
    """Two waypoints without a name: two faults, and none about two of one name."""
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1"), wpt("-38.2", "175.2")))

    found = refused([path], into(tmp_path))
    assert [("name", "waypoint 1"), ("name", "waypoint 2")] == [
        (fault.field, fault.where) for fault in found
    ]


@pytest.mark.parametrize("nothing", ["-", "\u2013", "\u2014", " - "])
def test_a_dash_is_an_empty_cell(tmp_path: Path, nothing: str) -> None:
    """What people put for nothing is nothing, and no formula."""
    text = f"name,lat,lon,colonies,boxes,notes\nPump,-38.05,175.1,12,{nothing},{nothing}\n"

    assert (
        "Pump,-38.05,175.1,12,"
        == gathered([file(tmp_path, "a.csv", text)], into(tmp_path))[1][-1].rstrip(",") + ","
    )


def test_a_place_across_the_border_is_named(tmp_path: Path) -> None:
    """Among Slovenian yards a Hungarian, an Austrian and one at sea; the rest goes unsaid."""
    rows = "Lenti,46.62,16.53,1,1\nLeibnitz,46.78,15.53,1,1\nDale 2,46.45,15.72,1,1\n"
    path = file(tmp_path, "b.csv", f"name,lat,lon,colonies,boxes\n{rows}")
    told, _ = gathered([path], into(tmp_path, SLOVENIA), far_km=0)

    assert ("In Austria, where the rest is in Slovenia: Leibnitz; check.",) == tuple(
        note for note in told.notes if note.startswith("In ")
    )
    # 64 km away is odd in itself, and the country stands behind it.
    assert any("It lies in Hungary, the rest in Slovenia." in note for note in told.notes)
    with speaking("de"):
        german = " ".join(map(said, told.notes))
    assert "Laut Karte \u00d6sterreich, der Rest Slowenien: Leibnitz; bitte pr\u00fcfen." in german
    assert "Laut Karte Ungarn, der Rest Slowenien." in german


def test_many_places_across_the_border_are_one_note(tmp_path: Path) -> None:
    """Five are named, the others counted."""
    rows = "".join(f"South {n},46.7{n},15.5,1,1\n" for n in range(7))
    path = file(tmp_path, "b.csv", f"name,lat,lon,colonies,boxes\n{rows}")
    told, _ = gathered([path], into(tmp_path, SLOVENIA))

    names = ", ".join(f"South {n}" for n in range(5))
    found = f"In Austria, where the rest is in Slovenia: {names} and 2 more; check."
    assert found in told.notes


NOBODY = "name,lat,lon,colonies,boxes\n"


IN_THE_SEA = "name,lat,lon,colonies,boxes\nA,35.52,173.72,1,1\nB,35.58,173.80,1,1\n"


def untouched(tmp_path: Path) -> Path:
    """A starter in which nothing was typed yet: its base and yards are nobody's."""
    folder = tmp_path / "bees"
    new_scenario(folder, "Bees")
    return folder


def test_places_that_all_lie_in_the_sea_are_a_fault(tmp_path: Path) -> None:
    """New Zealand's yards without their minus: one fault, though none is odd among the others."""
    path, folder = file(tmp_path, "a.csv", IN_THE_SEA), untouched(tmp_path)
    fault = only(refused([path], folder))

    assert ("a.csv", "all in the open sea: A, B") == (fault.file, fault.said)
    assert fault.cure.endswith("say --far 0.")
    told, _ = gathered([path], folder, far_km=0)
    assert ("In the open sea: A, B. Is a minus missing, or are lat and lon swapped?",) == told.notes


ABROAD = {
    "swapped": ("9.2,48.1", "9.3,48.2", "Lat and lon look swapped: 48.1, 9.2 lies near the base."),
    "sign": ("48.1,-9.2", "48.2,-9.3", "Lon seems to lack its minus or letter: 48.1, 9.2 lies"),
}


@pytest.mark.parametrize("slip", [*ABROAD])
@pytest.mark.parametrize("table", ["base", "home", "honey_house"])
def test_a_file_that_is_wrong_throughout_is_seen_by_the_base(
    tmp_path: Path, slip: str, table: str
) -> None:
    """Every row with the same slip: the places are near each other, and far from where you live."""
    folder = a_folder(tmp_path, yards=NOBODY, base=f"[{table}]\nlat = 48.05\nlon = 9.26\n")
    first, second, cure = ABROAD[slip]
    wrong = file(tmp_path, "w.csv", f"name,lat,lon\nA,{first}\nB,{second}\n")
    found = refused([wrong], folder)

    assert ["row 2", "row 3"] == [fault.where for fault in found]
    assert found[0].cure.startswith(cure)
    assert "within 300 km of the base" == found[0].allowed
    right = file(tmp_path, "r.csv", "name,lat,lon\nA,48.1,9.2\nB,48.2,9.3\n")
    assert ("A", "B") == gathered([right], folder)[0].added


def test_right_places_are_added_though_the_table_is_wrong(tmp_path: Path) -> None:
    """Rows gathered before the base was typed: that they are odd is said, and does not stop."""
    yards = "name,lat,lon,colonies,boxes\nA,9.2,48.1,1,1\nB,9.3,48.2,1,1\n"
    folder = a_folder(tmp_path, yards=yards, base="[base]\nlat = 48.05\nlon = 9.26\n")
    told, _ = gathered([file(tmp_path, "c.csv", "name,lat,lon\nC,48.1,9.2\n")], folder)

    assert ("C",) == told.added
    assert told.notes[0].startswith("2 yards of the table lie far from the base: lat and lon")


def test_yards_far_from_home_may_have_neighbours(tmp_path: Path) -> None:
    """400 km from the base, but among yards of the table: nothing odd."""
    yards = "name,lat,lon,colonies,boxes\nA,44.5,9.2,1,1\nB,44.6,9.3,1,1\n"
    folder = a_folder(tmp_path, yards=yards, base="[base]\nlat = 48.05\nlon = 9.26\n")
    told, _ = gathered([file(tmp_path, "c.csv", "name,lat,lon\nC,44.55,9.25\n")], folder)

    assert (("C",), ()) == (told.added, told.notes)


def test_a_tie_of_land_and_sea_names_the_sea(tmp_path: Path) -> None:
    """One on the coast and one 44 km off it: the rest has no country, yet only one is named."""
    rows = "Coast,-38.0,174.83,1,1\nOff,-38.0,174.3,1,1\n"
    path = file(tmp_path, "a.csv", f"name,lat,lon,colonies,boxes\n{rows}")
    told, _ = gathered([path], untouched(tmp_path))

    assert 1 == len(told.notes)
    assert told.notes[0].startswith("In the open sea: Off.")


@pytest.mark.parametrize(
    ("here", "zone", "country"),
    [
        ((46.05, 14.51), "Europe/Ljubljana", "Slovenia"),
        ((45.95, 13.62), "Europe/Rome", "Italy"),
        ((-29.95, -71.3), "America/Santiago", "Chile"),
        ((-43.9, -176.5), "Pacific/Chatham", "New Zealand"),
        ((-38.05, 175.1), "Pacific/Auckland", "New Zealand"),
    ],
)
def test_zones_and_countries_of_points(here: tuple[float, float], zone: str, country: str) -> None:
    """Towns near borders and on islands, by where atlases put them."""
    assert (zone, country) == (zone_at(here), country_at(here))


def test_the_sea_has_the_nearest_zone_and_no_country() -> None:
    """Half-way to the Azores: a zone with a name all the same."""
    assert ("", "Atlantic/Azores") == (country_at((40.0, -24.0)), zone_at((40.0, -24.0)))


def test_a_decimal_comma_keeps_the_unit_of_its_column(tmp_path: Path) -> None:
    """The table has no such unit: without it what check says to write would be refused again."""
    folder = into(tmp_path, "name,lat,lon,colonies,boxes,box_mass\n")
    table = file(
        tmp_path, "x.csv", 'name,lat,lon,colonies,boxes,box_mass [kg]\nNew,-38.2,175.3,5,8,"15,5"\n'
    )
    gathered([table], folder)
    fault = only(faults_of(folder))

    assert ("box_mass", "15,5 kg") == (fault.field, fault.said)
    assert "write '15.5 kg'" in fault.cure


def test_a_line_that_says_the_separator_stays(tmp_path: Path) -> None:
    """Yards are added below with the same separator."""
    folder = into(tmp_path, "sep=;\nname;lat;lon;colonies;boxes\n")
    _, lines = gathered([file(tmp_path, "x.csv", "name,lat,lon\nNew,-38.2,175.3\n")], folder)

    assert ["sep=;", "name;lat;lon;colonies;boxes"] == lines[:2]
    assert lines[2].startswith("New;-38.2")
