"""Make mutants of a module: one operator, constant or condition changed in each."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

__all__ = ["Mutant", "mutants_of"]

_INSTEAD: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Add,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
    ast.BitXor: ast.BitOr,
    ast.Pow: ast.Mult,
    ast.LShift: ast.RShift,
    ast.RShift: ast.LShift,
    ast.And: ast.Or,
    ast.Or: ast.And,
    ast.Div: ast.Mult,
}
"""What stands in the place of an operator."""

_NOT_RUN = ("annotation", "returns", "decorator_list", "type_params")
"""Fields whose contents no test can see, or that only say how much is remembered."""


_Path = tuple[tuple[str, int | None], ...]


@dataclass(frozen=True, eq=False)
class Mutant:
    """One change to a module.

    Parameters
    ----------
    key : str
        Where it is and what it is; the same as long as the function reads the same, whatever its line.
    module : str
        The file, from the top of the project.
    line : int
        Where it is now.
    source : str
        The module without the change.
    path : tuple
        The way to what is changed, from the top of the syntax tree.
    changed : ast.AST
        What stands there instead.
    """

    key: str
    module: str
    line: int
    source: str
    path: _Path
    changed: ast.AST

    @property
    def text(self) -> str:
        """The whole module with the change; comments are lost."""
        return _with(ast.parse(self.source), self.path, self.changed)


def mutants_of(module: str, source: str) -> list[Mutant]:
    r"""Return every mutant of a module, in the order of its text.

    Parameters
    ----------
    module : str
        Its name for the keys, such as ``verifier/puzzle/breaches.py``.
    source : str
        Its text.

    Examples
    --------
    >>> for mutant in mutants_of("m.py", "def f(a):\n    return 0 if a > 1 else a + 1"):
    ...     print(mutant.key)
    m.py f: 0 if a > 1 else a + 1 -> 0 if not a > 1 else a + 1
    m.py f: a > 1 -> a >= 1
    m.py f: 1 -> 2
    m.py f: 0 -> 1
    m.py f: a + 1 -> a - 1
    m.py f: 1 -> 2 (2)
    """
    tree = ast.parse(source)
    seen: Counter[str] = Counter()
    found = []
    for path, where in _places(tree, (), ""):
        for changed in _changes(_at(tree, path)):
            before, after = (_in_short(node) for node in (_at(tree, path), changed))
            key = f"{module} {where or 'module'}: {before} -> {after}"
            seen[key] += 1
            if seen[key] > 1:
                key += f" ({seen[key]})"
            found.append(Mutant(key, module, _line(_at(tree, path)), source, path, changed))
    return found


def _places(node: ast.AST, path: _Path, where: str) -> Iterator[tuple[_Path, str]]:
    """Yield the way to every node that may be changed, and the function in which it stands."""
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        where = f"{where}.{node.name}" if where else node.name
    yield path, where
    for field, value in ast.iter_fields(node):
        if field in _NOT_RUN or _only_said(node, field):
            continue
        for number, child in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if isinstance(child, ast.AST):
                yield from _places(child, (*path, (field, number)), where)


def _only_said(node: ast.AST, field: str) -> bool:
    """Whether a field is for readers or type checkers only: texts, names to import, what an error says."""
    if isinstance(node, ast.If):
        return ast.unparse(node.test) == "TYPE_CHECKING"
    if isinstance(node, ast.Assign):
        return ast.unparse(node.targets[0]) == "__all__"
    return isinstance(node, ast.JoinedStr | ast.Raise) and field in ("values", "exc")


def _changes(node: ast.AST) -> Iterator[ast.AST]:
    """Yield a node with one thing changed about it."""
    if isinstance(node, ast.Constant) and isinstance(node.value, bool | int | float):
        value = not node.value if isinstance(node.value, bool) else node.value + 1
        yield ast.copy_location(ast.Constant(value), node)
    elif isinstance(node, ast.Compare) and type(node.ops[0]) in _INSTEAD:
        yield _but(node, ops=[_INSTEAD[type(node.ops[0])](), *node.ops[1:]])
    elif isinstance(node, ast.BinOp | ast.BoolOp | ast.AugAssign):
        if type(node.op) in _INSTEAD:
            yield _but(node, op=_INSTEAD[type(node.op)]())
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.If | ast.While | ast.IfExp):
        if not (isinstance(node.test, ast.UnaryOp) or ast.unparse(node.test) in ("TYPE_CHECKING", "True")):
            yield _but(node, test=ast.UnaryOp(ast.Not(), node.test))
    elif isinstance(node, ast.comprehension):
        for number in range(len(node.ifs)):
            yield _but(node, ifs=[*node.ifs[:number], *node.ifs[number + 1 :]])


def _but(node: Any, **others: object) -> Any:
    changed = deepcopy(node)
    for field, value in others.items():
        setattr(changed, field, value)
    return changed


def _at(tree: ast.AST, path: _Path) -> Any:
    node: Any = tree
    for field, number in path:
        node = getattr(node, field)
        node = node if number is None else node[number]
    return node


def _with(tree: ast.AST, path: _Path, changed: ast.AST) -> str:
    """Return the text of a tree after another node was put at the end of a path."""
    parent, (field, number) = _at(tree, path[:-1]), path[-1]
    if number is None:
        setattr(parent, field, changed)
    else:
        getattr(parent, field)[number] = changed
    return ast.unparse(ast.fix_missing_locations(tree)) + "\n"


def _in_short(node: ast.AST) -> str:
    """Return a node as it reads; of a statement with others in it the first line only."""
    return ast.unparse(node).strip().partition("\n")[0]


def _line(node: ast.AST) -> int:
    inner = (child.lineno for child in ast.walk(node) if hasattr(child, "lineno"))
    return next(inner, 0)
