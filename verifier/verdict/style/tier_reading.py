"""Reading a publisher's own names for tiers, and a publisher's own table of tiers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import shape_of, whole_number
from verifier.files.settings import choice, decimal, found_at, name_of, number, several_of
from verifier.files.text.nodes import KeysNode, Node, TextNode
from verifier.puzzle.printable import listed

if TYPE_CHECKING:
    from grader.grading.tiers import TierTable

__all__ = ["read_tier_names", "read_tier_table"]

_name = name_of(40)
_MOST_ROUNDS = 9999


def read_tier_names(node: Node, field: str, report: FaultReport) -> tuple[tuple[int, str], ...] | None:
    """Read names by tier, such as ``{1: gentle, 7: needs trial}``."""
    names = {}
    for tier, value in _tiers(node, field, report):
        name = _name(value, f"{field}.{tier}", report)
        if name is not None:
            names[tier] = name
    return tuple(sorted(names.items()))


def read_tier_table(node: Node, field: str, report: FaultReport) -> TierTable | None:
    """Read a table of tiers, in the form of the one that ships with the grader.

    Every technique of the ladder must be in it once, along the ladder no tier may be lower than the one
    before, and the last tier is for trial.
    """
    from grader.grading.tiers import tiers_from

    before = report.count
    fields = _keys(node, field, ("name", "tiers", "lift"), report)
    names: dict[int, str] = {}
    techniques: dict[int, tuple[str, ...]] = {}
    for tier, value in _tiers(fields.get("tiers", node), f"{field}.tiers", report):
        entry = _keys(value, f"{field}.tiers.{tier}", ("name", "techniques"), report)
        names[tier] = _name(entry.get("name", value), f"{field}.tiers.{tier}.name", report) or ""
        techniques[tier] = _techniques(entry.get("techniques"), f"{field}.tiers.{tier}.techniques", report)
    lift = _keys(fields.get("lift", node), f"{field}.lift", ("steps_per_cell", "bottleneck_rounds"), report)
    steps = decimal(lift.get("steps_per_cell", node), f"{field}.lift.steps_per_cell", report)
    rounds = number(0, _MOST_ROUNDS)(
        lift.get("bottleneck_rounds", node), f"{field}.lift.bottleneck_rounds", report
    )
    _check_ladder(techniques, node.line, field, report)
    if report.count > before:
        return None
    tiers = {tier: {"name": names[tier], "techniques": techniques[tier]} for tier in sorted(names)}
    return tiers_from({"tiers": tiers, "lift": {"steps_per_cell": steps, "bottleneck_rounds": rounds}})


def _check_ladder(techniques: dict[int, tuple[str, ...]], line: int, field: str, report: FaultReport) -> None:
    from grader.ladder import LADDER

    tier_of = {name: tier for tier, names in techniques.items() for name in names}
    missing = [technique.id for technique in LADDER if technique.id not in tier_of]
    if missing:
        report.add("techniques-missing", line, field, techniques=listed(missing))
        return
    if sorted(techniques) != list(range(1, len(techniques) + 1)):
        report.add("tier-gap", line, field, tiers=listed(map(str, sorted(techniques))))
    for lower, higher in pairwise(LADDER):
        if tier_of[lower.id] > tier_of[higher.id]:
            report.add("tiers-go-down", line, field, lower=lower.id, higher=higher.id)
    if techniques[max(techniques)] != (LADDER[-1].id,):
        report.add("last-tier", line, field, trial=LADDER[-1].id)


def _techniques(node: Node | None, field: str, report: FaultReport) -> tuple[str, ...]:
    from grader.ladder import LADDER

    if node is None:
        return ()
    return several_of(choice([technique.id for technique in LADDER]))(node, field, report) or ()


def _keys(node: Node, field: str, allowed: tuple[str, ...], report: FaultReport) -> dict[str, Node]:
    """Return the values of a node by key."""
    if not isinstance(node, KeysNode):
        report.add("no-keys", node.line, field, what=shape_of(node), allowed=listed(allowed))
        return {}
    fields: dict[str, Node] = {}
    for key, value in node.pairs:
        name = choice(allowed)(key, field, report)
        if name in fields:
            report.add("repeated-value", key.line, field, what=f"'{name}'")
        elif name is not None:
            fields[name] = value
    return fields


def _tiers(node: Node, field: str, report: FaultReport) -> Iterator[tuple[int, Node]]:
    """Yield the numbers of tiers, each once, and what stands behind them."""
    if not isinstance(node, KeysNode):
        report.add("tier-number", node.line, field, what=shape_of(node))
        return
    seen = set()
    for key, value in node.pairs:
        tier = whole_number(key.text) if isinstance(key, TextNode) else None
        if tier is None or tier in seen or tier == 0:
            report.add("tier-number", key.line, field, what=found_at(key))
        else:
            seen.add(tier)
            yield tier, value
