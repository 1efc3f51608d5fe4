"""A sweep and one pattern of it in; the map and the numbers beside it out."""

from typing import TYPE_CHECKING

from scheduler.units import System, converted, face_suffix, shown, unit_label
from tui.field_state import SpacingMap
from tui.widgets.spacing_map import Chosen, Field

if TYPE_CHECKING:
    from scheduler.arrays import FloatArray
    from scheduler.field.overlap import Pattern

NOTHING = (
    "No package has a profile yet. Set cans along a leg outward from one head alone, "
    "write them as profiles/ID.csv with the columns `distance (ft),volume (mL)`, and "
    "name it in packages.toml below the package: [package.profile] with file, mouth_in "
    "and minutes."
)
ROWS = {"rectangular": "straight rows", "triangular": "staggered rows"}


def lengths(axis_m: "FloatArray", units: System) -> tuple[str, ...]:
    """Spacings of an axis without digits that all of them lack."""
    texts = [shown(float(one), "m", units, with_unit=False) for one in axis_m]
    if all(one.endswith(".0") for one in texts):
        texts = [one.removesuffix(".0") for one in texts]
    return tuple(texts)


def field(found: SpacingMap, units: System) -> Field:
    """DU over both spacings; up is between rows, across is along them."""
    swept, label = found.sweep, unit_label("m", units)
    return Field(
        values=tuple(tuple(float(one) for one in row) for row in swept.du_lq.T),
        across=lengths(swept.spacings_m, units),
        up=lengths(swept.row_spacings_m, units),
        across_title=f"between heads of a row, {label}",
        up_title=f"between rows, {label}",
    )


def chosen(
    found: SpacingMap,
    at: "Pattern",
    place: tuple[int, int],
    own: tuple[int, int],
    units: System,
) -> Chosen:
    """The chosen place with its number, and the same in words."""  # fmt: skip
    return Chosen(
        place, f"{round(100 * at.du_lq)}", own, tuple(words(found, at, units))
    )


def size(at: "Pattern", units: System) -> str:
    """Spacing as people say it: `30 x 36 ft`."""
    along, rows = (
        shown(one, "m", units, with_unit=False).removesuffix(".0")
        for one in (at.spacing_m, at.row_spacing_m)
    )
    return f"{along} × {rows} {unit_label('m', units)}"


def heads(at: "Pattern", units: System) -> str:
    """Heads on a hectare or an acre."""
    return shown(converted(at.heads_per_m2, "per_m2", to="per_ha"), "per_ha", units,
                 with_unit=False)  # fmt: skip


def numbers(at: "Pattern", units: System) -> list[tuple[str, str]]:
    """Names and values of one spacing."""
    rate, per = unit_label("mm_per_h", units), unit_label("per_ha", units)
    return [
        ("DU low quarter", shown(at.du_lq, "", units)),
        ("DU low half", shown(at.du_lh, "", units)),
        ("CU", shown(at.cu, "", units)),
        ("driest window, SC", shown(at.scheduling_coefficient, "", units)),
        (f"net rate, {rate}",
         shown(at.mean_rate_mm_per_h, "mm_per_h", units, with_unit=False)),
        (f"lowest, {rate}",
         shown(at.lowest_rate_mm_per_h, "mm_per_h", units, with_unit=False)),
        (f"heads {per}", heads(at, units)),
    ]  # fmt: skip


def words(found: SpacingMap, at: "Pattern", units: System) -> list[str]:
    """The chosen spacing in sentences."""
    rate = shown(at.mean_rate_mm_per_h, "mm_per_h", units)
    per = unit_label("per_ha", units)
    return [
        f"{found.package.id} at {size(at, units)}, {ROWS[found.sweep.layout]}.",
        f"DU low quarter {shown(at.du_lq, '', units)}, low half "
        f"{shown(at.du_lh, '', units)}, CU {shown(at.cu, '', units)}.",
        f"Net rate {rate}; {heads(at, units)} heads {per}.",
        _best(found, units),
    ]


def _best(found: SpacingMap, units: System) -> str:
    """Ends of the field, for those who do not see the shades."""
    du = found.sweep.du_lq
    low, high = shown(float(du.min()), "", units), shown(float(du.max()), "", units)
    sides = lengths(found.sweep.spacings_m, units)
    label = unit_label(face_suffix("m", units), "metric")
    return f"From {sides[0]} to {sides[-1]} {label} each way DU is {low} to {high}."
