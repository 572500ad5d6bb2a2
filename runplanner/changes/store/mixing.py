"""Syrup mixed so far, by mixing that has begun."""

from dataclasses import replace

from runplanner.changes.draft import Draft
from runplanner.daybook.plan import Mixing


def mixed_ml(draft: Draft, minute: int) -> int:
    """Return the syrup mixed by a minute, of mixing that has begun: it is there once that is over.

    By now what is being mixed counts as well, for it makes good what was loaded.
    """
    mixing = begun(draft, draft.now_min)
    return sum(one.ml for one in mixing if one.end_min <= minute or minute <= draft.now_min)


def begun(draft: Draft, minute: int) -> list[Mixing]:
    """Return the mixing that has begun by a minute."""
    if draft.now_min <= 0:
        return []
    return [one for one in draft.plan.mixing if one.start_min <= minute]


def mixed_less(draft: Draft, less: int, minute: int) -> Draft:
    """Return the draft with less mixed by a minute, the last mixing first."""
    mixing = []
    for one in sorted(draft.plan.mixing, key=lambda each: -each.start_min):
        if one in begun(draft, minute):
            cut = min(less, one.ml)
            less -= cut
            mixing.append(replace(one, ml=one.ml - cut))
        else:
            mixing.append(one)
    kept = tuple(sorted((one for one in mixing if one.ml), key=lambda one: one.start_min))
    return replace(draft, plan=replace(draft.plan, mixing=kept))
