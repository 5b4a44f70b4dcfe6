"""Who may come in: pages of this very server that know its secret, and nobody else.

The server listens on the loopback alone; yet any page in the browser, and any program on the machine, can
reach it there. So every request must name the secret and the right host, and one that a page makes must come
from a page of this server.
"""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

from verifier.desk import wording

__all__ = ["Gate"]

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)

_HEADERS = [
    (b"content-security-policy", _POLICY.encode()),
    (b"cache-control", b"no-store"),
    (b"referrer-policy", b"no-referrer"),
    (b"x-content-type-options", b"nosniff"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
]


class Gate:
    """Stands before an application and lets in who may come.

    Parameters
    ----------
    app : callable
        The application; it sees paths without the secret.
    port : int
        Where the server listens.
    secret : str
        The first part of every path.
    """

    def __init__(self, app: App, port: int, secret: str) -> None:
        self._app, self._secret = app, secret.encode()
        hosts = [f"127.0.0.1:{port}", f"localhost:{port}"]
        self._hosts = {host.encode() for host in hosts}
        self._origins = {f"http://{host}".encode() for host in hosts}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
        elif not self._may_come(scope):
            await _refuse(scope, send)
        else:
            await self._app(self._without_secret(scope), receive, _with_headers(send))

    def _may_come(self, scope: Scope) -> bool:
        hosts = [value for name, value in scope["headers"] if name == b"host"]
        origins = [value for name, value in scope["headers"] if name == b"origin"]
        if len(hosts) != 1 or hosts[0] not in self._hosts or not self._origins.issuperset(origins):
            return False
        if scope["type"] == "websocket" and not origins:  # every browser names it
            return False
        named = scope["path"].encode("utf-8", "replace").split(b"/")
        return len(named) > 1 and secrets.compare_digest(named[1], self._secret)

    def _without_secret(self, scope: Scope) -> Scope:
        path = "/" + scope["path"].split("/", 2)[2] if scope["path"].count("/") > 1 else "/"
        return {**scope, "path": path, "root_path": ""}


def _with_headers(send: Send) -> Send:
    async def sending(message: MutableMapping[str, Any]) -> None:
        if message["type"] == "http.response.start":
            own = {name for name, _ in message["headers"]}
            added = [(name, value) for name, value in _HEADERS if name not in own]
            message = {**message, "headers": [*message["headers"], *added]}
        await send(message)

    return sending


async def _refuse(scope: Scope, send: Send) -> None:
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 1008})
        return
    await send({"type": "http.response.start", "status": 403, "headers": [(b"content-type", b"text/plain")]})
    await send({"type": "http.response.body", "body": wording.NO_WAY_IN.encode()})
