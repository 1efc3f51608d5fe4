"""The dashboard of the demo site in a real browser, without a window."""

import asyncio
import re
import sys
from pathlib import Path

import pytest

from tests.tui.web import chromium

pytestmark = pytest.mark.skipif(
    chromium.PROGRAM is None, reason="there is no Chromium on this machine"
)


async def test_the_dashboard_is_driven_and_gives_files_in_a_browser(
    own_demo: Path, tmp_path: Path
) -> None:
    server = await asyncio.create_subprocess_exec(
        sys.executable,
        "-c",
        "from tui.cli import main; main()",
        "serve",
        str(own_demo),
        stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.DEVNULL,
    )
    try:
        assert server.stdout is not None
        first_address = (await server.stdout.readline()).decode().strip()
        address = first_address.partition("/?")[0]
        async with chromium.tab(tmp_path / "browser") as tab:
            await tab.do("Page.navigate", url=first_address)

            # the zones are on the screen, in our own font, at an address without token
            assert await tab.drawn("Liner beds, junipers")
            assert await tab.value("location.href") == address + "/"
            assert await tab.value("document.fonts.check('16px \"Roboto Mono\"')")
            assert await tab.value("document.title") == f"lowquarter: {own_demo.name}"
            await tab.settled()
            assert '["focus"]' in tab.said  # without a click
            zones = await tab.picture()

            # a key turns the page, which is drawn anew
            tab.forget()
            await tab.press("c")
            assert await tab.drawn("tests and wind")
            assert await tab.changed_from(zones)

            # a file of the dashboard arrives through the page
            await tab.press("p", ctrl=True)
            assert await tab.drawn("Search for commands")
            for letter in "screenshot":
                await tab.press(letter)
            assert await tab.drawn("Save an SVG")
            await tab.press("Enter", code=13)
            assert (await tab.taken()).startswith(b"<svg")

            # and all of that came from this one address
            outside = [
                url
                for url in tab.asked_for
                if not re.match(rf"(http|ws)://{address[7:]}/", url)
            ]
            assert outside == []
            assert tab.complaints == []
    finally:
        server.terminate()
        assert await asyncio.wait_for(server.wait(), 20) == 0
