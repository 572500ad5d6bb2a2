"""Strips: the usual kind under [strips], further kinds under [[strips_also]], one for each yard.

Which kind suits which yard, and when to change the substance, is for the label, the vet and
local law: the reader takes what is typed.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Final

from runplanner.outfit.stores import Strips
from runplanner.phrase import Number, Phrase, counted, joined, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.faults import Refusal, did_you_mean
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Money, Whole
from runplanner.scenario.values.quantities import temperature
from runplanner.scenario.values.words import key_of, name, slug, yes_no
from runplanner.scenario.yards.yard_row import Draft
from runplanner.scenario.yards.yard_stores import winter_boxes
from runplanner.trade.strips import SUBSTANCES, Treatment, in_words, strips_by_frames, treatment

ALSO: Final = "strips_also"
MOST_KINDS: Final = 12
"""Kinds beside the usual one: more substances than a vet has to choose from."""
BY_FRAMES: Final = "amitraz"
"""Dosed by frames of bees in North America: US label, from memory."""
DOSES: Final = ("per_colony", "brood_boxes", "frames_of_bees")
"""Keys that tell the dose, one of them at most."""
NEAR: Final = 0.8
"""So alike, as difflib counts, is a known substance misspelt: guessed.  Lactic and oxalic acid,
which are two, come to 0.73.
"""
_STOCK: Final = Whole(0, 1_000_000)


@dataclass(frozen=True, slots=True)
class StripKinds:
    """The kinds of strips that yards may name.

    Args:
        usual: What goes in where a yard names none.
        also: Further kinds.
        names: Id of each kind by what it is called, folded; the usual one by its substance.
        limits: The air temperatures each kind may be used in, by id.
        sure: False while what a kind is called is at fault: then no yard's name for one is refused.
        by_box: Ids of the kinds whose dose is each brood box's, as nobody typed one.
    """

    usual: Strips
    also: tuple[Strips, ...]
    names: Mapping[str, str]
    limits: Mapping[str, Treatment]
    sure: bool
    by_box: frozenset[str] = frozenset()

    def find(self, said: object) -> str:
        """Return the id of the kind that is called so.

        Raises:
            Refusal: When none is.
        """
        typed = key_of(said)
        for called in (typed, SUBSTANCES.get(typed, typed)):
            if called in self.names:
                return self.names[called]
        if not self.sure:
            return ""
        allowed = phrase(
            "a kind of [strips] or [[{also}]]: {names}", also=ALSO, names=", ".join(self.names)
        )
        cure = phrase(
            "{cure} Or describe it in [[{also}]].",
            cure=did_you_mean(typed, list(self.names)),
            also=ALSO,
        )
        raise Refusal(allowed, cure)


def read_strips(file: OutfitFile) -> StripKinds:
    """Return the usual strips and those beside them."""
    fields = file.section("strips")
    substance = _substance(fields)
    sure = fields.clean
    usual, limits = _kind(fields, substance)
    names, by_id, found = {usual.substance: ""}, {"": limits}, [usual]
    by_box = {""} if _by_box(fields, limits) else set()
    entries = file.entries(ALSO)
    sure = sure and (bool(entries) or not file.top.has(ALSO))
    if len(entries) > MOST_KINDS:
        file.top.fault(
            ALSO,
            phrase("at most {most} kinds", most=MOST_KINDS),
            phrase("Leave some out."),
            said=counted("{number} kind", "{number} kinds", len(entries)),
        )
    for one in entries:
        substance = _substance(one)
        called = one.optional("name", name) or substance
        named = one.clean
        kind, limits = _kind(one, substance)
        if key_of(called) in names and (named or one.has("name")):
            cure = phrase("Give it a name of its own, for the yards to say.")
            one.fault("name", phrase("each name once"), cure, said=called)
        kind = replace(
            _stocked(one, kind, found if named else []), id=slug(called, list(by_id), "strips")
        )
        names.setdefault(key_of(called), kind.id)
        names.setdefault(kind.id, kind.id)
        by_id[kind.id] = limits
        if _by_box(one, limits):
            by_box.add(kind.id)
        found.append(kind)
        sure = sure and named
    return StripKinds(usual, tuple(found[1:]), names, by_id, sure, frozenset(by_box))


def with_strips(drafts: Sequence[Draft], kinds: StripKinds) -> tuple[list[Draft], StripKinds]:
    """Return the yards with the kind of strips that each row names, and the kinds they need.

    Of a kind dosed by the brood box, yards that winter in more than one get a kind of its own
    with as many more strips for a colony; it draws on the same stock.
    """
    by_id = {kind.id: kind for kind in (kinds.usual, *kinds.also)}
    limits, used = dict(kinds.limits), dict[tuple[str, int], str]()
    done = []
    for draft in drafts:
        named = draft.fields.optional("strips", kinds.find) or ""
        boxes = winter_boxes(draft.fields) if named in kinds.by_box else 1
        if boxes > 1:
            draft.fields.desk.assume(*_shown(by_id[named], limits[named], boxes))
        if (named, boxes) not in used:
            kind = by_id[named]
            used[named, boxes] = named
            if boxes > 1:
                called = f"{named or kind.substance} {boxes} boxes"
                key = slug(called, list(by_id), "strips")
                by_id[key] = replace(kind, id=key, per_colony=boxes * kind.per_colony)
                limits[key], used[named, boxes] = limits[named], key
        done.append(replace(draft, yard=replace(draft.yard, strips=used[named, boxes])))
    # One that is in use with other doses alone is not idle.
    idle = {named for named, _ in used} - set(used.values())
    also = tuple(kind for key, kind in by_id.items() if key and key not in idle)
    return done, replace(kinds, also=also, limits=limits)


def _shown(kind: Strips, known: Treatment, boxes: int) -> tuple[str, str, Phrase]:
    """Return the dose for colonies that winter in several boxes: its key, in words, its source."""
    words = phrase(
        "{strips} of {substance} where a colony winters in {boxes} boxes",
        strips=boxes * kind.per_colony,
        substance=in_words(kind.substance),
        boxes=boxes,
    )
    return f"{ALSO if kind.id else 'strips'}.per_colony", words, _sources(known)[0]


def _stocked(fields: Fields, kind: Strips, before: list[Strips]) -> Strips:
    """Return a further kind with its stock, mass and price.

    Strips of one substance are one product: a second kind of it, of another dose, draws on the
    first's stock.
    """
    first = next((one for one in before if one.substance == kind.substance), None)
    if first is not None:
        for key in ("stock", "mass", "price"):
            if fields.has(key):
                allowed = phrase(
                    "nothing: {substance} is described above", substance=first.substance
                )
                fields.fault(
                    key, allowed, phrase("Take it out: one substance, one stock of strips.")
                )
        return replace(kind, stock=first.stock, each_g=first.each_g, each_cents=first.each_cents)
    of_it = in_words(kind.substance)
    return replace(
        kind,
        stock=_or(fields, "stock", _STOCK, of_it),
        each_g=_or(fields, "mass", measures.GOODS, of_it),
        each_cents=_or(fields, "price", Money(phrase("one strip")), of_it),
    )


def _of(substance: str, shown: str) -> str:
    """Return a default in words, with the substance that it is of where one is told."""
    return joined(", ", shown, substance) if substance else shown


def _or(fields: Fields, key: str, parse: Callable[[object], int], of_it: str) -> int | None:
    """Return what was typed, or None, and note what then holds, and of which substance."""
    if fields.has(key):
        return fields.optional(key, parse)
    usual = {"stock": "strips.stock", "mass": "kit.strip", "price": "prices.strip"}[key]
    many, same = phrase("as many as it takes"), phrase("as {key}", key=usual)
    shown = many if key == "stock" else same
    fields.desk.assume(f"{ALSO}.{key}", _of(of_it, shown), DEFAULTS[usual].source.words())
    return None


def _substance(fields: Fields) -> str:
    return fields.read("substance", _called, "amitraz")


def _called(said: object) -> str:
    """Return an active substance, folded; a known one as it is called here.

    Raises:
        Refusal: When it is no name, or a known one misspelt or with more words around it: nothing
            that is known of it, such as its ban on feed, would be found.
    """
    typed = name(said).casefold()
    if typed in SUBSTANCES:
        return SUBSTANCES[typed]
    near = [known for known in SUBSTANCES if known in typed]
    near = near or get_close_matches(typed, SUBSTANCES, n=1, cutoff=NEAR)
    if near:
        raise Refusal(
            phrase("an active substance, by itself and as it is known here"),
            did_you_mean(near[0], near),
        )
    return typed


def _kind(fields: Fields, substance: str) -> tuple[Strips, Treatment]:
    """Return strips and the air they may be used in; the stock of further kinds is read later."""
    told = treatment(substance)
    known = told or Treatment(substance, None, None, None, None, None, False, 0, 0, (), ())
    dose, due = _sources(known)
    ban = dose if known.no_feed_days else phrase("no ban known: see the label [C]")
    if known.off_feeder:
        ban = phrase(
            "no ban known, but keep it away from the feeder in the hive: see the label [C]"
        )
    which = in_words(substance) if fields.kind == ALSO else ""

    def typed(
        key: str, reader: Callable[[object], int], value: int | None, shown: tuple[str, Phrase]
    ) -> int:
        if value is None:
            cure = phrase(
                "Nothing is known here of {substance}: type it from the label.",
                substance=in_words(substance),
            )
            return fields.read(key, reader, 1, cure)
        return fields.derived(
            key,
            reader,
            value,
            (_of(which, f"{value}{shown[0]}"), shown[1]),
        )

    dose_each = typed("per_colony", Whole(1, 20), *_dose(fields, known))
    after = typed("out_after", measures.DAYS, known.out_after_days, (" days", due))
    unfed = None if told is None else told.unfed_days(after)
    strips = Strips(
        substance=substance,
        per_colony=dose_each,
        stock=None if which else fields.optional("stock", _STOCK),
        out_after_days=after,
        out_before_days=typed("out_before", measures.DAYS, known.out_before_days, (" days", due)),
        no_feed_days=typed("no_feed", measures.DAYS, unfed, (" days", ban)),
    )
    in_order = strips.out_after_days <= strips.out_before_days
    if fields.right("substance", "out_after", "out_before") and not in_order:
        fields.fault("out_before", phrase("at least out_after"), phrase("Check both."))
    low, high = fields.optional("coldest", temperature), fields.optional("hottest", temperature)
    twice = fields.optional("twice", yes_no)
    if known.twice and twice is None:
        fields.desk.assume(f"{fields.kind}.twice", _of(which, "yes"), dose)
    strips = replace(strips, coldest_dc=low, hottest_dc=high, twice=twice)
    limits = replace(
        known,
        out_after_days=strips.out_after_days,
        low_c=known.low_c if low is None else low / 10,
        high_c=known.high_c if high is None else high / 10,
    )
    _air_in_order(fields, limits)
    return strips, limits


def _air_in_order(fields: Fields, limits: Treatment) -> None:
    """Write down limits of air that no day keeps; of one alone the published other counts."""
    low, high = limits.low_c, limits.high_c
    if low is None or high is None or low <= high or not fields.right("coldest", "hottest"):
        return
    if fields.has("hottest"):
        allowed = phrase("at least coldest, {degrees} degC", degrees=Number(f"{low:g}"))
        fields.fault("hottest", allowed, phrase("Check both."))
    else:
        allowed = phrase("at most hottest, {degrees} degC", degrees=Number(f"{high:g}"))
        fields.fault("coldest", allowed, phrase("Check both."))


def _by_box(fields: Fields, known: Treatment) -> bool:
    """Tell whether a dose is each brood box's, and nobody typed another or how many boxes."""
    typed = any(fields.has(key) for key in DOSES)
    return not (typed or known.by_hive or known.per_brood_box is None)


def _dose(fields: Fields, known: Treatment) -> tuple[int | None, tuple[str, Phrase]]:
    """Return strips for a colony: by frames of bees, by brood boxes, or for one box."""
    typed = [key for key in DOSES if fields.has(key)]
    if len(typed) > 1:
        fields.fault(
            typed[1],
            phrase("one of {names}", names=", ".join(DOSES)),
            phrase("Each tells the dose: leave the others out."),
        )
    boxes = fields.optional("brood_boxes", Whole(1, 4))
    frames = fields.optional("frames_of_bees", Whole(1, 60))
    dose = _sources(known)[0]
    cure = phrase("Type per_colony from the label.")
    if boxes is not None and known.by_hive:
        told = phrase(
            "nothing: {substance} is dosed by the hive", substance=in_words(known.substance)
        )
        fields.fault("brood_boxes", told, cure)
    if frames is not None and known.substance != BY_FRAMES:
        told = phrase("nothing: only {by_frames} is dosed so", by_frames=BY_FRAMES)
        fields.fault("frames_of_bees", told, cure)
    elif frames is not None:
        return strips_by_frames(frames), ("", phrase("one for each started 5 frames of bees [M]"))
    each = known.per_brood_box
    return None if each is None else each * (boxes or 1), ("", dose)


def _sources(known: Treatment) -> tuple[Phrase, Phrase]:
    """Return where the dose and where the days come from."""
    if not known.sources:
        unknown = phrase("nothing known: see the label")
        return unknown, unknown
    return known.sources[0].words(), known.sources[-1].words()
