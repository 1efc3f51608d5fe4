"""The folder of catch-can tests in; tests with their runs, and what is wrong, out."""

import math
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, get_args

from scheduler.files.can_layout import read_layout
from scheduler.files.can_runs import OpenTest, note_odd_dates, read_runs
from scheduler.files.can_test_nouns import Can, Head, Stated
from scheduler.files.folder_reading import FolderReading, did_you_mean
from scheduler.files.former_ids import if_renamed
from scheduler.files.text_file import is_there
from scheduler.files.toml_text import broken_key
from scheduler.files.water_card import read_flows, read_meter, read_pressures
from scheduler.record import CanTest, CanUnit, StatedResult
from scheduler.units import spelled_unit

_TABLES = ("format", "can", "layout", "run", "stated", "pressure", "flow", "meter")
Ids = Sequence[str] | None


def read_tests(
    site: FolderReading,
    zone_ids: Sequence[str] | None,
    package_ids: Sequence[str] | None = None,
) -> tuple[CanTest, ...]:
    """Read every test under `tests/` of a site folder.

    Parameters
    ----------
    site : FolderReading
        The site folder; it gathers what is wrong.
    zone_ids : sequence of str or None
        The zones there are; None when zones.toml could not be read.
    package_ids : sequence of str or None
        The packages there are; None when packages.toml could not be read.

    Returns
    -------
    tuple of CanTest
        The tests that could be read, by folder name; a run or exclusion that is
        wrong is left out of its test. Ids of zones and packages are written as in
        zones.toml and packages.toml.
    """
    tests = []
    for path in _folders(site):
        inside = FolderReading(
            path, f"tests/{path.name}/", former=site.former, disputed=site.disputed
        )
        test = _read_test(inside, (zone_ids, package_ids))
        site.findings += inside.findings
        site.digests |= inside.digests
        if test is not None:
            tests.append(test)
    return tuple(tests)


def _folders(site: FolderReading) -> Iterable[Path]:
    tests = site.folder / "tests"
    if not is_there(tests):
        return ()
    try:
        found = [one for one in tests.iterdir() if one.is_dir()]
    except OSError as problem:
        what = f"cannot be read ({problem.strerror or problem})"
        site.say("stop", "tests", what, "make it a folder that you may read")
        return ()
    shown = (one for one in found if one.name[0] not in "._")
    return sorted(shown, key=lambda one: one.name)


def _read_test(reading: FolderReading, known: tuple[Ids, Ids]) -> CanTest | None:
    if not is_there(reading.folder / "test.toml"):
        what = "holds no test.toml, so its readings are not used"
        fix = "write test.toml with zone, date and [[run]], or move the folder away"
        reading.say("stop", reading.name.rstrip("/"), what, fix)
        return None
    toml = reading.toml("test.toml")
    if toml is None:
        return None
    inside = OpenTest(reading, toml)
    head = reading.noun(Head, toml, (), skip=_TABLES)
    can, unit = _can(inside)
    runs = read_runs(inside, unit)
    layout = read_layout(inside, runs)
    stated = _stated(inside)
    pressures, flows = read_pressures(inside), read_flows(inside)
    meter = read_meter(inside, known[0])
    zone = _known(inside, "zone", head.zone if head else None, known[0]) or ""
    package = _known(inside, "package", head.package if head else None, known[1])
    if head is None or not (runs or stated):
        return None
    if "condition" not in toml.data:
        fix = 'write condition = "as found", "after repair" ...'
        inside.say("note", (), 'condition is not given; read as "as found"', fix)
    note_odd_dates(inside, head.date, runs)
    return CanTest(
        name=reading.folder.name,
        where=reading.name.rstrip("/"),
        zone=zone,
        date=head.date,
        condition=head.condition,
        mouth_area_cm2=_mouth_area_cm2(can),
        runs=runs,
        stated=stated,
        capacity_ml=can.capacity_ml if can else None,
        note=head.note,
        package=package,
        layout=layout,
        pressures=pressures,
        flows=flows,
        meter=meter,
    )


def _known(inside: OpenTest, noun: str, name: str | None, ids: Ids) -> str | None:
    """Id of the named zone or package, written as where it is defined."""
    if name is None or ids is None:
        return name
    own = {one.casefold(): one for one in ids}.get(name.casefold())
    if own is None and noun == "zone":
        own = inside.reading.former.get(name.casefold())
    if own is None:
        what = f'is "{name}", and there is no such {noun}'
        fix = did_you_mean(name, ids, f"{noun}s.toml")
        if noun == "zone":
            fix += if_renamed(name, inside.reading.disputed)
        inside.say("stop", (noun,), what, fix)
    return own or name


def _mouth_area_cm2(can: Can | None) -> float | None:
    if can is None:
        return None
    if can.mouth_mm is not None:
        return math.pi / 4 * (can.mouth_mm / 10) ** 2
    return can.mouth_area_cm2


def _can(inside: OpenTest) -> tuple[Can | None, CanUnit | None]:
    table = inside.toml.data.get("can")
    if table is None:
        if inside.toml.data.get("run"):
            fix = 'write [can] with unit = "mL" and mouth_in (or mouth_mm)'
            inside.say("stop", (), "[can] is missing: the unit is not known", fix)
        return None, None
    can = inside.reading.noun(Can, inside.toml, ("can",))
    if can is None:
        return None, None
    if can.mouth_mm is not None and can.mouth_area_cm2 is not None:
        what = "the mouth is given as width and as area"
        inside.say("stop", ("can",), what, "keep one of the two")
        return None, None
    unit = spelled_unit(can.unit)
    known = next((one for one in get_args(CanUnit) if one == unit), None)
    if known is None:
        what = f"is {inside.toml.typed(('can', 'unit'))}; cans are not read in that"
        inside.say("stop", ("can", "unit"), what, "write mL, fl oz, mm or in")
    return can, known


def _stated(inside: OpenTest) -> StatedResult | None:
    table = inside.toml.data.get("stated")
    if table is None:
        if not inside.toml.data.get("run") and not _is_broken(inside.toml.data):
            fix = 'write [[run]] with file = "run1.csv", or [stated] with du_lq'
            inside.say("stop", (), "holds neither a run nor a stated result", fix)
        return None
    stated = inside.reading.noun(Stated, inside.toml, ("stated",))
    if stated is None:
        return None
    return StatedResult(stated.du_lq, stated.net_rate_mm_per_h, stated.source)


def _is_broken(data: dict[str, Any]) -> bool:
    return any(broken_key(key) is not None for key in data)
