"""A session in; the week's changes zone by zone, and what was accepted, out.

An acceptance holds for what stood there: when the week is planned anew and a zone comes
out otherwise, it has to be accepted again.
"""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tui.session import Issuing, Session, issuing
from tui.zone_view import Row, ordered, rows_of

if TYPE_CHECKING:
    from scheduler.watering.reason import ZoneChange

# A change of more than this part is looked at by itself (common practice, no source).
LARGE = 0.5
Mark = tuple[str, object]


@dataclass(frozen=True, slots=True)
class Walk:
    """Where somebody is in the week's changes.

    Attributes
    ----------
    accepted : frozenset
        Zones with what was accepted there.
    at : str
        Id of the zone under the cursor; empty at the beginning.
    """

    accepted: frozenset[Mark] = frozenset()
    at: str = ""

    def has(self, row: Row) -> bool:
        """Whether a zone was accepted as it stands."""
        return _mark(row) in self.accepted

    def with_rows(self, *rows: Row) -> "Walk":
        """With zones accepted as they stand."""
        return replace(self, accepted=self.accepted | {_mark(one) for one in rows})

    def without(self, row: Row) -> "Walk":
        """With a zone not accepted any more."""
        return replace(self, accepted=self.accepted - {_mark(row)})


def _mark(row: Row) -> Mark:
    one = row.plan
    setting = (one.status, one.minutes_per_day, one.cycles, one.soak_minutes, one.days)
    return one.zone.id, setting


def walked_rows(session: Session) -> tuple[Row, ...]:
    """Zones that change or that something stops: stops first, then large changes."""
    rows = [one for one in rows_of(session) if one.is_changed or why_odd(one)]
    odd = [one for one in rows if why_odd(one)]
    rest = [one for one in rows if not why_odd(one)]
    return (*ordered(odd, "eyes"), *ordered(rest, "change"))


def why_odd(row: Row) -> str:
    """Why a zone must be looked at by itself; empty where it need not."""
    changed: ZoneChange | None = row.plan.changed
    stop = next((one for one in row.findings if one.level == "stop"), None)
    if stop is not None:
        return f"{stop.where}: {stop.what}"
    if row.plan.status == "blocked":
        return "blocked: the clock is left as it is"
    if changed is None or changed.change is None or abs(changed.change) <= LARGE:
        return ""
    return "a change of more than half: look at it"


def waiting(session: Session, walk: Walk) -> tuple[Row, ...]:
    """Zones that nobody accepted as they stand."""
    return tuple(one for one in walked_rows(session) if not walk.has(one))


def accepted_all(session: Session, walk: Walk) -> Walk:
    """With every zone accepted that is not odd."""
    return walk.with_rows(*(one for one in walked_rows(session) if not why_odd(one)))


def ready(session: Session, walk: Walk) -> Issuing:
    """Whether the week can be issued from here, or why not."""
    left = waiting(session, walk)
    if left:
        zones = ", ".join(one.plan.zone.id for one in left[:6])
        more = f" and {len(left) - 6} more" if left[6:] else ""
        if any(not why_odd(one) for one in left):
            how = "a accepts all but those marked ✖"
        else:
            how = "look at them; space accepts one by itself"
        return Issuing(refused=f"Not accepted yet: {zones}{more}; {how}.")
    return issuing(session)
