"""A plan as the sections of the viewers' page: the same HTML at the desk and in the browser.

No number is made here: facts, lists, findings and drawings are the library's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import groupby
from typing import TYPE_CHECKING

from tutorial_lib.adapting.comparison import COST
from tutorial_lib.cutting.saw import SMALL, SawList, saw_cuts
from tutorial_lib.cutting.sawing import SAWING
from tutorial_lib.drawing.apart import pulled_apart
from tutorial_lib.drawing.isometric import step_drawing
from tutorial_lib.drawing.room import bed_in_room
from tutorial_lib.drawing.sawing import board
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.drawing.timeline import timeline_chart
from tutorial_lib.drawing.views import leg_map, slat_plan
from tutorial_lib.findings import by_severity
from tutorial_lib.lists import buying
from tutorial_lib.lists.names import letters
from tutorial_lib.measures import money, writer
from tutorial_lib.site.elements import WIDE, Child, Markup, drawing, element, folded, joined, table, tick
from tutorial_lib.site.holes import holes
from tutorial_lib.site.wording import say

if TYPE_CHECKING:
    from tutorial_lib.adapting import Comparison
    from tutorial_lib.adapting.comparison import Row
    from tutorial_lib.assembly import Step
    from tutorial_lib.cutting.boards import Layout
    from tutorial_lib.findings import Finding
    from tutorial_lib.plan import Plan

SUMS = (
    "frame.width", "frame.length", "frame.sleep_height", "frame.underside", "slat.count", "slat.gap", "leg.count",
    "lumber.boards", "lumber.cost", "weight.bed",
)  # fmt: skip
ROW = 330.0  # [pt] of the longest board
ROOM, APART = (380.0, 290.0), (370.0, 300.0)  # [pt] the bed as a picture
# What is needed at the bench and in the shop; the rest is among all numbers.
BENCH = (
    "length", "height", "part_count", "stock_count", "gap", "screw_length", "bolt_length", "screw_count", "bolt_count",
    "section", "cost", "supply_count",
)  # fmt: skip


def first(plan: Plan) -> dict[str, Markup]:
    """What is shown at once: the bed as a picture."""
    return {"picture": drawing(bed_in_room(plan.build, *ROOM, PAPER))}


def above(plan: Plan) -> Markup:
    """Its slats and legs from above, folded."""
    if plan.build.bed_stands:
        return joined(None)
    return folded(say("from above"), map(drawing, (slat_plan(plan.build), leg_map(plan.build))))


def sections(found: Comparison) -> dict[str, Callable[[], Markup]]:
    """Every section of a bed, held against the creator's; each is made when it is called for."""
    plan = found.adaptation.yours
    made: dict[str, Callable[[], Child]] = {
        "above": lambda: above(plan),
        "sums": lambda: sums(found),
        "rating": lambda: rating(plan),
        "cautions": lambda: cautions(found),
        "video": lambda: video(found),
        "changes": lambda: changes(found),
        "parts": lambda: parts(plan),
        "shop": lambda: shop(plan),
        "saw": lambda: saw(plan),
        "holes": lambda: holes(plan),
        "steps": lambda: steps(plan),
        "finish": lambda: finish(plan),
        "limits": lambda: limits(plan),
    }
    return {name: lambda make=make: joined(make()) for name, make in made.items()}  # type: ignore[misc]


def title(plan: Plan) -> str:
    """The bed's own title."""
    return plan.options.build.title


# --- what it is -----------------------------------------------------------------------------------


def sums(found: Comparison) -> Child:
    """The main figures; what differs from the creator's bed is marked, with what it was."""
    rows = {row.key: row for row in found.rows}
    shown = [row for key in SUMS if (row := rows.get(key)) is not None and (row.after is not None or key == COST)]
    return element("dl", [_sum(found, row) for row in shown], class_="sums")


def _sum(found: Comparison, row: Row) -> Child:
    changed = row.before is not None and row.status != "stays" and found.shows(row)
    told, without = _known(found, row)
    value = element("ins", told) if changed else told
    was = say("was", value=found.write(row.before)) if changed else None
    beside = [[" ", element("small", text)] for text in (was, without) if text]
    return element("div", element("dt", row.what), element("dd", value, beside))


def _known(found: Comparison, row: Row) -> tuple[str, str | None]:
    """A figure, and what it lacks: boards without a price."""
    cutting = found.adaptation.yours.cutting
    if row.key != COST or row.after is not None or not cutting.cost:
        return found.yours(row), None
    return cutting.money.write(cutting.cost), say("sum without", sections=", ".join(sorted(cutting.unpriced)))


def rating(plan: Plan) -> Child:
    """Who may lie and sit, calculated, not tested."""
    from tutorial_lib.strength import words

    return element("p", element("strong", words.may_print(plan.strength)), class_="rating")


def cautions(found: Comparison) -> Child:
    """Stops and cautions, one line each, the worst first; what it is about on asking."""
    kept = [f for f in by_severity(found.adaptation.findings) if f.severity != "note"]
    if not kept:
        return element("p", say("no cautions"))
    return element("ul", map(_caution, kept), class_="cautions")


def _caution(finding: Finding) -> Child:
    sign = element("b", say(finding.severity), class_=finding.severity)
    return element("li", sign, " ", finding.told)


# --- against the video ----------------------------------------------------------------------------


def video(found: Comparison) -> Child:
    """What the video has wrong, then what no longer holds for this bed."""
    wrong = [
        element(
            "li", _time(slip.said.time), element("q", slip.said.sentence or slip.said.quote), " ",
            element("span", say("video says", said=slip.said.quote, what=slip.row.what)), " ",
            element("strong", say("use", value=found.use(slip))),
        )
        for slip in found.slips
    ]  # fmt: skip
    old = [
        element(
            "li", _time(outdated.said.time), element("q", outdated.marked), " ",
            element("strong", say("yours", value=found.instead(outdated))),
        )
        for outdated in found.outdated
    ]  # fmt: skip
    if not wrong and not old:
        return element("p", say("video holds" if found.report else "no captions"))
    return [
        [element("h3", say("video wrong")), element("ul", wrong, class_="said")] if wrong else None,
        [element("h3", say("no longer holds")), element("ul", old, class_="said")] if old else None,
    ]


def _time(time: str | None) -> Child:
    return [element("span", say("at", time=time), class_="time"), " "] if time else None


def changes(found: Comparison) -> Child:
    """What changes against the creator's bed, what is new, what is gone, and why."""
    adaptation = found.adaptation
    notes = [element("p", note) for note in adaptation.notes]
    if adaptation.same:
        return [notes, element("p", say("own bed"))]
    rows = [row for row in found.of("changes") if found.shows(row) and (row.said or _bench(row))]
    listed = [
        (row.what, found.write(row.before), element("ins", found.yours(row)), _times(row))
        for row in rows
        if row.after is not None and not isinstance(row.after.value, tuple)
    ]
    heads = (say("what"), say("creator's"), say("yours head"), say("said at"))
    shown = len(heads) if any(times for *_, times in listed) else len(heads) - 1  # nothing is said without captions
    chosen = [(c.key, c.before, element("ins", c.after), c.full) for c in adaptation.changes]
    return [
        notes,
        table(heads[:shown], [row[:shown] for row in dict.fromkeys(listed)], right=(1, 2)) if listed else None,
        _news(say("new"), [(item.what, item.why) for item in found.new]),
        _news(say("gone"), [(item.what, item.why) for item in found.gone]),
        folded(say("why"), table((say("choice"), say("creator's"), say("yours head"), say("reason")), chosen))
        if chosen
        else None,
    ]


def _bench(row: Row) -> bool:
    return row.after is not None and row.after.kind in BENCH


def _times(row: Row) -> str:
    return ", ".join(dict.fromkeys(said.time for said in row.said if said.time))


def _news(heading: str, items: list[tuple[str, str]]) -> Child:
    if not items:
        return None
    told = [
        [element("ul", [element("li", what) for what, _ in alike]), element("p", why, class_="why")]
        for why, alike in groupby(items, key=lambda item: item[1])
    ]
    return [element("h3", heading), told]


def parts(plan: Plan) -> Child:
    """The bed pulled apart with its letters, and every part with its size."""
    named, w = letters(plan.build), writer(plan.options.build.units)
    rows = [
        (named[part.key], part.name, str(part.count), w.length(part.length),
         f"{w.stated(part.section.thickness)} × {w.stated(part.section.width)}")
        for part in plan.build.made
    ]  # fmt: skip
    heads = (say("letter"), say("part"), say("pieces"), say("length"), say("across"))
    return [drawing(pulled_apart(plan.build, named, *APART, PAPER)), table(heads, rows, right=(2, 3))]


# --- at the store and the saw ---------------------------------------------------------------------


def shop(plan: Plan) -> Child:
    """The shopping list with boxes, own boards, what the store cuts, one total."""
    bought = buying.shopping(plan)
    groups = [
        [
            element("h3", say(f"kind {kind}")),
            element("ul", [_line(line, bought.currency) for line in lines], class_="list"),
        ]
        for kind, lines in groupby(bought.lines, key=lambda line: line.kind)
    ]
    own = [tick(f"own {b.section} {b.stock}", "", element("span", f"{b.count} × {b.section}, {b.stock}"))
           for b in plan.cutting.own_boards]  # fmt: skip
    asked = Counter(cut.ask(plan.options.build.units) for cut in plan.cutting.store_cuts)
    cut = [tick(f"store {words}", "", element("span", f"{n} × {words}")) for words, n in asked.items()]
    total = say("total", value=money(bought.total, bought.currency)) if bought.priced else say("no prices")
    without = say("without", lines=str(len(bought.unpriced))) if bought.priced and bought.unpriced else None
    return [
        [element("h3", say("own boards")), element("ul", [element("li", line) for line in own], class_="list")]
        if own
        else None,
        groups,
        element("p", element("strong", total), " " if without else None, without, class_="total"),
        [element("h3", say("store cuts")), element("ul", [element("li", line) for line in cut], class_="list")]
        if cut
        else None,
    ]


def _line(line: buying.Line, currency: str) -> Child:
    cost = money(line.cost, currency) if line.cost is not None else say("no price")
    told = element("span", element("b", f"{buying.units_of(line)}: {line.what}"), element("small", line.note))
    return element("li", tick(f"buy {line.kind} {line.what}", "", told, element("span", cost, class_="cost")))


def saw(plan: Plan) -> Child:
    """Every board as it lies at the saw, the stop-block list, and the proof that no list is cheaper."""
    from tutorial_lib.cutting.proof import sentence

    cutting, w = plan.cutting, writer(plan.options.build.units)
    if not cutting.sawn.boards:
        return element("p", say("no boards"))
    sawing, named = SAWING[plan.options.saw.kind], letters(plan.build)
    rows = [
        (
            str(batch.count),
            w.length(batch.length),
            ", ".join(f"{named[n]} {plan.build.part(n).name}" for n in batch.names),
            batch.section,
        )
        for batch in SawList(cutting.sawn).batches
    ]
    proofs = [
        element("li", f"{part.section}: {sentence(part, cutting.money.write(part.cost - 1))}")
        for part in cutting.plan.sections
        if part.section not in cutting.unpriced and part.cost
    ]
    return [
        element("p", say("hook the tape")),
        [_board(plan, layout, number) for number, layout in enumerate(cutting.sawn.layouts, 1)],
        table((say("pieces"), say("stop at"), say("part"), say("lumber")), rows, say("stop block"), right=(0, 1)),
        [element("h3", say("proof")), element("ul", proofs)] if proofs else None,
        [element("p", text, class_="caution") for text in (sawing.caution.format(w.length(SMALL)), *sawing.cautions)],
    ]


def _board(plan: Plan, layout: Layout, number: int) -> Child:
    """A board with its marks, and a box for each one cut so."""
    build, w, named = plan.build, writer(plan.options.build.units), letters(plan.build)
    longest = max(board.length for board in plan.cutting.sawn.boards)
    section = next(part.section for part in build.parts if part.section.name == layout.board.section)
    scene = board(layout, number, longest, (section.thickness, section.width),
                  lambda key: (named[key], build.part(key).name), w, ROW)  # fmt: skip
    head = say("board", board=f"{layout.board.section}, {layout.board.stock}", count=str(layout.count))
    boxes = [tick(f"cut {number} {n}", say("board done", board=str(number), number=str(n + 1)))
             for n in range(layout.count)]  # fmt: skip
    marks = say("marks", marks=w.marks(cut.mark for cut in saw_cuts(layout.board)))
    share = f"max-width: {float(100 * layout.board.length / longest):.4g}%"  # all boards to one scale
    lies = element("div", drawing(scene), style=share)
    return element("div", element("h3", head, boxes), lies, element("p", marks), class_="board")


# --- at the bench ---------------------------------------------------------------------------------


def steps(plan: Plan) -> Child:
    """The steps in order; the page shows them one at a time."""
    return [element("p", say("steps lead", steps=str(len(plan.assembly.steps)))),
            element("ol", [_step(plan, step) for step in plan.assembly.steps], class_="steps")]  # fmt: skip


def _step(plan: Plan, step: Step) -> Child:
    w = writer(plan.options.build.units)
    scene = step_drawing(plan.build, step)
    warned = None
    if step.turn is not None:
        warned = say(
            "lift", people=str(step.turn.people), share=w.weight(step.turn.share), limit=w.weight(step.turn.limit)
        )
    hidden = say("hides", joints=", ".join(step.hides)) if step.hides else None
    return element(
        "li",
        element("h3", tick(f"step {step.key} {step.number}", "", element("span", f"{step.number}. {step.title}"))),
        drawing(scene) if scene else None,
        element("ol", [element("li", text) for text in (*step.do, *(screws.told(w) for screws in step.screws))]),
        [element("p", say("look", text=text)) for text in step.look],
        [element("p", say("mind", text=text)) for text in step.wrong],
        [element("p", text, class_="caution") for text in (warned, hidden) if text],
        data_pieces="|".join((*step.new, *step.made)),
    )


def finish(plan: Plan) -> Child:
    """Coats and the time they take, what to mind."""
    made = plan.finishing
    coats = made.coats
    told = say("no finish") if not coats.coats else say("coats", coats=coats.in_words.capitalize(), kind=coats.kind)
    amount = say("amount", amount=coats.amount(plan.options.build.units)) if coats.coats and coats.gallons else None
    hazards = [element("p", f"{hazard.what} {hazard.remedy}", class_="caution") for hazard in made.hazards]
    return [element("p", told, " ", amount), drawing(timeline_chart(made.tasks, WIDE)), hazards]


def limits(plan: Plan) -> Child:
    """The load figures with their conditions, each leg, what is not covered."""
    from tutorial_lib.strength import words

    strong, w = plan.strength, writer(plan.options.build.units)
    rated = [] if words.why_none(strong) else [rating.words(w) for rating in (strong.lying, strong.sitting)]
    return [
        element("ul", [element("li", f"{line[0].upper()}{line[1:]}.") for line in rated]) if rated else None,
        None if plan.build.bed_stands else element("p", words.conditions(strong)),
        [
            element("h3", say("legs")),
            element("p", say("one leg")),
            element("ul", [element("li", entry.words(w)) for entry in strong.legs]),
        ]
        if strong.legs and not plan.build.bed_stands
        else None,
        element("h3", say("not covered")),
        element("ul", [element("li", text) for text in words.NOT_COVERED]),
        element("p", words.CAUTION, class_="caution"),
    ]
