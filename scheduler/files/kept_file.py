"""A path in; a file beside a site that keeps what is typed until it is saved, out.

While the program that keeps it is open it holds a lock beside it, so that another one
on the same folder can tell what is being typed from what a crash has left.
"""

from dataclasses import dataclass, field
from pathlib import Path
from threading import RLock

from scheduler.errors import SaveError
from scheduler.files.file_lock import Holding, held, is_held
from scheduler.files.save import refuse_changed, save_text, trouble


@dataclass(slots=True)
class KeptFile:
    """One such file; one thread at a time.

    Attributes
    ----------
    path : Path
        The file.
    digest : str or None
        Fingerprint of what we wrote to it last, or went on with; None before.
    """

    path: Path
    digest: str | None = None
    _held: Holding | None = field(default=None, repr=False)
    _lock: RLock = field(default_factory=RLock, repr=False)

    def keep_text(self, text: str | None) -> None:
        """Write a text, as a whole or not at all; for None, remove the file.

        Raises
        ------
        SaveError
            If somebody else writes that file, or the disk refuses.
        """
        with self._lock:
            if text is not None:
                self._hold("make the change once more")
                try:
                    self.digest = save_text(self.path, text, read_digest=self.digest)
                except SaveError:
                    if self.digest is None:  # what is there was left by a crash
                        self._let_go()
                    raise
            elif self.digest is not None:
                self._remove()
                self.digest = None
                self._let_go()

    def take(self) -> None:
        """Keep other dashboards from the file, which is there.

        Raises
        ------
        SaveError
            If one that is open has it.
        """
        with self._lock:
            self._hold("save or drop it there")

    def let_go(self) -> None:
        """Leave the file to whoever opens the folder next."""
        with self._lock:
            self._let_go()

    def _hold(self, fix: str) -> None:
        """Show other dashboards that this one lives, where the disk knows locks."""
        if self._held is not None:
            return
        try:
            self._held = held(_lock_of(self.path))
        except OSError:
            return
        if self._held is None:
            raise SaveError("is kept by another dashboard", fix, str(self.path))

    def _let_go(self) -> None:
        if self._held is not None:
            self._held.release()
            self._held = None

    def _remove(self) -> None:
        if not self.path.exists():
            return
        refuse_changed(self.path, self.digest)
        try:
            self.path.unlink(missing_ok=True)
        except OSError as problem:
            raise SaveError(*trouble(problem), str(self.path)) from problem


def is_kept(path: Path) -> bool:
    """Whether anybody who is open keeps such a file; ask before holding it oneself."""
    return is_held(_lock_of(path))


def _lock_of(path: Path) -> Path:
    return path.with_suffix(".lock")
