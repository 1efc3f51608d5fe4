"""Files that a page takes away: whole, or not at all."""

import asyncio
import contextlib
from urllib.parse import quote

from textual_serve.download_manager import (
    DOWNLOAD_CHUNK_SIZE,
    Download,
    DownloadManager,
)

PATIENCE_S = 30.0  # with a process that plans a week meanwhile


class CutShortError(Exception):
    """The process of a tab stopped in the middle of a file."""


class WholeDownloads(DownloadManager):
    """Downloads that never pass part of a file off as the whole."""

    def __init__(self) -> None:
        super().__init__()
        self._asked: set[str] = set()

    async def whole(self, delivery_key: str) -> bytes:
        """Fetch all of a file from the process that delivers it.

        Raises
        ------
        KeyError
            If there is no such file, or it was asked for before: its process hands
            each part out once, so that two would get a part each.
        CutShortError
            If a part did not come in time, or its tab was closed.
        """
        held = self._active_downloads[delivery_key]
        if delivery_key in self._asked:
            raise KeyError(delivery_key)
        self._asked.add(delivery_key)
        parts: list[bytes] = []
        try:
            while part := await _next_part(held):
                parts.append(part)
        finally:
            del self._active_downloads[delivery_key]
        return b"".join(parts)


async def _next_part(held: Download) -> bytes:
    """The next part of a file; empty when it is whole."""
    ask: dict[str, str | int | bool | None] = {
        "type": "deliver_chunk_request",
        "key": held.delivery_key,
        "size": DOWNLOAD_CHUNK_SIZE,
        "name": held.name,
    }
    part: bytes | None = None
    if await held.app_service.send_meta(ask):
        with contextlib.suppress(TimeoutError):
            part = await asyncio.wait_for(held.incoming_chunks.get(), PATIENCE_S)
    if part is None:
        raise CutShortError(held.delivery_key)
    return part


def attachment(file_name: str) -> str:
    """The header that gives a file its name, in any script, and has it saved."""
    plain = "".join(
        one if one.isascii() and one.isprintable() and one not in '"\\%' else "_"
        for one in file_name
    )
    return f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(file_name, '')}"
