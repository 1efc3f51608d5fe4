"""An edit of the folder's files as one step in the line of what was done, and back.

Such an edit holds the texts as they are after it, so that undo is the step before.
"""

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from tui.what_if import Edit

if TYPE_CHECKING:
    from scheduler.files.folder_edits import FolderEdits


def given_edit(
    given: "FolderEdits",
    said: str,
    settled: tuple[Edit, ...] = (),
    *,
    before: "FolderEdits | None" = None,
) -> Edit:
    """The step after which the files read as they do there, and hold some what-ifs.

    With the files as they were before it, zones that it renames keep what is tried.
    """
    texts = tuple(given.now.items())
    renamed = () if before is None else _renamed(zone_ids(before), zone_ids(given))
    return Edit("given", texts, typed=said, settled=settled, renamed=renamed)


def zone_ids(given: "FolderEdits") -> tuple[str, ...]:
    """Ids of the zones in the order of the file; none where it cannot be read."""
    import tomllib

    try:
        zones = tomllib.loads(given.now.get("zones.toml", "")).get("zone", ())
        return tuple(str(one.get("id", "")) for one in zones)
    except (tomllib.TOMLDecodeError, AttributeError, TypeError):
        return ()


def _renamed(was: tuple[str, ...], now: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Ids that gave place to new ones, where no zone came or went."""
    if len(was) != len(now):
        return ()
    pairs = zip(was, now, strict=True)
    return tuple((a, b) for a, b in pairs if a not in now and b not in was)


def texts_after(
    given: "FolderEdits", opened: "FolderEdits | None", edits: Iterable[Edit]
) -> "FolderEdits":
    """The files after all steps: as the last edit of them left them, else as opened."""
    last = next((one for one in reversed(tuple(edits)) if one.what == "given"), None)
    if last is not None and isinstance(last.value, tuple):
        return given.with_texts(dict(last.value))  # type: ignore[arg-type]
    return given.with_texts(opened.now) if opened is not None else given


def on_the_files(edits: Iterable[Edit], what_ifs: Iterable[Edit]) -> tuple[Edit, ...]:
    """Exactly these what-ifs, on the files as they are edited or were kept."""
    files = (one for one in edits if one.what in ("units", "given"))
    return (*files, *what_ifs)


def without_given(edits: Iterable[Edit]) -> tuple[Edit, ...]:
    """The what-ifs alone, what was kept or dropped of them, and renamed zones."""
    return tuple(
        replace(one, what="settled", value="") if one.what == "given" else one
        for one in edits
        if one.what != "given" or one.settled or one.renamed
    )
