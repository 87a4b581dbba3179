"""One home per number: what converts a unit stands in ``measures`` and nowhere else."""

from __future__ import annotations

import ast
import re
from itertools import pairwise
from math import floor, log10
from pathlib import Path

# Leading figures of the factors between inch, pound, gallon and metric units (NIST SP 811), both ways.
LEADING = (2.54, 3.937008, 4.5359237, 2.204623, 6.894757, 1.450377, 3.785412, 2.641721, 4.448222, 2.248089, 3.048,
           3.28084, 9.290304, 1.076391, 2.834952, 1.601846, 6.242796, 9.80665)  # fmt: skip
NEAR = 2e-4  # relative; 62.4 lb/cu ft, water as the NDS has it, stays a figure of its own


def converts(value: float) -> bool:
    if value <= 0:
        return False
    leading = value / 10.0 ** floor(log10(value) + 1e-12)
    return any(abs(leading / factor - 1) < NEAR for factor in LEADING)


def numbers(tree: ast.AST) -> list[tuple[int, float]]:
    """Every number written, and every quotient of two written ones."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and type(node.value) is float:
            found.append((node.lineno, node.value))
        pair = (
            node.args if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Fraction"
            else [node.left, node.right] if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Div) else []
        )  # fmt: skip
        values = [part.value for part in pair if isinstance(part, ast.Constant) and type(part.value) in (int, float)]
        if len(values) == 2 and values[1] and any(v in (127, 254, 2540, 635) for v in values):
            found.append((node.lineno, 25.4))
        elif len(values) == 2 and values[1]:
            found.append((node.lineno, values[0] / values[1]))
    return sorted(found)


# A unit written by hand right after a number, as in f"{value} mm"; measures.writer writes it in the plan's own.
UNIT = re.compile(r"[ -]?(in|inch(es)?|mm|cm|m|ft|feet|lb|kg|oz|fl oz|gallon|litre|psi|N|kN|N/mm²|sq ft)([ ,.;:)]|$)")
WORD = re.compile(r" in (the |a |an |one |all\b|from |each |it|its|row |words|which |place|other|pieces|[A-Z{]|$)")
# They quote what is typed, or speak of what is sold by its name in inches whatever the plan's units.
DOORS = {"design/values.py", "tables/fasteners.py", "tables/mattresses.py", "tables/wood.py"}


def by_hand(tree: ast.AST) -> list[int]:
    """Lines of f-strings that write a unit themselves."""
    found = []
    for text in (node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)):
        for value, after in pairwise(text.values):
            if isinstance(value, ast.FormattedValue) and isinstance(after, ast.Constant):
                said = str(after.value)
                if UNIT.match(said) and not WORD.match(said):
                    found.append(after.lineno)
    return found


def test_units_are_written_in_measures_alone(root: Path) -> None:
    package = root / "tutorial_lib"
    found: dict[str, list[int]] = {}
    for path in sorted(package.rglob("*.py")):
        name = path.relative_to(package).as_posix()
        if path.parent.name != "measures" and name not in DOORS:
            source = path.read_text(encoding="utf-8")
            lines = by_hand(ast.parse(source))
            lines += [i for i, line in enumerate(source.split("\n"), 1) if re.search(r"\bwrite_(length|feet)\(", line)]
            if lines:
                found[name] = lines
    assert not found, f"write through the plan's writer (tutorial_lib.measures.writer): {found}"


def test_units_are_converted_in_measures_alone(root: Path) -> None:
    package = root / "tutorial_lib"
    found: dict[str, list[int]] = {}
    for path in sorted(package.rglob("*.py")):
        name = path.relative_to(package).as_posix()
        lines = [line for line, value in numbers(ast.parse(path.read_text(encoding="utf-8"))) if converts(value)]
        if lines and path.parent.name != "measures":
            found[name] = lines
    assert not found, f"convert through tutorial_lib.measures (writer, factor, convert): {found}"


def test_the_search_finds_a_factor() -> None:
    assert by_hand(ast.parse('f"{a} mm"\nf"{b} in, {c}"\nf"{d} in the {e}"\nf"{f}-ft board"')) == [1, 2, 4]
    source = "a = x * 25.4\nb = Fraction(127, 5)\nc = 0.4536 * y\nd = 62.4\ne = 10 / 254\nf = Fraction(3, 8)"
    assert [line for line, value in numbers(ast.parse(source)) if converts(value)] == [1, 2, 3, 5]
