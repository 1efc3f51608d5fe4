"""A pasted list or a table in; readings, rate and uniformity, a draft out."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from scheduler.errors import Finding, QuantityError, SaveError
from scheduler.units import number, parsed_quantity, spelled_unit
from tui.draft import Entries, Setup, new_draft
from tui.session import open_session, todays_date

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation
    from scheduler.files.messy.choices import Choices
    from scheduler.record import CanRun, CanUnit


@dataclass(frozen=True, slots=True)
class Imported:
    """Readings as they were understood.

    Attributes
    ----------
    run : CanRun or None
        None where something is not understood.
    result : RunEvaluation or None
        Rate and uniformity; None where they cannot be worked out.
    findings : tuple of Finding
        What must be said, stops first.
    mouth : str
        As typed.
    """

    run: "CanRun | None"
    result: "RunEvaluation | None"
    findings: tuple[Finding, ...]
    mouth: str


def read_readings(texts: Mapping[str, str]) -> Imported:
    """Readings from a list or from the path of a table.

    Raises
    ------
    SchedulerError
        If a number, a unit or the file cannot be read.
    """
    from scheduler.field.catch import mouth_area_cm2
    from scheduler.field.evaluation import evaluated_run
    from scheduler.field.screening import screened
    from scheduler.record import CanTest

    mouth = texts.get("mouth", "").strip()
    area = mouth_area_cm2(parsed_quantity(mouth, to="mm")) if mouth else None
    run, said = _read_run(texts)
    if run is None:
        return Imported(None, None, said, mouth)
    day = todays_date(None)
    test = CanTest("readings", run.where, "", day, "as read", area, (run,))
    more = screened(test, run)
    result = None
    if not any(one.level == "stop" for one in (*said, *more)):
        result = evaluated_run(run, mouth_area_cm2=area, with_ranges=False)
    return Imported(run, result, (*said, *more), mouth)


def _read_run(
    texts: Mapping[str, str],
) -> "tuple[CanRun | None, tuple[Finding, ...]]":
    from scheduler.files.given_table import Given, given_run
    from scheduler.files.readings import parsed_readings

    typed = texts.get("readings", "").strip()
    if not typed:
        raise QuantityError("no readings yet", "paste a list, or type a path")
    unit, minutes = _can_unit(texts.get("unit", "")), _minutes(texts.get("minutes", ""))
    path = _table(typed)
    if path is None:
        return parsed_readings(
            typed, unit=unit or "ml", name="readings", where="readings", minutes=minutes
        )
    given = Given(unit, minutes, _choices(texts.get("table", "")))
    try:
        return given_run(path.read_bytes(), path.name, given)
    except OSError as problem:
        why = problem.strerror or str(problem)
        raise SaveError(f"cannot be read ({why})", "give a table", str(path)) from None


def _table(typed: str) -> Path | None:
    """The file that is named, if the text is no list of readings."""
    if "\n" in typed:
        return None
    try:
        path = Path(typed.strip("'\"")).expanduser()
        return path if path.is_file() else None
    except (OSError, ValueError, RuntimeError):  # no path, or nobody's behind ~
        return None


def _can_unit(text: str) -> "CanUnit | None":
    known: dict[str | None, CanUnit] = {
        "ml": "ml", "fl_oz": "fl_oz", "mm": "mm", "in": "in",
    }  # fmt: skip
    if not text.strip():
        return None
    unit = known.get(spelled_unit(text.strip()))
    if unit is None:
        raise QuantityError(f"cans are not read in {text!r}", "use mL, fl oz, mm or in")
    return unit


def _minutes(text: str) -> float | None:
    if not text.strip():
        return None
    size, rest = number(text)
    if rest not in ("", "min", "minutes") or size <= 0:
        raise QuantityError(f"{text!r} is no time", "type minutes, such as 30")
    return size


def _choices(text: str) -> "Choices":
    """How a table is to be read, as `total=row decimal=comma`."""
    from scheduler.files.messy.choices import CHOICE_KEYS, Choices

    pairs = [one.partition("=") for one in text.split()]
    fix = f"such as total=row; one of {', '.join(CHOICE_KEYS)}"
    for name, _, value in pairs:
        if name not in CHOICE_KEYS or not value:
            raise QuantityError(f"{name!r} does not say how to read a table", fix)
    return Choices(**{name: value for name, _, value in pairs})  # type: ignore[arg-type]


def first_zone(folder: Path) -> str:
    """Id of the first zone of a site; empty where it has none that can be read."""
    site = open_session(folder).site
    return site.zones[0].id if site is not None and site.zones else ""


def kept_readings(folder: Path, zone: str, read: Imported) -> None:
    """Keep readings as the draft of a test of a zone, to be looked at and saved.

    Raises
    ------
    SchedulerError
        If the zone is not known, a draft waits there, or the disk refuses.
    """
    from tui.draft_journal import journal_of

    run = read.run
    assert run is not None, "only what was read is kept"
    site = open_session(folder).site
    if site is None or site.zone(zone) is None:
        known = ", ".join(one.id for one in site.zones) if site is not None else ""
        raise QuantityError(f"there is no zone {zone!r}", f"the zones are {known}")
    setup = Setup(
        date=todays_date(site),
        condition="as found",
        unit=run.unit,
        labels=run.label,
        mouth=_quantity(read.mouth),
        minutes=run.minutes,
        note="imported readings",
    )
    found = site.zone(zone)
    assert found is not None, "looked up above"
    draft = new_draft(found.id, setup)
    cells = tuple(
        tuple(
            (code or f"{size:.12g}") if name else ""
            for size, code, name in zip(*row, strict=True)
        )
        for row in zip(run.reading.tolist(), run.code, run.label, strict=True)
    )
    draft = replace(draft, now=Entries(setup, cells))
    journal = journal_of(folder, draft)
    journal.keep(draft)
    journal.let_go()  # to the dashboard that opens the folder next


def _quantity(text: str) -> tuple[float, str] | None:
    if not text:
        return None
    size, unit = number(text)
    suffix = spelled_unit(unit)
    return (size, suffix) if suffix else None
