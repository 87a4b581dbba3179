"""What plain words tell: timber's names, gauges, prices and waits, each right, wrong, asked or left alone."""

from __future__ import annotations

import pytest

from tests.narration.plans import fact, facts, told
from tutorial_lib.facts import Facts
from tutorial_lib.narration import Item, check, read_captions


def lumber(section: str, what: str, *said: str) -> dict[str, object]:
    """An entry of a facts file that names a part's board."""
    return fact(0, "", "lumber", what, *said) | {"value": section, "board": {"section": section}}


PLAN = facts(
    {
        "side_rail.length": fact(78.75, "in", "length", "2x6 side rail", "side rail", "rail"),
        "side_rail.count": fact(2, "count", "part_count", "side rails", "side rail", "rail"),
        "side_rail.lumber": lumber("2x6", "lumber of the side rails", "side rail", "rail"),
        "end_rail.lumber": lumber("2x8", "lumber of the end rails", "end rail", "rail"),
        "slat.lumber": lumber("1x4", "lumber of the slats", "slat"),
        "slat.count": fact(14, "count", "part_count", "slats", "slat"),
        "plinth_side.lumber": lumber("1x8", "lumber of the plinth sides", "plinth"),
        "stock.a": fact(3, "count", "stock_count", "8-ft 2x6", board=("2x6", 96)),
        "stock.a.length": fact(96, "in", "stock_length", "8-ft 2x6", board=("2x6", 96)),
        "stock.a.price": fact(8.1, "usd", "price", "price of one 8-ft 2x6", board=("2x6", 96)),
        "stock.b.price": fact(8.3, "usd", "price", "price of one 10-ft 1x4", board=("1x4", 120)),
        "lumber.cost": fact(89.5, "usd", "cost", "all lumber", "lumber", "wood"),
        "cleat.gauge": fact(9, "gauge", "gauge", "gauge of the cleat screws", "cleat"),
        "cleat.screw_length": fact(2.5, "in", "screw_length", "cleat screw", "cleat"),
        "slat.gauge": fact(8, "gauge", "gauge", "gauge of the slat screws", "slat"),
        "slat.screw_length": fact(1.5, "in", "screw_length", "slat screw", "slat"),
        "wait.least": fact(48, "h", "wait", "time until the mattress goes on, at least", "oil"),
        "wait.most": fact(72, "h", "wait", "time until the mattress goes on, at most", "oil"),
        "recoat": fact(4, "h", "time", "hours between coats", "oil"),
        "again": fact(30, "d", "time", "days until the screws are gone over again"),
        "play": fact(0.375, "in", "gap", "room at each end of the mattress", "mattress"),
    }
)
METRIC = facts({"rail.lumber": lumber("44x94", "lumber of the rails", "rail")}, "mm")


def found(text: str, plan: Facts = PLAN) -> list[tuple[str, str | None, str]]:
    """Quote, subject and what is told of every number that a rule may judge."""
    return [(i.quote, *told(i)) for i in items(text, plan) if i.kind in KINDS or i.unit == "nominal"]


KINDS = ("lumber", "gauge", "price", "cost", "wait", "time", "label")


def items(text: str, plan: Facts = PLAN) -> tuple[Item, ...]:
    """The numbers of a talk, checked."""
    return check(read_captions(text), plan).items


@pytest.mark.parametrize(
    ("text", "subject", "verdict"),
    [
        ("The side rails are two by sixes.", "side_rail.lumber", "right"),
        ("The side rails are two by fours.", "side_rail.lumber", "wrong"),
        ("The plinth, that's a one by six.", "plinth_side.lumber", "wrong"),
        ("I use a one by eight for the plinth.", "plinth_side.lumber", "right"),
        ("Then a one by six for the plinth.", "plinth_side.lumber", "wrong"),
        ("Fourteen one by four slats.", "slat.lumber", "right"),
        ("Cut the one by six slats.", "slat.lumber", "wrong"),
        ("The slats come out of ten foot one by sixes.", "slat.lumber", "wrong"),
        ("The plinth's a one by six.", "plinth_side.lumber", "wrong"),
        ("Side rails, two by fours, cut to length.", "side_rail.lumber", "wrong"),
    ],
)
def test_a_timber_named_of_a_part(text: str, subject: str, verdict: str) -> None:
    assert found(text) == [(found(text)[0][0], subject, verdict)]


def test_of_parts_that_share_a_name_any_may_be_meant() -> None:
    """Side rails are 2x6 and end rails 2x8: "rails" may be either, and never 2x4."""
    assert found("The rails are two by eights.")[0][1:] == ("end_rail.lumber", "right")
    assert found("The rails are two by fours.")[0][2] == "wrong"


@pytest.mark.parametrize(
    "text",
    [
        "For the jig I screwed a two by four to the bench.",
        "You could use two by tens for the side rails.",
        "The side rails are not two by fours.",
        "My neighbour made his slats from two by fours.",
        "Under the side rail is a two by four.",
        "A two by four isn't really two inches by four.",
        "Fourteen slats, a two by four left over.",
        "An eight foot two by four holds the door open.",
        "The first time I built it I used a two by four for the plinth.",
    ],
)
def test_other_boards_are_left_alone(text: str) -> None:
    assert {v for _, _, v in found(text)} <= {"not_a_claim", "not_in_plan"}


def test_boards_to_buy_of_a_size_the_plan_lacks_are_asked_about() -> None:
    item = next(i for i in items("You'll need three eight foot two by fours.") if i.unit == "nominal")
    assert item.verdict == "unsure"
    assert [c.subject for c in item.choices] == ["side_rail.lumber"]


@pytest.mark.parametrize(
    ("text", "subjects"),
    [
        ("Grab a two by ten and let's get going.", ["side_rail.lumber", "end_rail.lumber"]),
        ("Okay, take a two by ten.", ["side_rail.lumber", "end_rail.lumber"]),
        ("so grab a one by six and lets go", ["slat.lumber", "plinth_side.lumber"]),
        ("I'm using one by threes here.", ["slat.lumber", "plinth_side.lumber"]),
        ("Grab a two by ten, it's for the side rails.", ["side_rail.lumber", "end_rail.lumber"]),
        ("Slats next. They're two by threes.", ["slat.lumber"]),
    ],
)
def test_a_board_that_the_bed_lacks_taken_up_alone_is_asked_about(text: str, subjects: list[str]) -> None:
    item = next(i for i in items(text) if i.unit == "nominal")
    assert (item.verdict, [c.subject for c in item.choices]) == ("unsure", subjects)


@pytest.mark.parametrize(
    "text",
    [
        "Grab a two by eight and let's get going.",  # the bed has it
        "Grab a two by ten as a spacer.",
        "Use a two by four to check it.",
        "For the jig, grab a two by four and square it.",
        "You could grab a two by ten.",
        "The bench is old. It's two by tens.",
        "A friend came by. They're two by tens.",
        "My father would take a two by ten.",
    ],
)
def test_a_board_taken_up_for_something_else_is_left_alone(text: str) -> None:
    assert {v for _, _, v in found(text)} <= {"not_a_claim"}


def test_a_timber_taken_back_is_none() -> None:
    got = found("The side rails are two by fours, sorry, two by sixes.")
    assert [v for _, _, v in got] == ["not_a_claim", "right"]


@pytest.mark.parametrize(("said", "verdict"), [("four by two", "right"), ("six by two", "wrong")])
def test_a_metric_timber_by_its_old_inches(said: str, verdict: str) -> None:
    assert found(f"The rails are {said}.", METRIC)[0][1:] == ("rail.lumber", verdict)


@pytest.mark.parametrize(
    ("text", "subject", "verdict"),
    [
        ("For the cleats take number nine screws.", "cleat.gauge", "right"),
        ("For the cleats take number twelve screws.", "cleat.gauge", "wrong"),
        ("Cleats next. Use #12 screws.", "cleat.gauge", "wrong"),
        ("The slats get number nines.", "slat.gauge", "wrong"),
        ("Number eight by one and a half, those are for later.", "slat.gauge", "right"),
        ("Take number ten wood screws, two and a half inches.", "cleat.gauge", "wrong"),
        ("Five screws in the cleat, two and a half inches, number nine.", "cleat.gauge", "right"),
        ("Five screws in the cleat, number twelve.", "cleat.gauge", "wrong"),
        ("put two screws in each slat one and a half number eight and go on", "slat.gauge", "right"),
    ],
)
def test_gauges(text: str, subject: str, verdict: str) -> None:
    assert (subject, verdict) in [f[1:] for f in found(text)]


def test_a_gauge_of_no_part_is_asked_only_where_the_plan_has_none_such() -> None:
    assert [i.verdict for i in items("I like number eight screws.")] == ["agrees"]
    asked = items("I like number ten screws.")[0]
    assert (asked.verdict, {c.subject for c in asked.choices}) == ("unsure", {"cleat.gauge", "slat.gauge"})


@pytest.mark.parametrize(
    "text",
    [
        "Take a number two bit.",
        "A #2 Phillips.",
        "He's number eight on the list.",
        "Two screws here, then rail number nine.",
        "The screws are in. Number nine.",
    ],
)
def test_what_is_no_gauge(text: str) -> None:
    assert {v for _, _, v in found(text)} <= {"not_a_claim"}


@pytest.mark.parametrize(
    ("text", "subject", "verdict"),
    [
        ("The two by sixes were eight dollars ten a board.", "stock.a.price", "right"),
        ("The two by sixes were eleven dollars a board.", "stock.a.price", "wrong"),
        ("One by fours, eight dollars apiece.", "stock.b.price", "right"),
        ("All the lumber came to ninety dollars.", "lumber.cost", "right"),
        ("All the lumber came to a hundred and twenty dollars.", "lumber.cost", "wrong"),
    ],
)
def test_prices(text: str, subject: str, verdict: str) -> None:
    assert (subject, verdict) in [f[1:] for f in found(text)]


@pytest.mark.parametrize(
    ("text", "subject", "verdict"),
    [
        ("Three eight foot two by sixes, eight ten each.", "stock.a.price", "agrees"),
        ("Three eight foot two by sixes, nine thirty each.", "stock.a.price", "conflicts"),
        ("three two by sixes 810 each and four one by fours eight thirty each", "stock.a.price", "agrees"),
        ("The side rails were nine forty a stick.", "stock.a.price", "conflicts"),
        ("One by fours at eight thirty, and off we go.", "stock.b.price", "agrees"),
        ("One by fours at nine fifty.", None, "unsure"),
        ("The two by six was 8.10, the bag of screws more.", "stock.a.price", "agrees"),
    ],
)
def test_a_price_without_its_currency_after_a_board(text: str, subject: str | None, verdict: str) -> None:
    assert next((i.subject, i.verdict) for i in items(text) if i.kind == "price") == (subject, verdict)


@pytest.mark.parametrize(
    "text",
    [
        "The two by six is forty-eight fifty each.",  # five times its price
        "Eight ten each, that's what he said.",  # no board
        "My neighbour's two by sixes were nine thirty each.",
        "The two by six has four hundred rings.",
        "The one by four is ninety each.",
    ],
)
def test_what_is_no_price(text: str) -> None:
    assert [i for i in items(text) if i.kind == "price"] == []


def test_a_length_in_millimetres_is_no_price() -> None:
    plan = facts(
        {
            "post.length": fact(1920, "mm", "length", "95x95 post", "post"),
            "post.lumber": lumber("95x95", "lumber of the posts", "post"),
            "stock.price": fact(18.4, "eur", "price", "price of one 95x95", board=("95x95", 2400)),
        },
        "mm",
    )
    assert [i.kind for i in items("Two posts 95x95, nineteen twenty each.", plan)][-1] == "length"
    price = items("Two posts 95x95, eighteen forty each.", plan)[-1]
    assert (price.subject, price.verdict, price.unit) == ("stock.price", "agrees", "eur")


def test_a_price_is_of_the_length_it_stands_at() -> None:
    plan = facts(
        {
            "a.price": fact(4.35, "usd", "price", "price of one 8-ft 2x4", board=("2x4", 96)),
            "b.price": fact(6.2, "usd", "price", "price of one 10-ft 2x4", board=("2x4", 120)),
        }
    )
    text = "Five eight-foot two by fours at four thirty-five, and five ten-footers, those were six twenty each."
    assert [(i.subject, i.verdict) for i in items(text, plan) if i.kind == "price"] == [
        ("a.price", "agrees"),
        ("b.price", "agrees"),
    ]


METRIC_SCREWS = facts(
    {
        "cleat.screw_gauge": fact(5, "mm", "gauge", "diameter of the cleat screws", "cleat"),
        "cleat.screw_length": fact(80, "mm", "screw_length", "cleat screw", "cleat"),
        "slat.screw_gauge": fact(4, "mm", "gauge", "diameter of the slat screws", "slat"),
        "slat.screw_length": fact(45, "mm", "screw_length", "slat screw", "slat"),
        "bolt.length": fact(150, "mm", "bolt_length", "carriage bolt", "bolt"),
        "bolt.diameter": fact(8, "mm", "diameter", "carriage bolt", "bolt"),
        "bolt.hole": fact(9, "mm", "diameter", "hole for a carriage bolt", "bolt"),
        "cleat.length": fact(2024, "mm", "length", "45x45 cleat", "cleat"),
    },
    "mm",
)


@pytest.mark.parametrize(
    ("text", "told_of"),
    [
        ("The cleats get five by eighty.", [("cleat.screw_gauge", "agrees"), ("cleat.screw_length", "agrees")]),
        ("The cleats get five by seventy.", [("cleat.screw_gauge", "agrees"), ("cleat.screw_length", "conflicts")]),
        (
            "The cleats get six by eighty screws.",
            [("cleat.screw_gauge", "conflicts"), ("cleat.screw_length", "agrees")],
        ),
        ("For the cleats 5 x 80.", [("cleat.screw_gauge", "agrees"), ("cleat.screw_length", "agrees")]),
        ("For the cleats 5x80.", [("cleat.screw_length", "agrees")]),
        ("For the cleats 5x60.", [("cleat.screw_length", "conflicts")]),
        ("For the cleats 6x80.", [("cleat.screw_gauge", "conflicts")]),
        ("I take four by forty-five.", [("slat.screw_gauge", "agrees"), ("slat.screw_length", "agrees")]),
        ("I take four by fifty.", [("slat.screw_gauge", "agrees"), (None, "unsure")]),
        ("The bolts are M8.", [("bolt.diameter", "agrees")]),
        ("The bolts are M10.", [("bolt.diameter", "conflicts")]),
    ],
)
def test_metric_screws_by_their_names(text: str, told_of: list[tuple[str | None, str]]) -> None:
    assert [(i.subject, i.verdict) for i in items(text, METRIC_SCREWS)] == told_of


@pytest.mark.parametrize(
    "text", ["My neighbour used five by seventy for his cleats.", "The room is five by six metres."]
)
def test_what_names_no_screw_of_this_bed(text: str) -> None:
    assert {i.kind for i in items(text, METRIC_SCREWS)}.isdisjoint({"gauge", "screw_length"})


def test_prices_of_other_things_are_left_alone() -> None:
    for text in ("The drill was ninety dollars.", "Feed is up to nine dollars a bag.", "He paid two dollars a board."):
        assert items(text)[0].verdict in ("not_a_claim", "not_in_plan", "unsure")
    price = items("With screws and oil it came to a hundred and forty dollars altogether.")[0]
    assert price.verdict == "not_in_plan"
    assert price.why == "the price of the build, and of that the plan holds only what its lumber costs"


@pytest.mark.parametrize(
    ("text", "subject", "verdict"),
    [
        ("Go over the screws again after thirty days.", "again", "right"),
        ("Go over the screws again after one month.", "again", "right"),
        ("Go over the screws again after ninety days.", "again", "wrong"),
        ("Wait three days before the mattress goes on.", "wait.most", "right"),
        ("Wait seventy hours before the mattress goes on.", "wait.most", "right"),
        ("Wait one day before the mattress goes on.", "wait.least", "wrong"),
        ("Leave it two days between coats.", "recoat", "wrong"),
        ("Two coats, and give it one hour between them.", "recoat", "wrong"),
        ("Leave twelve hours between the layers.", "recoat", "wrong"),
    ],
)
def test_waits(text: str, subject: str, verdict: str) -> None:
    assert found(text)[0][1:] == (subject, verdict)


@pytest.mark.parametrize(
    "text", ["The paint took three days.", "It rained all three days between coats.", "I was away for two weeks."]
)
def test_other_spans_are_left_alone(text: str) -> None:
    assert {i.verdict for i in items(text)} == {"not_a_claim"}


def test_a_sentence_that_begins_with_wait_takes_nothing_back() -> None:
    got = items(
        "Oil needs two coats. Go over the screws after ninety days. Wait three days before the mattress goes on."
    )
    assert "taken back by the correction that follows" not in {i.why for i in got}
    taken = items("It dries in two days, wait, three days.")
    assert taken[0].why == "taken back by the correction that follows"


def test_eights_are_eighths_where_the_plan_has_them_and_no_board_is_spoken_of() -> None:
    got = items("Leave three eights at each end of the mattress.")
    assert [(i.quote, i.subject) for i in got] == [("three eights", "play")]
    assert [i.quote for i in items("We buy three eights at the store.")] == ["three", "eights"]
    assert [i.quote for i in items("Leave five eights at each end.")] == ["five", "eights"]


def test_what_a_search_finds_is_of_the_numbers_own_sort_and_judged_as_such() -> None:
    """Of a board's name boards are offered, of days waits; 2x4 isn't right for 2x6 because both are 2 in thick."""
    from tutorial_lib.narration.verdicts.answers import choice_if
    from tutorial_lib.narration.verdicts.asking import found as search

    name = next(i for i in items("You'll need three eight foot two by fours.") if i.unit == "nominal")
    assert search(PLAN, "side rail", name.unit) == ["side_rail.lumber"]
    rails, slats = (choice_if(name, PLAN[key], "in") for key in ("side_rail.lumber", "slat.lumber"))
    assert rails and slats and rails.verdict == slats.verdict == "conflicts"
    days = items("Wait three days before the mattress goes on.")[0]
    assert search(PLAN, "mattress", days.unit) == ["wait.least", "wait.most"]
    most, again = (choice_if(days, PLAN[key], "in") for key in ("wait.most", "again"))
    assert most and again and (most.verdict, again.verdict) == ("agrees", "conflicts")


def test_a_slip_of_a_name_can_be_answered() -> None:
    from tutorial_lib.narration.verdicts import answers

    talk = read_captions("You'll need three eight foot two by fours.")
    item = next(i for i in check(talk, PLAN).items if i.unit == "nominal")
    for kind, verdict in (("slip", "conflicts"), ("elsewhere", "not_a_claim")):
        given = answers.of(item, kind, "side_rail.lumber" if kind == "slip" else None)  # type: ignore[arg-type]
        again = check(talk, PLAN, None, [given])
        assert next(i for i in again.items if i.unit == "nominal").verdict == verdict
