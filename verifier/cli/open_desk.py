"""``gridproof desk``: a live page on this machine, to draw a puzzle on and see what it is."""

from __future__ import annotations

import importlib.util
import webbrowser
from pathlib import Path
from typing import Annotated

import typer

from verifier.cli import wording
from verifier.cli.house_style import read_style_or_refuse
from verifier.cli.numbers import whole_number
from verifier.cli.telling.console import refuse, show, tell_faults
from verifier.cli.telling.exits import Exit
from verifier.puzzle.printable import filled

__all__ = ["open_desk"]

_NEEDED = ("starlette", "uvicorn", "websockets")
_MOST_PORT = 65535


def open_desk(
    file: Annotated[Path | None, typer.Argument(metavar="FILE", hidden=True)] = None,
    port: Annotated[
        int | None,
        typer.Option(metavar="N", help=wording.OPTIONS["port"], parser=whole_number(0, _MOST_PORT)),
    ] = None,
    no_browser: Annotated[bool, typer.Option("--no-browser", help=wording.OPTIONS["no-browser"])] = False,
    style: Annotated[
        Path | None, typer.Option("--style", metavar="FILE", help=wording.OPTIONS["style"])
    ] = None,
    printed: Annotated[
        Path | None, typer.Option("--printed", metavar="PATH", help=wording.OPTIONS["desk-printed"])
    ] = None,
) -> None:
    """Open the desk, and keep it open until the process is ended."""
    if any(importlib.util.find_spec(name) is None for name in _NEEDED):
        refuse(wording.NO_DESK)
    house_style = read_style_or_refuse(style)
    from verifier.desk.benches import Benches
    from verifier.desk.desk import Desk
    from verifier.desk.keeping import KeptFile, free_name
    from verifier.desk.serving import address_of, listening_on, new_secret, serve

    if printed is not None and not printed.exists():
        refuse(filled(wording.NOTHING_PRINTED_THERE, path=str(printed)))
    kept = KeptFile(file or free_name(Path.cwd()))
    if kept.path.is_dir():
        refuse(filled(wording.DESK_WANTS_A_FILE, path=str(kept.path)))
    if not kept.path.parent.is_dir():
        refuse(filled(wording.NO_FOLDER_FOR_DESK, path=str(kept.path), folder=str(kept.path.parent)))
    first, faults = kept.first()
    if first is None:
        tell_faults(faults)
        refuse(filled(wording.DESK_CANNOT_READ if faults else wording.DESK_WANTS_ONE, path=str(kept.path)))
    try:
        bound = listening_on(port, kept.key)
    except OSError as error:
        refuse(filled(wording.PORT_TAKEN, port=port or 0, why=error.strerror or str(error)))
    benches, secret = Benches.ready(), new_secret()
    address = address_of(bound, secret)

    def started() -> None:
        show(address)
        if not no_browser:
            webbrowser.open(address)

    desk = Desk(kept, first, house_style, benches, printed)
    serve(desk, benches.writing, bound, secret, started)
    raise typer.Exit(Exit.ACCEPTED)
