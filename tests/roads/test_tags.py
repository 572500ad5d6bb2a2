from dataclasses import replace

import pytest

from runplanner.roads import endings
from runplanner.roads.speeds import KINDS, ROAD_KM_H, changed
from runplanner.roads.tags import SHUT, Road, barred_by, road_of, unread, wait_s
from runplanner.roads.vehicle import Vehicle
from tests.roads.towns import HEAVY, LIGHT, SPEEDS


def pace(tags: dict[str, str], vehicle: Vehicle = LIGHT) -> int | None:
    """Metres an hour ahead, None where the truck does not go."""
    road = road_of(tags, vehicle, SPEEDS)
    return None if road is None else road.ahead


def test_every_class_has_its_own_speed() -> None:
    """A road of each class, without further tags, goes at the table's speed; no ferry does."""
    for name, km_h in ROAD_KM_H.items():
        assert (km_h * 1000 or None) == pace({"highway": name})
    assert [0] == [km_h for name, km_h in ROAD_KM_H.items() if name == "ferry"]


@pytest.mark.parametrize(
    ("tags", "ways"),
    [
        ({}, (True, True)),
        ({"oneway": "yes"}, (True, False)),
        ({"oneway": "1"}, (True, False)),
        ({"oneway": "-1"}, (False, True)),
        ({"oneway": "reverse"}, (False, True)),
        ({"oneway": "no"}, (True, True)),
        ({"oneway": "alternating"}, (True, True)),
        ({"junction": "roundabout"}, (True, False)),
        ({"junction": "circular"}, (True, False)),
        ({"junction": "roundabout", "oneway": "no"}, (True, True)),
        ({"highway": "motorway"}, (True, False)),
        ({"highway": "motorway", "oneway": "no"}, (True, True)),
    ],
)
def test_one_way(tags: dict[str, str], ways: tuple[bool, bool]) -> None:
    """One-way signs, roundabouts and motorways are driven the allowed way only."""
    road = road_of({"highway": "secondary"} | tags, LIGHT, SPEEDS)

    assert road is not None
    assert ways == (road.ahead > 0, road.back > 0)


@pytest.mark.parametrize(
    ("tags", "ways"),
    [
        ({"vehicle:backward": "no"}, (70, 0)),
        ({"motor_vehicle:forward": "no"}, (0, 70)),
        ({"access:backward": "no"}, (70, 0)),
        ({"access:backward": "no", "motor_vehicle": "yes"}, (70, 70)),
        ({"hgv:forward": "no"}, (0, 70)),
        ({"goods:forward": "no"}, (70, 70)),
        ({"hgv": "no", "hgv:forward": "yes"}, (70, 0)),
        ({"vehicle:backward": "private"}, (70, 20)),
        ({"maxweight:forward": "2"}, (0, 70)),
        ({"maxweight": "2", "maxweight:forward": "9"}, (70, 0)),
        ({"maxweight:both_ways": "9", "maxweight:backward": "2"}, (70, 0)),
        ({"maxweight:hgv:backward": "2"}, (70, 0)),
        ({"maxheight:backward": "2"}, (70, 0)),
        ({"maxweight:backward:conditional": "5 @ (wet)"}, (70, 0)),
        ({"hgv:forward:conditional": "no @ (07:00-09:00)"}, (0, 70)),
        ({"maxspeed:forward": "30", "maxspeed": "50"}, (30, 50)),
        ({"maxspeed:backward": "30"}, (70, 30)),
        ({"oneway:hgv": "yes"}, (70, 0)),
        ({"oneway:goods": "yes"}, (70, 70)),
        ({"oneway:motor_vehicle": "-1"}, (0, 70)),
        ({"oneway": "yes", "oneway:vehicle": "no"}, (70, 70)),
        ({"oneway": "no", "oneway:hgv:conditional": "yes @ (07:00-09:00)"}, (70, 0)),
        ({"maxweight:both_ways": "2"}, None),
        ({"oneway": "yes", "vehicle:forward": "no"}, None),
        ({"oneway": "-1", "maxheight:backward": "3"}, None),
    ],
)
def test_tags_for_one_direction(tags: dict[str, str], ways: tuple[int, int] | None) -> None:
    """They hold ahead or back alone, and stand before what is said for both.

    The OpenStreetMap wiki's "Forward & backward, left & right", and Key:oneway.
    """
    road = road_of({"highway": "primary"} | tags, HEAVY, SPEEDS)

    assert ways == (None if road is None else (road.ahead // 1000, road.back // 1000))


@pytest.mark.parametrize(
    ("tags", "sign"),
    [
        ({"maxweight:both_ways": "2"}, "maxweight:both_ways '2'"),
        ({"oneway": "-1", "vehicle:backward": "no"}, "vehicle:backward 'no'"),
        ({"hgv:conditional": "no @ (wet)"}, "hgv:conditional 'no @ (wet)'"),
        ({"maxweight": "9", "maxweight:conditional": "5 @ wet"}, "maxweight:conditional '5 @ wet'"),
        ({"maxweight": "5", "maxweight:conditional": "7 @ (wet)"}, "maxweight '5'"),
        ({"maxheight": "4", "access": "no"}, "access 'no'"),
        ({"maxheight": "2", "access": "no"}, "maxheight '2'"),
        ({"maxheight": "4"}, ""),
    ],
)
def test_the_sign_that_shuts_a_road(tags: dict[str, str], sign: str) -> None:
    """It is told as it stands in the file, with its direction and its condition."""
    assert sign == barred_by({"highway": "primary"} | tags, HEAVY, SPEEDS)


def test_limits_for_one_direction_that_cannot_be_read_or_judged() -> None:
    """They are told by their own key."""
    tags = {
        "highway": "primary", "maxweight:forward": "some", "maxaxleload:backward": "1",
        "hgv:backward:conditional": "no",
    }  # fmt: skip

    assert unread(tags, HEAVY) == [
        "hgv:backward:conditional 'no'", "maxaxleload:backward '1'", "maxweight:forward 'some'",
    ]  # fmt: skip


def test_points_have_no_directions() -> None:
    """What holds at one of them for one direction holds for both."""
    assert SHUT == wait_s({"maxweight:forward": "2"}, LIGHT, SPEEDS)
    assert 60 == wait_s({"barrier": "gate", "maxweight:backward": "4"}, LIGHT, SPEEDS)


@pytest.mark.parametrize(
    "tags",
    [
        {"highway": "footway"},
        {"highway": "construction"},
        {},
        {"highway": "primary", "access": "no"},
        {"highway": "primary", "motor_vehicle": "no"},
        {"highway": "primary", "vehicle": "no"},
        {"highway": "primary", "goods": "no"},
        {"highway": "primary", "oneway": "reversible"},
        {"highway": "pedestrian"},
        {"highway": "service", "area": "yes"},
        {"highway": "primary", "maxweight": "3"},
        {"highway": "primary", "maxweight": "3000 kg"},
        {"highway": "primary", "maxweight": "3.8 st"},
        {"highway": "primary", "maxweightrating": "3"},
        {"highway": "primary", "maxweightrating:goods": "3"},
        {"highway": "primary", "maxgcweight": "3.4"},
        {"highway": "primary", "maxwidth": "2"},
        {"highway": "primary", "maxwidth": "2 m"},
        {"highway": "primary", "maxwidth": "7'"},
        {"highway": "primary", "maxwidth:physical": "210 cm"},
        {"highway": "primary", "maxweight": "2,8"},
        {"highway": "primary", "maxweight": "2.8 tonnes"},
        {"highway": "primary", "maxweight": "1 Tonne"},
        {"highway": "primary", "maxweight": "7,5;3,45 t"},
        {"highway": "primary", "maxweight": "default;3"},
        {"highway": "primary", "maxwidth": "2,1\u00a0m"},
        {"highway": "primary", "maxwidth": "2 metres"},
        {"highway": "primary", "maxwidth": "9';7'2\""},
        {"highway": "primary", "maxwidth": "7 feet 2 inches"},
        {"highway": "primary", "maxwidth": "7\u20192\u201d"},
    ],
)
def test_where_a_light_truck_does_not_go(tags: dict[str, str]) -> None:
    """Foot paths, shut roads, and limits below 3.5 t or 2.2 m keep it out."""
    # 3.8 short tons are 3,447 kg; seven feet are 2,133 mm, with two inches 2,184.
    assert road_of(tags, LIGHT, SPEEDS) is None


@pytest.mark.parametrize(
    "tags",
    [
        {"access": "no", "motor_vehicle": "yes"},
        {"vehicle": "no", "goods": "designated"},
        {"hgv": "no"},
        {"maxweight": "3.5"},
        {"maxweight": "none"},
        {"maxweight": "some day"},
        {"maxheight": "2.0"},
        {"maxwidth": "2.2"},
        {"maxwidth": "7'3\""},
    ],
)
def test_where_a_light_truck_goes_all_the_same(tags: dict[str, str]) -> None:
    """The nearer tag counts; a limit that is just met lets it through; heights are unknown."""
    assert pace({"highway": "primary"} | tags) == 70_000


@pytest.mark.parametrize(
    ("tags", "goes"),
    [
        ({"hgv": "no"}, False),
        ({"goods": "no"}, True),
        ({"hgv": "yes", "motor_vehicle": "no"}, True),
        ({"maxheight": "3.2"}, False),
        ({"maxheight": "10'9\""}, False),
        ({"maxheight:physical": "3.29"}, False),
        ({"maxheight": "3.3"}, True),
        ({"maxheight": "default"}, True),
        ({"maxweight": "7.5;12"}, True),
        ({"maxweight": "12;7"}, False),
        ({"maxweight:hgv": "7"}, False),
        ({"maxweightrating:hgv": "1.5"}, False),
        ({"maxgcweight:hgv": "7.4 t"}, False),
        ({"maxweightrating:hgv": "7.5"}, True),
        ({"maxweight:goods": "1.5"}, True),
        ({"maxweight:bus": "1.5"}, True),
        ({"maxweightrating:hgv:conditional": "5 @ (07:00-09:00)"}, False),
        ({"maxweightrating:hgv:conditional": "5 @ (weight<7)"}, True),
        ({"maxaxleload": "0.5"}, True),
    ],
)
def test_a_heavy_truck(tags: dict[str, str], *, goes: bool) -> None:
    """Above 3.5 t the signs for heavy trucks count, and a typed height is looked at."""
    # 10 ft 9 in are 3,276 mm, less than 3,300.
    assert goes == (pace({"highway": "primary"} | tags, HEAVY) is not None)


@pytest.mark.parametrize(
    ("tags", "km_h"),
    [
        ({"highway": "primary", "maxspeed": "50"}, 50),
        ({"highway": "primary", "maxspeed": "100"}, 70),
        ({"highway": "primary", "maxspeed": "none"}, 70),
        ({"highway": "primary", "maxspeed": "XX:urban"}, 70),
        ({"highway": "primary", "maxspeed": "60;40"}, 40),
        ({"highway": "primary", "maxspeed": "walk"}, 6),
        ({"highway": "primary", "maxspeed": "0"}, 70),
        ({"highway": "primary", "surface": "gravel"}, 50),
        ({"highway": "primary", "surface": "mud"}, 20),
        ({"highway": "primary", "surface": "asphalt"}, 70),
        ({"highway": "unclassified", "4wd_only": "recommended"}, 20),
        ({"highway": "unclassified", "smoothness": "very_bad"}, 20),
        ({"highway": "primary", "smoothness": "bad"}, 50),
        ({"highway": "primary", "smoothness": "bad", "surface": "mud"}, 20),
        ({"highway": "primary", "smoothness": "intermediate"}, 70),
        ({"highway": "primary", "maxspeed:goods": "50"}, 50),
        ({"highway": "primary", "maxspeed:goods": "60", "maxspeed": "40"}, 40),
        ({"highway": "primary", "maxspeed:goods:conditional": "30 @ (wet)"}, 30),
        ({"highway": "primary", "maxspeed:hgv": "50"}, 70),
        ({"highway": "track", "tracktype": "grade1"}, 40),
        ({"highway": "track", "tracktype": "grade5"}, 8),
        ({"highway": "track", "tracktype": "odd"}, 15),
        ({"highway": "primary", "access": "private"}, 20),
        ({"highway": "primary", "access": "something new"}, 20),
        ({"highway": "residential", "motor_vehicle": "destination"}, 20),
        ({"highway": "primary", "access": "permissive"}, 70),
    ],
)
def test_what_slows_a_road(tags: dict[str, str], km_h: int) -> None:
    """Posted limits, bad surfaces and private roads take speed off, never add it."""
    assert km_h * 1000 == pace(tags)


@pytest.mark.parametrize(
    ("tags", "with_four"),
    [
        ({"4wd_only": "yes"}, True),
        ({"smoothness": "horrible"}, True),
        ({"smoothness": "very_horrible"}, False),
        ({"smoothness": "impassable"}, False),
        ({"impassable": "yes"}, False),
        ({"disused": "yes"}, False),
        ({"abandoned": "yes"}, False),
    ],
)
def test_roads_too_bad_for_a_truck(tags: dict[str, str], *, with_four: bool) -> None:
    """Some are for four-wheel drive, slowly, others for nobody; the tag is told.

    The OpenStreetMap wiki's Key:4wd_only and Key:smoothness: from very_horrible on tractors
    alone.
    """
    (key, value), *_ = tags.items()
    road = {"highway": "unclassified"} | tags

    assert pace(road) is None
    assert f"{key} {value!r}" == barred_by(road, LIGHT, SPEEDS)
    assert (20_000 if with_four else None) == pace(road, replace(LIGHT, four_wheel=True))


def test_speeds_signed_for_heavy_trucks() -> None:
    """The lesser of both signs counts, each way by itself."""
    tags = {"highway": "primary", "maxspeed": "100", "maxspeed:hgv:backward": "50"}
    road = road_of(tags, HEAVY, SPEEDS)

    assert road is not None
    assert (70_000, 50_000) == (road.ahead, road.back)


def test_miles_an_hour() -> None:
    """A limit of 30 mph is 48.27 km/h."""
    # 30 x 1,609 m = 48,270 m.
    assert 48_270 == pace({"highway": "primary", "maxspeed": "30 mph"})


@pytest.mark.parametrize(
    ("tags", "seconds"),
    [
        ({"barrier": "gate"}, 60),
        ({"barrier": "lift_gate"}, 60),
        ({"barrier": "gate", "locked": "yes"}, 180),
        ({"barrier": "gate", "access": "private"}, 60),
        ({"barrier": "gate", "access": "no"}, SHUT),
        ({"barrier": "bollard"}, SHUT),
        ({"barrier": "block", "access": "yes"}, 0),
        ({"barrier": "block", "access": "yes", "goods": "no"}, SHUT),
        ({"barrier": "bus_trap", "motor_vehicle": "yes"}, 0),
        ({"barrier": "yes"}, 0),
        ({"barrier": "yes", "access": "no"}, SHUT),
        ({"barrier": "toll_booth", "vehicle": "no"}, SHUT),
        ({"barrier": "toll_booth", "vehicle": "no", "goods": "yes"}, 0),
        ({"barrier": "cattle_grid", "access": "private"}, 0),
        ({"amenity": "parking_entrance", "access": "no"}, 0),
        ({"barrier": "cattle_grid"}, 0),
        ({"barrier": "height_restrictor", "maxwidth": "2"}, SHUT),
        ({"highway": "crossing"}, 0),
    ],
)
def test_points_on_the_road(tags: dict[str, str], seconds: int) -> None:
    """Gates cost time, bollards shut the road, cattle grids do neither.

    The values are those of the OpenStreetMap wiki's Key:barrier; who may pass stands beside it.
    """
    assert seconds == wait_s(tags, LIGHT, SPEEDS)


@pytest.mark.parametrize("name", [
    "bar", "bus_trap", "ditch", "guard_rail", "hedge", "horse_stile", "planter",
    "retaining_wall", "rope", "spikes", "sump_buster", "tank_trap",
])  # fmt: skip
def test_barriers_that_nobody_drives_through(name: str) -> None:
    """What keeps trucks out shuts the road, unless a tag beside it lets them in."""
    assert SHUT == wait_s({"barrier": name}, LIGHT, SPEEDS)
    assert 0 == wait_s({"barrier": name, "vehicle": "permissive"}, LIGHT, SPEEDS)


@pytest.mark.parametrize("grade", ["", "grade1", "grade3", "grade5"])
def test_a_typed_speed_of_tracks_holds_for_every_grade(grade: str) -> None:
    """Whoever types it knows the tracks there; not typed, the best go at 40 km/h."""
    typed = changed({"track": 10_000}, {}, {})
    road = road_of({"highway": "track", "tracktype": grade}, LIGHT, typed)

    assert road is not None
    assert 10_000 == road.ahead
    assert 40_000 == pace({"highway": "track", "tracktype": "grade1"})


def test_a_class_may_be_shut_or_changed() -> None:
    """Typed figures stand in place of the table's: no tracks, faster trunk, slower gates."""
    typed = changed({"track": 0, "trunk": 95_000}, {"rough": 10_000}, {"gate": 30})

    assert road_of({"highway": "track"}, LIGHT, typed) is None
    assert Road(KINDS.index("trunk"), 95_000, 95_000) == road_of({"highway": "trunk"}, LIGHT, typed)
    slow = road_of({"highway": "road", "surface": "sand"}, LIGHT, typed)
    assert slow is not None
    assert 10_000 == slow.ahead
    assert 30 == wait_s({"barrier": "gate"}, LIGHT, typed)
    assert 180 == wait_s({"barrier": "gate", "locked": "yes"}, LIGHT, typed)


def test_words_tell_tables_apart() -> None:
    """Equal tables have equal words, others have not: a change is never served from disk."""
    assert SPEEDS.words() == changed({}, {}, {}).words()
    assert SPEEDS.words() != changed({"track": 16_000}, {}, {}).words()
    assert SPEEDS.words() != changed({}, {}, {"gate": 61}).words()


@pytest.mark.parametrize(
    "word",
    ["", "none", "default", "below_default", "unsigned", "no_sign", "3.5;none", "7.5", "7,5"],
)
def test_limits_that_are_read_or_are_none(word: str) -> None:
    """Words for no limit, and limits that were read, are not told."""
    assert [] == unread({"highway": "primary", "maxweight": word, "maxwidth": word}, LIGHT)


def test_limits_that_cannot_be_read() -> None:
    """They count as not there, and are told; heights only where the truck's is known."""
    tags = {
        "highway": "primary", "maxweight": "3.5 tons; 2,800 kg ;7.5", "maxgcweight": "heavy",
        "maxwidth:physical": "narrow", "maxheight": "low", "maxspeed": "slow",
    }  # fmt: skip

    told = ["maxweight '3.5 tons'", "maxweight '2,800 kg'", "maxgcweight 'heavy'",
            "maxwidth:physical 'narrow'"]  # fmt: skip
    assert told == unread(tags, LIGHT)
    assert [*told, "maxheight 'low'"] == unread(tags, HEAVY)
    assert 70_000 == pace(tags)


@pytest.mark.parametrize(
    ("tags", "goes"),
    [
        ({"maxweight": "3000"}, False),
        ({"maxweight": "7500"}, True),
        ({"maxweight": "3499,5"}, False),
        ({"maxweight": "100"}, True),
        ({"maxheight": "310"}, False),
        ({"maxheight": "330"}, True),
        ({"maxwidth": "230"}, False),
        ({"maxwidth": "20"}, True),
    ],
)
def test_bare_figures_that_can_only_be_kilograms_or_centimetres(
    tags: dict[str, str], *, goes: bool
) -> None:
    """Without a unit tonnes and metres are meant (OpenStreetMap wiki, Key:maxweight and others).

    Nobody signs a road for 3000 t or 310 m.
    """
    assert goes == (pace({"highway": "primary"} | tags, HEAVY) is not None)
    assert [] == unread(tags, HEAVY)


@pytest.mark.parametrize("sign", ["maxweight 101", "maxweight 499", "maxheight 21", "maxheight 99"])
def test_bare_figures_that_can_be_nothing(sign: str) -> None:
    """Neither 250 t nor 250 kg, neither 25 m nor 25 cm is signed: such are told as unread."""
    key, text = sign.split()

    assert [f"{key} {text!r}"] == unread({key: text}, HEAVY)
    assert pace({"highway": "primary", key: text}, HEAVY) == 70_000


def test_a_limit_under_a_condition_that_cannot_be_read() -> None:
    """What may hold is looked at as what holds."""
    tags = {"highway": "primary", "maxweight:conditional": "light @ (wet)"}

    assert ["maxweight:conditional 'light'"] == unread(tags, LIGHT)


def test_keys_are_looked_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Millions of roads are asked: of each only keys of limits and conditions, each once."""
    seen: list[str] = []
    plain = endings._plain

    def watched(key: str) -> str:
        seen.append(key)
        return plain(key)

    monkeypatch.setattr(endings, "_plain", watched)
    limits = {"maxspeed": "50", "maxweight:forward": "some", "hgv:conditional": "no @ (wet)"}

    told = unread({"highway": "residential", "name": "S", "source:name": "x", **limits}, HEAVY)

    assert ["maxweight:forward 'some'"] == told
    # Once more to say what a limit for one direction stands for, ahead and back.
    assert ["maxspeed", "hgv:conditional", "maxweight:forward", "maxweight:forward"] == seen


def test_limits_on_axles_are_told() -> None:
    """Where the whole truck weighs no more than an axle may carry there is nothing to tell."""
    tags = {"highway": "primary", "maxaxleload": "7.4", "maxbogieweight": "7.5"}

    assert ["maxaxleload '7.4'"] == unread(tags, HEAVY)
    assert [] == unread(tags, LIGHT)


@pytest.mark.parametrize(
    ("condition", "told"),
    [
        ("7 @ (wet)", ["7 @ (wet)"]), ("8 @ (wet)", []), ("7 @ (weight<7)", []),
        ("8 @ (wet); 7 @ (Apr)", ["8 @ (wet); 7 @ (Apr)"]), ("7", ["7"]),
    ],
)  # fmt: skip
def test_limits_on_axles_at_times_are_told(condition: str, told: list[str]) -> None:
    """Those that may hold, against a truck of 7.5 t, and those without the form of a condition."""
    tags = {"highway": "primary", "maxaxleload:conditional": condition}

    assert [f"maxaxleload:conditional {one!r}" for one in told] == unread(tags, HEAVY)


@pytest.mark.parametrize("key", ["maxheight", "maxwidth"])
def test_true_sizes_at_times_are_limits(key: str) -> None:
    """What is there in truth (``:physical``) counts under a condition as what is signed."""
    truck = Vehicle(3_500_000, 2_200, 3_000)
    tags = {"highway": "primary", f"{key}:physical:conditional": "2 @ (high water)"}

    assert road_of(tags, truck, SPEEDS) is None


def test_limits_for_trucks_that_cannot_be_read() -> None:
    """They are told by their own key."""
    assert ["maxweight:hgv 'some'"] == unread({"maxweight:hgv": "some"}, HEAVY)
    assert [] == unread({"maxweight:hgv": "some"}, LIGHT)
