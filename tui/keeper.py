"""Unsaved edits of a folder in; the file that keeps them, or those of before, out."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from scheduler.errors import SaveError

if TYPE_CHECKING:
    from scheduler.files.edit_journal import EditJournal
    from scheduler.files.folder_edits import FolderEdits


@dataclass(slots=True)
class Keeper:
    """Keeps unsaved edits in a file beside the site, and finds those of before.

    Attributes
    ----------
    folder : Path
        The site folder.
    before : FolderEdits or None
        Edits of before that nobody has decided on yet.
    is_edited_elsewhere : bool
        Whether another dashboard that is open had unsaved edits on looking.
    """

    folder: Path
    before: "FolderEdits | None" = None
    is_edited_elsewhere: bool = False
    _journal: "EditJournal | None" = None

    def look(self) -> None:
        """Look for edits of before; what was saved before a kill is none."""
        from scheduler.files.edit_journal import is_edited_elsewhere, kept_edits

        if self._journal is not None:
            return  # looked at already: what is held now is our own
        self.is_edited_elsewhere = is_edited_elsewhere(self.folder)
        found = kept_edits(self.folder)
        if found is None:
            return
        edits, self._journal = found
        if edits.changed:
            self.before = edits
        else:
            self.keep(edits)

    def keep(self, given: "FolderEdits") -> str:
        """Keep the edits, or remove the file when there is none; why not, if so."""
        from scheduler.files.edit_journal import journal_of

        if self._journal is None or self._journal.digest is None:
            # its name may have been taken since, by another dashboard
            self._journal = journal_of(self.folder)
        try:
            self._journal.keep(given)
        except SaveError as problem:
            return f"The edits are not kept against a crash: {problem}"
        return ""

    def let_go(self) -> None:
        """Leave what is kept to whoever opens the folder next."""
        if self._journal is not None:
            self._journal.let_go()

    def drop(self) -> None:
        """Remove what was kept of before."""
        if self.before is not None:
            self.keep(self.before.with_texts({}))
        self.before = None
