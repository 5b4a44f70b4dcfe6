"""The ``gridproof`` command: its sub-commands, and what becomes of errors."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Sequence
from typing import Annotated, cast

import typer

from verifier.cli import wording
from verifier.cli.boxes.intake import intake
from verifier.cli.boxes.plan import plan
from verifier.cli.check import check
from verifier.cli.compare import compare
from verifier.cli.mend import mend
from verifier.cli.next_step import next_step
from verifier.cli.open_desk import open_desk
from verifier.cli.rule_list import rules
from verifier.cli.sheet import sheet
from verifier.cli.sums import sums
from verifier.cli.techniques import techniques
from verifier.cli.telling.console import keep_trace, say, show
from verifier.cli.telling.exits import Exit
from verifier.cli.telling.streams import let_go, ready_streams
from verifier.cli.tune import tune
from verifier.cli.walk import walk
from verifier.intake.workers.shortage import WorkerWillNotStartError, shortage_in

__all__ = ["app", "run"]

# Plain help, which needs no rich: it is on the screen at once, and the same on every terminal.
app = typer.Typer(
    help=wording.PROGRAM,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
app.command("check", help=wording.CHECK)(check)
app.command("walk", help=wording.WALK)(walk)
app.command("next", help=wording.NEXT)(next_step)
app.command("mend", help=wording.MEND)(mend)
app.command("desk", help=wording.DESK)(open_desk)
app.command("tune", help=wording.TUNE)(tune)
app.command("compare", help=wording.COMPARE)(compare)
app.command("intake", help=wording.INTAKE)(intake)
app.command("plan", help=wording.PLAN)(plan)
app.command("sheet", help=wording.SHEET)(sheet)
app.command("rules", help=wording.RULES)(rules)
app.command("sums", help=wording.SUMS)(sums)
app.command("techniques", help=wording.TECHNIQUES)(techniques)

_CALL_ERROR = typer.BadParameter.__mro__[2]
"""The root of the errors in a call; Typer brings its own copy of the library that defines it."""


def run(words: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; nothing that goes wrong ends in a traceback.

    Parameters
    ----------
    words : sequence of str, optional
        The words after ``gridproof``; those of this process when absent.
    """
    ready_streams()
    try:
        code = app(args=None if words is None else list(words), prog_name="gridproof", standalone_mode=False)
        sys.stdout.flush()
    except KeyboardInterrupt:
        return Exit.INTERRUPTED
    except (BrokenPipeError, SystemExit):  # Typer makes the one of the other, and nothing else
        let_go()
        return Exit.PIPE_CLOSED
    except Exception as error:
        return _failed(error)
    return code if isinstance(code, int) else Exit.ACCEPTED


def _failed(error: Exception) -> int:
    if isinstance(error, typer.Abort):
        return Exit.INTERRUPTED
    if isinstance(error, _CALL_ERROR):
        call = cast(typer.BadParameter, error)
        command = call.ctx.command_path if call.ctx is not None else "gridproof"
        say(f"gridproof: {call.format_message()}\n{wording.TRY_HELP.format(command=command)}")
        return Exit.UNREADABLE
    let_go()  # whatever could not be written so far never can be
    outside = _from_outside(error)
    if outside is not None:
        say(f"gridproof: {outside}")
        return Exit.UNREADABLE
    say(wording.bug(keep_trace(traceback.format_exc())))
    return Exit.BUG


def _from_outside(error: Exception) -> str | None:
    """Say what in the machine led to an error; None where it is a mistake of ours."""
    lacking = shortage_in(error)
    if lacking is not None:
        return wording.SHORTAGES[lacking.value]
    return wording.worker_will_not_start(str(error)) if isinstance(error, WorkerWillNotStartError) else None


def _show_version(asked: bool) -> None:
    if asked:
        from verifier.verdict.versions import gridproof_version

        show(f"gridproof {gridproof_version()}")
        raise typer.Exit


@app.callback()
def _gridproof(
    context: typer.Context,
    version: Annotated[  # noqa: ARG001 - its callback has answered
        bool,
        typer.Option("--version", help=wording.OPTIONS["version"], callback=_show_version, is_eager=True),
    ] = False,
) -> None:
    if context.invoked_subcommand is None:
        show(context.get_help())
