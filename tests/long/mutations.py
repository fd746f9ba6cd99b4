"""Small wrong changes to a source file, one at a time: what a slip of the hand would do, and a test should see."""

import ast
import itertools
from dataclasses import dataclass
from pathlib import Path

from turbomath.table.quantities import QUANTITIES

SWAPPED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult}
EDGES = {ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq}
NUDGE = 1.02  # of a number that is no whole one
TERMS = ast.Add | ast.Sub | ast.Mult | ast.Div


@dataclass(frozen=True)
class Mutant:
    """One change: where it is, how it read and how it reads now."""

    file: str
    line: int
    column: int
    end: tuple[int, int]
    kind: str
    before: str
    after: str

    @property
    def change(self) -> str:
        """The change in one line, the same wherever in the file it stands."""
        return f"{self.kind}: {self.before} -> {self.after}"

    @property
    def name(self) -> str:
        """What tells it from all others of this version of the file."""
        return f"{self.file}:{self.line}:{self.column} {self.change}"

    def applied(self, text: str) -> str:
        """Return the text of the file with the change made."""
        lines = text.encode().splitlines(keepends=True)
        start, (last, stop) = self.line - 1, self.end
        tail = lines[last - 1][stop:]
        lines[start:last] = [lines[start][: self.column] + f"({self.after})".encode() + tail]
        return b"".join(lines).decode()


def mutants(file: str, text: str) -> list[Mutant]:
    """Return every change of a file that this module knows, in the order of the text."""
    tree = ast.parse(text)
    conditions = {node.test for node in ast.walk(tree) if isinstance(node, ast.If | ast.IfExp | ast.While)}
    fields = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute) and node.attr in QUANTITIES}
    found = []
    for node in _code(tree):
        end = (node.end_lineno, node.end_col_offset)
        negated = [("negated", ast.UnaryOp(ast.Not(), node))] if node in conditions else []
        for kind, changed in [*negated, *_changes(node, sorted(fields))]:
            before, after = ast.unparse(node), ast.unparse(changed)
            found.append(Mutant(file, node.lineno, node.col_offset, end, kind, before, after))
    return sorted(found, key=lambda one: (one.line, one.column, one.change))


def source_line(root: Path, mutant: Mutant) -> str:
    """Return the line of the source in which the change begins."""
    return (root / mutant.file).read_text(encoding="utf-8").splitlines()[mutant.line - 1].strip()


def _code(node):
    """Yield the expressions of a tree that run: no hints, no texts, no parts of formatted texts, no decorators."""
    for name, value in ast.iter_fields(node):
        if name in {"annotation", "returns", "decorator_list"} or isinstance(node, ast.JoinedStr):
            continue
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, ast.AST):
                if isinstance(one, ast.expr):
                    yield one
                yield from _code(one)


def _changes(node, fields):
    """Yield (kind, changed node) for each thing that can go wrong in one expression."""
    match node:
        case ast.Constant(value=bool(value)):
            yield "flag", ast.Constant(not value)
        case ast.Constant(value=int(value)):
            yield "number", ast.Constant(value + 1)
        case ast.Constant(value=float(value)):
            yield "number", ast.Constant(value * NUDGE if value else 0.02)
        case ast.BinOp(left, op, right) if type(op) in SWAPPED and not _is_text(node):
            yield "sign", ast.BinOp(left, SWAPPED[type(op)](), right)
            if isinstance(op, TERMS):
                yield "dropped", left
        case ast.Compare(left, [op], others) if type(op) in EDGES:
            yield "edge", ast.Compare(left, [EDGES[type(op)]()], others)
        case ast.BoolOp(op, values):
            yield "logic", ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
        case ast.Attribute(value, attr, ast.Load()) if attr in QUANTITIES:
            alike = [one for one in fields if one != attr and _kind(one) == _kind(attr)]
            yield from (("field", ast.Attribute(value, one, ast.Load())) for one in alike[:1])
        case ast.Call(function, args, keywords):
            for place, (one, two) in enumerate(itertools.pairwise(args)):
                if _name(one) and _name(two) and _kind(_name(one)) == _kind(_name(two)):
                    yield "swapped", ast.Call(function, [*args[:place], two, one, *args[place + 2 :]], keywords)


def _is_text(node):
    return any(isinstance(one, ast.JoinedStr) or _holds_text(one) for one in ast.walk(node))


def _holds_text(node):
    return isinstance(node, ast.Constant) and isinstance(node.value, str | bytes)


def _name(node):
    return getattr(node, "id", getattr(node, "attr", ""))


def _kind(name):
    """The kind of a quantity; of a short name such as p1 or T2 its letters."""
    return QUANTITIES[name].kind if name in QUANTITIES else name.rstrip("0123456789")
