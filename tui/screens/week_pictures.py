"""The nights as laid out in; the lanes and the flow that the page draws out."""

import datetime as dt
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from scheduler.units import converted, face_suffix, shown, unit_label
from tui.lookup import kept_for
from tui.screens.week_rows import (
    block_of,
    by_night,
    lane_rows,
    natural,
    stacked_nights,
)
from tui.screens.wording import day_text
from tui.widgets.ghost import BLOCK, LEVEL
from tui.widgets.night_chart import MOVED, Lane, NightPicture, Under

if TYPE_CHECKING:
    from scheduler.units import System
    from scheduler.watering.night_plan.board import BoardCycle, NightBoard
    from scheduler.watering.night_plan.drawn import ClosedSpan

HOUR = 60


def night_picture(
    board: "NightBoard",
    here: "BoardCycle",
    units: "System",
    *,
    is_bad: bool,
    before: "NightBoard | None" = None,
) -> NightPicture:
    """One night, a lane each zone; where waterings stood before what is tried."""
    from scheduler.watering.night_plan.drawn import closed_spans_of

    cycles = by_night(board)[here.night]
    waiting = set(unplaced(board, here.night))
    gone = gone_from(board, before, here.night)
    every = {one.zone for one in cycles} | waiting | {one.zone for one in gone}
    zones = sorted(every, key=walked(board))
    closed = closed_spans_of(board, [(here.night, zone) for zone in zones])
    lanes = [
        Lane(
            lane_name(board, zone),
            ()
            if zone in waiting
            else (
                tuple(
                    block_of(one, here, is_bad=is_bad)
                    for one in cycles
                    if one.zone == zone
                ),
            ),
            _closed(spans),
            zone == here.zone,
            "no room" if zone in waiting else "",
            _spans(one for one in gone if one.zone == zone),
        )
        for zone, spans in zip(zones, closed, strict=True)
    ]
    return _picture(board, here, tuple(lanes), units, before)


def week_picture(
    board: "NightBoard",
    here: "BoardCycle",
    units: "System",
    *,
    is_bad: bool,
    before: "NightBoard | None" = None,
) -> NightPicture:
    """Seven nights, a lane each; under them the flow of the one with the cursor."""
    from scheduler.watering.night_plan.drawn import closed_spans_of

    rows, nights = stacked_nights(board), range(len(board.hours.dates))
    closed = closed_spans_of(board, [(night, here.zone) for night in nights])
    lanes = tuple(
        Lane(
            f"{date:%a} {date.day}",
            lane_rows(rows[night], here, is_bad=is_bad),
            _closed(closed[night]),
            night == here.night,
            _no_room(unplaced(board, night)),
            _spans(gone_from(board, before, night)),
        )
        for night, date in enumerate(board.hours.dates)
    )
    return _picture(board, here, lanes, units, before)


def is_alike(board: "NightBoard", before: "NightBoard") -> bool:
    """Whether both count the same minutes of the same nights."""
    a, b = board.hours, before.hours
    return (a.first_min, a.dates, a.is_open.shape[1]) == (
        b.first_min, b.dates, b.is_open.shape[1],
    )  # fmt: skip


def gone_from(
    board: "NightBoard", before: "NightBoard | None", night: int
) -> "tuple[BoardCycle, ...]":
    """Cycles of a night that stood where none of that zone stands now."""
    if before is None or not is_alike(board, before):
        return ()
    now = {(one.zone, one.start_min, one.end_min) for one in by_night(board)[night]}
    return tuple(
        one
        for one in by_night(before)[night]
        if (one.zone, one.start_min, one.end_min) not in now
    )


def _closed(
    spans: "Iterable[ClosedSpan]",
) -> tuple[tuple[float, float, bool], ...]:
    return tuple(
        (float(one.start_min), float(one.end_min), one.is_blocked) for one in spans
    )


def _spans(cycles: "Iterable[BoardCycle]") -> tuple[tuple[float, float], ...]:
    return tuple((float(one.start_min), float(one.end_min)) for one in cycles)


def unplaced(board: "NightBoard", night: int) -> tuple[str, ...]:
    """Zones that wait on a night and have no place."""
    placed = {one.zone for one in board.placed[night]}
    return tuple(one.zone for one in board.week.jobs[night] if one.zone not in placed)


def _no_room(zones: Sequence[str]) -> str:
    return f"no room: {', '.join(zones)}" if zones else ""


def walked(board: "NightBoard") -> "Callable[[str], tuple[int, int | str]]":
    """Order of the lanes: as one walks where there are several clocks."""
    if not board.site.more_controllers:
        return natural
    from scheduler.stations import walk_order

    return walk_order(board.site).__getitem__


def lane_name(board: "NightBoard", zone: str) -> str:
    """Name of a zone's lane, with its clock where there are several."""
    one = board.site.zone(zone)
    if one is None or not board.site.more_controllers:
        return zone
    return f"{board.site.controller_of(one).id} {zone}"


def _picture(
    board: "NightBoard",
    here: "BoardCycle",
    lanes: tuple[Lane, ...],
    units: "System",
    before: "NightBoard | None",
) -> NightPicture:
    from scheduler.watering.night_plan.drawn import night_flow_l_per_min, windier_spans

    unit = face_suffix("l_per_min", units)
    flow = night_flow_l_per_min(board, here.night).tolist()
    pump = board.week.grids[here.night].pump_l_per_min
    known = {one: converted(one, "l_per_min", to=unit) for one in set(flow)}
    labels = hours_of(board)
    was, was_pump = _flow_before(board, before, here.night, unit)
    wind = board.wind.by_minute_m_per_s
    under = Under(
        tuple(known[one] for one in flow),
        converted(pump, "l_per_min", to=unit) if pump is not None else None,
        shown(pump, "l_per_min", units, with_unit=False, digits=0) if pump else "",
        tuple(wind.tolist()) if wind is not None else (),
        _rows(board, here.night, labels, units),
        was,
        was_pump,
    )
    return NightPicture(
        lanes,
        float(len(flow)),
        tuple((minute, text) for minute, text in labels),
        tuple((float(a), float(b)) for a, b in windier_spans(board)),
        under,
        _legend(board, here.night, units, is_tried=bool(was)),
        lambda: (*_kept_words(board, units), *words_before(board, before, units)),
    )


def _kept_words(board: "NightBoard", units: "System") -> tuple[str, ...]:
    return kept_for(board, f"words {units}", lambda: week_words(board, units))


def _flow_before(
    board: "NightBoard", before: "NightBoard | None", night: int, unit: str
) -> tuple[tuple[float, ...], float | None]:
    """Flow by the minute before what is tried, and the pump if it was another."""
    from scheduler.watering.night_plan.drawn import night_flow_l_per_min

    if before is None or not is_alike(board, before):
        return (), None
    flow = night_flow_l_per_min(before, night).tolist()
    known = {one: converted(one, "l_per_min", to=unit) for one in set(flow)}
    was = before.week.grids[night].pump_l_per_min
    is_other = was != board.week.grids[night].pump_l_per_min
    pump = None if was is None or not is_other else was
    faced = None if pump is None else converted(pump, "l_per_min", to=unit)
    return tuple(known[one] for one in flow), faced


def words_before(
    board: "NightBoard", before: "NightBoard | None", units: "System"
) -> tuple[str, ...]:
    """Nights that change, as they were."""
    if before is None or not is_alike(board, before):
        return ()
    now = set(_kept_words(board, units))
    told = [one for one in _kept_words(before, units) if one not in now]
    return ("Before what is tried:", *told) if told else ()


def _legend(board: "NightBoard", night: int, units: "System", *, is_tried: bool) -> str:
    date = board.hours.dates[night]
    parts = [f"columns: {unit_label('l_per_min', units)} of {date:%a}"]
    if is_tried:
        parts.insert(0, f"{BLOCK} {LEVEL} before")
    if board.week.grids[night].pump_l_per_min is not None:
        parts.append("╌ pump")
    if board.wind.by_minute_m_per_s is not None:
        parts.append("dots: usual wind, shaded above its mean")
    if board.site.blocked_hours:
        parts.append("╱ blocked")
    if board.pins:
        parts.append(f"{MOVED} moved by hand")
    return "; ".join(parts)


def hours_of(board: "NightBoard") -> tuple[tuple[float, str], ...]:
    """Full hours of the night as minutes and labels."""
    first, many = board.hours.first_min, board.hours.is_open.shape[1]
    return tuple(
        (float(minute), f"{(first + minute) // HOUR % 24:02d}:00")
        for minute in range(-first % HOUR, many + 1, HOUR)
    )


def _rows(
    board: "NightBoard",
    night: int,
    labels: Sequence[tuple[float, str]],
    units: "System",
) -> tuple[tuple[str, tuple[tuple[float, str], ...]], ...]:
    """Wind and price of energy at the full hours."""
    from scheduler.watering.night_plan.drawn import energy_price_money_per_kwh

    rows = []
    wind = board.wind.by_minute_m_per_s
    if wind is not None:
        texts = [
            (minute, shown(float(wind[int(minute)]), "m_per_s", units, with_unit=False))
            for minute, _ in labels
            if minute < wind.size
        ]
        rows.append((unit_label("m_per_s", units), tuple(texts)))
    price = energy_price_money_per_kwh(board.site, board.hours)
    if price is not None and board.site.tariff is not None:
        texts = [
            (minute, f"{price[night, int(minute)]:.2f}".replace("nan", "–"))
            for minute, _ in labels
            if minute < price.shape[1]
        ]
        rows.append((f"{board.site.tariff.currency}/kWh", tuple(texts)))
    return tuple(rows)


def week_words(board: "NightBoard", units: "System") -> tuple[str, ...]:
    """Every night in one sentence each, then pump, wind and blocked hours."""
    from scheduler.watering.night_plan.drawn import night_flow_l_per_min

    lines = []
    for night, date in enumerate(board.hours.dates):
        runs = ", ".join(
            f"{one.zone}{MOVED if one.is_moved else ''} {span_text(board, one)}"
            for one in by_night(board)[night]
        )
        peak = float(night_flow_l_per_min(board, night).max(initial=0.0))
        flow = shown(peak, "l_per_min", units)
        none = _no_room(unplaced(board, night))
        said = "; ".join(part for part in (runs, none) if part) or "none"
        lines.append(f"{day_text(date)}: {said}; up to {flow}.")
    pump = board.week.grids[0].pump_l_per_min if board.week.grids else None
    if pump is not None:
        lines.append(f"The pump gives {shown(pump, 'l_per_min', units)}.")
    lines.append(f"Wind: {board.wind.source}.")
    for one in board.site.blocked_hours:
        who = ", ".join(one.zones) or "all zones"
        lines.append(
            f"Blocked: {one.reason} {one.start:%H:%M}–{one.end:%H:%M}, "
            f"{' '.join(one.days)}, {who}."
        )
    return tuple(lines)


def span_text(board: "NightBoard", one: "BoardCycle") -> str:
    """From when to when a cycle runs."""
    begin, end = (clock(board, one.night, at) for at in (one.start_min, one.end_min))
    return f"{begin}–{end}"


def clock(board: "NightBoard", night: int, minute: int) -> str:
    """Time of day of a minute of a night."""
    at: dt.datetime = board.hours.clock(night, minute)
    return f"{at:%H:%M}"
