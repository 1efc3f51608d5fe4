"""Money and volumes in, as people read them out; no arithmetic."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.said import true_minus
from scheduler.units import converted, shown

if TYPE_CHECKING:
    from scheduler.money.retrofit import OptionResult
    from scheduler.units import System

EMPTY = "–"
# volumes above it are told in whole units
FEW = 99.95


def money(value: float | None) -> str:
    """Whole money; an en dash where it is not known."""
    return count(value)


def count(value: float | None) -> str:
    """A whole number; an en dash where it is not known."""
    # what rounds to nothing has no sign
    return EMPTY if value is None else true_minus(f"{round(value) or 0:,}")


def volume_unit(units: System) -> str:
    """Unit that large volumes are shown in."""
    return "kgal" if units == "us" else "m³"


def volume(value_m3: float | None, units: System) -> str:
    """A large volume without its unit, in thousands of gallons or cubic metres."""
    if value_m3 is None:
        return EMPTY
    return count(converted(value_m3, "m3", to="kgal") if units == "us" else value_m3)


def small_volume(value_m3: float | None, units: System) -> str:
    """A week's volume without its unit: to the tenth below a hundred."""
    if value_m3 is None:
        return EMPTY
    value = converted(value_m3, "m3", to="kgal") if units == "us" else value_m3
    return true_minus(f"{value:.1f}") if abs(value) < FEW else count(value)


def per_volume(
    value_money_per_m3: float | None, units: System, *, with_unit: bool = True
) -> str:
    """A price of a volume, to the hundredth."""
    return shown(value_money_per_m3, "money_per_m3", units, with_unit=with_unit)


def percent(value: float | None) -> str:
    """A part in hundredths; an en dash where it is not known."""
    return EMPTY if value is None else true_minus(f"{value:.0%}")


def option_name(one: OptionResult) -> str:
    """Its id and its name."""
    return f"{one.option.id} {one.option.name}"
