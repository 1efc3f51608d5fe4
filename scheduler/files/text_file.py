"""A file on disk in; its text, or a finding that says why there is none, out."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from scheduler.errors import Finding


@dataclass(frozen=True, slots=True)
class TextFile:
    """Text of one file, with newlines as Unix writes them.

    Attributes
    ----------
    where : str
        The file as the user knows it, relative to the site folder.
    text : str
        What is in it.
    digest : str
        Fingerprint of the bytes, for refusing to overwrite a file changed since.
    """

    where: str
    text: str
    digest: str


def is_there(path: Path) -> bool:
    """Whether a file or folder is there, as far as one is allowed to see."""
    try:
        return path.exists()
    except PermissionError:
        return True  # reading it will say what is wrong
    except (OSError, ValueError):
        return False


def digest_of(data: bytes) -> str:
    """Fingerprint of the bytes of a file."""
    return hashlib.sha256(data).hexdigest()


def read_text_file(
    path: Path, where: str
) -> tuple[TextFile | None, tuple[Finding, ...]]:
    """Read a text file: UTF-8 with or without mark, else Windows-1252 with a note.

    Parameters
    ----------
    path : Path
        The file.
    where : str
        Its name in findings.

    Returns
    -------
    file : TextFile or None
        None when there is no text to read.
    findings : tuple of Finding
        A stop for a file without text, a note for the older encoding.
    """
    try:
        if path.exists() and not path.is_file():  # reading a pipe would never end
            what = "is a folder" if path.is_dir() else "is not a plain file"
            return None, (_stop(where, what, "put a text file there"),)
        data = path.read_bytes()
    except FileNotFoundError:
        return None, (_stop(where, "is not there", "put the file there"),)
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        fix = "check who may read the file, and the disk"
        return None, (_stop(where, f"cannot be read ({why})", fix),)
    return decoded_text(data, where)


def decoded_text(
    data: bytes, where: str
) -> tuple[TextFile | None, tuple[Finding, ...]]:
    """Text of bytes, or why they are none; findings as `read_text_file` gives them."""
    refused = _no_text(data)
    if refused is not None:
        return None, (_stop(where, *refused),)
    return _decoded(data, where)


def _no_text(data: bytes) -> tuple[str, str] | None:
    """Say what is wrong with bytes that are no text, and what to do about it."""
    if not data.strip():
        return "is empty", "fill it in; lowquarter new FOLDER shows what it may hold"
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "is saved as UTF-16", "save it as UTF-8 text"
    if data.startswith(b"PK\x03\x04"):
        return "is a spreadsheet or zip file", "save the table as CSV"
    if b"\0" in data:
        return "is not a text file", "save it as plain text"
    return None


def _decoded(data: bytes, where: str) -> tuple[TextFile | None, tuple[Finding, ...]]:
    said: tuple[Finding, ...] = ()
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        try:
            text = data.decode("cp1252")
        except UnicodeDecodeError:
            stop = _stop(where, "is not a text file", "save it as UTF-8 text")
            return None, (stop,)
        said = (
            Finding(
                "note",
                where,
                "is not UTF-8; read as Windows-1252 text",
                "save it as UTF-8 if letters such as ° or é look wrong",
            ),
        )
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return TextFile(where, text, digest_of(data)), said


def _stop(where: str, what: str, fix: str) -> Finding:
    return Finding("stop", where, what, fix)
