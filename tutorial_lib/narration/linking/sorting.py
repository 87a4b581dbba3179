"""Numbers that are no claims about the build: orders, dates, ages, prices of other things, idioms, other products."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import CARDINALS, DURATIONS, LENGTHS, MASSES, MONEY, MONTHS
from tutorial_lib.narration.numbers.transcript import Around, Transcript
from tutorial_lib.narration.numbers.words import Gap, Word
from tutorial_lib.records import dataclass

SURE_UNITS = {
    "pct": "a percentage",
    "times": "how often",
    "clock": "a clock time",
    "fps": "a camera setting",
    "px": "a camera setting",
    "gauge": "a gauge, a name for a size",
    "f_below": "a temperature",
    "years": "an age or a span of years",
    "mile": "a distance travelled",
    "rpm": "a tool setting",
    "volt": "a tool",
    "V": "a tool",
    "W": "a tool",
    "teeth": "a tool",
    "weeks": "a span of time",
    "months": "a span of time",
    "days": "a span of time",
    "s": "a moment",
}
FORMS = {
    "ordinal": "an ordinal",
    "nominal": "the name of a timber size, not a measure",
    "label": "a name with a number in it",
    "gauge": "a screw gauge, a name for a size",
    "clock": "a clock time",
    "ratio": "a share, not a measure",
    "times": "how often, not a measure",
}


def surely_no_claim(transcript: Transcript, item: Expression, around: Around) -> str:
    """Why a number can't be a claim about the build; "" when it may be one."""
    words = transcript.words
    role = words[item.first].cue.role
    if role in ("heading", "direction", "sound"):
        return {"heading": "part of a heading", "direction": "part of a stage direction"}.get(
            role, "part of a sound cue"
        )
    return (
        FORMS.get(item.form, "")
        or SURE_UNITS.get(item.unit, "")
        or is_named(words, item, around)
        or idiom(item, around)
    )


IDENTIFIED = frozenset(
    "part step episode chapter video cam camera draft number version season volume page route "
    "room unit lane highway operation phase stage shot scene level class type size day week lesson rule channel".split()
)


@dataclass(frozen=True, kw_only=True)
class Told:
    """A number with the words that tell what it is."""

    item: Expression
    around: Around
    before: str  # the word before it
    after: str  # the word after it
    shown: str  # the number's first word, as captioned
    pause: Gap  # before it


def is_named(words: Sequence[Word], item: Expression, around: Around) -> str:
    """Years, dates, ages, episode and part numbers, temperatures, other beds: the reason, or ""."""
    before = words[item.first - 1].low if item.first and words[item.first].gap <= Gap.COMMA else ""
    after = words[item.last].low if item.last < len(words) and words[item.last].gap <= Gap.COMMA else ""
    told = Told(
        item=item, around=around, before=before, after=after, shown=words[item.first].text, pause=words[item.first].gap
    )
    return next((reason for rule in RULES if (reason := rule(told))), "")


def year(told: Told) -> str:
    """A four-digit number introduced as a year."""
    value = told.item.value
    four = not told.item.unit and value.denominator == 1 and 1900 <= value < 2100
    return "a year" if four and year_said(told.around, told.before) else ""


def date_or_name(told: Told) -> str:
    """A day of a month; "part 3", "episode two"."""
    if told.before in MONTHS or told.after in MONTHS:
        return "a date"
    named = not told.item.unit and told.before in IDENTIFIED and told.pause < Gap.COMMA
    return f"a name: {told.before} {told.shown}" if named else ""


ANGLES = re.compile(r"\b(?:mitre|miter|bevel|angle|square|cut)\b")


def temperature(told: Told) -> str:
    """Degrees that are no angle; "up to about ninety in here"."""
    degrees = told.item.unit == "deg" and not ANGLES.search(told.around.sentence)
    warm = re.search(r"\b(?:up to|only) about$", told.around.before) and told.around.after.startswith("in here")
    return "a temperature" if degrees or warm else ""


AGED = re.compile(r"\b(?:turned|turns|aged|is|was|i'm|she's|he's)$")
PERSON = re.compile(r"\b(?:he's|he is|he was|who's|who is|who was|(?:until|till|when) she(?: was|'s))$")
STOPS = re.compile(r"^(?:$|,|(?:and|but|now|or|he|she|i|still)\b)")
YEARS_OLD = re.compile(r"^(?:years old|next|on (?:sun|mon|tues|wednes|thurs|fri|satur)day)")


def age(told: Told) -> str:
    """How old somebody is."""
    aged = not told.item.unit and AGED.search(told.around.before) and YEARS_OLD.search(told.around.after)
    alone = not told.item.unit and 10 <= told.item.value <= 110 and told.item.value.denominator == 1
    person = alone and PERSON.search(told.around.before) and STOPS.match(told.around.after)
    return "an age" if aged or person else ""


WOULD = re.compile(r"(?:\S+ ){0,3}?(?:would|wouldn't|could|might)\b|'d\b")
DIVIDED = re.compile(r"\b(?:divide|divided|split|cut|fold|folded)(?: \S+){0,2} (?:in|into|by)$")


def not_this(told: Told) -> str:
    """Suppositions, other beds, what is denied, what others do, how many parts something is divided in."""
    before, after = told.around.before, told.around.after
    if re.search(r"(?:^| )an?$", before) and WOULD.match(after):
        return "a supposition, not this build"
    if before and OTHER_BED.search(told.around.sentence.split(before)[0] + before):
        return "speaks of another bed"
    if ANOTHER.search(f"{before} # {told.around.after}"):
        return "speaks of another bed"
    if SAYING.search(before):
        return "what others say, not this build"
    if DENIED.search(before):
        return "said of what it is not"
    if EARLIER_TRY.search(before):
        return "an earlier try, not this build"
    if THEIRS.search(before):
        return "what somebody else does, not this build"
    return "how many parts something is divided in" if not told.item.unit and DIVIDED.search(before) else ""


OTHER_BED = re.compile(
    r"\b(?:that|the (?:old|first|last|other|previous|earlier)|my (?:old|first|last|previous)|his|her|their)"
    r" (?:bed|bedframe|frame|build)\b.*\b(?:was|had|were|took|needed)\b"
)
ANOTHER = re.compile(
    r"\b(?:my (?:very )?(?:first|last|previous) (?:one|bed|try)|the last bed|"
    r"next (?:week|time|month|video|episode)\b.*\b(?:build|building|make|making|doing)|"
    r"next one(?:'s| is| will be)|(?:he|she|they|who)(?: now)? (?:has|have|had|sleeps? (?:in|on)) an? bed)\b.*#"
    r"|# (?:\S+ ){0,4}?,?for (?:a|another|some) (?:different|other) (?:bed|job|project)\b"
)
SAYING = re.compile(
    r"\b(?:(?:everybody|everyone|folks) (?:says?|tells? (?:you|me))|every(?:body|one) is wrong)(?: \S+){0,4}$"
)
DENIED = re.compile(
    r"\b(?:not|instead of|rather than|(?:don't|do not|never) (?:use|buy|cut|need|get|want|go for))(?: an?| the| at)?$"
)
EARLIER_TRY = re.compile(
    r"\b(?:the|my|our) first (?:time|try|attempt|go) (?:i|we) "
    r"(?:cut|made|did|drilled|bored|built|tried|laid|set|had|used)"
    r"(?: \S+){0,5}$"
)
THEIRS = re.compile(
    r"\b(?:my|his|her|their|our) (?:neighbou?r|brother|sister|cousin|nephew|niece|uncle|aunt|mate|friend|buddy|"
    r"son|daughter|"
    r"wife|husband|boss|(?:grand)?(?:father|mother|dad|mum|mom|pa|ma)|apprentice)(?:-in-law| in law)?(?: \S+)?"
    r" (?:uses?|used|wanted|wants|buys?|bought|swears by|cuts?|likes?|liked|had|has|went with|insists on)(?: \S+){0,4}$"
)


def year_said(around: Around, before: str) -> bool:
    """Whether a four-digit number is introduced as a year."""
    return before in ("since", "summer", "spring", "winter", "autumn", "year", "until", "circa") or (
        bool(re.search(r"\b(?:back in|born in|way back in|in|from)$", around.before))
        and not re.search(r"^(?:mm|mil|long|wide)", around.after)
    )


RULES = (year, date_or_name, temperature, age, not_this)

IDIOMS = re.compile(
    r"\b(?:man|woman|way street|cents worth|left feet|cups?|sugars?|hands?|"
    r"eyes?|beers?|pints?|kids?|dogs?|cats?|"
    r"sisters?|brothers?|mates?|friends?|children|boxes|things?|reasons?|tips?|words?|questions?|times|"
    r"ways?|hours? of sleep|cousins?|grandkids|neighbou?rs?|wives|husbands?|fingers?|thumbs?|beds?room|videos?|"
    r"episodes?|subscribers|steps?|stars?|miles?|jobs?)\b"
)
PRODUCT = re.compile(r"times (?:\d|" + "|".join(CARDINALS) + r")")  # "seventeen times five"
FOLLOWS = re.compile(r"(?:of (?:these|the|my|your|those) )?(\S+)")
LOOSE = re.compile(r"(?:extra|spare|more|of (?:days|hours|minutes|things|weeks))")
ONE_OF = re.compile(r"(?:thing|day|last|more|time|of (?:them|those|these|my|the)|another)\b")
ONE_AT = re.compile(r"(?:in|at|on|halfway|half way)\b")


def idiom(item: Expression, around: Around) -> str:
    """Counts of people and other things no plan holds, and set phrases."""
    if item.unit not in ("", "times"):
        return ""
    follow = FOLLOWS.match(around.after)
    if follow and not PRODUCT.match(around.after) and IDIOMS.fullmatch(follow[1].strip(",")):
        return "a count of something outside the build"
    if item.form == "dozen" and "couple" in around.sentence and LOOSE.match(around.after):
        return "a loose number, not a count"
    return one_said(around) if item.value == 1 else ""


def one_said(around: Around) -> str:
    """ "One thing", "one of these"; "two at the ends and one in the middle"."""
    if ONE_OF.match(around.after):
        return "a turn of phrase"
    share = "one" in around.sentence and ONE_AT.match(around.after) and re.search(r"(?:and|,)$", around.before or "x")
    return "one of a count already given" if share else ""


DOUBTS = {  # words that make it less likely that a number speaks of this build
    "supposed": re.compile(
        r"\b(?:if (?!you(?:'re| are) (?:building|following|cutting|making|watching|doing)\b)"
        r"(?:yours|you|your|you're|you've|it|there)|would|you'd|wouldn't|could|might|wanted to|instead of|"
        r"rather than|would've|could've|suppose|say you|(?:tr(?:y|ied)|had) it with|thought (?:of|"
        r"about)|can't use|too (?:long|short|thick|thin|big|small|close|wide))\b"
    ),
    "other": re.compile(
        r"\b(?:my (?:neighbou?r|brother|sister|cousin|daughter|son|dad|(?:grand)?(?:father|mother|ma|pa|dad|mum|mom)|"
        r"wife|husband|nephew|mate|"
        r"friend|uncle|mother|old)|his|her|their|our own|somebody|someone|he|last (?:year|one|time)|first bed|earlier|"
        r"the other bed|another bed|door|apartment|van|truck|stairs|staircase|vacuum|tote|totes|"
        r"used to|years ago|store ones|store-bought|store bought|buddy|tin|tub|box of|packet|label)\b"
    ),
    "other_size": re.compile(
        r"\ban? (?:regular |standard |proper |normal |cal |california )?"
        r"(?:twin|full|queen|king|double|single|super ?king|cot)(?: xl| single|-size)?(?:'s| is| are|,? they're|"
        r" would)\b"
    ),
    "left": re.compile(r"\b(?:left over|leftover|left(?! (?:and|or) right)|spare|offcut|scrap)\b"),
    "taken_back": re.compile(
        r"# (?:\S+ ){0,9}?,?(?:hold on|hang on|wait|that is not|that's not|isn't right|wrong|no i|scratch|nope|oops|"
        r"not so|i'd (?:have|of) said)\b"
    ),
    "reported": re.compile(
        r"\b(?:i (?:said|announced|gave|wrote|told|claimed|quoted)|you (?:said|wrote)|"
        r"the (?:shop|store|label|tag|tin) calls|minute|somebody said|says here)\b(?=.* #)"
    ),
    "slack": re.compile(r"\b(?:within|square to|out of square|tolerance|give or take|plus or minus|to within)\b"),
}


NEARBY = ("left", "slack", "other", "other_size", "supposed", "taken_back", "reported")


def doubts(around: Around) -> frozenset[str]:
    """Names of the doubts the sentence raises."""
    near = f"{around.before} # {around.after}"
    return frozenset(
        name for name, pattern in DOUBTS.items() if pattern.search(near if name in NEARBY else around.clause)
    )


HELD = {  # what a plan that has such facts has of them
    "price": (("cost", "price"), "what its lumber costs"),
    "load": (("weight", "load_rating"), "its own weights and ratings"),
}


def lacking(total: str, kinds: Collection[str]) -> str:
    """Why the build's own price, weight or load is nothing the plan holds, by the kinds of facts it has."""
    held = next((what for name, (some, what) in HELD.items() if name in total and not set(some).isdisjoint(kinds)), "")
    return f"{total}, and of that the plan holds only {held}" if held else f"{total}, which the plan doesn't hold"


THEIRS_COST = re.compile(r"\bcosts? (?:him|her|them)\b")


def own_total(item: Expression, around: Around) -> str:
    """The build's own price, weight or load: a claim, though most plans don't hold it."""
    if (
        item.unit in MONEY
        and not THEIRS_COST.search(around.before)
        and re.search(
            r"\b(?:came to|the lot|altogether|total|rang|till|whole|for (?:the|it|all)|ticket|bill|"
            r"receipt|cost|spent|dollars|lumber|timber|wood|all in)\b",
            around.previous + around.sentence,
        )
    ):
        return "the price of the build"
    if item.unit in MASSES and re.search(
        r"\b(?:trust|hold|holds|held|load|weighs?|stacked|take|carry|sat|sit|on it|on the edge|put)\b", around.sentence
    ):
        return "the build's weight or load"
    return ""


def leftover_reason(item: Expression, found: frozenset[str]) -> str:
    """In words, why a number without a subject isn't a claim."""
    for name, reason in (
        ("supposed", "a supposition, not this build"),
        ("other", "speaks of something else than the build"),
        ("left", "a leftover"),
        ("slack", "a tolerance"),
    ):
        if name in found:
            return reason
    if item.unit in MONEY:
        return "a price of something else"
    if item.unit in DURATIONS:
        return "a span of time"
    return (
        "speaks of nothing the plan holds" if item.unit in LENGTHS or item.value > Fraction(3) else "a turn of phrase"
    )
