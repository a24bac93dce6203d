"""Small work of the hands at a table: fasten, peg, thread, pick, tear, roll up, draw shapes."""

from __future__ import annotations

from tapeline.figures.move import Frame, Params, Thing
from tapeline.figures.moves.making import (
    AT_TABLE,
    Three,
    at_table,
    pair,
    small,
    table_move,
    to,
    word,
)
from tapeline.figures.pose import Arm, Pose

FINE = "fine_motor"


def fasten(params: Params) -> Three:
    """Take hold of both sides, close one, close the last."""
    kind = word(params, "kind")
    if kind == "strap":
        return _strap()

    def shot(shut: int, ahead: float) -> Frame:
        coat = Thing(kind="coat", at=(0.36, 0, 0.402), note=f"{kind}{shut}")
        left, right = small(ahead, 0.035, 0.45), small(ahead, -0.035, 0.45)
        return at_table(AT_TABLE.but(left_arm=left, right_arm=right), coat)

    return shot(0, 0.27), shot(2, 0.34), shot(4, 0.41)


def _strap() -> Three:
    def shot(hand: tuple[float, float, float], note: str) -> Frame:
        shoe = Thing(kind="shoe", at=(0.35, 0, 0.405), note=note)
        pose = AT_TABLE.but(left_arm=small(0.33, 0.09, 0.43), right_arm=small(*hand))
        return at_table(pose, shoe)

    return (
        shot((0.33, -0.09, 0.455), ""),
        shot((0.36, -0.05, 0.50), ""),
        shot((0.35, -0.05, 0.445), "shut"),
    )


def pinch_peg(params: Params) -> Three:
    """Press the peg open, put it over the edge, let go."""
    del params

    def shot(pegs: int, hand: tuple[float, float, float], is_held: bool) -> Frame:
        box = Thing(kind="peg_box", at=(0.40, 0.06, 0.402), note=str(pegs))
        peg = (Thing(kind="peg", hold="right", at=(0.03, 0.01, -0.01), to=(0.6, 0.3, -0.7)),)
        pose = AT_TABLE.but(left_arm=small(0.37, 0.17, 0.45), right_arm=small(*hand))
        return at_table(pose, box, *(peg if is_held else ()))

    return (
        shot(1, (0.26, -0.10, 0.45), True),
        shot(1, (0.31, -0.035, 0.525), True),
        shot(2, (0.25, -0.12, 0.44), False),
    )


def thread_bead(params: Params) -> Three:
    """Lace to the hole, through and pull; or rings over a post."""
    if params["object"] == "ring":
        return _rings()

    def shot(left: float, right: float, done: int, is_held: bool) -> Frame:
        lace = Thing(kind="string", hold="right", to=(0.02, 0.18, -0.10), note=str(done))
        bead = Thing(kind="bead", hold="left", at=(0.035, -0.012, 0.006))
        pose = AT_TABLE.but(
            nod=26, left_arm=small(0.30, left, 0.485), right_arm=small(0.30, -right, 0.485)
        )
        return at_table(pose, lace, *((bead,) if is_held else ()))

    return shot(0.09, 0.10, 0, True), shot(0.035, 0.035, 0, True), shot(0.08, 0.13, 2, False)


def _rings() -> Three:
    def shot(done: int, hand: tuple[float, float, float], is_held: bool) -> Frame:
        post = Thing(kind="post", at=(0.40, 0.03, 0.402), note=str(done))
        ring = Thing(kind="bead", hold="right", at=(0.05, 0.0, -0.005))
        pose = AT_TABLE.but(left_arm=small(0.33, 0.13, 0.43), right_arm=small(*hand))
        return at_table(pose, post, *((ring,) if is_held else ()))

    return (
        shot(1, (0.25, -0.11, 0.45), True),
        shot(1, (0.35, -0.01, 0.575), True),
        shot(2, (0.30, -0.09, 0.52), False),
    )


def pick_put(params: Params) -> Three:
    """Pick it up with the fingers or tongs, carry it over, put it in the bowl."""
    has_tongs = params["tool"] == "tongs"
    is_across = params["way"] == "across"
    bowl = Thing(kind="bowl", at=(0.40, 0.13 if is_across else -0.02, 0.402))
    start = (0.32, -0.17)
    stop = (0.26 if has_tongs else 0.32, bowl.at[1] - (0.05 if is_across else 0.0))

    def shot(ahead: float, aside: float, up: float, is_held: bool) -> Frame:
        tool: tuple[Thing, ...] = ()
        if has_tongs:
            note = "held" if is_held else ""
            tool = (Thing(kind="tongs", hold="right", to=(0.8, 0.15, -0.35), note=note),)
        elif is_held:
            tool = (Thing(kind="pom", hold="right", at=(0.045, 0.0, -0.012)),)
        lying = Thing(kind="pom", at=(start[0] + 0.10, start[1], 0.425))
        left = small(0.33, 0.17, 0.43) if not is_across else small(0.26, 0.12, 0.43)
        pose = AT_TABLE.but(left_arm=left, right_arm=small(ahead, aside, up, side=-1))
        rest = (lying,) if not is_held else ()
        return at_table(pose, bowl, *tool, *rest)

    return (
        shot(0.27, -0.15, 0.47, False),
        shot(0.30, -0.06, 0.53, True),
        shot(stop[0], stop[1] - 0.02, 0.525, True),
    )


def tear_paper(params: Params) -> Three:
    """Hold it up in both hands, tear one hand away and one near, on to the end."""
    if params["way"] == "crumple":
        sheet = Thing(kind="paper", at=(0.36, 0, 0.402))
        ball = Thing(kind="crumple", hold="both", at=(0.03, 0, 0.0))
        return (
            at_table(AT_TABLE.but(**pair(0.34, 0.10, 0.425)), sheet),
            at_table(AT_TABLE.but(**pair(0.30, 0.065, 0.48, shape="grip")), ball),
            at_table(AT_TABLE.but(**pair(0.30, 0.05, 0.49, shape="grip")), ball),
        )

    def shot(share: int, near: float, far: float) -> Frame:
        sheet = Thing(kind="torn", hold="both", at=(0.02, 0, 0.0), note=str(share))
        pose = AT_TABLE.but(
            left_arm=to(0.30 + far, 0.06, 0.53, low=True),
            right_arm=to(0.30 - near, -0.06, 0.53, low=True),
        )
        return at_table(pose, sheet)

    return shot(0, 0.0, 0.0), shot(4, 0.03, 0.03), shot(9, 0.06, 0.06)


def roll_towel(params: Params) -> Three:
    """Flat hands at the near edge, roll away, press the roll."""
    del params

    def shot(rolled: int, ahead: float) -> Frame:
        towel = Thing(kind="towel_roll", at=(ahead + 0.03, 0, 0.402), note=str(rolled))
        return at_table(AT_TABLE.but(**pair(ahead, 0.08, 0.455)), towel)

    return shot(1, 0.22), shot(5, 0.30), shot(9, 0.38)


def draw_shape(params: Params) -> Three:
    """Look at the shape, draw along, finish it."""
    shape = word(params, "shape")
    is_finger = params["tool"] == "finger"
    crayon = () if is_finger else (Thing(kind="hand_pencil", to=(0.45, 0.05, -0.9)),)
    up = 0.435 if is_finger else 0.462

    def shot(ahead: float, aside: float, note: str) -> Frame:
        paper = Thing(kind="paper", at=(0.36, 0.0, 0.402), note=note)
        hand = small(ahead, aside, up, shape="point" if is_finger else "grip")
        return at_table(
            AT_TABLE.but(left_arm=small(0.28, 0.13, 0.425, shape="flat"), right_arm=hand),
            paper,
            *crayon,
        )

    return shot(0.31, -0.13, ""), shot(0.37, -0.06, shape), shot(0.29, -0.10, shape)


def hand_walk(params: Params) -> Three:
    """Hands on the table, one walks ahead, then the other."""
    del params

    def shot(left: float, right: float) -> Frame:
        pose: Pose = AT_TABLE.but(
            lean=8 + 20 * (left + right),
            left_arm=small(0.22 + left, 0.10, 0.425, shape="flat"),
            right_arm=small(0.22 + right, -0.10, 0.425, shape="flat"),
        )
        return at_table(pose)

    return shot(0.0, 0.0), shot(0.0, 0.10), shot(0.16, 0.10)


def push_toy(params: Params) -> Three:
    """A hand on the boat, push it along, stop at the mark."""
    del params
    mark = Thing(kind="cloth", at=(0.50, -0.06, 0.402), to=(12.0, 18.0, 0.0))

    def shot(ahead: float) -> Frame:
        boat = Thing(kind="boat", at=(ahead + 0.075, -0.09, 0.405))
        hand = Arm(to=(ahead, -0.10, 0.46), pole=(-0.5, 1, -0.6), shape="flat")
        return at_table(
            AT_TABLE.but(left_arm=small(0.25, 0.12, 0.425, shape="flat"), right_arm=hand),
            mark,
            boat,
        )

    return shot(0.22), shot(0.30), shot(0.40)


MOVES = (
    table_move(
        name="fasten",
        family=FINE,
        frames=fasten,
        turn=38,
        tilt=28,
        lens="hands",
        defaults={"kind": "buttons"},
        choices={"kind": ("buttons", "zip", "strap")},
    ),
    table_move(
        name="pinch_peg",
        family=FINE,
        frames=pinch_peg,
        turn=38,
        tilt=20,
        lens="table",
    ),
    table_move(
        name="thread_bead",
        family=FINE,
        frames=thread_bead,
        turn=40,
        tilt=20,
        lens="table",
        defaults={"object": "bead"},
        choices={"object": ("bead", "ring")},
    ),
    table_move(
        name="pick_put",
        family=FINE,
        frames=pick_put,
        turn=38,
        tilt=20,
        lens="table",
        defaults={"tool": "fingers", "way": "near"},
        choices={"tool": ("fingers", "tongs"), "way": ("near", "across")},
    ),
    table_move(
        name="tear_paper",
        family=FINE,
        frames=tear_paper,
        turn=58,
        tilt=14,
        lens="hands",
        defaults={"way": "tear"},
        choices={"way": ("tear", "crumple")},
    ),
    table_move(
        name="roll_towel",
        family=FINE,
        frames=roll_towel,
        turn=26,
        tilt=20,
    ),
    table_move(
        name="draw_shape",
        family=FINE,
        frames=draw_shape,
        turn=34,
        tilt=34,
        lens="table",
        defaults={"shape": "circle", "tool": "crayon"},
        choices={
            "shape": ("down", "across", "circle", "cross", "square", "triangle", "diamond"),
            "tool": ("crayon", "finger"),
        },
    ),
    table_move(
        name="hand_walk",
        family="climbing_crawling_rolling",
        frames=hand_walk,
        turn=34,
        tilt=18,
    ),
    table_move(
        name="push_toy",
        family="getting_about",
        frames=push_toy,
        turn=30,
        tilt=18,
    ),
)
