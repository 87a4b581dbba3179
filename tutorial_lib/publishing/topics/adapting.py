"""The page "your size": what changes against the video, what is new, what no longer holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import shorten

from tutorial_lib.adapting.adapt import Adaptation
from tutorial_lib.adapting.comparison import COST, Comparison, Row
from tutorial_lib.adapting.family import Member, table
from tutorial_lib.adapting.wrong_cut import Outcome
from tutorial_lib.drawing import views
from tutorial_lib.findings import Finding
from tutorial_lib.publishing.blocks import Block, Caution, Column, Findings, Heading, Page, Picture, Table, Text

NO_BREAK = "\N{NO-BREAK SPACE}"
MARKS = {"stays": f"={NO_BREAK}stays", "changes": f"→{NO_BREAK}changes", "new": f"+{NO_BREAK}new",
         "gone": f"×{NO_BREAK}gone"}  # fmt: skip
WHY, WHAT = 0.55, 0.45  # shares of the line
MOST_GONE = 6  # numbers of what your bed has none of that stand in the table; more in one paragraph
MOST = 14  # numbers that differ on the sheet of a bed without captions
LONGEST = 110  # characters of a reason in the table; the rest is in the workings
# What is needed at the bench and in the shop; the rest is shown on asking for every fact.
BENCH = ("mattress_size", "length", "height", "clearance", "part_count", "stock_count", "pieces_per_board", "gap",
         "screw_length", "bolt_length", "screw_count", "bolt_count", "diameter", "section", "cost", "supply_count",
         "supply", "centre_mark")  # fmt: skip


def blocks(found: Comparison, every: bool = False) -> list[Block]:
    """The whole comparison; ``every`` adds the facts that stay."""
    return [*head(found), *slips(found), *sentences(found), *changes(found, every)]


def changes(found: Comparison, every: bool = False) -> list[Block]:
    """What changes and why, whatever the video says."""
    return [*choices(found), *news(found), *numbers(found, every), *sums(found), *maps(found.adaptation)]


def head(found: Comparison) -> list[Block]:
    """Which size, and whether it can be carried."""
    adaptation = found.adaptation
    made: list[Block] = [Text(note) for note in adaptation.notes]
    if adaptation.same:
        return [*made, Text("Nothing changes: this is the creator's own bed.", strong=True)]
    own = {finding.rule for finding in adaptation.creator.findings if finding.severity == "stop"}
    stops = tuple(f for f in adaptation.stops if f.rule not in own)
    if stops:
        return [*made, Findings(stops)]
    if adaptation.stops:
        return [*made, Text("No worse than the creator's own bed, but that bed has this stop too:", strong=True),
                Findings(tuple(adaptation.stops))]  # fmt: skip
    if not adaptation.judged:
        return [*made, Text("Two builds of the same bed, number by number.")]
    return [*made, Text("It passes the rules and the strength check: no check is worse than in the creator's bed, "
                        "unless within its limit. Calculated, not tested.")]  # fmt: skip


def choices(found: Comparison) -> list[Block]:
    """The choices of the build file that changed, each with its reason."""
    steps = found.adaptation.changes
    if not steps:
        return []
    columns = (Column("choice"), Column("the creator's"), Column("yours"), Column("why", share=WHY))
    return [Heading("What you asked for, and what follows"),
            Table(columns, tuple((s.key, s.before, s.after, s.full) for s in steps))]  # fmt: skip


def news(found: Comparison) -> list[Block]:
    """What only one of the two beds has."""
    rows = [(MARKS["new"], item.what, item.why) for item in found.new]
    rows += [(MARKS["gone"], item.what, item.why) for item in found.gone]
    if not rows:
        return []
    columns = (Column(""), Column("part, boards, fasteners or step", share=WHAT), Column("why", share=WHY))
    title = "New: the video does not show it" if found.new else "Gone: skip it in the video"
    return [Heading(title), Table(columns, tuple(rows))]


def numbers(found: Comparison, every: bool = False) -> list[Block]:
    """Every number that differs; ``every`` adds those that stay."""
    rows = [row for row in found.rows if every or (row.status != "stays" and found.shows(row))]
    if not every:
        rows = [row for row in rows if row.said or (row.status != "new" and _bench(row))]
    return [*side_by_side(found, rows), *([] if every else stays(found))]


def side_by_side(found: Comparison, rows: Sequence[Row]) -> list[Block]:
    """Some numbers before and after, with the reason; those that the video says set off."""
    made: list[Block] = []
    gone = [row for row in rows if row.status == "gone"]
    gone = gone if len(gone) > MOST_GONE else []
    rows = [row for row in rows if row not in gone]
    if rows:
        times = any(row.said for row in rows)
        columns = [Column(""), Column("what", share=WHAT), Column("creator’s", align="right"),
                   Column("yours", align="right"), Column("why", share=WHY)]  # fmt: skip
        if times:
            columns.insert(2, Column("said at"))
        cells = tuple(_cells(found, row, times) for row in rows)
        strong = frozenset(n for n, row in enumerate(rows) if row.said and row.status in ("changes", "gone"))
        made = [Heading("Numbers, side by side"), Table(tuple(columns), cells, strong=strong)]
        made += [Text("In bold: said in the video, and no longer so.", small=True)] if strong else []
    if gone:
        named = "; ".join(dict.fromkeys(row.what for row in gone))
        made += [Heading(f"{MARKS['gone'][:1]} Your bed has none of these", 3), Text(f"{named}.")]
    return made


def _bench(row: Row) -> bool:
    fact = row.after or row.before
    return fact is not None and fact.kind in BENCH


def _cells(found: Comparison, row: Row, times: bool) -> tuple[str, ...]:
    said = (", ".join(s.time for s in row.said if s.time),) if times else ()
    why = shorten(row.why, LONGEST, placeholder=" …")
    if row.key == COST and row.after is None:
        cutting = found.adaptation.yours.cutting
        known = f"over{NO_BREAK}{cutting.money.write(cutting.cost)}" if cutting.cost else found.yours(row)
        return (MARKS["changes"], row.what, *said, _short(found, row, False), known, why)
    return (MARKS[row.status], row.what, *said, _short(found, row, False), _short(found, row, True), why)


def _short(found: Comparison, row: Row, yours: bool) -> str:
    fact = row.after if yours else row.before
    if fact is not None and isinstance(fact.value, tuple):
        return f"as{NO_BREAK}drawn"
    return found.write(fact, yours).replace(" ", NO_BREAK)


def stays(found: Comparison) -> list[Block]:
    """What the video says that still holds, in one paragraph."""
    rows = [row for row in found.of("stays") if row.said and not any(said.wrong for said in row.said)]
    if not rows:
        ends = (".height", ".screw_length", ".length", ".underside")
        rows = [row for row in found.of("stays") if row.key.endswith(ends)]
    if not rows or found.adaptation.same:
        return []
    named = "; ".join(f"{row.what} {_short(found, row, True)}" for row in rows)
    return [Heading(f"{MARKS['stays'][:1]} Stays as in the video", 3), Text(f"{named}.")]


def slips(found: Comparison) -> list[Block]:
    """What the creator surely said wrong, and what to use."""
    if not found.slips:
        return []
    columns = [Column("at", align="right"), Column("the video says", share=0.4), Column("about", share=0.3),
               Column("use", align="right")]  # fmt: skip
    rows: list[tuple[str, ...]] = [
        (s.said.time or "", f"“{s.said.quote}”", s.row.what, found.use(s)) for s in found.slips
    ]
    if not found.adaptation.same:
        columns.append(Column("the creator’s plan", align="right"))
        rows = [(*row, found.write(slip.row.before)) for row, slip in zip(rows, found.slips, strict=True)]
    return [Heading("The video says … use …"), Table(tuple(columns), tuple(rows))]


def sentences(found: Comparison) -> list[Block]:
    """Sentences to ignore, with what to read instead."""
    if not found.outdated:
        return []
    columns = (Column("at", align="right"), Column("the video says", share=0.5), Column("for your bed", share=0.5))
    rows = tuple((o.said.time or "", f"“{o.marked}”", found.instead(o)) for o in found.outdated)
    return [Heading("No longer holds for your bed"), Table(columns, rows)]


def sums(found: Comparison) -> list[Block]:
    """Cost, weight and ratings before and after."""
    columns = (Column("what"), Column("the creator's", align="right"), Column("yours", align="right"))
    return [Heading("What it comes to"), Table(columns, tuple(found.sums))]


def maps(adaptation: Adaptation) -> list[Block]:
    """The leg map, what is new set off."""
    if adaptation.same:
        return []
    caption = "Your legs from above. Heavy blue outline: new or moved against the creator's bed."
    return [Heading("Where your legs stand"),
            Picture(views.leg_map(adaptation.yours.build, adaptation.creator.build), caption=caption)]  # fmt: skip


def compared_pages(found: Comparison) -> list[Page]:
    """The page of a sheet for another bed; what the video has wrong for it stands before it, all reasons in the
    workings."""
    changed = [row for row in found.rows if row.status != "stays" and found.shows(row)]
    rows = [row for row in changed if row.said] or [r for r in changed if r.status == "changes" and _bench(r)][:MOST]
    told = (*head(found), *news(found), *side_by_side(found, rows), *sums(found))
    return [Page("Your bed, against the creator’s", told, close=True)]


def reasoned_page(found: Comparison) -> Page:
    """Every choice that follows and every number that differs, with its reason."""
    return Page("Workings: your bed, number by number", (*choices(found), *numbers(found)))


# --- boards cut wrong ---


def wrong(outcomes: Sequence[Outcome]) -> list[Block]:
    """Keep, recut or shim, with what follows."""
    wide = 0.5
    columns = (Column("way"), Column("sound"), Column("what to do", share=wide), Column("what follows", share=wide))
    rows = tuple((o.way, "yes" if o.sound else "no", o.what, "; ".join(o.consequences)) for o in outcomes)
    found: list[Finding] = [finding for outcome in outcomes for finding in outcome.findings]
    return [Table(columns, rows), Findings(tuple(found))]


# --- all sizes ---


def family_blocks(members: Sequence[Member], units: str) -> list[Block]:
    """Sizes by parts, what had to change, and the sizes the style can't carry."""
    heads, rows = table(members, units)
    right = heads[-3:-1]  # what it costs and weighs
    columns = tuple(_column(name, right, heads) for name in heads)
    strong = frozenset(n for n, member in enumerate(members) if not member.sound)
    unit = "mm" if units == "mm" else "inches"
    made: list[Block] = [Heading("All sizes"), Text(f"Each part as count × length in {unit}."),
                         Table(columns, rows, strong=strong)]  # fmt: skip
    for member in members:
        if not member.sound:
            made.append(Caution(f"{member.size}, {member.variant}: {'; '.join(member.stops[:2])} {member.would}"))
    changed = [row for member in members for row in _changed(member)]
    if changed:
        follows = (Column("size"), Column("built"), Column("what had to change, and why", share=1))
        alike = len({member.variant for member in members}) == 1  # then it need not be said
        kept = [n for n in range(len(follows)) if n != 1 or not alike]
        rows = tuple(tuple(row[n] for n in kept) for row in changed)
        made += [Heading("What had to change", 3), Table(tuple(follows[n] for n in kept), rows)]
    return made


def _changed(member: Member) -> Iterator[tuple[str, str, str]]:
    """A row for each change, the size and how it is built in the first."""
    for n, change in enumerate(member.changes):
        yield ("", "", change) if n else (member.size, member.variant, change)


def _column(name: str, right: tuple[str, ...], heads: Sequence[str]) -> Column:
    if name in right:
        return Column(name, align="right")
    return Column(name, share=0.5) if name == heads[-1] else Column(name)
