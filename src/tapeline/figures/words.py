"""What a picture shows, in words: the written sentence, or one made from the pose."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.figures import adults
from tapeline.figures.asking import Asked
from tapeline.figures.doings import DOINGS
from tapeline.figures.move import Ball, Frame
from tapeline.figures.posture import arm_place, leg_words, posture_of, trunk_words
from tapeline.figures.scene import Cast, ball_centre, ball_radius
from tapeline.figures.skeleton import SIDES
from tapeline.figures.space import length

Pair = tuple[str, str]
HANDS: dict[str, Pair] = {
    "up": ("up", "arriba"),
    "forward": ("forward", "adelante"),
    "out": ("out to the side", "a un lado"),
    "back": ("back", "atrás"),
    "near": ("bent in front", "doblado delante"),
    "across": ("across the body", "cruzado por delante"),
    "low": ("reaching down", "hacia abajo"),
    "down": ("", ""),
}
BOTH: dict[str, Pair] = {
    "up": ("both arms up", "los dos brazos arriba"),
    "forward": ("both arms forward", "los dos brazos adelante"),
    "out": ("both arms out", "los dos brazos abiertos"),
    "back": ("both arms back", "los dos brazos atrás"),
    "near": ("both hands in front", "las dos manos delante"),
    "across": ("arms crossed in front", "los brazos cruzados delante"),
    "low": ("both hands reaching down", "las dos manos hacia abajo"),
    "down": ("", ""),
}
THINGS: dict[str, Pair] = {
    "bar": ("a tube", "un tubo"),
    "bead": ("a bead", "una cuenta"),
    "boat": ("a toy boat", "un barco de juguete"),
    "book": ("a book", "un libro"),
    "bottles": ("bottles", "botellas"),
    "bowl": ("a bowl", "un tazón"),
    "box": ("a box", "una caja"),
    "card": ("a sheet", "una hoja"),
    "carried_box": ("a box", "una caja"),
    "cloth": ("a cloth", "un paño"),
    "coat": ("a coat", "un abrigo"),
    "cone": ("a low block", "un bloque bajo"),
    "crate": ("a box", "una caja"),
    "crumple": ("scrunched paper", "papel arrugado"),
    "cup": ("a cup", "un vaso"),
    "cup_held": ("a cup", "un vaso"),
    "cups": ("a tower of cups", "una torre de vasos"),
    "cushion": ("a cushion", "un cojín"),
    "drum": ("a drum", "un tambor"),
    "flag": ("a flag", "una bandera"),
    "hand_pencil": ("a crayon", "un crayón"),
    "line": ("a line on the floor", "una línea en el suelo"),
    "mat": ("a mat", "una colchoneta"),
    "paddle": ("a paddle", "una paleta"),
    "paper": ("paper", "papel"),
    "peg": ("a peg", "una pinza"),
    "peg_box": ("a box edge", "el borde de una caja"),
    "pillow": ("a pillow", "una almohada"),
    "plate": ("a plate", "un plato"),
    "pom": ("a small soft ball", "una bolita"),
    "post": ("a post", "un poste"),
    "rope": ("a rope on the floor", "una cuerda en el suelo"),
    "scissors": ("scissors", "tijeras"),
    "shoe": ("a shoe", "un zapato"),
    "slotted": ("a sheet with slots", "una hoja con ranuras"),
    "strip": ("a paper strip", "una tira de papel"),
    "sock": ("a rolled sock", "un calcetín enrollado"),
    "spoon": ("a spoon", "una cuchara"),
    "spot": ("a mark on the floor", "una marca en el suelo"),
    "step": ("a low step", "un escalón bajo"),
    "string": ("a lace", "un cordón"),
    "table": ("a table", "una mesa"),
    "tissue": ("a thin cloth", "un paño fino"),
    "tongs": ("tongs", "unas tenazas"),
    "torn": ("a torn sheet", "una hoja rasgada"),
    "towel": ("a towel", "una toalla"),
    "towel_roll": ("a rolled towel", "una toalla enrollada"),
    "tray": ("a tray", "una bandeja"),
    "tube": ("a tube", "un tubo"),
    "tunnel": ("a tunnel", "un túnel"),
    "wall": ("a wall", "una pared"),
}
BALLS: dict[str, Pair] = {
    "ball": ("a ball", "una pelota"),
    "large_ball": ("a big ball", "una pelota grande"),
    "small_ball": ("a small ball", "una pelota pequeña"),
    "light_ball": ("a light ball", "una pelota ligera"),
    "beanbag": ("a beanbag", "una bolsita"),
    "scarf": ("a scarf", "un pañuelo"),
}
WITHIN_POSTURE = ("chair",)
MOST_THINGS = 3
IN_HAND, FAR_AHEAD, ON_FLOOR = 0.05, 0.75, 0.16


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tongue:
    """Which of a pair is spoken, and how its pieces join."""

    at: int

    def of(self, pair: Pair) -> str:
        return pair[self.at]

    def join(self, words: list[str]) -> str:
        told = [word for word in words if word]
        if len(told) < 2:
            return "".join(told)
        last = (" and ", " y ")[self.at]
        return ", ".join(told[:-1]) + last + told[-1]


def words_of(asked: Asked, found: Cast, frame: Frame) -> str:
    """What a picture shows, in the language asked for.

    A sentence written for the picture stands as it is; every other is made from the joints,
    after a few words on what is done where the pose alone does not tell it.
    """
    tongue = _Tongue(at=0 if asked.language == "en" else 1)
    written = _written(found.frame, asked.way, tongue)
    said = written or from_pose(found, language=asked.language)
    if not written and asked.move.name in DOINGS:
        done = DOINGS[asked.move.name][asked.frames.index(frame)]
        said = f"{tongue.of(done)} {said}"
    helper = [tongue.of(adults.WORDS[asked.adult])] if asked.adult and found.others else []
    return " ".join([said, *helper])


def from_pose(found: Cast, *, language: str) -> str:
    """A sentence made from the joints of a picture and the things in it."""
    tongue = _Tongue(at=0 if language == "en" else 1)
    posture = tongue.of(posture_of(found.child, found.way))
    trunk = [tongue.of(pair) for pair in trunk_words(found.child)]
    limbs = [tongue.of(leg_words(found.child)), *_arms(found, tongue)]
    body = ", ".join(word for word in [posture, *limbs, *trunk] if word)
    around, seen = _things(found, tongue), ("With", "Con")[tongue.at]
    sentences = [body, *(_ball(found, ball, tongue) for ball in found.frame.balls)]
    sentences += [f"{seen} {around}"] if around else []
    return " ".join(f"{said[0].upper()}{said[1:]}." for said in sentences)


def _written(frame: Frame, way: str, tongue: _Tongue) -> str:
    if way == "wheelchair":
        return tongue.of(frame.from_chair)
    if way in ("chair", "walking_frame"):
        return ""
    return tongue.of((frame.english, frame.spanish))


def _arms(found: Cast, tongue: _Tongue) -> list[str]:
    places = {side: arm_place(found.child, side) for side in SIDES}
    if places["left"] == places["right"]:
        return [tongue.of(BOTH[places["left"]])]
    names = {"left": ("left arm", "brazo izquierdo"), "right": ("right arm", "brazo derecho")}
    return [
        f"{tongue.of(names[side])} {tongue.of(HANDS[places[side]])}"
        for side in ("right", "left")
        if places[side] != "down"
    ]


def _things(found: Cast, tongue: _Tongue) -> str:
    told: list[str] = []
    for thing in found.frame.things:
        if thing.kind in THINGS and thing.kind not in WITHIN_POSTURE:
            word = tongue.of(THINGS[thing.kind])
            if thing.kind == "coat":
                word += (
                    f" with {thing.note[-1]} of 4 closed",
                    f" con {thing.note[-1]} de 4 cierres",
                )[tongue.at]
            if word not in told:
                told.append(word)
    return tongue.join(told[:MOST_THINGS])


def _ball(found: Cast, ball: Ball, tongue: _Tongue) -> str:
    """Where a ball is: in a hand, on the floor or the table, in the air, near or far."""
    child = found.child
    centre, size = ball_centre(ball, child), child.body.stature
    name = tongue.of(BALLS[ball.kind])
    palms = [child.left_arm.palm, child.right_arm.palm]
    gap = min(length(palm - centre) for palm in palms) - ball_radius(ball.kind)
    if gap < IN_HAND * size:
        return (f"{name} in the hands", f"{name} en las manos")[tongue.at]
    far = abs(float(centre[0] - child.pelvis[0])) > FAR_AHEAD * size
    place = ("far ahead", "lejos") if far else ("close", "cerca")
    low = float(centre[2]) < ON_FLOOR * size
    where = (
        (f"{name} on the floor", f"{name} en el suelo")
        if low
        else (f"{name} in the air", f"{name} en el aire")
    )
    return f"{where[tongue.at]}, {place[tongue.at]}"
