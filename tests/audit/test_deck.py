from dataclasses import replace

from runplanner.audit.book import Book, Stop, open_book
from runplanner.audit.cargo import NOTHING
from runplanner.audit.deck import NO_ROOM, places, places_max
from runplanner.daybook.plan import Plan
from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.yards import Health
from tests.audit.plans import boards, plain, with_trailer
from tests.audit.planted import edited


def first(plan: Plan) -> tuple[Book, Stop]:
    """The opened plan and its very first call."""
    book = open_book(plan)
    return book, next(book.stops())


def test_columns_by_the_better_way_round() -> None:
    """3,100 x 2,100 mm: 6 x 5 = 30 boxes of 508 x 413 mm along, 7 x 4 = 28 across."""
    assert 30 == places_max(*first(plain()))


def test_published_deck_of_square_boxes() -> None:
    """National supers, 460 mm square (BS 1300:1960), on 3.10 x 2.10 m: 6 x 4 = 24 columns."""
    square = BoxKind("medium", "National super", 460, 460, 150, 4_500)

    assert 24 == places_max(*first(edited(plain(), {"outfit.boxes": (square,)})))


def test_trailer_adds_its_columns() -> None:
    """30 on the truck, 5 x 3 on a trailer of 3,000 x 1,500 mm."""
    assert 45 == places_max(*first(with_trailer()))


def test_columns_are_those_of_the_boxes_aboard() -> None:
    """A trip with medium boxes only has 30 columns, though larger ones are about.

    Without any boxes aboard the largest kind counts: 3,100 / 600 x 2,100 / 500 = 5 x 4,
    across 6 x 3.
    """
    large = BoxKind("large", "Large", 600, 500, 300, 9_000)
    plan = edited(plain(), {"outfit.boxes": lambda boxes: (*boxes, large)})
    book = open_book(plan)
    off, feed = (stops[0] for stops in book.trips())

    assert (30, 20) == (places_max(book, off), places_max(book, feed))


def test_a_column_has_floor_for_every_kind_aboard() -> None:
    """600 x 400 and 500 x 490 mm: 5 x 4 columns of 600 x 490 mm, 25 or 24 of either alone."""
    boxes = (
        BoxKind("medium", "Long", 600, 400, 168, 4_500),
        BoxKind("square", "Square", 500, 490, 168, 4_500),
    )
    plan = edited(plain(), {"outfit.boxes": boxes})
    mixed = edited(plan, {"outfit.yards.1.box": "square"})
    alone = edited(mixed, {"outfit.yards.0.box": "square"})

    assert [25, 20, 24] == [places_max(*first(one)) for one in (plan, mixed, alone)]
    # where no boxes ride, as if all kinds did
    book = open_book(plan)
    assert 20 == places_max(book, list(book.trips())[1][0])


def test_tank_takes_whole_places_the_better_way_round() -> None:
    """1,200 x 1,000 mm on 508 x 413 mm: 3 x 3 along, 3 x 2 across."""
    book = open_book(with_trailer())
    rest = list(book.trips())[1]

    assert 6 == places(book, rest[0], NOTHING)


def test_small_container_turns_to_fit() -> None:
    """500 x 300 mm takes one place along (across it would take two)."""
    can = Container("can", "Can", 25_000, 1_500, 500, 300, 12)
    book = open_book(edited(plain(), {"outfit.containers.1": can}))
    feed = list(book.trips())[1]

    assert 7 == places(book, feed[0], NOTHING)


def test_boxes_of_a_watched_yard_stand_apart() -> None:
    """7 and 7 boxes, five high: 3 columns together, 2 + 2 when one yard is watched."""
    cargo = replace(NOTHING, boxes={"yard1": 4, "yard2": 7}, brood={"yard1": 3})
    sound = open_book(plain())
    watched = open_book(edited(plain(), {"outfit.yards.0.health": Health.WATCH}))

    assert 3 == places(sound, next(sound.stops()), cargo)
    assert 4 == places(watched, next(watched.stops()), cargo)


def test_kinds_do_not_share_a_column() -> None:
    """3 medium and 3 deep boxes are two columns."""
    deep = BoxKind("deep", "Deep", 508, 413, 244, 6_000)
    plan = edited(
        plain(),
        {"outfit.boxes": lambda boxes: (*boxes, deep), "outfit.yards.1.box": "deep"},
    )
    book = open_book(plan)

    assert 2 == places(book, next(book.stops()), replace(NOTHING, boxes={"yard1": 3, "yard2": 3}))


def test_height_limits_a_stack() -> None:
    """1,200 mm take four boxes of 244 mm, though five may be stacked: 9 are 3 columns."""
    book = open_book(edited(plain(), {"outfit.boxes.0.height_mm": 244}))

    assert 3 == places(book, next(book.stops()), replace(NOTHING, boxes={"yard1": 9}))


def test_box_too_tall_for_the_deck_never_fits() -> None:
    """A box taller than a stack may be takes more places than any deck has."""
    book = open_book(edited(plain(), {"outfit.boxes.0.height_mm": 1_201}))

    assert NO_ROOM == places(book, next(book.stops()), replace(NOTHING, boxes={"yard1": 1}))


def test_small_goods_take_places_begun() -> None:
    """41 boards at 40 a place, 61 blocks at 60, 11 feeders at 10: two each; strips none."""
    cargo = replace(NOTHING, boards=41, blocks=61, feeders=11, strips=900)
    book = open_book(boards())

    assert 6 == places(book, next(book.stops()), cargo)
