"""What is said of each kind of work: its title, what to do, where to look, what can go wrong."""

from __future__ import annotations

from tutorial_lib.records import dataclass

ENDS_HELD = 2  # helpers, one at each end of a bed on posts that stands up


@dataclass(frozen=True)
class Wording:
    """What is said of a kind of operation."""

    title: str
    do: tuple[str, ...]
    look: tuple[str, ...]
    wrong: tuple[str, ...]
    held_by: int = 0  # helpers who hold pieces up meanwhile


WORDS = {
    "ply": Wording(
        "Make up the legs",
        (
            "Clamp the boards of each leg flush at the ends, then screw them together. Glue between them helps; the "
            "figures here don't count on it.",
        ),
        ("Both ends of each leg: the boards end in one plane.",),
        ("A leg whose boards are not flush rocks and carries on one board only.",),
    ),
    "corner": Wording(
        "Screw the corners",
        ("Clamp each corner with its faces flush, bore, and drive the screws.",),
        ("Top edges flush at all corners.",),
        ("Screws too near an end split the rail: bore first.",),
    ),
    "bench post": Wording(
        "Screw the corner blocks to the posts, on the bench",
        (
            "Set each block to its marks on the post, clamp it, bore, and drive the screws through the block into the "
            "post. Glue helps; the figures here don't count on it.",
        ),
        ("Both blocks of a post level with each other, and square to it.",),
        ("A block that sits low or askew leaves its rail low or askew.",),
    ),
    "bench batten": Wording(
        "Screw the battens to the head posts, on the bench",
        ("Set each batten to its marks on its post, clamp it, bore, and drive the screws through it into the post.",),
        ("The battens' backs flush with the posts'.",),
        ("A batten that stands proud of the post keeps the bed off the wall.",),
    ),
    "headboard": Wording(
        "Bolt the headboard to the head rail",
        (
            "Stand the headboard behind the head rail and clamp it. Bore through uprights and rail at the marks, put "
            "the bolts in from behind, and draw the nuts tight inside the rail.",
        ),
        ("Both uprights on the floor, the boards level.",),
        ("A bolt where a screw already sits breaks bit and screw: bore at the marks only.",),
    ),
    "bench upright": Wording(
        "Make up the headboard, on the bench",
        (
            "Lay the boards face down at their marks, the uprights on them, and drive the screws from behind through "
            "the uprights into the boards.",
        ),
        ("Gaps even, uprights square to the boards; no tip through a board's face.",),
        ("A headboard out of square leans over the bed.",),
    ),
    "bench panel slats": Wording(
        "Screw the headboard's slats to its rails, on the bench",
        (
            "Lay the slats face down, their ends in line, and the two rails on them, flush with their ends. Clamp, "
            "bore, and drive the screws from behind through the rails into the slats.",
        ),
        ("Gaps even, slats square to the rails: the two diagonals alike; no tip through a slat's face.",),
        ("A panel out of square shows at once between two upright posts.",),
    ),
    "bench upright slats": Wording(
        "Screw the uprights to the headboard's rails, on the bench",
        (
            "With the panel still face down, set the uprights on its rails at their marks, square to them, and drive "
            "the screws from behind through the uprights into the rails.",
        ),
        ("Both uprights as far in from the ends; no tip through a slat's face.",),
        ("A headboard out of square leans over the bed.",),
    ),
    "bench panel rails": Wording(
        "Screw the headboard's panel to its battens",
        (
            "Lay the head end on its front. Set the panel between the posts at its marks, its rails tight against the "
            "battens, and drive the screws from behind through the battens into the rails.",
        ),
        ("The panel square to the posts, the same gap beside both.",),
        ("Rails that are too long push the posts apart: cut them to what is between them.",),
    ),
    "bench panel": Wording(
        "Screw the headboard's boards to its battens",
        (
            "Lay the head end on its front. Set the boards to their marks between the posts, tight against the "
            "battens, and drive the screws from behind through the battens into the boards.",
        ),
        ("Gaps even, boards square to the posts; no tip through a board's face.",),
        ("A board that is too long pushes the posts apart: cut it to what is between them.",),
    ),
    "end by blocks": Wording(
        "Make up the head and the foot end",
        (
            "Lay two posts on the bench, their end blocks facing each other, and the end rail between them, tight "
            "against the posts and flat against the blocks. Clamp, bore, and drive the screws through the blocks into "
            "the rail.",
        ),
        ("Posts square to the rail, and in one plane: sight across them.",),
        ("An end out of square leans for good; measure its diagonals before the last screw.",),
    ),
    "end by bolts": Wording(
        "Make up the head and the foot end",
        (
            "Lay two posts on the bench and the end rail between them. Drop the barrel nuts into the rail's inside "
            "face, their slots along the rail, put the bolts through the posts with a washer under each head, and draw "
            "them tight by turns.",
        ),
        ("The rail's ends tight against the posts, the posts square to it and in one plane.",),
        ("A nut that lies askew lets no bolt in: turn it by its slot.",),
    ),
    "corner by bolts": Wording(
        "Bolt the side rails to the posts",
        (
            "Stand the two ends up, helpers holding them, and set the side rails between them. Drop the barrel nuts "
            "in, put the bolts through the posts with a washer under each head, and draw them tight by turns.",
        ),
        ("Each rail's end tight against its post; top edges at one height all round.",),
        ("A bolt drawn hard while another is loose leaves the corner open.",),
        held_by=ENDS_HELD,
    ),
    "end by hooks": Wording(
        "Make up the head and the foot end",
        (
            "Screw the hooks to the end rail's ends and their plates to its two posts, as their maker says, at one "
            "height; then hook the rail in and knock it down tight.",
        ),
        ("The rail sits down on its hooks, its ends tight against the posts.",),
        ("Plates at different heights leave a rail hanging on one hook.",),
    ),
    "corner by blocks": Wording(
        "Fix the side rails to the posts",
        (
            "Stand the two ends up, helpers holding them. Set each side rail's end tight against its post and flat "
            "against the block, clamp it, bore, and drive the screws through the block into the rail.",
        ),
        ("Each rail's end tight against its post; top edges at one height all round.",),
        ("A gap at a post lets the corner work and the bed rock.",),
        held_by=ENDS_HELD,
    ),
    "corner by hooks": Wording(
        "Hook the side rails into the posts",
        (
            "Screw the hooks to the side rails' ends and their plates to the posts, as their maker says, at one height "
            "all round. Stand the two ends up, helpers holding them, hook the rails in from above, and knock them down "
            "tight.",
        ),
        ("Each rail sits down on its hooks, its end tight against the post.",),
        ("Plates at different heights leave a rail hanging on one hook.",),
        held_by=ENDS_HELD,
    ),
    "cleat": Wording(
        "Screw the cleats to the side rails",
        ("Hold each cleat to its line, clamp it, and drive the screws from one end to the other.",),
        ("Both cleats at the same distance from the rail's top edge.",),
        ("A cleat that runs out of line lets every slat on that side rock.",),
    ),
    "runner": Wording(
        "Screw the runners under the rails",
        ("Lay the side runners on the rails' lower edges, outer faces flush, clamp, and drive the screws.",),
        ("Runner edges flush with the rails' outer faces.",),
        ("Once screwed, the runners hold the frame as it is: square it before.",),
    ),
    "block": Wording(
        "Screw on the blocks",
        ("Set each block to its marks on the end rail, clamp it, bore, and drive the screws.",),
        ("Blocks level with each other: lay a straight board across.",),
        ("A block that sits low leaves its centre line hanging on its screws.",),
    ),
    "line": Wording(
        "Fit the centre line",
        ("Set each line to its marks and fix its ends.",),
        ("Its top level with the seats along the sides: lay a straight board across.",),
        ("A line that stands proud makes the slats rock over it.",),
    ),
    "line upside down": Wording(
        "Fit the centre line",
        ("Set each line to its marks and fix its ends.",),
        ("Each line lies tight on its spacers, from end to end.",),
        ("A line that stands proud makes the slats rock over it.",),
    ),
    "leg": Wording(
        "Fit the legs",
        ("Set each leg to its mark, square to the rail, and fix it.",),
        ("Each leg tight against what it carries; no gap at its top.",),
        ("A leg that does not touch at its top hangs on its fasteners alone.",),
    ),
    "bench leg": Wording(
        "Screw the legs to the boards they carry, on the bench",
        (
            "Lay board and legs on the bench, set each leg square against its mark, clamp it, and drive the screws "
            "through the board into the leg's end.",
        ),
        ("Legs square to the board, all on the same side of it, their tops tight against it.",),
        ("A leg out of square leans in the bed, and later no driver reaches its screws.",),
    ),
    "bench cleat": Wording(
        "Screw the cleats to the side rails on the bench",
        (
            "Lay each side rail on its outer face. Clamp the cleat against the spacer at one end, then at the other, "
            "and drive the screws from one end to the other. Glue along the cleat helps; the figures here don't count "
            "on it.",
        ),
        ("Both cleats at the same distance from the rail's top edge, along the whole rail.",),
        ("A cleat that runs out of line lets every slat on that side rock.",),
    ),
    "plinth": Wording(
        "Screw the plinth round the legs",
        (
            "Hold the boards across against the end legs, then those along past their ends, clamp them, bore, and "
            "drive the screws. The boards carry nothing: the legs do.",
        ),
        ("The boards' lower edges clear of the floor, level all round.",),
        ("A plinth board that touches the floor takes the load off a leg and splits at its screws.",),
    ),
    "base frame": Wording(
        "Screw the base frame round the legs",
        (
            "Stand the boards across against the end legs, then those along past their ends, tight on the runners, "
            "clamp them, bore, and drive the screws.",
        ),
        ("Boards and legs end in one plane: lay a straight edge across their feet.",),
        ("A board wider than the legs are long lifts them off the floor; the figures count on the legs alone.",),
    ),
    "slat": Wording(
        "Lay the slats",
        (
            "Screw the slats down. A strap stapled across all of them along each side keeps the gaps too, where they "
            "are to come off again; they then only lie there.",
        ),
        ("The last slat at its mark before any screw is driven.",),
        ("A proud screw head under a slat makes it rock.",),
    ),
    "slat straps": Wording(
        "Strap the slats together and lay them",
        (
            "Lay the slats side by side on the floor, a strap across them at each place, a slat at each mark of the "
            "strap, and put two staples or tacks through the strap into every slat.",
            "Roll the row up, carry it in, unroll it from the head, and screw the first and the last slat down. The "
            "straps keep the gaps and carry nothing.",
        ),
        ("The straps lie flat, and every slat square to them.",),
        ("A strap that is pulled tight while stapling bows the row.",),
    ),
    "slat loose": Wording(
        "Lay the slats",
        ("The slats only lie there: look at their gaps whenever the mattress comes off.",),
        ("Every slat lies on both its seats, at its mark.",),
        ("A slat that has slid to one side may lose its seat on the other.",),
    ),
}
