"""Names for calendars that are updated: the same for a trip after planning again."""

from hashlib import sha256

from runplanner.daybook.plan import Plan
from runplanner.daybook.same_trip import main_works


def trip_keys(plan: Plan) -> dict[str, str]:
    """Return for the id of each trip a key that a plan made anew gives it again."""
    return {trip: _digest(*map(str, work)) for trip, work in main_works(plan).items()}


def campaign_key(plan: Plan) -> str:
    """Return a key for the outfit's campaign of that year."""
    return _digest(plan.outfit.name, plan.outfit.season.first_date[:4])[:12]


def _digest(*words: str) -> str:
    """Return a short mark for ``words``, each set off by its length from the next."""
    text = "".join(f"{len(word)}:{word}" for word in words)
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:32]
