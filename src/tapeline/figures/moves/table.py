"""At a table or a wall: draw and cut."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import AT_TABLE, STAND, TABLE, table_move
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.ways import CHAIR

FINE = "fine_motor"
ON_CHAIR = AT_TABLE.but(
    nod=10, left_leg=Leg(foot=(0.21, 0.075)), right_leg=Leg(foot=(0.21, -0.075))
)


def rest(ahead: float, aside: float, up: float = 0.425) -> Arm:
    """A hand that lies on the table."""
    sign = 1 if aside > 0 else -1
    return Arm(
        to=(ahead, aside, up),
        fingers=(0.9, -0.35 * sign, -0.25),
        pole=(-0.5, 1.0, -0.6),
        shape="flat",
    )


def grip(ahead: float, aside: float, up: float = 0.44) -> Arm:
    """A hand that holds something just above the table."""
    sign = 1 if aside > 0 else -1
    return Arm(
        to=(ahead, aside, up),
        fingers=(0.9, -0.3 * sign, -0.1),
        pole=(-0.5, 1.0, -0.6),
        shape="grip",
    )


def sit_table(params: Params) -> tuple[Frame, Frame, Frame]:
    """Sit with feet flat, one hand holds the paper, the other draws."""
    del params
    paper = (CHAIR, TABLE, Thing(kind="paper", at=(0.36, 0.0, 0.402)))
    crayon = Thing(kind="hand_pencil", to=(0.45, 0.05, -0.9))
    return (
        Frame(
            pose=AT_TABLE.but(nod=12, left_arm=rest(0.27, 0.10), right_arm=rest(0.27, -0.10)),
            things=paper,
            english="A child sits at a table, feet flat, both hands by a sheet of paper.",
            spanish="Una niña sentada a la mesa, pies apoyados, manos junto al papel.",
        ),
        Frame(
            pose=AT_TABLE.but(left_arm=rest(0.29, 0.11), right_arm=grip(0.32, -0.06, 0.462)),
            things=(*paper, crayon),
            english="One hand holds the paper still and the other hand draws.",
            spanish="Una mano sujeta el papel y la otra dibuja.",
        ),
        Frame(
            pose=AT_TABLE.but(left_arm=rest(0.29, 0.11), right_arm=grip(0.38, -0.04, 0.462)),
            things=(*paper, crayon),
            english="The drawing hand moves on over the paper.",
            spanish="La mano que dibuja sigue por el papel.",
        ),
    )


def cut_paper(params: Params) -> tuple[Frame, Frame, Frame]:
    """Thumb up, one hand holds the paper, the other opens and closes the scissors.

    With ``object`` *none* the scissors cut the air and the other hand rests.
    """
    is_paper = params["object"] == "paper"

    def held(cut: float, opening: float) -> tuple[Thing, ...]:
        paper = Thing(kind="hand_paper", at=(cut, 0, 0), to=(-0.97, -0.2, 0))
        return (
            CHAIR,
            TABLE,
            *((paper,) if is_paper else ()),
            Thing(kind="scissors", at=(opening, 0, 0), to=(1.0, 0.3, 0.1)),
        )

    left = rest(0.22, 0.17)
    if is_paper:
        left = Arm(
            to=(0.40, 0.10, 0.49), fingers=(0.9, -0.4, 0.1), pole=(-0.3, 0.5, -1.2), shape="grip"
        )

    def cutting(ahead: float) -> Arm:
        return Arm(
            to=(ahead, -0.09, 0.50), fingers=(0.95, 0.2, 0.1), pole=(-0.6, 0.3, -1.2), shape="grip"
        )

    return (
        Frame(
            pose=AT_TABLE.but(left_arm=left, right_arm=cutting(0.19)),
            things=held(0.0, 16),
            english="A child sits at a table, paper in one hand and open scissors in the other."
            if is_paper
            else "A child sits at a table with open scissors in one hand.",
            spanish="Un niño a la mesa con papel en una mano y tijeras abiertas en la otra."
            if is_paper
            else "Un niño a la mesa con tijeras abiertas en una mano.",
        ),
        Frame(
            pose=AT_TABLE.but(left_arm=left, right_arm=cutting(0.225)),
            things=held(0.35, 4),
            english="The scissors close on the edge of the paper."
            if is_paper
            else "The scissors close.",
            spanish="Las tijeras se cierran en el borde del papel."
            if is_paper
            else "Las tijeras se cierran.",
        ),
        Frame(
            pose=AT_TABLE.but(left_arm=left, right_arm=cutting(0.26)),
            things=held(0.6, 16),
            english="They open again and cut on." if is_paper else "They open again.",
            spanish="Se abren otra vez y siguen cortando." if is_paper else "Se abren otra vez.",
        ),
    )


def squeeze(params: Params) -> tuple[Frame, Frame, Frame]:
    """A soft ball between both palms before the chest, pressed and let go."""
    kind = str(params["object"])

    def press(out: float, up: float) -> Pose:
        return ON_CHAIR.but(
            left_arm=Arm(on=kind, side_of=(-0.15, 1, up), pole=(-0.2, 1.2, out), shape="open"),
            right_arm=Arm(on=kind, side_of=(-0.15, -1, up), pole=(-0.2, 1.2, out), shape="open"),
        )

    ball = (Ball(kind=kind, place=(0.22, 0, -0.11)),)
    return (
        Frame(
            pose=press(-0.9, -0.5),
            balls=ball,
            things=(CHAIR,),
            english="A child sits and holds a soft ball with both hands.",
            spanish="Una niña sentada sostiene una pelota blanda con las dos manos.",
        ),
        Frame(
            pose=press(0.1, 0.0).but(mouth="flat"),
            balls=ball,
            things=(CHAIR,),
            arrows=(
                ((0.22, -0.50, 0.48), (0.22, -0.43, 0.48), (0.22, -0.36, 0.48)),
                ((0.22, 0.50, 0.48), (0.22, 0.43, 0.48), (0.22, 0.36, 0.48)),
            ),
            english="The elbows go out and both palms press the ball hard.",
            spanish="Los codos se abren y las palmas aprietan fuerte la pelota.",
        ),
        Frame(
            pose=press(-0.9, -0.5).but(nod=6),
            balls=ball,
            things=(CHAIR,),
            english="The hands let go softly.",
            spanish="Las manos aflojan despacio.",
        ),
    )


def draw_wall(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand at a sheet on the wall and draw with a big arm."""
    del params
    things = (Thing(kind="wall", at=(0.34, 0, 0)), Thing(kind="wall_paper", at=(0.338, 0.02, 0.84)))
    crayon = Thing(kind="hand_pencil", to=(0.9, 0.0, 0.25))
    stand = STAND.but(nod=-6)
    support = Arm(to=(0.325, 0.16, 0.74), fingers=(0.3, 0.0, 0.95), pole=(-0.4, 1, -0.8))

    def drawing(aside: float, up: float) -> Arm:
        return Arm(
            to=(0.275, aside, up), fingers=(0.85, 0.2, 0.45), pole=(-0.4, 1, -0.8), shape="grip"
        )

    return (
        Frame(
            pose=stand.but(right_arm=drawing(-0.10, 0.78), left_arm=support),
            things=(*things, crayon),
            english="A child stands at a sheet of paper on the wall, crayon in hand.",
            spanish="Una niña de pie ante un papel en la pared, con un crayón.",
        ),
        Frame(
            pose=stand.but(right_arm=drawing(-0.06, 0.92), left_arm=support),
            things=(*things, crayon),
            arrows=(((0.30, -0.36, 0.74), (0.30, -0.38, 0.84), (0.30, -0.35, 0.96)),),
            english="The whole arm moves up and draws.",
            spanish="Todo el brazo sube y dibuja.",
        ),
        Frame(
            pose=stand.but(right_arm=drawing(0.04, 0.86), left_arm=support),
            things=(*things, crayon),
            english="The arm moves across and draws on.",
            spanish="El brazo cruza y sigue dibujando.",
        ),
    )


MOVES = (
    table_move(name="sit_table", family=FINE, frames=sit_table, turn=34, tilt=16),
    table_move(
        name="cut_paper",
        family=FINE,
        frames=cut_paper,
        turn=20,
        tilt=13,
        defaults={"object": "paper"},
        choices={"object": ("paper", "none")},
    ),
    Move(
        name="squeeze",
        family=FINE,
        frames=squeeze,
        turn=70,
        tilt=11,
        key=1,
        seated=True,
        defaults={"object": "ball"},
        choices={"object": ("ball", "small_ball")},
    ),
    Move(
        seated=True, framed="one", name="draw_wall", family=FINE, frames=draw_wall, turn=-28, key=1
    ),
)
