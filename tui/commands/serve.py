"""The command that shows the dashboard in a browser of this machine."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from scheduler.errors import SiteFolderError
from tui.commands import edge

if TYPE_CHECKING:
    import socket
    from pathlib import Path

    from tui.web.server import DashboardServer

CAUTION = (
    "Whoever opens this address first drives the program as you: do not hand it on.\n"
    "It is good once, on this machine only. From another machine, tunnel to it:\n"
    "  ssh -L {port}:127.0.0.1:{port} THIS_MACHINE\n"
    "and open the same address there. Ctrl+C here ends the page and its processes."
)


@click.command()
@edge.site_argument
@edge.units_option
@click.option(
    "--port",
    type=click.IntRange(1, 65535),
    help="Port on 127.0.0.1 (default: a free one).",
)
@click.option("--open", "open_browser", is_flag=True, help="Open the browser as well.")
@edge.guarded
def serve(site: Path, units: str | None, port: int | None, open_browser: bool) -> None:
    """Show the dashboard of a site in a browser of this machine.

    Prints an address that is good once; the browser that opens it is let in and no
    other. Nothing is fetched from outside, and nobody outside can reach the page.
    """
    import asyncio
    import contextlib

    if not site.is_dir():
        what = "this is no folder" if site.exists() else "there is no such folder"
        raise SiteFolderError(what, "make one with `lowquarter new`", str(site))
    server, bound = _server(site, units, port)
    edge.say(CAUTION.format(port=server.port))
    edge.show(server.door.first_address)
    if open_browser:
        _open_beside(server.door.first_address)
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(server.run(bound))


def _server(
    site: Path, units: str | None, port: int | None
) -> tuple[DashboardServer, socket.socket]:
    from scheduler.errors import SchedulerError

    try:
        from tui.web.server import DashboardServer, listening
    except ModuleNotFoundError as problem:
        raise SchedulerError(
            f"the dashboard in a browser needs the extra web: no {problem.name}",
            "get it with: python -m pip install 'lowquarter[web]'; `lowquarter open` "
            "shows the same in this terminal",
        ) from problem
    from tui.web.inside import command

    bound = listening(port or 0)
    title = f"lowquarter: {site.resolve().name}"
    return DashboardServer(command(site, units), bound.getsockname()[1], title), bound


def _open_beside(address: str) -> None:
    """Open a browser; in a thread, since some run until they are left."""
    import threading
    import webbrowser

    def open_it() -> None:
        if not webbrowser.open(address):
            edge.say("lowquarter: no browser was found; open the address yourself")

    threading.Thread(target=open_it, daemon=True).start()
