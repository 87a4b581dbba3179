"""The solver in the browser is told by the same codes as the one for Python; its module runs in a browser alone."""

from __future__ import annotations

import ast
from pathlib import Path

import highspy

import tutorial_lib.cutting

SOURCE = Path(tutorial_lib.cutting.__file__).with_name("lp_browser.py")


def test_the_codes_are_the_solver_s_own() -> None:
    nodes = [node for node in ast.parse(SOURCE.read_text(encoding="utf-8")).body if isinstance(node, ast.Assign)]
    codes = {ast.unparse(node.targets[0]): ast.literal_eval(node.value) for node in nodes}
    model = {highspy.HighsModelStatus.kOptimal: "optimal", highspy.HighsModelStatus.kInfeasible: "infeasible"}
    assert codes == {
        "STATUS": {int(status): word for status, word in model.items()},
        "FEASIBLE": int(highspy.SolutionStatus.kSolutionStatusFeasible),
        "INTEGER": int(highspy.HighsVarType.kInteger),
    }
