"""Who may come in: what a request says of itself in, a refusal or nothing out.

The page drives the program as the person who started it, so whoever reaches the port
must show that they were given the address: a token that is good once, then a cookie.
Host and origin are held against the address that was bound, since a page elsewhere on
the net can send a browser to 127.0.0.1 under a name of its own.
"""

import hmac
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field

HOST = "127.0.0.1"
TOKEN = "token"  # the part of the address
BYTES_OF_CHANCE = 32

NO_KEY = (
    "This page belongs to whoever was given its address. The address that the "
    "terminal printed is good once; the browser that used it holds a cookie since. "
    "For another browser, stop the server and start it again."
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What a request says of itself."""

    method: str
    path: str
    token: str | None
    cookie: str | None
    headers: Mapping[str, str]

    @property
    def is_websocket(self) -> bool:
        """Whether it asks to be a websocket."""
        return self.headers.get("Upgrade", "").lower() == "websocket"


def _same(given: str, held: str) -> bool:
    # bytes that are no text come as surrogates
    sent = given.encode("utf-8", "surrogatepass")
    return hmac.compare_digest(sent, held.encode())


@dataclass(slots=True)
class Door:
    """The one door of a server; it remembers whether its token was used."""

    port: int
    _token: str = field(
        default_factory=lambda: secrets.token_urlsafe(BYTES_OF_CHANCE), repr=False
    )
    _key: str = field(
        default_factory=lambda: secrets.token_urlsafe(BYTES_OF_CHANCE), repr=False
    )
    _is_spent: bool = False

    @property
    def address(self) -> str:
        """Where the page is once the token is spent."""
        return f"http://{HOST}:{self.port}"

    @property
    def first_address(self) -> str:
        """What is printed: the address with the token."""
        return f"{self.address}/?{TOKEN}={self._token}"

    @property
    def cookie_name(self) -> str:
        """A name of this port's own: browsers share cookies between ports."""
        return f"lowquarter_{self.port}"

    def key_for(self, asked: Asked) -> str | None:
        """The cookie for whoever brings the token first; spends the token."""
        if asked.path != "/" or asked.method != "GET" or asked.token is None:
            return None
        if self._holds_key(asked):
            return self._key  # the same browser came by the same address again
        if self._is_spent or not _same(asked.token, self._token):
            return None
        self._is_spent = True
        return self._key

    def refusal(self, asked: Asked) -> str | None:
        """Why a request is not answered whatever it brings; None if it may be."""
        if asked.headers.get("Host", "") not in self._hosts():
            return f"This page is at {self.address} and answers to no other name."
        if asked.method != "GET":
            return "This page is read; nothing is sent to it this way."
        if asked.is_websocket and asked.headers.get("Origin") != self._origin():
            return f"Only the page at {self.address} may speak to the dashboard."
        return None

    def refusal_without_token(self, asked: Asked) -> str | None:
        """Why a request that brings no token is not answered; None if it is."""
        if asked.headers.get("Sec-Fetch-Site", "none") not in ("none", "same-origin"):
            return f"Another page sent you here; type {self.address} yourself."
        return None if self._holds_key(asked) else NO_KEY

    def _holds_key(self, asked: Asked) -> bool:
        return asked.cookie is not None and _same(asked.cookie, self._key)

    def _hosts(self) -> tuple[str, ...]:
        # browsers leave the usual port out
        named = f"{HOST}:{self.port}"
        return (named, HOST) if self.port == 80 else (named,)

    def _origin(self) -> str:
        return f"http://{HOST}" if self.port == 80 else self.address


def security_headers(address: str) -> dict[str, str]:
    """Headers of every answer: nothing from elsewhere, in no frame, kept nowhere."""
    socket = address.replace("http://", "ws://", 1)
    policy = (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self' 'unsafe-inline'",  # the terminal widget sets its own styles
        "img-src 'self' data:",
        "font-src 'self'",
        f"connect-src 'self' {socket}",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
    return {
        "Content-Security-Policy": "; ".join(policy),
        "Referrer-Policy": "no-referrer",
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Cache-Control": "no-store",
    }
