"""Pressure, flow and meter of a test in, text or plain dictionaries out."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.units import System, shown

if TYPE_CHECKING:
    from collections.abc import Iterator

    from scheduler.field.hydraulics import (
        Agreement,
        FlowCheck,
        GrossRate,
        Hydraulics,
        MeterCheck,
        PressureCheck,
    )

Json = dict[str, Any]
WIDTH = 80
LABEL = 27
# Likely causes beyond these are in the JSON.
CAUSES = 4


def hydraulics_text(water: Hydraulics | None, units: System) -> str:
    """Pressure, flow and meter of one test; empty where there is nothing to say."""
    if water is None:
        return ""
    if not water.is_entered:
        return "\n".join(one for one in water.missing if one.startswith("no gross"))
    lines = [
        fill(
            f"{label:<{LABEL}}{text}", WIDTH, subsequent_indent=" " * LABEL,
            drop_whitespace=True, break_long_words=False,
        )
        for label, text in hydraulics_rows(water, units)
    ]  # fmt: skip
    return "\n".join(["Pressure, flow, meter", *lines])


def hydraulics_rows(water: Hydraulics, units: System) -> tuple[tuple[str, str], ...]:
    """Names and texts of everything that was checked, and what could not be."""
    return (
        *_pressure(water.pressure, units),
        *_flow(water.flow, units),
        *_gross(water.gross, units),
        *_meter(water.meter, units),
        *_agreement(water.agreement, units),
        *(("", one) for one in water.missing),
    )


def _count(n: int) -> str:
    return "1 head" if n == 1 else f"{n} heads"


def _pressure(found: PressureCheck | None, units: System) -> Iterator[tuple[str, str]]:
    if found is None:
        return
    mean = shown(found.mean_kpa, "kpa", units)
    label = f"pressure at {_count(found.n_heads)}" if found.n_heads else "pressure"
    text = mean if found.n_heads else f"{mean} as noted for the run"
    if found.spread_over_mean is not None:
        low = shown(found.min_kpa, "kpa", units, with_unit=False)
        high = shown(found.max_kpa, "kpa", units, with_unit=False)
        text += (
            f"  ({low} at {found.lowest} to {high} at {found.highest}: spread "
            f"{found.spread_over_mean:.0%}, flow by the square root "
            f"{shown_share(found.flow_spread)})"
        )
    yield label, text
    if found.nominal_kpa is not None:
        nominal = shown(found.nominal_kpa, "kpa", units)
        if found.spread_over_nominal is not None:
            nominal += f"  (spread {found.spread_over_nominal:.0%} of it)"
        yield "  nominal", nominal
    if found.regulator_kpa is not None:
        yield "  regulator", shown(found.regulator_kpa, "kpa", units)
    if found.static_kpa is not None:
        yield "  static", shown(found.static_kpa, "kpa", units)


def shown_share(value: float | None) -> str:
    """A fraction as a percentage; an en dash where it is not known."""
    return "–" if value is None else f"{value:.0%}"


def _flow(found: FlowCheck | None, units: System) -> Iterator[tuple[str, str]]:
    if found is None:
        return
    text = shown(found.mean_l_per_min, "l_per_min", units)
    if found.spread_over_mean is not None:
        low = shown(found.min_l_per_min, "l_per_min", units, with_unit=False)
        high = shown(found.max_l_per_min, "l_per_min", units, with_unit=False)
        text += f"  ({low} to {high}: spread {found.spread_over_mean:.0%})"
    yield f"flow at {_count(found.n_heads)}", text
    if found.package_flow_l_per_min is not None:
        package = shown(found.package_flow_l_per_min, "l_per_min", units)
        how = " at the measured pressure, estimated" if found.is_package_carried else ""
        share = shown_share(found.flow_over_package)
        yield "  package", f"{package}{how}  (the buckets give {share} of it)"
    if found.flow_over_new is not None:
        sources = dict.fromkeys(one.new_from for one in found.heads if one.new_from)
        worn = f"{found.n_worn} of {found.n_heads} above 110 %"
        new = f"{shown_share(found.flow_over_new)}  ({' and '.join(sources)}; {worn})"
        yield "  flow over new", new


def _gross(found: GrossRate, units: System) -> Iterator[tuple[str, str]]:
    if found.rate_mm_per_h is None:
        return
    rate = shown(found.rate_mm_per_h, "mm_per_h", units)
    basis = {
        "buckets": "from buckets",
        "nominal": "package at nominal pressure",
    }.get(found.basis, "package carried to the measured pressure, estimated")
    others = []
    if found.basis == "buckets" and found.carried_mm_per_h is not None:
        carried = shown(found.carried_mm_per_h, "mm_per_h", units)
        others.append(f"package carried to the measured pressure {carried}, estimated")
    if found.basis != "nominal" and found.nominal_mm_per_h is not None:
        nominal = shown(found.nominal_mm_per_h, "mm_per_h", units)
        others.append(f"at nominal {nominal}")
    more = f"  ({'; '.join(others)})" if others else ""
    yield "rate, gross", f"{rate}, {basis}{more}"


def _meter(found: MeterCheck | None, units: System) -> Iterator[tuple[str, str]]:
    if found is None:
        return
    volume = shown(found.volume_m3, "m3", units)
    text = f"{volume} in {shown(found.minutes, 'min', units)}"
    if found.flow_l_per_min is not None:
        text += f", {shown(found.flow_l_per_min, 'l_per_min', units)}"
    if found.flow_per_head_l_per_min is not None and found.heads is not None:
        each = shown(found.flow_per_head_l_per_min, "l_per_min", units)
        text += f"  ({each} a head on {found.heads:.0f} heads)"
    yield "meter", text
    if found.rate_mm_per_h is not None:
        area = shown(found.area_m2, "m2", units)
        rate = shown(found.rate_mm_per_h, "mm_per_h", units)
        yield "rate, metered", f"{rate} on {area}"


def _agreement(found: Agreement, units: System) -> Iterator[tuple[str, str]]:
    if not found.is_checked:
        return
    rates = {
        "net": found.net_mm_per_h,
        "gross": found.gross_mm_per_h,
        "metered": found.meter_mm_per_h,
    }
    known = {name: rate for name, rate in rates.items() if rate is not None}
    said = ", ".join(
        f"{name} {shown(rate, 'mm_per_h', units)}" for name, rate in known.items()
    )
    verdict = "they agree" if not found.odd else f"off: {found.odd}"
    yield "does it add up?", f"{said}: {verdict}"
    for i, cause in enumerate(found.causes[:CAUSES], 1):
        yield "  likely cause" if i == 1 else "", f"{i} {cause.name}: {cause.why}"


def hydraulics_json(water: Hydraulics | None) -> Json | None:
    """Pressure, flow and meter of one test; null where nothing is known."""
    if water is None:
        return None
    return {
        "entered": water.is_entered,
        "pressure": _pressure_json(water.pressure),
        "flow": _flow_json(water.flow),
        "meter": _meter_json(water.meter),
        "gross": _gross_json(water.gross),
        "agreement": _agreement_json(water.agreement),
        "missing": list(water.missing),
    }


def _pressure_json(found: PressureCheck | None) -> Json | None:
    if found is None:
        return None
    return {
        "n_heads": found.n_heads,
        "mean_kpa": found.mean_kpa,
        "min_kpa": found.min_kpa,
        "max_kpa": found.max_kpa,
        "effective_kpa": found.effective_kpa,
        "lowest": found.lowest,
        "highest": found.highest,
        "spread_over_mean": found.spread_over_mean,
        "spread_over_nominal": found.spread_over_nominal,
        "expected_flow_spread": found.flow_spread,
        "nominal_kpa": found.nominal_kpa,
        "mean_over_nominal": found.mean_over_nominal,
        "regulator_kpa": found.regulator_kpa,
        "rise_kpa": found.rise_kpa,
        "static_kpa": found.static_kpa,
    }


def _flow_json(found: FlowCheck | None) -> Json | None:
    if found is None:
        return None
    return {
        "n_heads": found.n_heads,
        "mean_l_per_min": found.mean_l_per_min,
        "min_l_per_min": found.min_l_per_min,
        "max_l_per_min": found.max_l_per_min,
        "spread_over_mean": found.spread_over_mean,
        "package_l_per_min": found.package_flow_l_per_min,
        "package_is_estimated": found.is_package_carried,
        "flow_over_package": found.flow_over_package,
        "flow_over_new": found.flow_over_new,
        "n_worn": found.n_worn,
        "heads": [
            {
                "head": one.name,
                "flow_l_per_min": one.flow_l_per_min,
                "pressure_kpa": one.pressure_kpa,
                "new_l_per_min": one.new_flow_l_per_min,
                "new_from": one.new_from or None,
                "new_is_estimated": one.is_carried,
                "flow_over_new": one.flow_over_new,
            }
            for one in found.heads
        ],
    }


def _meter_json(found: MeterCheck | None) -> Json | None:
    if found is None:
        return None
    return {
        "volume_m3": found.volume_m3,
        "minutes": found.minutes,
        "flow_l_per_min": found.flow_l_per_min,
        "rate_mm_per_h": found.rate_mm_per_h,
        "area_m2": found.area_m2,
        "heads": found.heads,
        "flow_per_head_l_per_min": found.flow_per_head_l_per_min,
        "rolled_over": found.is_rolled_over,
        "other_zones": list(found.card.other_zones),
    }


def _gross_json(found: GrossRate) -> Json:
    return {
        "rate_mm_per_h": found.rate_mm_per_h,
        "basis": found.basis,
        "is_estimated": found.is_estimated,
        "nominal_mm_per_h": found.nominal_mm_per_h,
        "carried_mm_per_h": found.carried_mm_per_h,
        "bucket_mm_per_h": found.bucket_mm_per_h,
        "measured_pressure_kpa": found.pressure_kpa,
        "ground_of_one_head_m2": found.area_per_head_m2,
    }


def _agreement_json(found: Agreement) -> Json:
    return {
        "checked": found.is_checked,
        "net_mm_per_h": found.net_mm_per_h,
        "gross_mm_per_h": found.gross_mm_per_h,
        "meter_mm_per_h": found.meter_mm_per_h,
        "net_over_gross": found.net_over_gross,
        "meter_over_gross": found.meter_over_gross,
        "net_over_meter": found.net_over_meter,
        "off": found.odd or None,
        "causes": [{"cause": one.name, "why": one.why} for one in found.causes],
    }
