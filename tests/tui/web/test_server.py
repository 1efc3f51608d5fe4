"""The server over plain HTTP and its websocket, with a small app behind it."""

import asyncio
import contextlib
import socket

import aiohttp
import pytest

from tests.tui.web.served import (
    Visitor,
    is_gone,
    let_in,
    process_of,
    server_of,
    told,
)
from tests.tui.web.small_app import LONG_TEXT
from tui.web.server import ServeError, listening

PATHS = ("/", "/static/js/textual.js", "/own/page.js", "/ws", "/download/1", "/none")


async def test_every_path_is_closed_to_whoever_has_no_key() -> None:
    async with server_of() as server, Visitor(server.door.address) as stranger:
        assert {await stranger.status(path) for path in PATHS} == {403}


async def test_the_first_address_leads_to_the_page_without_its_token() -> None:
    async with (
        server_of() as server,
        Visitor(server.door.address) as one,
        one.session.get(server.door.first_address) as answer,
    ):
        assert str(answer.url) == server.door.address + "/"
        assert "a small app" in await answer.text()


async def test_a_folder_is_no_part_of_the_page_whatever_its_name() -> None:
    async with server_of() as server:
        server.title = "<script>alert(1)</script>"
        async with (
            Visitor(server.door.address) as one,
            one.session.get(server.door.first_address) as answer,
        ):
            assert "<script>alert" not in await answer.text()


async def test_the_cookie_is_kept_from_scripts_and_from_other_sites() -> None:
    async with (
        server_of() as server,
        Visitor(server.door.address) as one,
        one.session.get(server.door.first_address, allow_redirects=False) as answer,
    ):
        cookie = answer.cookies[server.door.cookie_name]
        assert (cookie["httponly"], cookie["samesite"]) == (True, "Strict")


async def test_the_first_address_is_good_for_one() -> None:
    async with (
        server_of() as server,
        let_in(server.door.first_address),
        Visitor(server.door.first_address) as second,
    ):
        assert await second.status("") == 403


async def test_whoever_holds_the_key_gets_the_page_and_its_parts() -> None:
    async with server_of() as server, let_in(server.door.first_address) as one:
        parts = ("/", "/static/js/textual.js", "/own/page.js", "/own/page.css")
        assert {await one.status(path) for path in parts} == {200}


async def test_the_key_opens_no_page_under_another_name() -> None:
    async with server_of() as server, let_in(server.door.first_address) as one:
        assert await one.status("/", Host="a.example") == 403


@pytest.mark.parametrize("path", ["/", "/none"])
async def test_every_answer_carries_the_headers(path: str) -> None:
    async with (
        server_of() as server,
        let_in(server.door.first_address) as one,
        one.session.get(server.door.address + path) as answer,
    ):
        assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "no-referrer"


async def test_a_websocket_of_another_page_is_refused_with_the_key_too() -> None:
    async with server_of() as server, let_in(server.door.first_address) as one:
        with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
            await one.socket(origin="http://a.example")
        assert refused.value.status == 403


async def test_the_app_is_driven_by_the_page_and_gives_it_its_files() -> None:
    async with server_of() as server, let_in(server.door.first_address) as one:
        page = await one.socket()
        process = await process_of(page)
        await page.send_json(["stdin", "t"])
        key = await told(page, "deliver_file_start")
        async with one.session.get(f"{one.address}/download/{key}") as answer:
            assert await answer.text() == LONG_TEXT
            assert answer.headers["Content-Type"] == "text/csv; charset=utf-8"
            assert "z%C3%A4hlung" in answer.headers["Content-Disposition"]
        await page.send_json(["stdin", "b"])
        key = await told(page, "deliver_file_start")
        async with one.session.get(f"{one.address}/download/{key}") as answer:
            assert await answer.read() == bytes(range(256))
        assert await one.status(f"/download/{key}") == 404  # taken once
        await page.close()
        assert await is_gone(process)


async def test_a_page_whose_app_breaks_off_hears_of_it() -> None:
    async with server_of() as server, let_in(server.door.first_address) as one:
        page = await one.socket()
        await process_of(page)
        await page.send_json(["stdin", "x"])
        async for _ in page:
            pass
        assert page.closed


async def test_what_is_no_message_closes_the_page(
    caplog: pytest.LogCaptureFixture,
) -> None:
    async with server_of() as server, let_in(server.door.first_address) as one:
        for text in ("no message", "{}", "[]", '["resize", 1]'):
            page = await one.socket()
            await page.send_str(text)
            async for _ in page:
                pass
            assert page.closed
    assert "Error handling request" not in caplog.text


async def test_a_server_that_stops_closes_its_pages_and_ends_their_processes() -> None:
    async with contextlib.AsyncExitStack() as visit:
        async with server_of() as server:
            one = await visit.enter_async_context(let_in(server.door.first_address))
            pages = [await one.socket() for _ in range(2)]
            processes = await asyncio.gather(*map(process_of, pages))
            closings = [asyncio.create_task(_last_word(page)) for page in pages]
        assert [await is_gone(process) for process in processes] == [True, True]
        assert set(await asyncio.gather(*closings)) == {True}


async def _last_word(page: aiohttp.ClientWebSocketResponse) -> bool:
    async for _ in page:
        pass
    return page.closed


def test_nobody_outside_this_machine_can_reach_it() -> None:
    with contextlib.closing(listening(0)) as bound:
        assert bound.getsockname()[0] == "127.0.0.1"


def test_a_port_that_is_taken_is_named_with_the_way_out() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(ServeError, match=rf"port {port} .*in use.*--port"):
            listening(port)
