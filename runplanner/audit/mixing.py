"""Syrup: mixed by people who mix, fast enough, from the sugar there is, before it is loaded."""

from collections import Counter

from runplanner.audit.book import Book
from runplanner.audit.driven import begun
from runplanner.audit.findings import Breach, Breaches, on_day, when
from runplanner.audit.store import NOT_LATE, SYRUP, moves
from runplanner.days import DAY_MIN, day_of
from runplanner.phrase import phrase


def mixers(book: Book) -> Breaches:
    """Syrup is mixed by people who mix."""
    for mix in book.plan.mixing:
        if not book.people[mix.person].mixes:
            yield Breach(
                phrase(
                    "{person} mixes {start}",
                    person=book.person(mix.person),
                    start=when(mix.start_min),
                ),
                phrase("a person who mixes"),
            )


def mixing_times(book: Book) -> Breaches:
    """A stretch of mixing lies in one day, from the day before the campaign to its last."""
    last = book.outfit.season.n_days - 1
    for mix in book.plan.mixing:
        one_day = day_of(mix.start_min) == day_of(mix.end_min - 1)
        in_time = -1 <= day_of(mix.start_min) <= last
        if not in_time or mix.end_min <= mix.start_min or not one_day:
            said = phrase(
                "mixing from {start} to {end}", start=when(mix.start_min), end=when(mix.end_min)
            )
            allowed = phrase(
                "inside one day, from {first} to {last}", first=on_day(-1), last=on_day(last)
            )
            yield Breach(said, allowed)


def mixing_hours(book: Book) -> Breaches:
    """Syrup is mixed in spinning hours while the feed store is open, or whenever it is if in none.

    What has begun is past judging.
    """
    store, house = book.outfit.feed_store, book.outfit.honey_house
    opens = max(store.opens_min, house.spin_from_min)
    closes = min(store.closes_min, house.spin_to_min)
    if opens >= closes:
        opens, closes = store.opens_min, store.closes_min
    for mix in book.plan.mixing:
        midnight = day_of(mix.start_min) * DAY_MIN
        first, last = midnight + opens, midnight + closes
        kept = first <= mix.start_min and mix.end_min <= last
        if not kept and not begun(book.plan, mix.start_min):
            said = phrase(
                "mixing from {start} to {end}", start=when(mix.start_min), end=when(mix.end_min)
            )
            yield Breach(said, phrase("{first} to {last}", first=when(first), last=when(last)))


def mixing_pace(book: Book) -> Breaches:
    """A stretch mixes no more than one person can in that time."""
    for mix in book.plan.mixing:
        most = book.outfit.feed.mix_ml_per_h * (mix.end_min - mix.start_min) // 60
        if mix.ml > most:
            said = phrase(
                "{ml} ml mixed in {minutes} min, {start}",
                ml=mix.ml,
                minutes=mix.end_min - mix.start_min,
                start=when(mix.start_min),
            )
            yield Breach(said, phrase("at most {most} ml", most=max(0, most)))


def mixing_days(book: Book) -> Breaches:
    """No more is mixed in a day than can be."""
    mixed: Counter[int] = Counter()
    for mix in book.plan.mixing:
        mixed[day_of(mix.start_min)] += mix.ml
    most = book.outfit.feed.mix_ml_per_day
    for day, ml in sorted(mixed.items()):
        if ml > most:
            yield Breach(
                phrase("{ml} ml mixed on {day}", ml=ml, day=on_day(day)),
                phrase("at most {most} ml", most=most),
            )


def bought_syrup(book: Book) -> Breaches:
    """Nobody mixes syrup that is bought ready-made."""
    if book.outfit.feed.bought:
        for mix in book.plan.mixing:
            yield Breach(
                phrase("{ml} ml mixed {start}", ml=mix.ml, start=when(mix.start_min)),
                phrase("none: the syrup is bought"),
            )


def sugar(book: Book) -> Breaches:
    """All that is mixed takes no more sugar than there is, where a stock is given.

    What has been mixed took what it took.
    """
    feed, mixing = book.outfit.feed, book.plan.mixing
    if feed.sugar_g is None or all(begun(book.plan, mix.start_min) for mix in mixing):
        return
    ml = sum(mix.ml for mix in mixing)
    micrograms = ml * feed.density_g_per_l * feed.sugar_permille
    if micrograms > feed.sugar_g * 1_000_000:
        said = phrase(
            "{ml} ml mixed, of {grams} g of sugar", ml=ml, grams=-(-micrograms // 1_000_000)
        )
        yield Breach(said, phrase("{grams} g of sugar", grams=feed.sugar_g))


def syrup_wanted(book: Book) -> Breaches:
    """No more syrup is still to be mixed than trips load beyond what is there.

    What some have aboard for no stop counts as loaded, where it is not in store by the first load
    that is planned: others may lack it until it is.
    """
    mixing, every = book.plan.mixing, list(moves(book, SYRUP, NOT_LATE))
    if all(begun(book.plan, mix.start_min) for mix in mixing):
        return
    first = min((one.minute for one in every if one.change < 0 and not one.driven), default=0)
    loaded = -sum(one.change for one in every if one.change < 0 or one.minute <= first)
    there = book.outfit.feed.ready_ml + sum(mix.ml for mix in mixing)
    if there > loaded:
        said = phrase("{ml} ml ready or mixed", ml=there)
        yield Breach(said, phrase("no more than the {loaded} ml loaded", loaded=loaded))


def syrup_in_time(book: Book) -> Breaches:
    """Syrup is mixed before it is loaded.

    Strict reading: loads that start at the same minute draw on the store together.  What
    driven trips load is not there for others, though they load before, until what they do not
    use of it is in store again; where that is more than there was, the others stand as if it had
    been there.
    """
    every = list(moves(book, SYRUP, NOT_LATE))
    out = -sum(one.change for one in every if one.driven and one.change < 0)
    for start, _, change, trip, driven in every:
        if change >= 0 or driven:
            continue
        loads = (one for one in every if one.change < 0 and not one.driven)
        drawn = -sum(one.change for one in loads if one.minute <= start)
        gone = out - sum(one.change for one in every if one.change > 0 and one.minute <= start)
        done = [mix for mix in book.plan.mixing if mix.end_min <= start]
        before = sum(mix.ml for mix in done if begun(book.plan, mix.start_min))
        ready = max(0, book.outfit.feed.ready_ml + before - gone)
        ready += sum(mix.ml for mix in done if not begun(book.plan, mix.start_min))
        if drawn > ready:
            yield Breach(
                phrase("{drawn} ml loaded up to {start}", drawn=drawn, start=when(start)),
                phrase("the {ready} ml ready", ready=ready),
                trip,
            )
