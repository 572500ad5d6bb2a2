"""A campaign while changes are put into it, one line after another."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple, Self

from runplanner.daybook.plan import Plan
from runplanner.daybook.riding import in_store_min
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal


class Late(NamedTuple):
    """A line on when a truck left a stop, as it was typed.

    Args:
        trip: The trip's id.
        begun: How many of its calls had begun, the stop being the last.
        minute: When it left.
        words: The line.
    """

    trip: str
    begun: int
    minute: int
    words: str


@dataclass(frozen=True, slots=True)
class Draft:
    """The plan that is being driven and the facts as they come to be known.

    Args:
        plan: The plan, its driven trips as they were counted.
        outfit: The facts now.
        now_min: The minute of the campaign it is.
        notes: What each change was taken to mean.
        counted: Trip and yard of every stop whose true figures are known.
        told: What can be told once only: of what, as what, and in which words.
        by_hand: What lies in yards that no visit will fetch.
        late: When trucks left stops, late or not.
        printed: Trucks' days as their drivers have them, before any line.
        count_notes: Notes of counts, each with the trip and yard that were counted.
    """

    plan: Plan
    outfit: Outfit
    now_min: int
    notes: tuple[Phrase, ...] = ()
    counted: tuple[tuple[str, str], ...] = ()
    told: tuple[tuple[str, int | str, str], ...] = ()
    by_hand: tuple[Phrase, ...] = ()
    late: tuple[Late, ...] = ()
    printed: tuple[Shift, ...] = ()
    count_notes: tuple[tuple[tuple[str, str], Phrase], ...] = ()

    @property
    def today(self) -> int:
        """The day it is."""
        return self.now_min // DAY_MIN

    def begun(self, call: Call) -> bool:
        """Tell whether a call of a driven trip has begun by now."""
        return call.start_min <= self.now_min

    def known(self, trip_id: str, call: Call) -> bool:
        """Tell whether the true figures of a stop of a trip are known."""
        return call.counted is not None or (trip_id, call.yard) in self.counted

    def with_yard(self, yard: Yard) -> Self:
        """Return the draft with one yard's facts replaced."""
        yards = tuple(yard if one.id == yard.id else one for one in self.outfit.yards)
        return replace(self, outfit=replace(self.outfit, yards=yards))

    def with_trip(self, trip: Trip) -> Self:
        """Return the draft with one trip, known by its id, as it is now."""
        shifts = (
            replace(shift, trips=tuple(trip if one.id == trip.id else one for one in shift.trips))
            for shift in self.plan.shifts
        )
        return replace(self, plan=replace(self.plan, shifts=tuple(shifts)))

    def once(self, what: str, told: int | str, words: str) -> Self:
        """Return the draft with ``what`` told as ``told``, in ``words`` as typed.

        Raises:
            Refusal: When another line has told it otherwise.
        """
        for known, before, said in self.told:
            if known == what and before != told:
                raise Refusal(
                    phrase("the same as {line}, which is typed as well", line=repr(said)),
                    phrase("Leave out the line that is wrong."),
                )
        return replace(self, told=(*self.told, (what, told, words)))

    def noted(self, note: Phrase) -> Self:
        """Return the draft with one more note."""
        return replace(self, notes=(*self.notes, note))

    def noted_by(self, stop: tuple[str, str], before: Self) -> Self:
        """Return the draft with its notes since ``before`` known as those of a stop's count."""
        new = tuple((stop, note) for note in self.notes[len(before.notes) :])
        return replace(self, count_notes=(*self.count_notes, *new))

    def unsaid(self, stop: tuple[str, str]) -> Self:
        """Return the draft without the notes of a stop's count, which is told anew."""
        notes = list(self.notes)
        for whose, note in self.count_notes:
            if whose == stop and note in notes:
                notes.remove(note)
        others = tuple(one for one in self.count_notes if one[0] != stop)
        return replace(self, notes=tuple(notes), count_notes=others)

    def left_there(self, what: Phrase) -> Self:
        """Return the draft with something more that no visit will fetch."""
        return replace(self, by_hand=(*self.by_hand, what))

    def driven(self) -> tuple[Shift, ...]:
        """Return the shifts that have left home by now."""
        if self.now_min <= 0:
            return ()
        return tuple(shift for shift in self.plan.shifts if shift.start_min <= self.now_min)

    def driven_trips(self) -> tuple[Trip, ...]:
        """Return the trips of shifts that have left home by now."""
        return tuple(trip for shift in self.driven() for trip in shift.trips)

    def driven_trip(self, trip_id: str) -> Trip:
        """Return one of those by its id; KeyError when it is none of them."""
        for trip in self.driven_trips():
            if trip.id == trip_id:
                return trip
        raise KeyError(trip_id)

    def in_store_min(self) -> Mapping[str, int]:
        """Return when what each driven trip has left is in store, by the trip's id."""
        return in_store_min(self.driven(), self.outfit.feed_store.place)
