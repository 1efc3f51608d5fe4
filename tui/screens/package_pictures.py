"""Packages against wind in; series, marks, rows of the table and the verdict out."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scheduler.said import signed
from scheduler.units import System, converted, face_suffix, shown, unit_label
from tui.field_state import Packages
from tui.session import Session, own_zone_plan
from tui.widgets.du_wind import Level, Mark, Series
from tui.widgets.zone_table import Column

if TYPE_CHECKING:
    from scheduler.field.package_tests import PackageTests
    from scheduler.field.package_trial import Pair
    from scheduler.field.trial import Comparison
    from scheduler.field.wind_line import WindLine


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the table: its key, the packages it draws, its cells."""

    key: str
    packages: tuple[str, ...]
    cells: tuple[str, ...]


def columns(units: System, *, with_pairs: bool) -> list[Column]:
    """Heads of the pairs, or of the packages where none is compared."""
    if with_pairs:
        return [
            Column("packages", 23, is_right=False),
            Column("DU", 10),
            Column("apart", 6),
            Column("range", 12),
            Column(f"tie {unit_label('m_per_s', units)}", 8),
            Column(" verdict", 13, is_right=False),
            Column("days", 5),
        ]
    return [
        Column("package", 16, is_right=False),
        Column("runs", 5),
        Column("days", 5),
        Column(f"winds {unit_label('m_per_s', units)}", 11),
        Column("DU", 11),
        Column("", 32, is_right=False),
    ]


def rows(found: Packages, units: System, *, with_pairs: bool) -> list[Row]:
    """Pairs, best known first; packages by themselves where none is compared."""
    if not with_pairs:
        tested = [one for one in found.trial.packages if one.runs.du_lq.size]
        return [_package_row(one, units) for one in tested]
    pairs = sorted(found.trial.pairs, key=lambda one: one.found is None)
    return [_pair_row(one, units) for one in pairs]


def _package_row(one: "PackageTests", units: System) -> Row:
    wind, du = one.runs.wind_m_per_s, one.runs.du_lq
    cells = (
        one.package,
        f"{du.size}",
        f"{one.n_days}",
        _span([shown(float(v), "m_per_s", units, with_unit=False)
               for v in (wind.min(), wind.max())]),
        _span([shown(float(v), "", units) for v in (du.min(), du.max())]),
        f"  {one.why.partition(';')[0]}",
    )  # fmt: skip
    return Row(one.package, (one.package,), cells)


def _span(ends: Sequence[str]) -> str:
    low, high = ends
    return low if low == high else f"{low}–{high}"


def _pair_row(pair: "Pair", units: System) -> Row:
    found, names = pair.found, f"{pair.a} | {pair.b}"
    key = f"{pair.a}|{pair.b}"
    if found is None:
        empty = (names, "–", "–", "–", "–", " no line yet", "–")
        return Row(key, (pair.a, pair.b), empty)
    cells = (
        names,
        f"{_du(found.du_a)} {_du(found.du_b)}",
        signed(found.difference),
        _range(found).replace(" to ", " "),
        _tie_cell(pair, units),
        f" {_verdict(found)}",
        "–" if pair.days_needed is None else f"+{pair.days_needed}",
    )
    return Row(key, (pair.a, pair.b), cells)


def _tie_cell(pair: "Pair", units: System) -> str:
    tie = shown(pair.tie_wind_m_per_s, "m_per_s", units, with_unit=False)
    return tie if _is_tie_sure(pair) or pair.tie_wind_m_per_s is None else f"{tie} ?"


def _du(value: float) -> str:
    return shown(value, "", "metric")


def _range(found: "Comparison") -> str:
    """Range of the difference; a package of one day leaves it open."""
    if not math.isfinite(found.high - found.low):
        return "not known"
    return f"{signed(found.low)} to {signed(found.high)}"


def _verdict(found: "Comparison") -> str:
    if found.verdict == "not proven":
        return "not proven"
    return "1st better" if found.verdict == "better" else "1st worse"


# --- the picture ---------------------------------------------------------------


def series(found: Packages, names: Sequence[str], units: System) -> list[Series]:
    """Points, line and band of packages, in the unit shown."""
    tests = {one.package: one for one in found.trial.packages}
    return [_series(tests[one], found.lines.get(one), units) for one in names]


def _series(one: "PackageTests", line: "WindLine | None", units: System) -> Series:
    winds = [_wind(float(v), units) for v in one.runs.wind_m_per_s]
    points = tuple(zip(winds, (float(v) for v in one.runs.du_lq), strict=True))
    runs = f"{len(points)} run{'s' if len(points) != 1 else ''}"
    days = f"{one.n_days} day{'s' if one.n_days != 1 else ''}"
    counted = f"{one.package}: {runs} on {days}"
    if line is None:
        return Series(one.package, points, words=f"{counted}; {one.why}.")
    along = [_wind(float(v), units) for v in line.wind_m_per_s]
    band: tuple[tuple[float, float, float], ...] = ()
    if line.low is not None and line.high is not None:
        lows, highs = (tuple(float(v) for v in end) for end in (line.low, line.high))
        band = tuple(zip(along, lows, highs, strict=True))
    return Series(
        one.package,
        points,
        tuple(zip(along, (float(v) for v in line.du_lq), strict=True)),
        band,
        (_wind(line.tested_low_m_per_s, units), _wind(line.tested_high_m_per_s, units)),
        f"{counted}; {_line_words(line, units)}",
    )


def _line_words(line: "WindLine", units: System) -> str:
    """The line at both ends of what was tested."""
    ends = [
        f"DU {shown(line.at(wind), '', units)} at {shown(wind, 'm_per_s', units)}"
        for wind in (line.tested_low_m_per_s, line.tested_high_m_per_s)
    ]
    sure = (
        "no range yet: fewer than three days"
        if line.low is None
        else (f"band: {line.level:.0%} range of the line")
    )
    return f"the line runs from {ends[0]} to {ends[1]}; {sure}."


def _wind(m_per_s: float, units: System) -> float:
    return converted(m_per_s, "m_per_s", to=face_suffix("m_per_s", units))


def marks(
    found: Packages, pair: "Pair | None", names: Sequence[str], units: System
) -> list[Mark]:
    """The wind that is compared at, with the DU there, and the tie of a pair."""
    made = []
    if found.has_wind:
        wind = found.trial.wind_m_per_s
        text = shown(wind, "m_per_s", units)
        said = [
            f"{one} {shown(found.lines[one].at(wind), '', units)}"
            + (" (extrapolated)" if found.lines[one].is_outside(wind) else "")
            for one in names
            if one in found.lines
        ]
        words = f"At {text} ({found.trial.wind_from}): DU {', '.join(said) or '–'}."
        made.append(Mark(_wind(wind, units), f"▼ {text}", words))
    tie = pair.tie_wind_m_per_s if pair is not None and _is_tie_sure(pair) else None
    if pair is not None and pair.a in found.lines and tie is not None:
        text = shown(tie, "m_per_s", units)
        words = f"The lines cross at {text}{_tie_range(pair, units)}."
        y = found.lines[pair.a].at(tie)
        made.append(Mark(_wind(tie, units), f"tie {text}", words, y))
    return made


def levels(session: Session, names: Sequence[str]) -> list[Level]:
    """DU that is tried in zones of these packages, and the tested one before it."""
    made = []
    for zone_id, du_lq in session.tried_du.items():
        plan = own_zone_plan(session, zone_id)
        if plan is None or plan.evidence is None or plan.zone.package not in names:
            continue
        was = plan.evidence.du_lq
        made += [
            Level(was, f"{zone_id} before {shown(was, '', 'metric')}", is_before=True),
            Level(du_lq, f"{zone_id} tried {shown(du_lq, '', 'metric')}"),
        ]
    return made


def _is_tie_sure(pair: "Pair") -> bool:
    """Whether a range goes with the tie: without one it is no place to point at."""
    found = pair.found
    return found is not None and math.isfinite(
        found.tie_low_m_per_s + found.tie_high_m_per_s
    )


def _tie_range(pair: "Pair", units: System) -> str:
    found = pair.found
    if found is None or not _is_tie_sure(pair):
        return "; how sure cannot be told"
    low = shown(found.tie_low_m_per_s, "m_per_s", units, with_unit=False)
    return f" ({low} to {shown(found.tie_high_m_per_s, 'm_per_s', units)})"


# --- the verdict ---------------------------------------------------------------


def verdict(found: Packages, pair: "Pair | None", units: System) -> list[str]:
    """What the pair says, in sentences."""
    if not found.has_wind:
        return [f"Not compared: {found.why}.", "Press a to type it, such as 4 mph."]
    if pair is None:
        return ["Nothing to compare: fewer than two packages were tested."]
    if pair.found is None:
        return [f"{pair.a} and {pair.b} cannot be compared yet: {pair.why}."]
    return _compared(found, pair, pair.found, units)


def _compared(
    packages: Packages, pair: "Pair", found: "Comparison", units: System
) -> list[str]:
    wind = shown(packages.trial.wind_m_per_s, "m_per_s", units)
    if found.verdict == "not proven":
        head = f"{pair.a} or {pair.b}: not proven at {wind}: {pair.why}."
    else:
        how = "more" if found.verdict == "better" else "less"
        head = f"{pair.a} is {how} uniform than {pair.b} at {wind}."
    said = [
        head,
        f"DU {_du(found.du_a)} against {_du(found.du_b)}, apart by "
        f"{signed(found.difference)} (range {_range(found)}).",
        *_expected(packages, (pair.a, pair.b), units),
    ]
    if found.verdict == "not proven":
        said.append(_needed(pair))
    if pair.tie_wind_m_per_s is not None:
        tie = shown(pair.tie_wind_m_per_s, "m_per_s", units)
        said.append(f"Their lines cross at {tie}{_tie_range(pair, units)}.")
    return [*said, *_remarks(pair, found)]


def _expected(packages: Packages, names: Sequence[str], units: System) -> Iterator[str]:
    """What to expect of each package in that wind, with its range."""
    for one in packages.trial.expected:
        at = one.at_wind
        if one.package in names and at is not None:
            low, high = shown(at.low, "", units), shown(at.high, "", units)
            sure = "no range yet" if at.low is None else f"{low} to {high}"
            yield f"Expect DU {shown(at.du_lq, '', units)} of {one.package} ({sure})."


def _remarks(pair: "Pair", found: "Comparison") -> Iterator[str]:
    if found.hangs_on:
        yield f"The answer hangs on {found.hangs_on}."
    if found.is_small:
        yield "The difference is too little to matter in the field."
    if found.is_extrapolated:
        yield "Extrapolated: nobody tested both in that wind."
    if found.is_confounded:
        yield "Never tested on the same day, so the days may be what differs."
    if pair.is_apart:
        yield "They never stood in the same zone, so the ground may be what differs."


def _needed(pair: "Pair") -> str:
    if pair.days_needed is None:
        return "More days would hardly settle it: choose by cost."
    days = "1 more day" if pair.days_needed == 1 else f"{pair.days_needed} more days"
    runs = f"({pair.runs_needed} runs)"
    if pair.found is not None and pair.found.is_too_short:
        return f"At least {days} of runs of both are needed {runs}."
    return f"About {days} of runs of both would settle it {runs}."
