"""Single-line faults to put into a source file: what a slip of the hand leaves in a law.

A sign, a division for a multiplication, a factor of two, an exponent, two arguments the wrong way
round, a unit. Left alone is what is no law: words, messages, indices and what only checks types.
"""

import ast
import random
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

KINDS = ("sign", "division", "factor of two", "exponent", "arguments", "unit")

_ORDERLESS = (
    "max", "min", "most", "least", "hypot", "isinstance", "zip", "getattr", "replace", "isclose",
    "added",
)  # fmt: skip
"""Calls whose arguments may stand as they like, or are no numbers."""
_NO_LAWS = (ast.JoinedStr, ast.Raise, ast.Subscript, ast.Assert)


@dataclass(frozen=True)
class Fault:
    """One fault in one place.

    Attributes
    ----------
    file
        Below the source folder.
    line
        Counted from 1.
    kind
        One of `KINDS`.
    begin, end
        Places in the text, in bytes, of what is put out.
    instead
        What is put in.
    """

    file: str
    line: int
    kind: str
    begin: int
    end: int
    instead: str

    def put_into(self, text: str) -> str:
        """The text with the fault in it."""
        raw = text.encode()
        return (raw[: self.begin] + self.instead.encode() + raw[self.end :]).decode()


def chosen(root: Path, rooms: Sequence[str], count: int, seed: int) -> list[Fault]:
    """So many faults, the same share in each room and of each kind, drawn from a seed.

    Parameters
    ----------
    root
        Source folder, with the rooms in it.
    rooms
        Names of folders.
    count, seed
        How many; of the random numbers.
    """
    drawn = random.Random(seed)
    found: list[Fault] = []
    for at, room in enumerate(rooms):
        share = count // len(rooms) + (at < count % len(rooms))
        found += _of_room(list(_in_room(root, room)), share, drawn)
    return found


def _of_room(possible: list[Fault], share: int, drawn: random.Random) -> list[Fault]:
    by_kind = [[fault for fault in possible if fault.kind == kind] for kind in KINDS]
    for faults in by_kind:
        drawn.shuffle(faults)
    found: list[Fault] = []
    while len(found) < share and any(by_kind):
        found += [faults.pop() for faults in by_kind if faults]
    return found[:share]


def _in_room(root: Path, room: str) -> Iterator[Fault]:
    for path in sorted((root / room).rglob("*.py")):
        yield from faults_in(path.read_text(encoding="utf-8"), str(path.relative_to(root)))


def faults_in(text: str, file: str) -> Iterator[Fault]:
    """Every fault that can be put into a source text.

    Examples
    --------
    >>> [f.kind for f in faults_in("stress = force / area", "a.py")]
    ['division', 'factor of two']
    """
    lines = [0]
    for line in text.encode().split(b"\n"):
        lines.append(lines[-1] + len(line) + 1)

    def segment(node: ast.AST) -> tuple[int, int]:
        return (
            lines[node.lineno - 1] + node.col_offset,  # type: ignore[attr-defined]
            lines[node.end_lineno - 1] + node.end_col_offset,  # type: ignore[attr-defined]
        )

    tree = ast.parse(text)
    hairs = frozenset(_hairs(tree))
    for node in _laws(tree):
        for kind, instead in _slips(node, hairs):
            begin, end = segment(node)
            yield Fault(file, node.lineno, kind, begin, end, f"({ast.unparse(instead)})")


def _laws(node: ast.AST) -> Iterator[ast.expr]:
    """Expressions that may be laws."""
    if isinstance(node, _NO_LAWS):
        return
    if isinstance(node, ast.expr):
        yield node
    hidden = {id(part) for part in _annotations(node)}
    for child in ast.iter_child_nodes(node):
        if id(child) not in hidden:
            yield from _laws(child)


def _annotations(node: ast.AST) -> Iterator[ast.AST]:
    for name in ("annotation", "returns", "decorator_list", "bases"):
        part = getattr(node, name, None)
        if part is not None:
            yield from part if isinstance(part, list) else [part]


def _slips(node: ast.expr, hairs: frozenset[str]) -> Iterator[tuple[str, ast.expr]]:
    if isinstance(node, ast.BinOp) and not (_words(node.left) or _words(node.right)):
        if not (_hair(node.left, hairs) or _hair(node.right, hairs)):
            yield from _of_two(node)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        if not isinstance(node.operand, ast.Constant):
            yield "sign", node.operand
    elif isinstance(node, ast.Call):
        yield from _of_call(node)


def _hair(node: ast.expr, hairs: frozenset[str]) -> bool:
    """A hair's breadth, which keeps from dividing by nothing or decides between equals: no law."""
    if isinstance(node, ast.Name):
        return node.id in hairs
    return isinstance(node, ast.Constant) and (
        isinstance(node.value, float) and 0.0 < abs(node.value) <= 1e-9
    )


def _hairs(tree: ast.Module) -> Iterator[str]:
    """Names that a module gives to a hair's breadth."""
    for node in tree.body:
        if not (isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant)):
            continue
        name, value = node.targets[0], node.value.value
        small = isinstance(value, float) and abs(value) <= 1e-6
        if small and isinstance(name, ast.Name) and re.search("NEAR|CLOSE|TINY", name.id):
            yield name.id


def _words(node: ast.expr) -> bool:
    if isinstance(node, ast.Constant):
        return not isinstance(node.value, int | float)
    return isinstance(node, ast.JoinedStr | ast.List | ast.Tuple | ast.ListComp | ast.Dict)


_OTHER: dict[type[ast.operator], tuple[str, type[ast.operator]]] = {
    ast.Add: ("sign", ast.Sub),
    ast.Sub: ("sign", ast.Add),
    ast.Mult: ("division", ast.Div),
    ast.Div: ("division", ast.Mult),
}


def _of_two(node: ast.BinOp) -> Iterator[tuple[str, ast.expr]]:
    op = type(node.op)
    if op in _OTHER:
        kind, other = _OTHER[op]
        yield kind, ast.BinOp(node.left, other(), node.right)
    if op in (ast.Mult, ast.Div):
        yield "factor of two", ast.BinOp(node, ast.Mult(), ast.Constant(2.0))
        for at, side in enumerate((node.left, node.right)):
            if isinstance(side, ast.Constant) and isinstance(side.value, float):
                thousand = ast.Constant(side.value * 1000.0)
                both = (thousand, node.right) if at == 0 else (node.left, thousand)
                yield "unit", ast.BinOp(both[0], node.op, both[1])
    if op is ast.Pow and isinstance(node.right, ast.Constant):
        yield "exponent", ast.BinOp(node.left, ast.Pow(), ast.Constant(node.right.value + 1))


def _of_call(node: ast.Call) -> Iterator[tuple[str, ast.expr]]:
    name = ast.unparse(node.func).rpartition(".")[2]
    if name in ("radians", "degrees", "to_kelvin") and node.args:
        yield "unit", node.args[0]
    if name == "sqrt" and len(node.args) == 1:
        yield "exponent", node.args[0]
    first = node.args[:2]
    numbers = len(first) == 2 and all(isinstance(one, ast.Name | ast.Attribute) for one in first)
    if numbers and name not in _ORDERLESS and not name[:1].isupper():
        swapped = [first[1], first[0], *node.args[2:]]
        yield "arguments", ast.Call(node.func, swapped, node.keywords)
