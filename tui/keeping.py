"""What is tried in; what keeping or dropping it does, and the folder with it, out.

Totals are of the whole site: without one what-if, the others staying, and with it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scheduler.errors import SaveError, SchedulerError
from scheduler.reports.cost_words import money
from tui import session as state
from tui.cost_state import cost_now
from tui.field_state import once
from tui.given_edit import on_the_files
from tui.session import Session
from tui.tried import Effect, clock_effects, edit_text, site_effects
from tui.what_if import MONEY, Edit, is_size

if TYPE_CHECKING:
    from scheduler.files.folder_edits import FolderEdits
    from scheduler.money.assumed import Then
    from scheduler.money.economics import SiteCost

NOT_KEPT = {
    "du": "test it: a uniformity is only kept by a test (t)",
    "move": "issue the week: it keeps a moved watering (h, then i)",
}
OF_OPTIONS = ("interest", "life", "then")


@dataclass(frozen=True, slots=True)
class Line:
    """One what-if: what it is, what it does to the site, where keeping writes it.

    Attributes
    ----------
    effects : tuple of Effect
        Water and minutes of the week; money of a year once it is worked out.
    nights : tuple of Effect
        The nights by the clock.
    why_not : str
        Why it cannot be kept, and what would keep it; empty where it can.
    """

    edit: Edit
    text: str
    effects: tuple[Effect, ...]
    why_not: str = ""
    nights: tuple[Effect, ...] = ()


@dataclass(frozen=True, slots=True)
class Tried:
    """Everything that is tried: each by itself, and all together."""

    lines: tuple[Line, ...]
    together: tuple[Effect, ...]
    has_money: bool


def tried(session: Session, *, with_money: bool) -> Tried:
    """Every what-if with what it does, the newest first; then all of them together.

    A week is planned for each, and with money a season of every zone is run.
    """
    found = tuple(
        Line(one, edit_text(session, one), _effects(session, (one,), with_money),
             why_not(one, (one,), session.what_ifs), _nights(session, one))
        for one in reversed(session.what_ifs)
    )  # fmt: skip
    together = _effects(session, session.what_ifs, with_money)
    return Tried(found, together, with_money)


def _effects(
    session: Session, edits: Sequence[Edit], with_money: bool
) -> tuple[Effect, ...]:
    before = without(session, edits)
    if before is None:
        return ()
    found = site_effects(session, before.plan)
    return (*found, _money(before, session, edits)) if with_money else found


def _nights(session: Session, edit: Edit) -> tuple[Effect, ...]:
    before = without(session, (edit,))
    return clock_effects(session, before.plan) if before is not None else ()


def _money(before: Session, session: Session, edits: Sequence[Edit]) -> Effect:
    """Water and energy of a year; of what only an option knows, its net."""
    was, now = cost_now(before).now, cost_now(session).now
    if all(one.what in OF_OPTIONS for one in edits):
        ids = [one.typed for one in edits if one.what == "then"]
        return _of_option(was, now, ids)
    return Effect("water, energy", money(was.total.money), money(now.total.money))


def _of_option(was: "SiteCost", now: "SiteCost", ids: Sequence[str]) -> Effect:
    """Yearly net of the option that is tried, else of the one it moves most."""

    def nets(cost: "SiteCost") -> dict[str, float | None]:
        return {
            one.option.id: one.own.net_money if one.own is not None else None
            for one in cost.options
        }

    old, new = nets(was), nets(now)
    named = [one for one in new if not ids or one in ids]
    changed = [one for one in named if money(old.get(one)) != money(new[one])]
    name = next(iter((*changed, *named)), "")
    return Effect(f"net {name}".strip(), money(old.get(name)), money(new.get(name)))


def without(session: Session, edits: Sequence[Edit]) -> Session | None:
    """The session without some of its what-ifs; None where the rest cannot be."""
    rest = tuple(one for one in session.what_ifs if one not in edits)
    asked = on_the_files(session.edits, rest)

    def work() -> Session | None:
        try:
            return state.with_edits(session, asked)
        except SchedulerError:
            return None

    return once(session.site_folder, ("without", asked), work)


# --- kept ---------------------------------------------------------------------


def why_not(edit: Edit, edits: Sequence[Edit], tried: Sequence[Edit]) -> str:
    """Why a what-if is not kept with those edits, of all that are tried; else empty."""
    is_hidden = edit.what == "kc factor" and any(
        (one.what, one.zone) == ("kc", edit.zone) and one not in edits for one in tried
    )
    if is_hidden:
        return (
            f"keep {edit.zone} Kc first, or both at once, for a Kc that is tried hides "
            "a kept factor"
        )
    return NOT_KEPT.get(edit.what, "")


def can_keep(edits: Sequence[Edit], tried: Sequence[Edit] = ()) -> tuple[Edit, ...]:
    """Those that the folder has a place for, a coefficient before its factor."""
    able = [one for one in edits if not why_not(one, edits, tried)]
    return tuple(sorted(able, key=lambda one: one.what == "kc factor"))


def written(texts: "FolderEdits", edits: Sequence[Edit]) -> "FolderEdits":
    """The texts of the folder's files with what is tried in them.

    Raises
    ------
    SchedulerError
        If a file cannot be edited, or says all of it already.
    """
    done = texts
    for one in edits:
        done = _with(done, one)
    if done.now == texts.now:
        raise SaveError("what is tried is what the files say", "drop it")
    return done


def _with(texts: "FolderEdits", edit: Edit) -> "FolderEdits":
    """The texts with one what-if in them."""
    from scheduler.files import kept_values as write

    if edit.what in ("rule", "days"):
        value = edit.value
        text = " ".join(map(str, value)) if isinstance(value, tuple) else str(value)
        return write.with_zone_value(texts, edit.zone, edit.what, text)
    if edit.what == "then":
        then: Then = edit.value  # type: ignore[assignment]
        return write.with_then(texts, edit.typed, edit.zone, then)
    assert is_size(edit.value), "all that is left are numbers"
    if edit.what in MONEY:
        return write.with_price(texts, edit.what, edit.value)
    if edit.what == "pump":
        return write.with_pump(texts, edit.value)
    if edit.what == "move worth":
        return write.with_move_worth(texts, edit.value)
    of_zone: dict[str, Callable[[FolderEdits, str, float], FolderEdits]] = {
        "kc": write.with_kc,
        "kc factor": write.with_kc_factor,
        "allowed": write.with_allowed,
    }
    return of_zone[edit.what](texts, edit.zone, edit.value)
