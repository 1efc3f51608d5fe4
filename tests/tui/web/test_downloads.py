"""Files come whole or not at all, under their own names."""

import asyncio
from urllib.parse import unquote

import pytest

from tui.web.downloads import CutShortError, WholeDownloads, attachment


class Sender:
    """The process of a tab that answers each request with its next part."""

    app_service_id = "sender"

    def __init__(self, held: WholeDownloads, parts: list[bytes | str | None]) -> None:
        self.held, self.parts = held, parts

    async def send_meta(self, about: dict[str, object]) -> bool:
        part = self.parts.pop(0) if self.parts else None
        if part is None:
            await self.held.cancel_app_downloads(self.app_service_id)
        else:
            await self.held.chunk_received(str(about["key"]), part)
        return True


async def held_by(*parts: bytes | str | None) -> WholeDownloads:
    held = WholeDownloads()
    await held.create_download(
        app_service=Sender(held, list(parts)),  # type: ignore[arg-type]  # its part of one
        delivery_key="k",
        file_name="a.csv",
        open_method="download",
        mime_type="text/csv",
        encoding="utf-8",
    )
    return held


async def taken(*parts: bytes | str | None) -> bytes:
    return await (await held_by(*parts)).whole("k")


async def test_parts_are_put_together() -> None:
    assert await taken(b"ab", b"cd", b"") == b"abcd"


async def test_text_is_written_in_its_encoding() -> None:
    assert await taken("zähl", "") == "zähl".encode()


async def test_an_empty_file_is_whole() -> None:
    assert await taken(b"") == b""


async def test_a_file_whose_tab_was_closed_is_not_passed_off_as_whole() -> None:
    with pytest.raises(CutShortError):
        await taken(b"ab", None)


async def test_a_file_whose_process_falls_silent_is_not_passed_off_as_whole(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("tui.web.downloads.PATIENCE_S", 0.01)

    async def silent(*_: object) -> None:
        await asyncio.sleep(0)

    monkeypatch.setattr(WholeDownloads, "cancel_app_downloads", silent)
    with pytest.raises(CutShortError):
        await taken(b"ab", None)


async def test_the_rest_of_a_file_that_was_cut_short_is_not_passed_off_as_whole() -> (
    None
):
    held = await held_by(b"ab", None, b"cd", b"")
    with pytest.raises(CutShortError):
        await held.whole("k")
    with pytest.raises(KeyError):
        await held.whole("k")


async def test_two_who_ask_for_one_file_do_not_get_a_part_each() -> None:
    held = await held_by(b"ab", b"cd", b"")
    first, second = await asyncio.gather(
        held.whole("k"), held.whole("k"), return_exceptions=True
    )
    assert first == b"abcd"
    assert isinstance(second, KeyError)


@pytest.mark.parametrize(
    "name", ["week.csv", 'zählung "a"; b.csv', "週.pdf", "a\r\nb: c"]
)
def test_a_name_of_any_letters_comes_through(name: str) -> None:
    header = attachment(name)
    assert unquote(header.partition("UTF-8''")[2]) == name


@pytest.mark.parametrize("name", ['a"; b', "a\r\nSet-Cookie: b", "ä", "a\\"])
def test_no_name_breaks_out_of_its_header(name: str) -> None:
    inside = attachment(name).partition('"')[2].partition('"; filename*=')[0]
    assert inside.isascii()
    assert inside.isprintable()
    assert '"' not in inside
