"""A site folder's TOML files in; their texts with edits, checked, and files saved, out.

Everything is frozen: an edit gives another `FolderEdits`, and undo is the one before.
Nothing is on disk until `saved_edits`, which refuses what would not read, and what
somebody else changed meanwhile.
"""

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path

from scheduler.errors import Finding, SaveError
from scheduler.files.folder_reading import FolderReading
from scheduler.files.save import refuse_changed, save_bytes
from scheduler.files.site_clocks import check_clocks
from scheduler.files.site_folder import read_site_folder
from scheduler.files.site_tables import (
    check_packages,
    read_options,
    read_packages,
    read_site_toml,
    read_zones,
)
from scheduler.files.site_things import FILES
from scheduler.files.text_changes import Change, changes, line_changes, reapplied
from scheduler.files.text_file import digest_of
from scheduler.files.toml_scan import is_toml

_MARK = b"\xef\xbb\xbf"
_LINE = re.compile(r"^([^:]+):\d+")


@dataclass(frozen=True, slots=True)
class OnDisk:
    """A file as it was read.

    Attributes
    ----------
    text : str
        Its text, with newlines as Unix writes them; empty for a file not there.
    digest : str or None
        Fingerprint of its bytes; None for a file not there.
    data : bytes
        Its bytes, for the line endings.
    """

    text: str
    digest: str | None
    data: bytes = field(default=b"", repr=False)


@dataclass(frozen=True, slots=True)
class FolderEdits:
    """Texts of a site folder's TOML files, on disk and as they are edited.

    Attributes
    ----------
    folder : Path
        The site folder.
    disk : mapping
        By file: what was read from it, or was saved last.
    now : mapping
        By file: its text with the edits.
    """

    folder: Path
    disk: Mapping[str, OnDisk]
    now: Mapping[str, str]

    @property
    def changed(self) -> tuple[str, ...]:
        """Files whose text is not the one on disk."""
        return tuple(
            one for one, text in self.now.items() if text != self.disk[one].text
        )

    @property
    def texts(self) -> dict[str, str]:
        """Text of each changed file, for reading the folder with the edits."""
        return {one: self.now[one] for one in self.changed}

    def with_text(self, file: str, text: str) -> "FolderEdits":
        """The same with another text of one file."""
        return replace(self, now={**self.now, file: text})

    def with_texts(self, texts: Mapping[str, str]) -> "FolderEdits":
        """The same with exactly these texts; files not named are as on disk."""
        own = {one: read.text for one, read in self.disk.items()}
        return replace(self, now={**own, **texts})

    def changes(self, file: str) -> tuple[Change, ...]:
        """What is changed in one file; line by line where it was or is no TOML."""
        was, now = self.disk[file].text, self.now[file]
        return (changes if is_toml(was) and is_toml(now) else line_changes)(was, now)


@dataclass(frozen=True, slots=True)
class Conflict:
    """A file that was edited here, and changed by somebody else meanwhile.

    Attributes
    ----------
    file : str
        Its name.
    read, mine, theirs : str
        Its text as it was read, with the edits, and on disk now.
    """

    file: str
    read: str
    mine: str
    theirs: str

    @property
    def their_lines(self) -> tuple[str, ...]:
        """What somebody else changed, as a unified difference."""
        return _difference(self.read, self.theirs, "read here", "on disk now")

    @property
    def my_lines(self) -> tuple[str, ...]:
        """What was edited here, as a unified difference."""
        return _difference(self.read, self.mine, "read here", "edited here")


def read_texts(folder: Path) -> FolderEdits:
    """Texts of the TOML files of a site folder, nothing edited.

    Parameters
    ----------
    folder : Path
        The folder.

    Returns
    -------
    FolderEdits
        Files in UTF-8; others cannot be edited. A packages.toml or options.toml that is
        not there counts as an empty one. Of a file that does not read as TOML lines can
        be edited only: see `broken_lines`.
    """
    disk = {name: _on_disk(folder / name) for name in FILES}
    read = {name: one for name, one in disk.items() if one}
    return FolderEdits(folder, read, {name: one.text for name, one in read.items()})


def new_findings(edits: FolderEdits, *, whole: bool = False) -> tuple[Finding, ...]:
    """What the edits make wrong that was not wrong before.

    Parameters
    ----------
    edits : FolderEdits
        The edits.
    whole : bool
        Whether tests, logs and tables are read as well; else only the TOML files.

    Returns
    -------
    tuple of Finding
        With file, line, key, value as typed and remedy.
    """
    own = {name: one.text for name, one in edits.disk.items() if one.digest}
    find = _all_findings if whole else _toml_findings
    before = [_without_line(one) for one in find(edits.folder, own)]
    fresh = []
    for one in find(edits.folder, {**own, **edits.texts}):
        known = _without_line(one)
        if known in before:
            before.remove(known)
        else:
            fresh.append(one)
    return tuple(fresh)


def conflicts(edits: FolderEdits) -> tuple[Conflict, ...]:
    """Files edited here that are neither as they were read nor as they are edited."""
    found = []
    for file in edits.changed:
        there = _on_disk(edits.folder / file)
        theirs = there.text if there is not None else ""
        if there is not None and there.digest == edits.disk[file].digest:
            continue
        if theirs != edits.now[file]:
            found.append(Conflict(file, edits.disk[file].text, edits.now[file], theirs))
    return tuple(found)


def taken_theirs(edits: FolderEdits, file: str) -> FolderEdits:
    """The edits without those of one file, which is as it is on disk now."""
    there = _on_disk(edits.folder / file)
    if there is None or not is_toml(there.text):
        fix = "correct it by hand first: lowquarter inspect names the line"
        raise SaveError("cannot be read as TOML", fix, file)
    disk = {**edits.disk, file: there}
    return replace(edits, disk=disk, now={**edits.now, file: there.text})


def kept_on_top(
    edits: FolderEdits, file: str
) -> tuple[FolderEdits, tuple[tuple[Change, str], ...]]:
    """The edits of one file made again on what is on disk now.

    Parameters
    ----------
    edits : FolderEdits
        The edits.
    file : str
        The file.

    Returns
    -------
    edits : FolderEdits
        With the file as read now, and the edits on top.
    lost : tuple of (Change, str)
        Edits that have no place in it any more, and why.

    Raises
    ------
    SaveError
        If the file on disk cannot be read as TOML.
    """
    mine = edits.changes(file)
    theirs = taken_theirs(edits, file)
    if not is_toml(edits.disk[file].text):
        why = "the file was corrected by somebody else"
        return theirs, tuple((one, why) for one in mine)
    text, lost = reapplied(theirs.now[file], mine)
    return theirs.with_text(file, text), lost


def saved_edits(edits: FolderEdits) -> FolderEdits:
    """Write every changed file, each as a whole or not at all.

    Parameters
    ----------
    edits : FolderEdits
        The edits.

    Returns
    -------
    FolderEdits
        The same with nothing unsaved.

    Raises
    ------
    SaveError
        If the edits make something wrong that stops a file, zone or package from being
        read, a file was changed by somebody else, or the disk refuses. Of several
        files those before it are then saved, and said.
    """
    stops = [one for one in new_findings(edits, whole=True) if one.level == "stop"]
    if stops:
        raise SaveError(stops[0].what, stops[0].fix, stops[0].where)
    for file in edits.changed:  # all of them, before the first is written
        if not _is_mine(edits, file):
            refuse_changed(edits.folder / file, edits.disk[file].digest)
    for file in edits.changed:
        read = edits.disk[file]
        data = _with_endings(read, edits.now[file])
        if _is_mine(edits, file):
            digest = digest_of((edits.folder / file).read_bytes())
        else:
            digest = save_bytes(edits.folder / file, data, read_digest=read.digest)
        saved = OnDisk(edits.now[file], digest, data)
        edits = replace(edits, disk={**edits.disk, file: saved})
    return edits


# --- disk --------------------------------------------------------------------


def _on_disk(path: Path) -> OnDisk | None:
    """A file as it is; None where there is no text in UTF-8 in it."""
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return OnDisk("", None) if path.name in FILES[2:] else None
    except OSError:
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return None
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    return OnDisk(plain, digest_of(data), data)


def _is_mine(edits: FolderEdits, file: str) -> bool:
    """Whether the file holds the edits already: a save that was cut short."""
    there = _on_disk(edits.folder / file)
    return there is not None and there.text == edits.now[file]


def _with_endings(read: OnDisk, text: str) -> bytes:
    """The text as bytes, each line that stays with the ending it had."""
    old = read.data.removeprefix(_MARK).decode("utf-8").splitlines(keepends=True)
    if not any(line.endswith(("\r\n", "\r")) for line in old):
        mark = _MARK if read.data.startswith(_MARK) else b""
        return mark + text.encode("utf-8")
    plain = [line.rstrip("\r\n") for line in old]
    new = text.split("\n")
    had = [line[len(bare) :] for line, bare in zip(old, plain, strict=True)]
    usual = max(("\n", "\r\n", "\r"), key=had.count)
    ends = [usual] * len(new)
    blocks = difflib.SequenceMatcher(None, plain, new, autojunk=False)
    for i, j, size in blocks.get_matching_blocks():
        for k in range(size):
            ends[j + k] = had[i + k] or usual
    ends[-1] = ""  # the text ends where it ends
    done = "".join(line + end for line, end in zip(new, ends, strict=True))
    mark = _MARK if read.data.startswith(_MARK) else b""
    return mark + done.encode("utf-8")


# --- what is wrong -----------------------------------------------------------


def _toml_findings(folder: Path, texts: Mapping[str, str]) -> tuple[Finding, ...]:
    return _findings_of(folder, tuple(texts.items()))


@lru_cache(maxsize=8)
def _findings_of(
    folder: Path, texts: tuple[tuple[str, str], ...]
) -> tuple[Finding, ...]:
    # every file that is read here stands in the texts
    reading = FolderReading(folder, texts=dict(texts))
    top = read_site_toml(reading)
    zones, packages = read_zones(reading), read_packages(reading)
    check_packages(reading, zones, packages)
    check_clocks(reading, top, zones)
    read_options(reading, zones, packages)
    return tuple(dict.fromkeys(reading.findings))


def _all_findings(folder: Path, texts: Mapping[str, str]) -> tuple[Finding, ...]:
    return read_site_folder(folder, texts).findings


def _without_line(finding: Finding) -> tuple[str, str, str, str]:
    where = _LINE.sub(r"\1", finding.where)
    return (finding.level, where, finding.what, finding.fix)


def _difference(a: str, b: str, name_a: str, name_b: str) -> tuple[str, ...]:
    lines = difflib.unified_diff(
        a.splitlines(), b.splitlines(), name_a, name_b, lineterm="", n=2
    )
    return tuple(lines)
