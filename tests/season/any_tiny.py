"""Random tiny campaigns for hypothesis, within what brute force goes through in a second."""

from dataclasses import replace

from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Access, Clearing, Health, Yard
from tests.outfits import a_yard, an_outfit
from tests.season.any_outfit import rarely, spans, two_ways
from tests.season.tiny import ANN, EVEN_FEED, tiny


@st.composite
def tiny_yards(draw: st.DrawFn, number: int, days: int) -> Yard:
    """A yard of a few colonies, awkward in one way or another."""
    colonies = draw(st.integers(2, 5))
    night = draw(st.integers(0, days - 1))
    opens, closes = draw(rarely((600, 840), (0, 1440)))
    made = replace(
        a_yard(number, colonies=colonies, boxes=draw(st.integers(0, 8)), days=days),
        clearing=draw(st.sampled_from((Clearing.BRUSH, Clearing.BRUSH, Clearing.BOARDS))),
        stores_g=draw(st.sampled_from((None, 3_000, 8_000))),
        feeder_ml=draw(st.sampled_from((10_000, 10_000, 5_000))),
        finish_by_day=draw(rarely(draw(st.integers(0, days - 1)), days - 1)),
        health=draw(rarely(Health.WATCH, Health.SOUND)),
        access=Access(opens_min=opens, closes_min=closes),
        open_spans=draw(spans(days)),
        feed_spans=draw(spans(days)),
        unsettled_spans=draw(rarely((Span(night * 1440 + 1200, night * 1440 + 1300),), ())),
        strips_shut_days=draw(rarely((0,), ())),
        strips=draw(st.sampled_from(("", "", "other"))),
    )
    return two_ways(draw, made)


@st.composite
def tiny_outfits(draw: st.DrawFn) -> Outfit:
    """One yard over two or three days, or two on one day; one truck, one or two people."""
    count = draw(st.sampled_from((1, 1, 2)))
    days = draw(st.integers(2, 3)) if count == 1 else 1
    spots = [(draw(st.integers(1, 25)), draw(st.integers(-10, 10))) for _ in range(count)]
    usual = an_outfit(days=days)
    by = st.builds(Deadline, st.integers(0, days - 1), st.booleans())
    season = replace(
        usual.season,
        take_off_by=draw(rarely(draw(by), usual.season.take_off_by)),
        strips_by=draw(rarely(draw(by), usual.season.strips_by)),
        feed_by=draw(rarely(draw(by), usual.season.feed_by)),
    )
    return tiny(
        spots,
        [draw(tiny_yards(number, days)) for number in range(1, count + 1)],
        days,
        people=draw(st.sampled_from((usual.people, (ANN,)))),
        hours=replace(usual.hours, duty_max_min=draw(st.sampled_from((660, 660, 660, 150, 90)))),
        season=season,
        strips=Strips("amitraz", 2, None, 42, 70, draw(rarely(1, 0))),
        strips_also=(
            Strips(
                "thymol",
                1,
                draw(rarely(3, None)),
                21,
                28,
                draw(rarely(1, 0)),
                "other",
                draw(rarely(70, None)),
                draw(rarely(350, None)),
            ),
        ),
        rules=replace(usual.rules, blocks=draw(st.integers(0, 1)), smallest_lot=2),
        feed=replace(EVEN_FEED, uptake_ml_per_day=draw(st.sampled_from((2_000, 5_000)))),
    )
