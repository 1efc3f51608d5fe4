"""A file or pasted text of readings in, without a site; one run out."""

from dataclasses import dataclass

from scheduler.errors import Finding, SiteFolderError
from scheduler.files.catch_csv import Grid
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.sheets import is_workbook, workbook_sheets
from scheduler.files.readings import parsed_readings
from scheduler.files.run_table import read_run_table
from scheduler.files.text_file import decoded_text
from scheduler.record import CanRun, CanUnit


@dataclass(frozen=True, slots=True)
class Given:
    """What the user said beside the table; None where nothing was said.

    Attributes
    ----------
    unit : str or None
        Unit of the readings.
    minutes : float or None
        How long the water ran. [min]
    choices : Choices
        What was said about the table itself.
    """

    unit: CanUnit | None = None
    minutes: float | None = None
    choices: Choices = Choices()  # noqa: RUF009 - frozen


def given_run(
    data: bytes, where: str, given: Given
) -> tuple[CanRun | None, tuple[Finding, ...]]:
    """Read one run from the bytes of a table of any usual kind.

    Parameters
    ----------
    data : bytes
        xlsx, xls, ods, CSV or text.
    where : str
        Its name in findings.
    given : Given
        What the user said about it.

    Returns
    -------
    run : CanRun or None
        None when anything is not understood.
    findings : tuple of Finding
        Stops; else notes on what was read, and how.

    Raises
    ------
    SiteFolderError
        If the bytes are neither a workbook nor text.
    """
    said: tuple[Finding, ...] = ()
    content: bytes | str = data
    if is_workbook(data):
        refused = workbook_sheets(data, where)[1]
        if refused:
            raise SiteFolderError(refused[0].what, refused[0].fix, where)
    else:
        file, said = decoded_text(data, where)
        if file is None:
            raise SiteFolderError(said[0].what, said[0].fix, where)
        content = file.text

    def clean(text: str) -> tuple[Grid | None, tuple[Finding, ...]]:
        unit = given.unit or "ml"
        run, told = parsed_readings(
            text, unit=unit, name="readings", where=where, minutes=given.minutes
        )
        return (Grid(run.reading, run.code, run.label) if run else None), told

    table, told = read_run_table(content, where, given.choices, given.unit, clean)
    if table is None:
        return None, (*said, *told)
    if table.unit is None and any("no unit in the table" in one.what for one in told):
        what, fix = "readings are taken as mL, since no unit is named", "say --unit"
        said = (*said, Finding("note", where, what, fix))
    run = CanRun(
        name="readings",
        where=where,
        reading=table.grid.reading,
        code=table.grid.code,
        label=table.grid.label,
        unit=table.unit or "ml",
        minutes=given.minutes,
    )
    return run, (*said, *told)
