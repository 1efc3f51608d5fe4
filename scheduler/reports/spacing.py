"""Patterns and sweeps in, plain text and a dictionary for JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from scheduler.reports.machine import FORMAT, Json, findings_json
from scheduler.reports.text import WIDTH
from scheduler.units import converted, face_suffix, shown, unit_label

if TYPE_CHECKING:
    from scheduler.arrays import FloatArray
    from scheduler.errors import Finding
    from scheduler.field.overlap import Pattern, Sweep
    from scheduler.field.profile import Profile
    from scheduler.units import System

ROWS = {
    "square": "straight rows",
    "rectangular": "straight rows",
    "triangular": "staggered rows",
}


def spacing_json(
    profile: Profile | None,
    at: Pattern | None,
    swept: Sweep | None,
    findings: Iterable[Finding],
) -> Json:
    """The spacing asked about and the sweep; null where there is none.

    Arrays of the sweep have a row for each of `spacings_m` (along the row of heads) and
    a column for each of `row_spacings_m`.
    """
    return {
        "format": FORMAT,
        "profile": profile and _profile_json(profile),
        "at": at and _pattern_json(at),
        "sweep": swept and _sweep_json(swept),
        "findings": findings_json(findings),
    }


def _profile_json(profile: Profile) -> Json:
    return {
        "distance_m": profile.distance_m,
        "rate_mm_per_h": profile.rate_mm_per_h,
        "throw_m": profile.throw_m,
        "flow_l_per_min": profile.flow_l_per_min,
    }


def _pattern_json(at: Pattern) -> Json:
    return {
        "spacing_m": at.spacing_m,
        "row_spacing_m": at.row_spacing_m,
        "layout": at.layout,
        "net_rate_mm_per_h": at.mean_rate_mm_per_h,
        "lowest_rate_mm_per_h": at.lowest_rate_mm_per_h,
        "du_lq": at.du_lq,
        "du_lh": at.du_lh,
        "cu": at.cu,
        "scheduling_coefficient": at.scheduling_coefficient,
        "window_share": at.window_share,
        "heads_per_m2": at.heads_per_m2,
        "mass_balance_error": at.mass_balance_error,
    }


def _sweep_json(swept: Sweep) -> Json:
    return {
        "spacings_m": swept.spacings_m,
        "row_spacings_m": swept.row_spacings_m,
        "layout": swept.layout,
        "du_lq": swept.du_lq,
        "cu": swept.cu,
        "net_rate_mm_per_h": swept.mean_rate_mm_per_h,
    }


def pattern_text(profile: Profile, at: Pattern, units: System) -> str:
    """What the heads make of the profile at the spacing asked about."""
    along = shown(at.spacing_m, "m", units, with_unit=False)
    heads = converted(at.heads_per_m2, "per_m2", to="per_ha")
    worst = shown(at.scheduling_coefficient, "", units)
    lines = [
        ("spacing", f"{along} x {shown(at.row_spacing_m, 'm', units)}, {at.layout}"),
        ("precipitation rate, net", shown(at.mean_rate_mm_per_h, "mm_per_h", units)),
        ("lowest rate", shown(at.lowest_rate_mm_per_h, "mm_per_h", units)),
        ("DU low quarter", f"{at.du_lq:.2f}"),
        ("DU low half", f"{at.du_lh:.2f}"),
        ("CU", f"{at.cu:.2f}"),
        (
            "scheduling coefficient",
            f"{worst}  (driest {at.window_share:.0%} of the ground of one head)",
        ),
        ("heads", shown(heads, "per_ha", units)),
        ("radius of throw", shown(profile.throw_m, "m", units)),
        ("water under the profile", shown(profile.flow_l_per_min, "l_per_min", units)),
    ]
    return "\n".join(f"{name:<26} {value}" for name, value in lines)


def sweep_text(swept: Sweep, at: Pattern, units: System) -> str:
    """Maps of DU and of the rate, the spacing asked about between brackets.

    The place asked about shows the finer DU of `at`, so that both tell the same.
    """
    chosen = (
        int(np.abs(swept.row_spacings_m - at.row_spacing_m).argmin()),
        int(np.abs(swept.spacings_m - at.spacing_m).argmin()),
    )
    du = [[_hundredths(one) for one in row] for row in swept.du_lq.T]
    du[chosen[0]][chosen[1]] = _hundredths(at.du_lq)
    rate = [[_rate(one, units) for one in row] for row in swept.mean_rate_mm_per_h.T]
    sides = _lengths(swept.row_spacings_m, units), _lengths(swept.spacings_m, units)
    foot = (
        f"Across: along the row; down: between rows; in {unit_label('m', units)},"
        f" {ROWS[swept.layout]}.\n"
        "[ ] asked about; DU on the map is off by up to 0.01 for a sharp edge."
    )
    return "\n\n".join(
        [
            "DU low quarter\n" + _map(sides, du, chosen),
            f"precipitation rate, net, {unit_label('mm_per_h', units)}\n"
            + _map(sides, rate, chosen),
            foot,
        ]
    )


def _hundredths(share: float) -> str:
    return f"{share:.2f}"


def _rate(mm_per_h: float, units: System) -> str:
    """A rate in two digits, so that a map stays narrow."""
    size = converted(mm_per_h, "mm_per_h", to=face_suffix("mm_per_h", units))
    digits = 2 if size < 0.995 else 1 if size < 9.95 else 0
    return shown(mm_per_h, "mm_per_h", units, with_unit=False, digits=digits)


def _lengths(lengths_m: FloatArray, units: System) -> list[str]:
    """Lengths without digits that all of them lack."""
    exact = [shown(float(one), "m", units, with_unit=False) for one in lengths_m]
    if all(one.endswith(".0") for one in exact):
        return [one.removesuffix(".0") for one in exact]
    return exact


def _map(
    sides: tuple[list[str], list[str]],
    cells: Sequence[Sequence[str]],
    chosen: tuple[int, int],
) -> str:
    """A grid under its spacings, in as many blocks as the width asks for."""
    down, across = sides
    wide = max(len(one) for row in [across, *cells] for one in row)
    left = max(len(one) for one in down)
    n = max((WIDTH - left - 2) // (wide + 1), 1)
    blocks = []
    for begin in range(0, len(across), n):
        part = slice(begin, begin + n)
        lines = [" " * (left + 1) + _line(across[part], wide, None)]
        for i, (name, row) in enumerate(zip(down, cells, strict=True)):
            mark = chosen[1] - begin if i == chosen[0] else None
            lines.append(f"{name.rjust(left)} {_line(row[part], wide, mark)}")
        blocks.append("\n".join(line.rstrip() for line in lines))
    return "\n\n".join(blocks)


def _line(cells: Sequence[str], wide: int, mark: int | None) -> str:
    """Cells with a space before each and after the last; brackets in two of them."""
    is_marked = mark is not None and 0 <= mark < len(cells)
    padded = [
        f"[{one}]".rjust(wide + 2) if is_marked and i == mark else f" {one:>{wide}}"
        for i, one in enumerate(cells)
    ]
    # the closing bracket takes the space before the next cell
    if is_marked and mark is not None and mark + 1 < len(cells):
        padded[mark + 1] = padded[mark + 1][1:]
    return "".join(padded)
