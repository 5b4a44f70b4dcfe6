"""Who may not come in, and what must not come through: attacks on a desk that is open."""

from __future__ import annotations

import http.client
import json
import signal
import socket
import time
from collections.abc import Iterator
from contextlib import AbstractContextManager, ExitStack
from pathlib import Path
from urllib.parse import urlsplit

import psutil
import pytest
from playwright.sync_api import Browser, expect
from websockets.exceptions import ConnectionClosed, InvalidStatus
from websockets.sync.client import ClientConnection, connect
from websockets.typing import Origin

from tests.desk.opening import SMALL, Opened, looking_at, opened, standing, version, written


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    folder = tmp_path_factory.mktemp("desk")
    (folder / "secret.yaml").write_text("nobody must read this")
    with opened(folder / "a.yaml", SMALL) as there:
        yield there


def answer(desk: Opened, path: str, **headers: str) -> int:
    line = http.client.HTTPConnection("127.0.0.1", desk.port, timeout=10)
    line.request("GET", path, headers=headers)
    status = line.getresponse().status
    line.close()
    return status


def line_to(
    desk: Opened, origin: str | None = "", secret: str | None = None
) -> AbstractContextManager[ClientConnection]:
    place = urlsplit(desk.address)
    path = place.path if secret is None else f"/{secret}/"
    own = f"http://{place.netloc}" if origin == "" else origin
    line: AbstractContextManager[ClientConnection] = connect(
        f"ws://{place.netloc}{path}live", origin=None if own is None else Origin(own), open_timeout=10
    )
    return line


def listen(line: ClientConnection) -> None:
    while True:
        line.recv(timeout=10)


def lives(process: psutil.Process) -> bool:
    try:
        return process.status() != psutil.STATUS_ZOMBIE  # where nobody collects orphans
    except psutil.NoSuchProcess:
        return False


def path_of(desk: Opened) -> str:
    return urlsplit(desk.address).path


def test_it_listens_on_this_machine_alone(desk: Opened) -> None:
    listening = {
        c.laddr.ip for c in psutil.Process(desk.process.pid).net_connections() if c.status == "LISTEN"
    }
    assert listening == {"127.0.0.1"}


def test_with_the_secret_there_is_a_page(desk: Opened) -> None:
    assert answer(desk, path_of(desk)) == 200


@pytest.mark.parametrize("path", ["/", "/live", "/main.js", "/wrong/", "/%00/", "//", "/wrong/live"])
def test_without_the_secret_there_is_none(desk: Opened, path: str) -> None:
    assert answer(desk, path) == 403


def test_another_host_is_refused(desk: Opened) -> None:
    assert answer(desk, path_of(desk), Host="evil.example") == 403
    assert answer(desk, path_of(desk), Host=f"evil.example:{desk.port}") == 403


def test_another_origin_is_refused(desk: Opened) -> None:
    assert answer(desk, path_of(desk), Origin="http://evil.example") == 403
    assert answer(desk, path_of(desk), Origin="null") == 403


@pytest.mark.parametrize("origin", ["http://evil.example", "null", None])
def test_the_line_is_refused_to_another_origin(desk: Opened, origin: str | None) -> None:
    with pytest.raises(InvalidStatus), line_to(desk, origin):
        pass


def test_the_line_is_refused_without_the_secret(desk: Opened) -> None:
    with pytest.raises(InvalidStatus), line_to(desk, secret="wrong"):
        pass


NAMES = ["../secret.yaml", "%2e%2e/secret.yaml", "a.yaml", "..%2fsecret.yaml", "secret.yaml", "live.html.j2"]


@pytest.mark.parametrize("name", NAMES)
def test_no_file_is_served_whatever_its_path(desk: Opened, name: str) -> None:
    assert answer(desk, path_of(desk) + name) in (400, 403, 404)


def test_a_huge_message_ends_the_line_and_nothing_else(desk: Opened) -> None:
    with line_to(desk) as line:
        line.send("x" * 10_000_000)
        with pytest.raises(ConnectionClosed):
            listen(line)
    assert answer(desk, path_of(desk)) == 200


def test_a_message_that_is_none_is_refused_and_the_line_stays(desk: Opened) -> None:
    with line_to(desk) as line:
        line.send("[" * 50_000)
        while '"refused"' not in (said := line.recv(timeout=10)):
            pass
        assert "Reload the page" in str(said)


def test_bytes_are_refused_and_the_desk_stays(desk: Opened) -> None:
    with line_to(desk) as line:
        line.send(b"\xff\x00")
        with pytest.raises(ConnectionClosed):
            listen(line)
    assert answer(desk, path_of(desk)) == 200


def test_a_hundred_connections_leave_room_for_the_page(desk: Opened) -> None:
    with ExitStack() as held:
        for _ in range(20):
            held.enter_context(line_to(desk))
        for _ in range(100):
            held.enter_context(socket.create_connection(("127.0.0.1", desk.port)))
    deadline = time.monotonic() + 20
    while answer(desk, path_of(desk)) != 200:
        assert time.monotonic() < deadline


EVIL = "</script><img src=x onerror=alert(1)><b>bold"


def test_markup_in_a_text_is_text(browser: Browser, tmp_path: Path) -> None:
    with opened(tmp_path / "<b>a.yaml", f"{SMALL}title: {EVIL!r}\nsetter: {EVIL!r}\n") as desk:
        with looking_at(browser, desk.address) as page:
            standing(page, "one")
            assert page.input_value("#title") == EVIL
            before = version(page)
            page.fill("#setter", f"{EVIL}!")
            page.press("#setter", "Enter")
            written(page, before)
            assert page.query_selector_all("img, b, script:not([src])") == []
        assert desk.puzzle.credits.setter == f"{EVIL}!"


def test_markup_in_every_field_of_the_page_is_text_or_refused(browser: Browser, desk: Opened) -> None:
    with looking_at(browser, desk.address) as page:
        page.wait_for_selector("#towards:not([hidden])")
        for part in page.query_selector_all("summary"):
            part.click()
        for pen, field in (("cage", "#total"), ("rule", "#value")):
            page.click(f"[data-pen={pen}]")
            if pen == "rule":
                page.select_option("#rule", "sandwich")
            page.locator(field).evaluate("each => each.removeAttribute('maxlength')")
            page.fill(field, EVIL)
            page.press(field, "Enter")
            expect(page.locator("#notice")).to_contain_text(
                "bold" if pen == "rule" else "must be a whole number"
            )
        for wished in page.query_selector_all("#towards input"):
            wished.evaluate("each => each.removeAttribute('maxlength')")
            wished.fill(EVIL)
        page.click("#tune")
        expect(page.locator("#notice")).to_contain_text("must be a whole number")
        page.fill("#text", EVIL)
        page.click("#text-form button")
        expect(page.locator("#notice")).to_contain_text(":1")
        assert page.query_selector_all("img, b, script:not([src])") == []


WISHES = [
    {"do": EVIL},
    {"do": "key", "key": EVIL, "text": EVIL},
    {"do": "key", "key": "no_repeats", "words": [EVIL]},
    {"do": "key", "key": "boxes", "text": EVIL},
    {"do": "rule", "rule": EVIL},
    {"do": "rule", "rule": "skyscraper", "line": EVIL, "side": EVIL, "value": EVIL},
    {"do": "tune", "symmetry": EVIL},
    {"do": "tune", "without": EVIL},
    {"do": "tune", "tier": 99},
    {"do": "total", "cells": [0], "total": EVIL},
    {"do": "new", "size": EVIL},
    {"do": "new", "kakuro": True, "rows": EVIL, "columns": "../../etc"},
    {"do": "grid", "digits": [EVIL]},
    {"do": "block", "cells": [EVIL], "blocked": True},
]


@pytest.mark.parametrize("wish", WISHES)
def test_a_wish_of_markup_is_refused_and_the_desk_stays(desk: Opened, wish: dict[str, object]) -> None:
    with line_to(desk) as line:
        line.send(json.dumps(wish))
        while '"refused"' not in line.recv(timeout=10):
            pass


def test_a_page_of_another_origin_gets_no_line_and_reads_nothing(browser: Browser, desk: Opened) -> None:
    with browser.new_context() as context:
        page = context.new_page()
        page.goto("about:blank")
        tried = page.evaluate(
            """async address => [
                await new Promise(done => {
                    const line = new WebSocket(`${address.replace("http", "ws")}live`);
                    line.onopen = () => done("open");
                    line.onclose = () => done("closed");
                }),
                await fetch(address).then(answer => answer.text(), () => "nothing"),
            ]""",
            desk.address,
        )
        assert tried == ["closed", "nothing"]


@pytest.mark.parametrize("end", [signal.SIGTERM, signal.SIGKILL])
def test_nothing_is_left_when_it_ends(tmp_path: Path, end: signal.Signals) -> None:
    with opened(tmp_path / "a.yaml", "puzzle: classic\ngrid: 25x25\n") as desk:
        with line_to(desk):  # a question that takes long is under way
            family = psutil.Process(desk.process.pid).children(recursive=True)
            desk.process.send_signal(end)
        deadline = time.monotonic() + 60
        while any(lives(each) for each in family):
            assert time.monotonic() < deadline
    assert family


def test_a_flood_of_changes_keeps_no_other_page_waiting(tmp_path: Path) -> None:
    changes = 120
    with opened(tmp_path / "a.yaml", SMALL) as there, line_to(there) as flooding:
        for number in range(changes):
            flooding.send(json.dumps({"do": "given", "cells": [number % 16], "digit": number // 16 % 4 + 1}))
        with line_to(there) as other:
            assert json.loads(other.recv(timeout=20))["version"] < changes
