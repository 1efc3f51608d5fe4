"""Hours of site.toml as read in; what looks as if start and end were swapped, out."""

from collections.abc import Mapping

from scheduler.files.folder_reading import FolderReading
from scheduler.files.toml_scan import Path
from scheduler.files.toml_text import TomlText
from scheduler.site import BlockedHours, Window

# Hours over midnight that are longer than a night with its evening and morning: more
# likely a slip than meant (a guess).
LONGEST_NIGHT_MIN = 16 * 60


def check_hours(
    reading: FolderReading,
    toml: TomlText,
    name: str,
    hours: Mapping[int, Window | BlockedHours],
) -> None:
    """Say so where hours end before they start, and are no night.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.
    toml : TomlText
        Its site.toml.
    name : str
        The list, `window` or `blocked`.
    hours : mapping of int to Window or BlockedHours
        What could be read, by place in the list.
    """
    for i, one in hours.items():
        if one.end > one.start or one.minutes <= LONGEST_NIGHT_MIN:
            continue
        end: Path = (name, i, "end")
        typed, start = toml.typed(end), toml.typed((name, i, "start"))
        if one.end == one.start:
            what = f"is {typed}, as the start: read as the whole day, 24 h"
            fix = "correct one of the two, unless all hours are meant"
        else:
            what = (
                f"is {typed}, before the start {start}: read as the next morning, "
                f"{one.minutes / 60:.3g} h"
            )
            fix = f"swap them if the hours from {typed} to {start} of one day are meant"
        reading.say("warning", toml.place(end), what, fix)
