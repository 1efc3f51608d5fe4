"""Pressures, buckets and the meter card of a test.toml in; records out."""

from collections.abc import Iterator, Sequence
from pathlib import PurePath
from typing import TypeVar

from scheduler.files.can_runs import OpenTest
from scheduler.files.can_test_nouns import AtHead, Flow, Meter, Pressure
from scheduler.files.folder_reading import did_you_mean
from scheduler.files.toml_scan import Path as Keys
from scheduler.record import BucketFlow, MeterCard, PressureReading
from scheduler.units import UNITS, spelled_unit

At = TypeVar("At", bound=AtHead)
# Of the units of volume, those that a meter's dial has.
DIALS = ("gal", "ft3", "m3", "l", "kgal", "acre_ft")


def read_pressures(inside: OpenTest) -> tuple[PressureReading, ...]:
    """Gauge readings of a test; one that is wrong is left out with a finding."""
    return tuple(
        PressureReading(
            where,
            one.name,
            one.place,
            one.pressure_kpa,
            is_static=one.is_static,
            rise_m=one.rise_m,
            run=one.run,
        )
        for where, one in _at_heads(inside, Pressure, "pressure")
    )


def read_flows(inside: OpenTest) -> tuple[BucketFlow, ...]:
    """Bucket tests of a test; one that is wrong is left out with a finding."""
    return tuple(
        BucketFlow(
            where,
            one.name,
            one.place,
            one.volume_l,
            one.seconds,
            pressure_kpa=one.pressure_kpa,
            new_flow_l_per_min=one.new_flow_l_per_min,
            new_pressure_kpa=one.new_pressure_kpa,
            nozzle_mm=one.nozzle_mm,
            run=one.run,
        )
        for where, one in _at_heads(inside, Flow, "flow")
    )


def read_meter(inside: OpenTest, zone_ids: Sequence[str] | None) -> MeterCard | None:
    """The meter card of a test, or None; what is wrong is a finding."""
    if "meter" not in inside.toml.data:
        return None
    keys: Keys = ("meter",)
    card = inside.reading.noun(Meter, inside.toml, keys)
    if card is None:
        return None
    unit = spelled_unit(card.unit)
    if unit not in DIALS:
        what = f"is {inside.toml.typed((*keys, 'unit'))}; meters are not read in that"
        labels = ", ".join(UNITS[one].label for one in DIALS)
        inside.say("stop", (*keys, "unit"), what, f"write one of {labels}")
        return None
    named = _run_name(inside, card.run, keys)
    others = tuple(_zones(inside, card.other_zones, zone_ids, keys))
    if named == "" or len(others) < len(card.other_zones):
        return None
    if card.multiplier is None:
        fix = "write multiplier = 1, or 10, 100 ... as printed on the dial"
        inside.say("note", keys, "multiplier is not given; read as 1", fix)
    return MeterCard(
        inside.toml.place(keys),
        card.start,
        card.stop,
        unit,
        multiplier=card.multiplier,
        digits=card.digits,
        minutes=card.minutes,
        other_zones=others,
        run=named,
    )


def _at_heads(inside: OpenTest, model: type[At], name: str) -> Iterator[tuple[str, At]]:
    for i, one in inside.reading.nouns(model, inside.toml, name).items():
        keys: Keys = (name, i)
        run = _run_name(inside, one.run, keys)
        if run != "":
            yield inside.toml.place(keys), one.model_copy(update={"run": run})


def _run_name(inside: OpenTest, typed: str | None, keys: Keys) -> str | None:
    """Name of the run that was meant; empty where there is none of that name."""
    if typed is None:
        return None
    wanted = PurePath(typed).stem.casefold()
    names = list(_run_names(inside))
    own = next((name for name in names if name.casefold() == wanted), None)
    if own is None:
        what = f'is "{typed}", and there is no such run in the test'
        fix = did_you_mean(wanted, names, "test.toml")
        inside.say("stop", (*keys, "run"), what, fix)
    return own or ""


def _run_names(inside: OpenTest) -> Iterator[str]:
    """Names of all runs in the file, also of those that could not be read."""
    tables = inside.toml.data.get("run", [])
    for table in tables if isinstance(tables, list) else ():
        file = table.get("file") if isinstance(table, dict) else None
        if isinstance(file, str):
            yield PurePath(file).stem


def _zones(
    inside: OpenTest, typed: Sequence[str], ids: Sequence[str] | None, keys: Keys
) -> Iterator[str]:
    known = {**inside.reading.former, **{one.casefold(): one for one in ids or ()}}
    for name in typed:
        own = known.get(name.casefold())
        if own is None and ids is not None:
            what = f'names "{name}", and there is no such zone'
            fix = did_you_mean(name, ids, "zones.toml")
            inside.say("stop", (*keys, "other_zones"), what, fix)
        else:
            yield own or name
