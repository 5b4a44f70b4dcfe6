"""What is entered once a box was read to its end: moves, what is gone, corrections, refused repeats."""

from __future__ import annotations

import json
from collections import Counter

from verifier.intake.ledger.corrections import claimed_corrections, correct, give_back
from verifier.intake.ledger.forgetting import let_go
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.printed import forget_printed
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.ledger.whereabouts import missing, moved
from verifier.intake.outcome import RunOutcome, RunPlan
from verifier.intake.papers.duplicates import repeating
from verifier.intake.papers.verdict_files import VerdictFiles
from verifier.intake.wording import COPIED, PRINTED, TAKES_NO_REPEATS
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.wording import of_style

__all__ = ["REPEATS_CODE", "close_box"]

REPEATS_CODE = "style-repeats"


def close_box(ledger: Ledger, files: VerdictFiles, plan: RunPlan, outcome: RunOutcome) -> None:
    """Enter all that only shows when the whole box is known, and that the run is done.

    Parameters
    ----------
    ledger : Ledger
        With the run begun, and every verdict of it entered.
    files : VerdictFiles
        Follow what the ledger says.
    plan : RunPlan
        What was named.
    outcome : RunOutcome
        Is told what was found.
    """
    forget_printed(ledger, plan.printed)
    for older, newer in moved(ledger):
        files.hand_on(older, newer)
        let_go(ledger, older)
    _take_back_refusals(ledger)
    for one in correct(ledger):
        outcome.corrections.append(one)
        files.hand_on(one.older, one.newer)
    for number in missing(ledger, plan.sources):
        outcome.gone += 1
        files.settle(number)
    for number in give_back(ledger):
        files.settle(number)
    outcome.claims = list(claimed_corrections(ledger))
    if plan.settings.style.repeats == "refuse":
        _refuse_repeats(ledger, plan.settings.style)
    met = ledger.rows(f"SELECT state FROM submissions WHERE run = ? AND {COUNTED}", (ledger.run,))
    outcome.states = Counter(state for (state,) in met)
    ledger.end_run()


def _refuse_repeats(ledger: Ledger, style: HouseStyle) -> None:
    """Enter accepted puzzles that repeat another as rejected; what is scheduled stays so.

    The verdict stays as it is: it does not depend on the rest of the box.
    """
    reasons = {
        printed: json.dumps([{"code": REPEATS_CODE, "says": of_style(style.name, TAKES_NO_REPEATS, wrong)}])
        for printed, wrong in ((False, COPIED), (True, PRINTED))
    }
    for number, printed in list(repeating(ledger, "standing = 2")):
        ledger.change(
            "UPDATE submissions SET state = 'rejected', refused = 1, reasons = ? WHERE submission = ?",
            (reasons[printed], number),
        )


def _take_back_refusals(ledger: Ledger) -> None:
    """Enter what was refused as what its verdict says: the box, and the style, may be others now."""
    ledger.change("UPDATE submissions SET state = 'accepted', refused = 0, reasons = '[]' WHERE refused")
