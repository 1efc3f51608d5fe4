"""Text or a changed document in; a file on disk that is whole at every moment out."""

import contextlib
import os
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from scheduler.errors import SaveError
from scheduler.files.text_file import digest_of

_NEW_FILE_MODE = 0o666


def save_text(path: Path, text: str, *, read_digest: str | None) -> str:
    """Write a file so that it reads as before or as after at every moment.

    Parameters
    ----------
    path : Path
        The file; its folder must exist.
    text : str
        What shall be in it.
    read_digest : str or None
        Fingerprint of what was read from it; None for a file that must not exist yet.

    Returns
    -------
    str
        Fingerprint of what is there now.

    Raises
    ------
    SaveError
        If the file exists or was changed meanwhile, or cannot be written. The folder
        is then as before.
    """
    return _save(path, text.encode("utf-8"), read_digest)


def save_bytes(path: Path, data: bytes, *, read_digest: str | None) -> str:
    """Write a file that is no text, as `save_text` does.

    Raises
    ------
    SaveError
        As `save_text`.
    """
    return _save(path, data, read_digest)


def save_new_text(path: Path, text: str) -> str:
    """Write a file that must not be there yet; of two writers at once one wins.

    Parameters
    ----------
    path : Path
        The file; its folder must exist.
    text : str
        What shall be in it.

    Returns
    -------
    str
        Fingerprint of what is there now.

    Raises
    ------
    SaveError
        If the file is there, also when somebody made it a moment ago, or it cannot be
        written. What is there stays as it is.

    Notes
    -----
    The whole file is written beside its place and then given its name by a hard link,
    which fails where the name is taken. On a disk without hard links the last look is a
    moment before the rename.
    """
    data = text.encode("utf-8")
    _refuse_changed(path, _bytes_of(path, missing=True), None)
    with _part_of(path, data, path) as part:
        try:
            os.link(part, path)
        except FileExistsError:
            _refuse_changed(path, _bytes_of(path, missing=True), None)
            raise
        except OSError:
            _refuse_changed(path, _bytes_of(path, missing=True), None)
            os.replace(part, path)  # noqa: PTH105 - the twin of mkstemp
    return digest_of(data)


def rewrite_toml(path: Path, change: Callable[[Any], None], read_digest: str) -> str:
    """Let a function change a TOML document and keep its remarks and layout.

    Parameters
    ----------
    path : Path
        The file.
    change : callable
        Changes the document (of tomlkit) in place.
    read_digest : str
        Fingerprint of what was read from it.

    Returns
    -------
    str
        Fingerprint of what is there now.

    Raises
    ------
    SaveError
        If the file cannot be read as TOML or was changed meanwhile, or it cannot be
        written.
    """
    # tomlkit is only wanted on saving
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    data = _bytes_of(path) or b""
    _refuse_changed(path, data, read_digest)
    try:
        text = data.decode("utf-8-sig")
        # tomlkit writes its own newlines; the file gets back those it had
        document = tomlkit.parse(text.replace("\r\n", "\n"))
        change(document)
        edited = tomlkit.dumps(document)
    except (UnicodeDecodeError, TOMLKitError) as problem:
        fix = "correct the file by hand first: lowquarter inspect names the line"
        raise SaveError("cannot be read as TOML", fix, str(path)) from problem
    if "\r\n" in text:
        edited = edited.replace("\n", "\r\n")
    mark = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    return _save(path, mark + edited.encode("utf-8"), read_digest)


def refuse_changed(path: Path, read_digest: str | None) -> None:
    """Refuse to go on where a file is not as it was read.

    Raises
    ------
    SaveError
        If it was changed, deleted, or is there although it must not be.
    """
    _refuse_changed(path, _bytes_of(path, missing=True), read_digest)


def _save(path: Path, data: bytes, read_digest: str | None) -> str:
    # a link is followed, so that the file it points to is the one replaced
    target = path.resolve()
    _refuse_changed(path, _bytes_of(target, missing=True), read_digest)
    with _part_of(target, data, path) as part:
        # once more, as late as can be: somebody may have saved while we wrote
        _refuse_changed(path, _bytes_of(target, missing=True), read_digest)
        os.replace(part, target)  # noqa: PTH105 - the twin of mkstemp
    return digest_of(data)


@contextlib.contextmanager
def _part_of(target: Path, data: bytes, named: Path) -> Iterator[str]:
    """Write the data beside the target, for the caller to rename.

    An error names the file as the caller did. Afterwards a part that was not renamed is
    removed, and the folder is synced.
    """
    part: str | None = None
    try:
        part = _written_part(target, data)
        yield part
    except OSError as problem:
        raise SaveError(*trouble(problem), str(named)) from problem
    finally:
        if part is not None:  # no more there once it has the target's name
            with contextlib.suppress(OSError):
                Path(part).unlink()
    sync_folder(target.parent)


def _written_part(target: Path, data: bytes) -> str:
    """Name of a file beside the target that holds the data, on the disk for sure."""
    handle, part = tempfile.mkstemp(
        prefix=f".{target.name}.", suffix=".part", dir=target.parent
    )
    try:
        try:
            left = memoryview(data)
            while left:
                left = left[os.write(handle, left) :]
            os.fsync(handle)
        finally:
            os.close(handle)
        Path(part).chmod(_mode(target))
    except BaseException:
        with contextlib.suppress(OSError):
            Path(part).unlink()
        raise
    return part


def _mode(target: Path) -> int:
    """Mode bits of the file, or those a new file gets (mkstemp makes 0600)."""
    try:
        return target.stat().st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return _NEW_FILE_MODE & ~mask


def sync_folder(folder: Path) -> None:
    """Ask the disk to keep the names in a folder, where the system can do that."""
    # by now the new file is in its place; a folder that cannot be synced (Windows,
    # some network disks) must not be reported as a save that failed
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _bytes_of(path: Path, *, missing: bool = False) -> bytes | None:
    try:
        return path.read_bytes()
    except FileNotFoundError as problem:
        if missing:
            return None
        raise SaveError(*trouble(problem), str(path)) from problem
    except OSError as problem:
        raise SaveError(*trouble(problem), str(path)) from problem


def _refuse_changed(path: Path, data: bytes | None, read_digest: str | None) -> None:
    if read_digest is None and data is not None:
        raise SaveError("is there already", "choose another name", str(path))
    if read_digest is not None and data is None:
        what = "was deleted or renamed since it was read"
        raise SaveError(what, "open the site folder again", str(path))
    if data is not None and digest_of(data) != read_digest:
        what = "was changed by somebody else since it was read"
        fix = "open the site folder again, then repeat the change"
        raise SaveError(what, fix, str(path))


def trouble(problem: OSError) -> tuple[str, str]:
    """What went wrong with the disk, and what to do about it."""
    import errno

    why = problem.strerror or str(problem)
    fixes = {
        errno.ENOSPC: "free some space on the disk, then save again",
        errno.EDQUOT: "free some space on the disk, then save again",
        errno.EACCES: "ask for the right to write in this folder",
        errno.EPERM: "ask for the right to write in this folder",
        errno.EROFS: "copy the site folder to a disk that can be written",
        errno.ENOENT: "check that the folder is still there",
    }
    fix = fixes.get(problem.errno or 0, "check the disk, then save again")
    return f"cannot be saved ({why}); what is on disk is as before", fix
