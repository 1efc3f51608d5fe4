"""Unsaved edits of a site folder in; a file beside it against a crash, and back, out.

The file's name begins with a dot; the reader of a site folder passes it by. While the
dashboard that keeps it is open it holds a lock beside it; edits are offered back only
where nobody does.
"""

import json
from dataclasses import dataclass, replace
from pathlib import Path

from scheduler.errors import SaveError
from scheduler.files.folder_edits import FolderEdits, OnDisk, read_texts
from scheduler.files.kept_file import KeptFile, is_kept
from scheduler.files.site_things import FILES
from scheduler.files.text_file import digest_of
from scheduler.files.toml_scan import is_toml

NAME = ".given.typing.json"
_NAMES = ".given*.typing.json"
_FORMAT = 1


@dataclass(slots=True)
class EditJournal(KeptFile):
    """The file that holds edits until they are saved; one thread at a time."""

    def keep(self, edits: FolderEdits) -> None:
        """Write the edits, as a whole or not at all; without any, remove the file.

        Raises
        ------
        SaveError
            If somebody else writes that file, or the disk refuses.
        """
        self.keep_text(journal_text(edits) if edits.changed else None)


def journal_of(folder: Path) -> EditJournal:
    """Journal of a site folder whose edits begin; one that is there stays.

    It may be another dashboard's, open on the same folder, or one that a later version
    wrote.
    """
    path, n = folder / NAME, 2
    while path.exists() or is_kept(path):
        path, n = folder / f".given-{n}.typing.json", n + 1
    return EditJournal(path)


def journal_text(edits: FolderEdits) -> str:
    """Edits as JSON: of each changed file what was read and what it is now."""
    files = {
        name: {"digest": edits.disk[name].digest, "read": edits.disk[name].text,
               "now": edits.now[name]}
        for name in edits.changed
    }  # fmt: skip
    return json.dumps({"format": _FORMAT, "files": files}, ensure_ascii=False, indent=1)


def kept_edits(folder: Path) -> tuple[FolderEdits, EditJournal] | None:
    """Edits of a site folder that were never saved, and their journal to go on with.

    Parameters
    ----------
    folder : Path
        The folder.

    Returns
    -------
    tuple of FolderEdits and EditJournal, or None
        None where there are none, or they cannot be read, or another dashboard that
        is open keeps them. What was saved before a kill is not among them; a file
        changed on disk since is a conflict, also one that reads as TOML no longer.
    """
    for path in sorted(folder.glob(_NAMES)):
        journal = EditJournal(path)
        try:
            journal.take()
        except SaveError:
            continue
        read = _read_from(path)
        if read is not None:
            journal.digest = digest_of(read[0])
            return _edits_of(folder, read[1]), journal
        journal.let_go()
    return None


def is_edited_elsewhere(folder: Path) -> bool:
    """Whether another dashboard that is open has unsaved edits of a site folder.

    Parameters
    ----------
    folder : Path
        The site folder.

    Returns
    -------
    bool
        True where a file of unsaved edits is held, by whomever: ask before holding one.
    """
    return any(is_kept(path) for path in folder.glob(_NAMES))


def _edits_of(folder: Path, files: dict[str, tuple[OnDisk, str]]) -> FolderEdits:
    edits = read_texts(folder)
    for name, (base, now) in files.items():
        there = edits.disk.get(name)
        # a journal came with the folder: it names no file outside of it
        if name not in FILES or (there is not None and there.text == now):
            continue
        if there is None or there.digest != base.digest:
            edits = replace(edits, disk={**edits.disk, name: base})
        edits = edits.with_text(name, now)
    return edits


def _read_from(path: Path) -> tuple[bytes, dict[str, tuple[OnDisk, str]]] | None:
    try:
        data = path.read_bytes()
        return data, _read(data)
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def _read(data: bytes) -> dict[str, tuple[OnDisk, str]]:
    kept = json.loads(data)
    if kept["format"] != _FORMAT:
        raise ValueError(kept["format"])
    found = {
        str(name): (OnDisk(str(one["read"]), one["digest"]), str(one["now"]))
        for name, one in kept["files"].items()
    }
    if any(is_toml(base.text) and not is_toml(now) for base, now in found.values()):
        raise ValueError("the edits broke a file")
    return found
