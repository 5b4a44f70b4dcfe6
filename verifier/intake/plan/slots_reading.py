"""Reading the slots of a page from a YAML file, with every fault at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from verifier.files.faults import Fault, FaultReport
from verifier.files.fields.fields import shape_of
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.settings import (
    Reader,
    check_order,
    choice,
    day,
    grid_size,
    name_of,
    number,
    root_of,
    settings_in,
    several_of,
    values_of,
)
from verifier.files.text.nodes import KeysNode, ListNode, Node
from verifier.files.wording import SETTING_FAULTS
from verifier.intake.plan.slots import Degree, Page, Slot
from verifier.intake.plan.wording import SLOT_FAULTS
from verifier.puzzle.puzzle import KINDS

__all__ = ["MOST_SLOTS", "PAGE_KEYS", "read_slots", "read_slots_text"]

MOST_SLOTS = 31
"""Slots of a page: a month of a daily one."""

_LONGEST_NAME = 100
_MOST_TIERS = 20
_MOST_EFFORT = 999_999
_MOST_DAYS = 366


def read_slots(path: Path, limits: Limits = DEFAULT_LIMITS) -> tuple[Page | None, tuple[Fault, ...]]:
    """Read the slots in a file; see `read_slots_text`."""
    report = _report(str(path), limits)
    data = settings_in(path, report, limits)
    return (None, report.faults()) if data is None else read_slots_text(data, str(path), limits)


def read_slots_text(
    data: bytes, name: str, limits: Limits = DEFAULT_LIMITS
) -> tuple[Page | None, tuple[Fault, ...]]:
    r"""Read the slots in the bytes of a file.

    Returns
    -------
    page : Page or None
        None when there is any fault.
    faults : tuple of Fault
        All of them, by line.

    Examples
    --------
    >>> page, faults = read_slots_text(b"slots:\n- {name: Monday, tiers: 1}\n- {tiers: [2, 3]}", "week.yaml")
    >>> [(slot.name, slot.tiers) for slot in page.slots], faults
    ([('Monday', (1,)), ('slot 2', (2, 3))], ())
    >>> page, (fault,) = read_slots_text(b"slots:\n- {kind: kiler}", "week.yaml")
    >>> print(fault)
    week.yaml:2: slots.1.kind: found 'kiler'; allowed: classic, killer or kakuro. Did you mean 'killer'?
    """
    report = _report(name, limits)
    root = root_of(data, report, limits)
    page = None if root is None else _page(root, report)
    return (None if report.count else page), report.faults()


def _report(name: str, limits: Limits) -> FaultReport:
    return FaultReport(name, limits.faults, {**SETTING_FAULTS, **SLOT_FAULTS})


def _page(root: Node, report: FaultReport) -> Page | None:
    if not isinstance(root, KeysNode):
        report.add("no-slots", root.line, "the text", what=shape_of(root))
        return None
    values, nodes = values_of(root, _PAGE, "the page", report)
    if "slots" not in nodes:
        report.add("no-slots", root.line, "slots", what="nothing")
        return None
    values.pop("format", None)
    return None if report.count else Page(**values)


def _slots(node: Node, field: str, report: FaultReport) -> tuple[Slot, ...] | None:
    if not isinstance(node, ListNode) or not node.items:
        what = "an empty list" if isinstance(node, ListNode) else shape_of(node)
        report.add("no-slots", node.line, field, what=what)
        return None
    if len(node.items) > MOST_SLOTS:
        report.add("many-slots", node.line, field, count=len(node.items), most=MOST_SLOTS)
        return None
    slots: dict[str, Slot] = {}
    for at, item in enumerate(node.items, start=1):
        slot = _slot(item, f"{field}.{at}", at, report)
        if slot is not None and slot.name in slots:
            report.add("slot-twice", item.line, f"{field}.{at}.name", word=slot.name)
        elif slot is not None:
            slots[slot.name] = slot
    return tuple(slots.values())


def _slot(node: Node, field: str, number: int, report: FaultReport) -> Slot | None:
    if not isinstance(node, KeysNode):
        report.add("no-slot", node.line, field, what=shape_of(node))
        return None
    values, nodes = values_of(node, _SLOT, f"the slot {field}", report, f"{field}.")
    check_order(values, nodes, "least_effort", "most_effort", report, f"{field}.")
    for one, several in (("kind", "kinds"), ("grid", "grids"), ("tier", "tiers")):
        if one in values and several in values:
            report.add("said-twice", nodes[several].line, f"{field}.{several}", one=one)
        if one in values:
            values[several] = values.pop(one)
    values.setdefault("name", f"slot {number}")
    return Slot(**values)


def _degree(node: Node, field: str, report: FaultReport) -> Degree | None:
    word = choice([degree.value for degree in Degree])(node, field, report)
    return None if word is None else Degree(word)


_KINDS = several_of(choice(KINDS))
_GRIDS = several_of(grid_size)
_TIERS = several_of(number(1, _MOST_TIERS))

_SLOT: dict[str, Reader[Any]] = {
    "name": name_of(_LONGEST_NAME),
    "kind": _KINDS,
    "kinds": _KINDS,
    "grid": _GRIDS,
    "grids": _GRIDS,
    "tier": _TIERS,
    "tiers": _TIERS,
    "least_effort": number(0, _MOST_EFFORT),
    "most_effort": number(0, _MOST_EFFORT),
}
"""The keys of a slot; one kind, size or tier may stand under the singular."""

_PAGE: dict[str, Reader[Any]] = {
    "format": number(1, 1),
    "name": name_of(_LONGEST_NAME),
    "first": day,
    "days_apart": number(0, _MOST_DAYS),
    "per_setter": number(1, MOST_SLOTS),
    "credits": several_of(choice(("title", "setter"))),
    "rising": _degree,
    "varied": _degree,
    "slots": _slots,
}
"""The keys of the file."""

PAGE_KEYS = tuple(_PAGE)
