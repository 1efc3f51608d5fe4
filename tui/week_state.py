"""A session in; its nights by the clock, and what a change of them would do, out."""

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from scheduler.errors import QuantityError, SchedulerError
from tui import session as state
from tui.field_state import once
from tui.given_edit import on_the_files
from tui.lookup import kept_for
from tui.session import Edit, Session

if TYPE_CHECKING:
    from collections.abc import Sequence

    from scheduler.watering.night_plan import NightPlan, Pin
    from scheduler.watering.night_plan.board import BoardCycle, NightBoard
    from scheduler.watering.night_plan.changed import ZoneChange
    from scheduler.watering.night_plan.reasons import WhyThere

Watering = tuple[str, int]  # a zone, and the night it stands on


@dataclass(frozen=True, slots=True)
class Held:
    """A watering in the hand: where it stands, and where it is held.

    Attributes
    ----------
    watering : (zone, night)
        Where it stands.
    night : int
        The night that it is held over.
    starts : tuple of int
        Start of each cycle there. [min]
    cycle : int
        The one under the cursor, counted from 1.
    is_alone : bool
        Only that cycle moves.
    """

    watering: tuple[str, int]
    night: int
    starts: tuple[int, ...]
    cycle: int
    is_alone: bool = False


def board_of(session: Session) -> "NightBoard | None":
    """The nights as laid out; None where nothing was."""
    night = session.plan.night if session.plan is not None else None
    return night.board if night is not None else None


def board_before(session: Session) -> "NightBoard | None":
    """The nights without what is tried; None where nothing is."""
    own = session.own_plan
    if own is None or own is session.plan or own.night is None:
        return None
    return own.night.board


def why_no_board(session: Session) -> str:
    """Why there are no nights to show, with the remedy."""
    night = session.plan.night if session.plan is not None else None
    if night is None:
        return "No zone is watered this week; see the findings."
    said = [f"{one.where}: {one.what}; {one.fix}" for one in night.findings]
    return ". ".join(said) or "No night plan; see the findings."


def pin_for(
    board: "NightBoard", watering: Watering, night: int, starts: "Sequence[int]"
) -> "Pin":
    """The place that somebody holds a watering over."""
    from scheduler.watering.night_plan.board import pin_of

    return pin_of(board, watering, night, starts)


def cycles_of(board: "NightBoard") -> "tuple[BoardCycle, ...]":
    """Every cycle of the week, by night, start and zone."""
    from scheduler.watering.night_plan.board import board_cycles

    return kept_for(board, "cycles", lambda: board_cycles(board))


def tried(board: "NightBoard", pin: "Pin") -> "NightBoard":
    """The nights with a watering held over a place, whatever it breaks."""
    from scheduler.watering.night_plan.board import moved

    return moved(board, pin)


def broken(session: Session, pin: "Pin") -> tuple[str, ...]:
    """Rules that a place breaks, by the independent checker."""
    from scheduler.watering.night_plan.judge import broken_by

    board = board_of(session)
    return broken_by(board, pin, session.units) if board is not None else ()


def why(board: "NightBoard", watering: Watering) -> "WhyThere | None":
    """What the place of a watering costs, and what others would."""
    from scheduler.watering.night_plan.reasons import why_there

    return why_there(board, *watering)


def changes(session: Session) -> "tuple[str, tuple[ZoneChange, ...]] | None":
    """Name of the last issued week and what changes; None without one."""
    from scheduler.watering.night_plan.changed import last_issued, zone_changes

    plan = session.plan
    if plan is None or session.history is None:
        return None
    last = last_issued(session.history.issued, plan.start)
    if last is None:
        return None
    known = partial(zone_changes, last, plan.zones, plan.night)
    return last.name, kept_for(plan, f"changes {last.name}", known)


def pump_asked(session: Session, asked: "Sequence[Edit]") -> float | None:
    """Flow of the pump with the what-ifs that were asked for; None is not known."""
    own = session.site_folder.site if session.site_folder is not None else None
    flow = own.supply.flow_l_per_min if own is not None and own.supply else None
    for one in asked:
        if one.what == "pump" and isinstance(one.value, float):
            flow = one.value
    return flow


def pump_edit(session: Session, asked: "Sequence[Edit]", by: int) -> Edit:
    """A pump one step stronger or weaker than what was asked for last.

    Raises
    ------
    QuantityError
        If the flow of the pump is not known.
    """
    from scheduler.watering.night_plan.judge import next_flow_l_per_min

    flow = pump_asked(session, asked)
    if flow is None:
        raise QuantityError(
            "the flow of the pump is not entered", "enter it under [supply]"
        )
    return Edit("pump", next_flow_l_per_min(flow, session.units, by))


def is_pump_alone(session: Session) -> bool:
    """Whether nothing but the pump is tried that changes the week."""
    return {one.what for one in session.week_edits} == {"pump"}


def before_pump(session: Session) -> "NightPlan | None":
    """The nights with the pump as it is; None where no other is tried."""
    rest = tuple(one for one in session.what_ifs if one.what != "pump")
    if len(rest) == len(session.what_ifs):
        return None
    if is_pump_alone(session):
        return session.own_plan.night if session.own_plan is not None else None

    def work() -> "NightPlan | None":
        try:
            plain = state.with_edits(session, on_the_files(session.edits, rest))
        except SchedulerError:
            return None
        return plain.plan.night if plain.plan is not None else None

    return once(session.site_folder, ("before pump", rest), work)


def shifted(held: Held, by: int) -> tuple[int, ...]:
    """Starts of its cycles, those that move moved by so many minutes."""
    return tuple(
        start + by if not held.is_alone or k == held.cycle else start
        for k, start in enumerate(held.starts, 1)
    )
