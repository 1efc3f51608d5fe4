"""A path in; a lock on it that one process holds, let go when it ends, out.

The system lets go of a lock when the process that holds it ends, however that comes
about; so a lock tells a living program from a file that one left behind.
"""

import contextlib
import errno
import os
import sys
import time
import weakref
from pathlib import Path
from typing import BinaryIO

# what the system says where another holds the lock
TAKEN = (errno.EACCES, errno.EAGAIN, errno.EDEADLK)
TRIES, PAUSE_S = 5, 0.02

if sys.platform == "win32":  # pragma: no cover - the other half of the world
    import msvcrt

    # far behind the end, so that nobody is kept from reading
    _AT = 0x7FFFFFF0

    def take(file: BinaryIO) -> None:
        """Lock an open file, or raise OSError at once."""
        _locking(file, msvcrt.LK_NBLCK)

    def let_go(file: BinaryIO) -> None:
        """Unlock an open file."""
        _locking(file, msvcrt.LK_UNLCK)

    def _locking(file: BinaryIO, how: int) -> None:
        before = file.tell()
        file.seek(_AT)
        try:
            msvcrt.locking(file.fileno(), how, 1)
        finally:
            file.seek(before)

else:
    import fcntl

    def take(file: BinaryIO) -> None:
        """Lock an open file, or raise OSError at once."""
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)

    def let_go(file: BinaryIO) -> None:
        """Unlock an open file."""
        fcntl.flock(file.fileno(), fcntl.LOCK_UN)


class Holding:
    """A small file beside another that one process keeps locked.

    It is let go when the process ends, when nobody holds this object any more, or on
    request; the file goes with it unless the process was killed.
    """

    def __init__(self, path: Path, file: BinaryIO) -> None:
        self._end = weakref.finalize(self, _released, path, file)

    def release(self) -> None:
        """Let the lock go."""
        self._end()


def held(path: Path) -> Holding | None:
    """Hold a lock file, which is made if it is not there.

    Parameters
    ----------
    path : Path
        The lock file; nothing is ever written to it.

    Returns
    -------
    Holding or None
        None while another process, or another part of this one, holds it.

    Raises
    ------
    OSError
        If the folder cannot be written, or its disk knows no locks.
    """
    for attempt in range(TRIES):
        file = _opened(path)
        try:
            take(file)
        except OSError as problem:
            file.close()
            if problem.errno in TAKEN:
                if attempt:
                    return None
                time.sleep(PAUSE_S)  # somebody may only have looked whether it is held
                continue
            with contextlib.suppress(OSError):  # of no use on such a disk
                path.unlink()
            raise
        # the one before may have removed it while we waited
        if is_there_still(path, file):
            return Holding(path, file)
        file.close()
    raise OSError(errno.ENOLCK, "names of this disk do not hold still", str(path))


def _opened(path: Path) -> BinaryIO:
    """The lock file, made where it is not there; somebody else's is only read."""
    try:
        return path.open("ab", buffering=0)
    except PermissionError:
        return path.open("rb", buffering=0)


def is_held(path: Path) -> bool:
    """Whether anybody holds a lock file; False where the disk knows no locks."""
    if not path.exists():
        return False
    try:
        found = held(path)
    except OSError:
        return False
    if found is not None:
        found.release()
    return found is None


def is_there_still(path: Path, file: BinaryIO) -> bool:
    """Whether an open file still has its name."""
    try:
        return os.path.samestat(path.stat(), os.fstat(file.fileno()))
    except OSError:
        return False


def _released(path: Path, file: BinaryIO) -> None:
    # POSIX: the name goes while the lock is held, so that nobody else's is removed
    with contextlib.suppress(OSError):
        path.unlink()
    file.close()
    with contextlib.suppress(OSError):  # Windows removes no file that is open
        if sys.platform == "win32":  # pragma: no cover - the other half of the world
            path.unlink(missing_ok=True)
