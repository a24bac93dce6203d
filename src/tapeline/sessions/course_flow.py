"""Who waits how long in a course, whether it ends on time, and what each remedy would gain."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from tapeline.activities.models import Library
from tapeline.activities.timing import timing_value
from tapeline.caseload.her_seconds import with_her_seconds
from tapeline.courses.flow import FlowStation
from tapeline.courses.rotation import Outlook, Rotation, outlook_of, spread_out
from tapeline.courses.station_plans import stations_file
from tapeline.sessions.course_stations import StationHere
from tapeline.sessions.packet.basis import Basis
from tapeline.units import minute_of_day

SEED = 1
DRAWS = 200
FEWEST_ON_RECORD = 3
MOST_ON_RECORD = 8
LIKELY = 0.8
A_LONG_WAIT_S = 20
WALK_WITHOUT_A_PLAN_CM = 300


@dataclass(frozen=True, kw_only=True)
class ChildInFlow:
    """One child: where it begins, goes in time, share of the time moving, longest wait."""

    child: str
    begins_at: str
    goes: int
    moving: float
    longest_wait_s: int


@dataclass(frozen=True, kw_only=True)
class CourseFlow:
    """How the group goes through the course as planned, and what would gain something.

    `chance` is that of all rounds ending in the time, from 0 to 1; `own_sessions` are the
    sessions of hers it rests on, 0 where too few are on record.
    """

    lasting_s: int
    rounds: int
    children: tuple[ChildInFlow, ...]
    chance: float
    own_sessions: int
    remedies: tuple[str, ...]

    @property
    def longest_wait_s(self) -> int:
        """The longest wait of any child."""
        return max(child.longest_wait_s for child in self.children)


def flow_of(
    basis: Basis, stations: Sequence[StationHere], *, order: Sequence[str], walk_cm: int = 0
) -> CourseFlow:
    """The flow of a session's children through its stations, in walking order.

    Parameters
    ----------
    order
        Ids of the stations as they are walked.
    walk_cm
        The walk through all of them; 0 = not laid out, then a short way is taken.
    """
    by_id = {one.built.id: one for one in stations}
    here = [by_id[key] for key in order]
    children = [taking.child.id for taking in basis.at("room")]
    rotation = _rotation(basis, here, children, walk_cm)
    lasting = sum(one.part.practice_s for one in here)
    factors = overruns(basis)
    outlook = _outlook(rotation, lasting)
    chance = outlook.chance_done_by(lasting, factors=factors or (1.0,))
    question = _Question(
        basis=basis, here=here, children=children, rotation=rotation, lasting_s=lasting,
        factors=factors or (1.0,), outlook=outlook, chance=chance,
    )  # fmt: skip
    return CourseFlow(
        lasting_s=lasting,
        rounds=rotation.rounds,
        children=tuple(
            ChildInFlow(
                child=child,
                begins_at=here[at].built.id,
                goes=int(share.goes),
                moving=share.moving,
                longest_wait_s=round(share.longest_wait_s),
            )
            for child, at, share in zip(children, rotation.begins_at, outlook.children, strict=True)
        ),
        chance=chance,
        own_sessions=len(factors),
        remedies=tuple(_remedies(question)),
    )


def overruns(basis: Basis) -> tuple[float, ...]:
    """How many times as long as planned her last sessions of the group took.

    Empty where fewer than three have both times on record.
    """
    group = basis.group
    lengths = [
        minute_of_day(session.ended) - minute_of_day(session.began)
        for session in basis.caseload.sessions_of(group.id)
        if session.status == "held"
        and session.date < basis.date
        and session.began
        and session.ended
    ]
    known = [length / group.minutes for length in lengths if length > 0][-MOST_ON_RECORD:]
    return tuple(known) if len(known) >= FEWEST_ON_RECORD else ()


@dataclass(frozen=True, kw_only=True)
class _Question:
    """What the remedies are held against."""

    basis: Basis
    here: Sequence[StationHere]
    children: Sequence[str]
    rotation: Rotation
    lasting_s: int
    factors: tuple[float, ...]
    outlook: Outlook
    chance: float


def _rotation(
    basis: Basis, here: Sequence[StationHere], children: Sequence[str], walk_cm: int
) -> Rotation:
    youngest = min(basis.child(child).age_months(basis.date) for child in children)
    pace = timing_value("walking_cm_a_s", age_years=youngest / 12).value
    library = with_her_seconds(basis.library, basis.caseload)
    leg_cm = (walk_cm or WALK_WITHOUT_A_PLAN_CM * len(here)) / len(here)
    return Rotation(
        stations=tuple(_flow_station(basis, library, one, children) for one in here),
        rounds=max(one.part.rounds for one in here),
        begins_at=spread_out(len(children), len(here)),
        begins_s=(0.0,) * len(children),
        walk_s=leg_cm / pace,
    )


def _flow_station(
    basis: Basis, library: Library, one: StationHere, children: Sequence[str]
) -> FlowStation:
    """A station with each child's seconds a round; one with hands on takes one child at a time."""
    rows = {row.id: row for row in one.part.children}
    versions = {child: library.find_version(row.version) for child, row in rows.items()}
    seconds = tuple(
        rows[child].amount * versions[child].seconds_each(basis.child(child).age_months(basis.date))
        if child in rows
        else 1.0
        for child in children
    )
    held = any(versions[child].adult_need == "hands_on" for child in children if child in rows)
    return FlowStation(
        id=one.built.id, seconds=seconds, capacity=1 if held else max(1, one.built.lanes)
    )


def _outlook(rotation: Rotation, lasting_s: float) -> Outlook:
    spread = timing_value("duration_spread").value
    return outlook_of(rotation, lasting_s=lasting_s, spread=spread, seed=SEED, draws=DRAWS)


def _remedies(question: _Question) -> Iterator[str]:
    """What would gain something worth saying, each tried out."""
    for remedy in (_fewer_tries, _another_lane, _all_from_the_first, _while_waiting):
        found = remedy(question)
        if found:
            yield found


def _fewer_tries(question: _Question) -> str | None:
    """So many fewer tries at each station that all rounds are likely to end in the time."""
    if question.chance >= LIKELY:
        return None
    most = max(row.amount for one in question.here for row in one.part.children)
    for tenths in range(9, 3, -1):
        if _fewer(most, tenths) == most:
            continue
        outlook = _outlook(_with_fewer(question, tenths), question.lasting_s)
        chance = outlook.chance_done_by(question.lasting_s, factors=question.factors)
        if chance >= LIKELY:
            return (
                f"Fewer tries at each station, {tenths} for every 10 ({_fewer(most, tenths)} instead "
                f"of {most}): every child is through in time {chance_words(chance)}, instead of "
                f"{chance_words(question.chance)}."
            )
    return None


def _fewer(amount: int, tenths: int) -> int:
    """So many tenths of an amount, rounded down, and one at least."""
    return max(1, amount * tenths // 10)


def _with_fewer(question: _Question, tenths: int) -> Rotation:
    """The same with whole tries fewer for each child at each station."""
    stations = []
    for one, here in zip(question.rotation.stations, question.here, strict=True):
        amounts = {row.id: row.amount for row in here.part.children}
        stations.append(
            replace(
                one,
                seconds=tuple(
                    seconds * _fewer(amounts[child], tenths) / amounts[child]
                    if child in amounts
                    else seconds
                    for child, seconds in zip(question.children, one.seconds, strict=True)
                ),
            )
        )
    return replace(question.rotation, stations=tuple(stations))


def _another_lane(question: _Question) -> str | None:
    """A second lane at the station where most is waited."""
    rotation = question.rotation
    best: tuple[float, str] | None = None
    for place, station in enumerate(rotation.stations):
        lanes = question.here[place].activity.lanes
        if station.capacity >= len(question.children) or 0 < lanes <= station.capacity:
            continue
        wider = replace(station, capacity=station.capacity + 1)
        stations = (*rotation.stations[:place], wider, *rotation.stations[place + 1 :])
        outlook = _outlook(replace(rotation, stations=stations), question.lasting_s)
        gain = _longest(question.outlook) - _longest(outlook)
        words = (
            f"One more lane at {question.here[place].built.name}: the longest wait is "
            f"{round(_longest(outlook))} s instead of {round(_longest(question.outlook))} s. "
            "It needs the floor and the things twice."
        )
        if gain >= A_LONG_WAIT_S / 2 and (best is None or gain > best[0]):
            best = gain, words
    return best[1] if best else None


def _all_from_the_first(question: _Question) -> str | None:
    """One line from the first station, at the interval at which no queue forms."""
    rotation = question.rotation
    interval = ceil(max(max(one.seconds) / one.capacity for one in rotation.stations))
    line = replace(
        rotation,
        begins_at=(0,) * len(question.children),
        begins_s=tuple(float(interval * place) for place in range(len(question.children))),
    )
    outlook = _outlook(line, question.lasting_s)
    goes, now = _fewest(outlook), _fewest(question.outlook)
    said = "1 go" if goes == 1 else f"{goes} goes"
    change = f"{said} instead of {now}" if goes != now else f"{said} as well"
    return (
        f"If all start at station 1: send a child every {interval} s. The child with the fewest has "
        f"{change}, and the last waits {round(line.begins_s[-1])} s before the first go."
    )


def _while_waiting(question: _Question) -> str | None:
    """A task on the way back, and a job for who waits: what fills the time that is idle anyway."""
    longest = _longest(question.outlook)
    if longest < A_LONG_WAIT_S:
        return None
    idle = (1 - min(share.moving for share in question.outlook.children)) * question.lasting_s
    walked = question.rotation.walk_s * (
        question.rotation.rounds * len(question.rotation.stations) - 1
    )
    each = int(stations_file()["return_task_s"])
    tasks = int(max(0.0, idle - walked) // each)
    return (
        f"A child waits up to {round(longest)} s at a stretch. A task on the way back costs no time: "
        f"with {each} s each, up to {tasks} of them for who waits most. Or who waits "
        f"{stations_file()['waiting_job']}."
    )


def _longest(outlook: Outlook) -> float:
    return max(share.longest_wait_s for share in outlook.children)


def _fewest(outlook: Outlook) -> int:
    return int(min(share.goes for share in outlook.children))


def chance_words(chance: float) -> str:
    """A chance as one says it."""
    tenths = round(10 * chance)
    if tenths == 0:
        return "hardly ever"
    return "nearly always" if tenths == 10 else f"about {tenths} in 10 times"
