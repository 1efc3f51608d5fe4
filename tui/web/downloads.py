"""Files that a page takes away: whole, or not at all."""

import contextlib
from urllib.parse import quote

from textual_serve.download_manager import DownloadManager


class CutShortError(Exception):
    """The process of a tab stopped in the middle of a file."""


class WholeDownloads(DownloadManager):
    """Downloads that never pass part of a file off as the whole."""

    def __init__(self) -> None:
        super().__init__()
        self._asked: set[str] = set()
        self._ended: set[str] = set()

    async def chunk_received(self, delivery_key: str, chunk: bytes | str) -> None:
        """Keep a part; an empty one says that the file is whole."""
        if not chunk:
            self._ended.add(delivery_key)
        await super().chunk_received(delivery_key, chunk)

    async def whole(self, delivery_key: str) -> bytes:
        """Fetch all of a file from the process that delivers it.

        Raises
        ------
        KeyError
            If there is no such file, or it was asked for before: its process hands
            each part out once, so that two would get a part each.
        CutShortError
            If its last part did not come, or its tab was closed.
        """
        if delivery_key not in self._active_downloads or delivery_key in self._asked:
            raise KeyError(delivery_key)
        self._asked.add(delivery_key)
        parts: list[bytes] = []
        # the library counts a part that did not come as one that did, and fails
        with contextlib.suppress(ValueError):
            parts.extend([part async for part in self.download(delivery_key)])
        if delivery_key not in self._ended:
            raise CutShortError(delivery_key)
        return b"".join(parts)


def attachment(file_name: str) -> str:
    """The header that gives a file its name, in any script, and has it saved."""
    plain = "".join(
        one if one.isascii() and one.isprintable() and one not in '"\\%' else "_"
        for one in file_name
    )
    return f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(file_name, '')}"
