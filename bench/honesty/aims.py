"""The aims, each beside what was found, met or not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bench.honesty.scores import Mean, Scores, forecasts_of, log_scores, mean, sessions_of
from bench.honesty.stream import Stream
from bench.honesty.summary import GoalWords

OURS = "tapeline"


@dataclass(frozen=True, kw_only=True)
class Aim:
    """One aim: the least and the most that meets it, and what was found."""

    what: str
    found: float
    error: float | None
    least: float | None = None
    most: float | None = None

    @property
    def is_met(self) -> bool:
        """Whether the figure itself is inside; its error is printed, not used."""
        return (self.least is None or self.found >= self.least) and (
            self.most is None or self.found <= self.most
        )


def gain(streams: Sequence[Stream], over: str) -> Mean:
    """Log score per session above another forecaster's on the same sessions."""
    came = sessions_of(streams)
    ours, other = (log_scores(forecasts_of(streams, one), came.k) for one in (OURS, over))
    return mean(ours - other, came.child)


def forecast_aims(streams: Sequence[Stream], scores: Mapping[str, Scores]) -> list[Aim]:
    """The aims on forecasts, over all sessions given."""
    ours = scores[OURS]
    return [
        gain_aim(streams, "last result", 0.45),
        gain_aim(streams, "Elo", 0.2),
        gain_aim(streams, "Elo, slowing", 0.2),
        Aim(
            what="share of PIT in the middle 80 %",
            found=ours.pit_80.value,
            error=ours.pit_80.error,
            least=0.77,
            most=0.83,
        ),
        Aim(what="calibration error (ECE)", found=ours.ece, error=None, most=0.03),
    ]


def gain_aim(streams: Sequence[Stream], over: str, least: float) -> Aim:
    """The aim to be better than another forecaster by so many nats per session."""
    found = gain(streams, over)
    return Aim(what=f"log score above: {over}", found=found.value, error=found.error, least=least)


def goal_aim(setting: str, words: GoalWords) -> Aim:
    """The aim on goals said to be reached."""
    return Aim(
        what=f"goals said falsely, {setting}",
        found=words.false_share.value,
        error=words.false_share.error,
        most=0.05,
    )
