"""The server of the desk: one page, its parts, and the line on which page and desk talk."""

from __future__ import annotations

import asyncio
import contextlib
import json
import logging
import os
import secrets
import socket
from collections.abc import AsyncIterator, Callable
from functools import cache
from importlib.resources import files
from typing import Any

import uvicorn
from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route, WebSocketRoute
from starlette.websockets import WebSocket, WebSocketDisconnect

from verifier.desk import wording
from verifier.desk.answers.papers import PAPERS
from verifier.desk.answers.towards import CHOICES
from verifier.desk.benches import Bench
from verifier.desk.desk import Desk
from verifier.desk.gate import Gate
from verifier.desk.pens import pens_by_group
from verifier.desk.wishes import RefusedError, wish_in
from verifier.pages.drawing.svg import shown

__all__ = ["address_of", "listening_on", "serve"]

LOOPBACK = "127.0.0.1"

_PORTS = range(20_000, 32_000)
"""None of them is one that systems give out by themselves."""

_MOST_PAGES = 16
_MOST_CONNECTIONS = 64
_MOST_BYTES = 1 << 16
"""Of a message from a page."""

_MOST_WAITING = 400
"""Messages that a page has not taken yet; one that takes none is let go."""

_SIZES = (4, 5, 6, 7, 8, 9, 10, 12, 16, 25)
"""Of new grids that the page offers."""

_OF_PAPERS = {"content-security-policy": "frame-ancestors 'none'"}

_SCRIPTS = (
    "main.js",
    "kept.js",
    "line.js",
    "board.js",
    "standing.js",
    "rules.js",
    "parts.js",
    "runs.js",
    "stage.js",
)

_PARTS = {
    "colours.css": ("verifier.pages", "text/css"),
    "grid.css": ("verifier.pages", "text/css"),
    "live.css": ("verifier.desk", "text/css"),
    **dict.fromkeys(_SCRIPTS, ("verifier.desk", "text/javascript")),
}


def listening_on(port: int | None, key: str) -> socket.socket:
    """Return a socket that listens on this machine alone.

    Parameters
    ----------
    port : int or None
        Where; 0 for any port that is free. None for one that depends on the file, if that is free: what a
        browser keeps for a page, it gives back to one with the same port.
    key : str
        Tells the file from others, in hexadecimal figures.

    Raises
    ------
    OSError
        If the port is taken.
    """
    if port is None:
        with contextlib.suppress(OSError):
            return _bound_to(_PORTS[int(key, 16) % len(_PORTS)])
    return _bound_to(port or 0)


def _bound_to(port: int) -> socket.socket:
    bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name == "posix":  # elsewhere it would take a port from who has it
        bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((LOOPBACK, port))
    except OSError:
        bound.close()
        raise
    bound.listen()  # now, so that whoever reads the address finds somebody there
    return bound


def address_of(bound: socket.socket, secret: str) -> str:
    """Return the address of the page."""
    return f"http://{LOOPBACK}:{bound.getsockname()[1]}/{secret}/"


def new_secret() -> str:
    """Return what nobody can guess."""
    return secrets.token_urlsafe(24)


def serve(desk: Desk, writing: Bench, bound: socket.socket, secret: str, started: Callable[[], None]) -> None:
    """Serve the page of a desk until the process is told to end.

    Parameters
    ----------
    desk : Desk
        The desk.
    writing : Bench
        Where what can be printed or kept is made.
    bound : socket
        From `listening_on`.
    secret : str
        The first part of every path.
    started : callable
        Called when the server answers.
    """
    app = Gate(_application(desk, writing, started), bound.getsockname()[1], secret)
    config = uvicorn.Config(
        app,
        log_level="error",
        access_log=False,
        ws="websockets-sansio",
        ws_max_size=_MOST_BYTES,
        limit_concurrency=_MOST_CONNECTIONS,
        timeout_graceful_shutdown=1,
        server_header=False,
    )
    logging.getLogger("asyncio").setLevel(logging.ERROR)  # a page that goes amid a message is no news
    asyncio.run(uvicorn.Server(config).serve(sockets=[bound]))


def _application(desk: Desk, writing: Bench, started: Callable[[], None]) -> Starlette:
    @contextlib.asynccontextmanager
    async def living(_: Starlette) -> AsyncIterator[None]:
        watching = asyncio.create_task(desk.watch())
        asyncio.get_running_loop().call_soon(started)
        yield
        watching.cancel()
        desk.close()  # here and not after the server: it ends by the signal that it got

    async def live(line: WebSocket) -> None:
        await _talk(desk, line)

    one_at_a_time = asyncio.Lock()

    async def paper(request: Request) -> Response:
        async with one_at_a_time:  # the next question would end the one before
            return await _paper(desk, writing, request.url.path.removeprefix("/"))

    papers = [Route(f"/{name}", paper) for name in PAPERS]
    return Starlette(
        routes=[Route("/", _page), *papers, Route("/{part}", _part), WebSocketRoute("/live", live)],
        lifespan=living,
    )


async def _page(_: Request) -> Response:
    return HTMLResponse(_page_text())


@cache
def _page_text() -> str:
    environment = Environment(
        loader=PackageLoader("verifier.desk"),
        autoescape=True,
        finalize=shown,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("live.html.j2").render(
        groups=pens_by_group(), sizes=_SIZES, choices=CHOICES
    )


async def _part(request: Request) -> Response:
    name = request.path_params["part"]
    if name not in _PARTS:
        return Response(status_code=404)
    package, kind = _PARTS[name]
    return Response(files(package).joinpath("templates", name).read_text(encoding="utf-8"), media_type=kind)


async def _paper(desk: Desk, writing: Bench, kind: str) -> Response:
    """Return something to print or to keep, made in a process of its own."""
    loop = asyncio.get_running_loop()
    made: asyncio.Future[bytes | None] = loop.create_future()

    def settle(beat: Any) -> None:
        if not made.done():
            made.set_result(beat and beat.paper)

    def hear(beat: object) -> None:
        loop.call_soon_threadsafe(settle, beat)

    writing.ask("paper", (desk.puzzle, desk.style, kind), hear, lambda: hear(None))
    written = await made
    if written is None:
        return Response(wording.NO_PAPER, status_code=503, media_type="text/plain")
    # a page among them has a policy of its own in its head, which lets in its own style alone
    return Response(written, media_type=PAPERS[kind].media, headers=_OF_PAPERS)


async def _talk(desk: Desk, line: WebSocket) -> None:
    """Tell a page what there is, and do what it wants, until it goes."""
    await line.accept()
    if desk.watched_by >= _MOST_PAGES:
        await line.send_text(_refusal(wording.TOO_MANY_PAGES))
        await line.close(1013)
        return
    waiting: asyncio.Queue[dict[str, Any]] = asyncio.Queue(_MOST_WAITING)

    def page(told: dict[str, Any]) -> None:
        if waiting.full():
            desk.leave(page)
        else:
            waiting.put_nowait(told)

    async def tell() -> None:
        while True:
            await line.send_text(json.dumps(await waiting.get()))

    telling = asyncio.create_task(tell())
    desk.join(page)
    try:
        while True:
            _do(desk, await line.receive_text(), page)
            await asyncio.sleep(0)  # a flood of wishes must not keep answers, other pages and the end waiting
    except (WebSocketDisconnect, RuntimeError, KeyError):
        pass
    finally:
        desk.leave(page)
        telling.cancel()


def _do(desk: Desk, text: str, page: Callable[[dict[str, Any]], None]) -> None:
    try:
        desk.do(wish_in(text), page)
    except RefusedError as error:
        page({"kind": "refused", "says": str(error)})


def _refusal(says: str) -> str:
    return json.dumps({"kind": "refused", "says": says})
