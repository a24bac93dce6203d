"""A move as moving pictures, twelve a second: who is where at each moment, and what flies."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from tapeline.figures.asking import Asked
from tapeline.figures.between import Shares, between, planted_sides
from tapeline.figures.flying import LIGHT, Flight, fallen, throw
from tapeline.figures.move import Ball
from tapeline.figures.people import moved
from tapeline.figures.placing import palm_thickness
from tapeline.figures.scene import Cast, ball_centre, ball_radius, drawn_centre
from tapeline.figures.skeleton import SIDES, Skeleton
from tapeline.figures.space import Vector, unit, vector

A_SECOND = 12
LONGEST_S = 5.0
HOLD, MOVE, QUICK, TOGETHER, LAST, ROUNDS = 5, 9, 6, 5, 6, 3
ROLLING_CM = 14.0
IN_BOX = 24.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One of the moving pictures.

    `planted` are the feet that stay where they are, `held` the hands that keep a ball.
    """

    cast: Cast
    balls: tuple[Vector, ...]
    planted: frozenset[str] = frozenset()
    held: frozenset[str] = frozenset()


def film_of(asked: Asked) -> tuple[Moment, ...]:
    """Every picture of a move, the first still for a moment, the last too; 5 s at most."""
    if any(asked.move.travel):
        return _travelling(asked)
    first, second, third = asked.casts(whole=True)
    moments = [_still(first)] * (HOLD if not _comes_flying(first, second) else 1)
    moments += _stretch(first, second, _pace(second))
    moments += [_still(second)] * 2
    moments += _stretch(second, third, QUICK if _leaves(second, third) else _pace(third))
    moments += _flown(moments[-1], second, third)
    moments += [moments[-1]] * LAST
    return tuple(moments[: int(LONGEST_S * A_SECOND)])


def _travelling(asked: Asked) -> tuple[Moment, ...]:
    """A move that gets somewhere: again and again, each time farther on, and never back."""
    first, second, third = asked.casts(whole=True)
    first_step, later_step = asked.move.travel
    come, moments, here = 0.0, [_still(first)] * HOLD, first
    for number in range(ROUNDS):
        come += later_step if number else first_step
        there = _moved_on(third if number % 2 else second, come)
        moments += _stretch(here, there, MOVE)
        here = there
    moments += [moments[-1]] * LAST
    return tuple(moments[: int(LONGEST_S * A_SECOND)])


def _moved_on(found: Cast, statures: float) -> Cast:
    shift = vector(statures * found.child.body.stature, 0.0, 0.0)
    child = moved(found.child, np.eye(3), shift)
    x, y = child.pose.at
    return replace(found, child=replace(child, pose=child.pose.but(at=(x + statures, y))))


def _pace(found: Cast) -> int:
    if found.others:
        return TOGETHER
    return QUICK if _in_air(found.child) else MOVE


def _in_air(child: Skeleton) -> bool:
    pose = child.pose
    return (
        pose.hip is not None
        and pose.hip > 0.42
        and not (pose.left_leg.stands or pose.right_leg.stands)
    )


def _still(found: Cast) -> Moment:
    return Moment(cast=found, balls=tuple(drawn_centre(found, ball) for ball in found.frame.balls))


def _touches(found: Cast, ball: Ball, side: str) -> bool:
    """Whether a hand lies on a ball in this picture."""
    arm = found.child.pose.arm(side)
    return ball.in_hand == side or arm.on == ball.kind


def _keeps(found: Cast, side: str) -> bool:
    return any(_touches(found, ball, side) for ball in found.frame.balls)


def _held(found: Cast) -> bool:
    return any(_keeps(found, side) for side in SIDES)


def _comes_flying(first: Cast, second: Cast) -> bool:
    return bool(first.frame.flight) and not _held(first) and _held(second)


def _leaves(second: Cast, third: Cast) -> bool:
    return _held(second) and bool(third.frame.balls) and not _held(third)


def _eased(share: float) -> float:
    return share * share * (3 - 2 * share)


def _stretch(one: Cast, other: Cast, count: int) -> list[Moment]:
    """The pictures from one pose to the next, the next included."""
    flight = _incoming(one, other, count)
    return [_moment(one, other, (i + 1) / count, flight, (i + 1) / A_SECOND) for i in range(count)]


def _incoming(one: Cast, other: Cast, count: int) -> tuple[Flight, float] | None:
    """The flight of a ball that comes from afar and is in the hands when the stretch ends."""
    if not _comes_flying(one, other) or one.frame.balls[0].kind in LIGHT:
        return None
    start, stop = drawn_centre(one, one.frame.balls[0]), drawn_centre(other, other.frame.balls[0])
    if float(start[2]) < ROLLING_CM:
        return None
    flight = throw(start, stop, highest=max(float(start[2]), float(stop[2])) + 6.0)
    return flight, count / A_SECOND - flight.seconds


def _moment(
    one: Cast, other: Cast, share: float, flight: tuple[Flight, float] | None, time: float
) -> Moment:
    eased = _eased(share)
    height = eased
    if _in_air(other.child) and not _in_air(one.child):
        height, eased = 1 - (1 - share) ** 2, share
    elif _in_air(one.child):
        height, eased = share**2, share
    balls = _carried(one, other, eased)
    if flight is not None and balls:
        balls = (flight[0].at(time - flight[1]), *balls[1:])
    palms = _palms(one, other, eased, balls)
    child = between(one.child, other.child, Shares(pose=eased, height=height), palms)
    balls = tuple(
        _in_hand(one, other, child, eased, number, centre) for number, centre in enumerate(balls)
    )
    others = tuple(
        between(a, b, Shares(pose=eased, height=eased), {})
        for a, b in zip(one.others, other.others, strict=False)
    )
    nearer = one if share < 0.5 else other
    if len(others) != len(nearer.frame.others):
        others = nearer.others
    cast = replace(nearer, child=child, others=others)
    return Moment(
        cast=_with_balls(cast, balls),
        balls=balls,
        planted=planted_sides(one.child, other.child),
        held=frozenset(side for side in SIDES if _keeps(one, side) and _keeps(other, side)),
    )


def _carried(one: Cast, other: Cast, share: float) -> tuple[Vector, ...]:
    """Balls straight on their way from where they are to where they will be."""
    if len(one.frame.balls) != len(other.frame.balls):
        nearer = one if share < 0.5 else other
        return tuple(drawn_centre(nearer, ball) for ball in nearer.frame.balls)
    found = []
    for a, b in zip(one.frame.balls, other.frame.balls, strict=True):
        start, stop = drawn_centre(one, a), drawn_centre(other, b)
        leaves = any(_touches(one, a, side) for side in SIDES) and not any(
            _touches(other, b, side) for side in SIDES
        )
        found.append(start if leaves else start + (stop - start) * share)
    return tuple(found)


def _offset(found: Cast, ball: Ball, side: str) -> Vector:
    palm = found.child.limbs()[f"{side}_arm"].palm
    return palm - ball_centre(ball, found.child)


def _palms(one: Cast, other: Cast, share: float, balls: tuple[Vector, ...]) -> dict[str, Vector]:
    """Where the hands must be that hold a ball together in both pictures."""
    palms: dict[str, Vector] = {}
    same = len(one.frame.balls) == len(other.frame.balls) == len(balls)
    pairs = zip(one.frame.balls, other.frame.balls, strict=True) if same else ()
    for (a, b), centre in zip(pairs, balls, strict=False):
        for side in SIDES:
            both = _touches(one, a, side) and _touches(other, b, side)
            if not both or a.in_hand or b.in_hand:
                continue
            way = _offset(one, a, side) * (1 - share) + _offset(other, b, side) * share
            skin = ball_radius(a.kind) + palm_thickness(one.child.body)
            palms[side] = centre + unit(way) * skin
    for side in SIDES:
        start, stop = one.child.pose.arm(side), other.child.pose.arm(side)
        if side not in palms and start.to is not None and stop.to is not None:
            palm = one.child.limbs()[f"{side}_arm"].palm
            palms[side] = palm + (other.child.limbs()[f"{side}_arm"].palm - palm) * share
    return palms


def _in_hand(
    one: Cast, other: Cast, child: Skeleton, share: float, number: int, centre: Vector
) -> Vector:
    """The ball at the hand that has it: in both pictures, or until it is let go at the end."""
    if number >= min(len(one.frame.balls), len(other.frame.balls)):
        return centre
    a, b = one.frame.balls[number], other.frame.balls[number]
    if a.kind != b.kind:
        return centre
    hands = [side for side in SIDES if _touches(one, a, side)]
    stays = [side for side in hands if _touches(other, b, side)]
    if hands and not stays:
        stays = hands[:1]
    elif len(stays) != 1 or not (a.in_hand or b.in_hand):
        return centre
    side = stays[0]
    start = _offset(one, a, side)
    stop = _offset(other, b, side) if _touches(other, b, side) else start
    way = unit(start * (1 - share) + stop * share)
    skin = ball_radius(a.kind) + palm_thickness(child.body)
    there: Vector = child.limbs()[f"{side}_arm"].palm - way * skin
    return there


def _with_balls(cast: Cast, balls: tuple[Vector, ...]) -> Cast:
    stature = cast.child.body.stature
    placed = []
    for ball, centre in zip(cast.frame.balls, balls, strict=False):
        x, y, z = (centre / stature).tolist()
        placed.append(replace(ball, in_hand="", anchor="room", place=(x, y, z)))
    frame = replace(cast.frame, balls=tuple(placed), arrows=(), flight=())
    return replace(cast, frame=frame, sunk=np.zeros(3))


def _flown(last: Moment, second: Cast, third: Cast) -> list[Moment]:
    """What the ball does after the hands have let go: fly, land, roll on a little, or drift."""
    if not third.frame.balls or _held(third) or not last.balls:
        return []
    kind, start = third.frame.balls[0].kind, last.balls[0]
    goal = drawn_centre(third, third.frame.balls[0])
    rest = last.balls[1:]
    if kind in LIGHT and float(goal[2]) > float(start[2]):
        path = _drift(start, goal)
    elif max(float(start[2]), float(goal[2])) < ROLLING_CM * 2:
        path = _roll(start, goal)
    elif _leaves(second, third):
        stop = _landing(third, kind, goal)
        flight = throw(start, stop, highest=max(float(goal[2]), float(start[2])))
        path = [flight.at(i / A_SECOND) for i in range(1, int(flight.seconds * A_SECOND) + 1)]
        path.append(stop)
    else:
        return []
    return [
        Moment(
            cast=_with_balls(replace(last.cast, frame=third.frame), (place, *rest)),
            balls=(place, *rest),
        )
        for place in path
    ]


def _landing(third: Cast, kind: str, goal: Vector) -> Vector:
    """In the box, on the mark, or on the floor where the arrow points."""
    stature = third.child.body.stature
    for thing in third.frame.things:
        if thing.kind in ("box", "spot", "cushion", "cups", "cone"):
            deep = {"box": IN_BOX, "spot": ball_radius(kind)}.get(thing.kind)
            up = deep if deep is not None else ball_radius(kind) + 9.0
            return vector(thing.at[0] * stature, thing.at[1] * stature, up)
    ahead = 2 * float(goal[0]) - float(third.child.pelvis[0])
    return vector(ahead, goal[1], ball_radius(kind))


def _roll(start: Vector, goal: Vector) -> list[Vector]:
    """Along the floor, slower and slower."""
    count = A_SECOND
    return [start + (goal - start) * (1 - (1 - i / count) ** 2) for i in range(1, count + 1)]


def _drift(start: Vector, goal: Vector) -> list[Vector]:
    """Something light goes up, slower and slower, and floats down again."""
    up = [start + (goal - start) * (1 - (1 - i / 6) ** 2) for i in range(1, 7)]
    low = max(float(start[2]), 0.0)
    down = []
    for i in range(1, 2 * A_SECOND):
        height = float(goal[2]) - fallen(i / A_SECOND)
        if height < low:
            break
        down.append(vector(goal[0], goal[1], height))
    return up + down
