"""The same outfit with one thing eased: to find what stands in the way, and what helps."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.safety import eased, eased_as_typed
from runplanner.outfit.stores import Strips
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Access, Yard
from runplanner.phrase import Number, Phrase, phrase
from runplanner.trade.driving import PRESETS

Ease = Callable[[Outfit], Outfit]


def _yards(outfit: Outfit, change: Callable[[Yard], Yard]) -> Outfit:
    return replace(outfit, yards=tuple(change(yard) for yard in outfit.yards))


def fair_weather(outfit: Outfit) -> Outfit:
    """Every daylight hour fit for everything."""
    return _yards(
        outfit,
        lambda yard: replace(
            yard,
            open_spans=yard.sun_spans,
            feed_spans=yard.sun_spans,
            unsettled_spans=(),
            strips_shut_days=(),
            shut=(),
            sure_permille=(),
        ),
    )


def open_gates(outfit: Outfit) -> Outfit:
    """Every yard may be entered by any vehicle at any hour."""
    return _yards(outfit, lambda yard: replace(yard, access=Access()))


def soft_dates(outfit: Outfit) -> Outfit:
    """No deadline is hard and every yard is ready at once."""
    season, last = outfit.season, outfit.season.n_days - 1

    def soft(deadline: Deadline) -> Deadline:
        return replace(deadline, hard=False)

    softer = replace(
        season,
        take_off_by=soft(season.take_off_by),
        strips_by=soft(season.strips_by),
        feed_by=soft(season.feed_by),
    )
    return _yards(
        replace(outfit, season=softer), lambda y: replace(y, ready_from_day=0, finish_by_day=last)
    )


def nothing_in_hand(outfit: Outfit) -> Outfit:
    """Minutes and days kept in hand are used; no day ends after midnight, or after the last."""
    back, last = eased(outfit), outfit.season.n_days - 1
    if back is outfit:
        return outfit
    hours = replace(back.hours, end_min=min(DAY_MIN, back.hours.end_min))
    return _yards(
        replace(back, hours=hours),
        lambda yard: replace(yard, finish_by_day=min(last, yard.finish_by_day)),
    )


def strong_axles(outfit: Outfit) -> Outfit:
    """Axles bear whatever the truck may carry."""
    return replace(outfit, trucks=tuple(replace(truck, axles=None) for truck in outfit.trucks))


def strong_trucks(outfit: Outfit) -> Outfit:
    """Every truck carries twice as much, on twice the deck."""
    trucks = tuple(
        replace(
            t,
            max_g=t.max_g + (t.max_g - t.empty_g),
            train_max_g=None if t.train_max_g is None else 2 * t.train_max_g,
            axles=None,
            deck=Deck(2 * t.deck.length_mm, t.deck.width_mm, t.deck.stack_mm, t.deck.stack_boxes),
        )
        for t in outfit.trucks
    )
    return replace(outfit, trucks=trucks)


def long_days(outfit: Outfit) -> Outfit:
    """Trucks may be out two hours longer, whatever rules are named."""
    return _out_longer(outfit, outfit.hours.duty_max_min + 120)


def _out_longer(outfit: Outfit, duty_max_min: int) -> Outfit:
    hours = outfit.hours
    start_min, end_min = max(0, hours.start_min - 60), min(DAY_MIN, hours.end_min + 60)
    longer = replace(hours, start_min=start_min, end_min=end_min, duty_max_min=duty_max_min)
    return replace(outfit, hours=longer)


def a_longer_day(outfit: Outfit) -> tuple[Phrase, Ease]:
    """Return the relief of a day an hour longer at both ends, in words and as an ease.

    The longest duty grows by as much where the day has room for it, but not beyond that of the
    published rules that are named; the words tell by how much.
    """
    hours = outfit.hours
    longer = long_days(outfit).hours
    most = longer.longest_min
    if hours.rules in PRESETS:
        most = min(most, PRESETS[hours.rules].duty_max_min)
    most = max(hours.duty_max_min, most)
    words = phrase("a longer day: out an hour earlier, back an hour later")
    if most > hours.duty_max_min:
        words = phrase(
            "{day}, {more} h more duty ({most} h in all; see what the law allows)",
            day=words,
            more=_hours(most - hours.duty_max_min),
            most=_hours(most),
        )
    return words, lambda was: _out_longer(was, most)


def _hours(minutes: int) -> Number:
    return Number(f"{round(minutes / 60, 2):g}")


def boards_for_all(outfit: Outfit) -> Outfit:
    """Clearing boards enough for all."""
    return replace(outfit, kit=replace(outfit.kit, boards_owned=10**6))


def strips_for_all(outfit: Outfit) -> Outfit:
    """No stock of strips runs short."""
    strips, *also = (replace(o, stock=None) for o in (outfit.strips, *outfit.strips_also))
    return replace(outfit, strips=strips, strips_also=tuple(also))


def more_containers(outfit: Outfit) -> Outfit:
    """Four times as many of each container for syrup, four where there is none."""
    containers = tuple(replace(c, owned=max(c.owned, 1) * 4) for c in outfit.containers)
    return replace(outfit, containers=containers)


def more_feeders(more: int) -> Ease:
    """Return the ease of so many more feeders that circulate; nothing where none do."""

    def ease(outfit: Outfit) -> Outfit:
        owned = outfit.kit.feeders_owned
        if owned is None:
            return outfit
        return replace(outfit, kit=replace(outfit.kit, feeders_owned=owned + more))

    return ease


def more_syrup(ml: int) -> Ease:
    """Return the ease of so much more bought syrup; nothing where syrup is mixed."""

    def ease(outfit: Outfit) -> Outfit:
        feed = outfit.feed
        if not feed.bought:
            return outfit
        return replace(outfit, feed=replace(feed, ready_ml=feed.ready_ml + ml))

    return ease


def more_sugar(grams: int) -> Ease:
    """Return the ease of so much more sugar; nothing where none is mixed, or it is no stock."""

    def ease(outfit: Outfit) -> Outfit:
        feed = outfit.feed
        if feed.bought or feed.sugar_g is None:
            return outfit
        return replace(outfit, feed=replace(feed, sugar_g=feed.sugar_g + grams))

    return ease


def more_blocks(more: int) -> Ease:
    """Return the ease of so many more fondant blocks."""

    def ease(outfit: Outfit) -> Outfit:
        kit = outfit.kit
        return replace(outfit, kit=replace(kit, blocks_owned=kit.blocks_owned + more))

    return ease


def more_strips(substance: str, more: int) -> Ease:
    """Return the ease of so many more strips of a substance; all kinds of it tell its stock."""

    def told(kind: Strips) -> Strips:
        if kind.substance != substance or kind.stock is None:
            return kind
        return replace(kind, stock=kind.stock + more)

    def ease(outfit: Outfit) -> Outfit:
        also = tuple(map(told, outfit.strips_also))
        return replace(outfit, strips=told(outfit.strips), strips_also=also)

    return ease


def fast_mixing(outfit: Outfit) -> Outfit:
    """Syrup is mixed in no time; the sugar for it, and somebody who mixes, must be there."""
    feed = outfit.feed
    if feed.bought:
        return outfit
    return replace(outfit, feed=replace(feed, mix_ml_per_day=10**9, mix_ml_per_h=10**9))


def big_house(outfit: Outfit) -> Outfit:
    """The honey house takes and spins five times as much, and no honey is in a hurry."""
    house = outfit.honey_house
    bigger = replace(
        house, boxes_per_h=tuple(5 * r for r in house.boxes_per_h), room_boxes=5 * house.room_boxes
    )
    return _yards(
        replace(outfit, honey_house=bigger), lambda yard: replace(yard, spin_by_hard=False)
    )


def thirsty_bees(outfit: Outfit) -> Outfit:
    """Feed rounds may follow each other daily."""
    return replace(
        outfit, feed=replace(outfit.feed, uptake_ml_per_day=outfit.feed.uptake_ml_per_day * 20)
    )


def second_helper(outfit: Outfit) -> Outfit:
    """One more person, who drives, spins and mixes."""
    name = _free_id("extra", [person.id for person in outfit.people])
    person = Person(name, "One more person", drives=True, spins=True, mixes=True)
    trucks = tuple(replace(t, drivers=(*t.drivers, name)) for t in outfit.trucks)
    return replace(outfit, people=(*outfit.people, person), trucks=trucks)


def second_crew(outfit: Outfit) -> Outfit:
    """One more truck like the first, with two more people."""
    staffed = second_helper(second_helper(outfit))
    first = staffed.trucks[0]
    truck = replace(
        first,
        id=_free_id("second", [t.id for t in outfit.trucks]),
        name="Second truck",
        out_days=(),
    )
    return replace(staffed, trucks=(*staffed.trucks, truck))


def a_trailer(outfit: Outfit) -> Outfit:
    """A 750 kg trailer of 200 kg empty, behind any truck that may pull none yet."""
    trailer = Trailer(
        id=_free_id("trailer", [t.id for t in outfit.trailers]),
        name="A 750 kg trailer",
        empty_g=200_000,
        max_g=750_000,
        deck=Deck(2_500, 1_300, 1_200, 5),
        width_mm=1_700,
        speed_permille=950,
        km_cents=0,
    )
    trucks = tuple(
        replace(t, train_max_g=t.max_g + 750_000) if t.train_max_g is None else t
        for t in outfit.trucks
    )
    return replace(outfit, trailers=(*outfit.trailers, trailer), trucks=trucks)


def one_more_day(outfit: Outfit) -> Outfit:
    """The campaign lasts a day longer; that day is taken as fair, and last days move with it.

    Last days are those that were typed: as many days as before are kept in hand of them.
    """
    return eased_as_typed(outfit, _longer)


def _longer(outfit: Outfit) -> Outfit:
    season, last = outfit.season, outfit.season.n_days - 1

    def later(deadline: Deadline) -> Deadline:
        return replace(deadline, day=deadline.day + 1) if deadline.day >= last else deadline

    longer = replace(
        season,
        n_days=season.n_days + 1,
        take_off_by=later(season.take_off_by),
        strips_by=later(season.strips_by),
        feed_by=later(season.feed_by),
    )
    return _yards(replace(outfit, season=longer), lambda yard: _day_longer(yard, last))


def _day_longer(yard: Yard, last: int) -> Yard:
    new = yard.sun_spans[-1]
    following = Span(new.start_min + DAY_MIN, new.end_min + DAY_MIN)
    return replace(
        yard,
        sun_spans=(*yard.sun_spans, following),
        open_spans=(*yard.open_spans, new),
        feed_spans=(*yard.feed_spans, new),
        finish_by_day=yard.finish_by_day + 1 if yard.finish_by_day >= last else yard.finish_by_day,
    )


def _free_id(wish: str, taken: list[str]) -> str:
    number = 1
    while f"{wish}{number}" in taken:
        number += 1
    return f"{wish}{number}"


def together(eases: Iterable[Ease]) -> Ease:
    """Return the ease of several things at once."""
    every = tuple(eases)

    def ease(outfit: Outfit) -> Outfit:
        for one in every:
            outfit = one(outfit)
        return outfit

    return ease


RULES: tuple[tuple[str, Ease], ...] = (
    (phrase("the weather windows and the settling nights"), fair_weather),
    (phrase("the minutes and days kept in hand"), nothing_in_hand),
    (phrase("the last days and the days yards are ready"), soft_dates),
    (phrase("the hours of the working day and of duty"), long_days),
    (phrase("the number of people"), second_helper),
    (phrase("the number of trucks and people"), second_crew),
    (phrase("what the axles of the trucks bear"), strong_axles),
    (phrase("what the trucks may carry"), strong_trucks),
    (phrase("gates and what yards let in"), open_gates),
    (phrase("how many feeders there are to go round"), more_feeders(10**6)),
    (phrase("how many clearing boards there are"), boards_for_all),
    (phrase("how many fondant blocks there are"), more_blocks(10**6)),
    (phrase("how many strips are in stock"), strips_for_all),
    (phrase("how many containers there are for syrup"), more_containers),
    (phrase("how much syrup is delivered"), more_syrup(10**12)),
    (phrase("how much sugar is in stock"), more_sugar(10**12)),
    (phrase("how fast syrup is mixed"), fast_mixing),
    (phrase("the honey house's pace and room"), big_house),
    (phrase("the days between feed rounds"), thirsty_bees),
)


def reliefs(outfit: Outfit) -> tuple[tuple[Phrase, Ease], ...]:
    """Return what is tried to get undone work done, in words and as eases."""
    return (
        (phrase("one more day, taken as fair"), one_more_day),
        (phrase("one more person"), second_helper),
        a_longer_day(outfit),
        (phrase("a 750 kg trailer"), a_trailer),
        (phrase("a second crew: one more truck like the first and two more people"), second_crew),
    )
