"""Every drilled piece as a fold of the viewers' page: its faces drawn, each hole with its marks and a box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.drawing.holes import face_drawing, first_datum
from tutorial_lib.measures import writer
from tutorial_lib.site.elements import WIDE, Child, drawing, element, folded, table, tick
from tutorial_lib.site.wording import say

if TYPE_CHECKING:
    from tutorial_lib.drilling.schedule import PieceHoles
    from tutorial_lib.plan import Plan


def holes(plan: Plan) -> Child:
    """Every piece that is drilled: face by face its drawing, and a table with a box for each hole."""
    return [element("p", say("holes lead")), *[_piece(plan, group) for group in plan.drilling.schedule]]


def _piece(plan: Plan, group: PieceHoles) -> Child:
    faces = [_face(plan, group, face) for face in group.faces]
    turned = say("turned", how=group.turned) if group.turned else None
    mirrored = say("mirrored", piece=group.mirrored) if group.mirrored else None
    return folded(
        f"{group.which[0].upper()}{group.which[1:]}",
        [element("p", turned, " ", mirrored) if turned or mirrored else None, faces],
    )


def _face(plan: Plan, group: PieceHoles, face: str) -> Child:
    w = writer(plan.options.build.units)
    rows = [
        (
            tick(f"hole {group.pieces[0]} {face} {n}", say("hole done", at=w.mark(hole.u))),
            w.mark(hole.u), w.mark(hole.v), hole.bit, say("through") if hole.depth is None else w.mark(hole.depth),
        )
        for n, hole in enumerate(group.on(face))
    ]  # fmt: skip
    heads = (say("done"), first_datum(group, face), group.datum_edges[face], say("bit"), say("depth"))
    caption = say("face", face=face.capitalize(), units=say(f"units {w.units}"))
    return [drawing(face_drawing(plan.build, group, face, WIDE)), table(heads, rows, caption, right=(1, 2, 4))]
