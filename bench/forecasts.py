"""Are forecasts and goals honest? Invented cohorts, policies and forecasters side by side.

python -m bench.forecasts [--seeds 101 102] [--policies tapeline ...] [--by-world] [--json]
python -m bench.forecasts --tune

Every seed is one cohort of each world (`bench/honesty/worlds.py`). Seeds below 100 are for
tuning, here and in the engine; figures that are quoted come from seeds of 100 and above, which
nothing was tuned on. `--tune` prints what the rivals' numbers were chosen by.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from itertools import product
from typing import Any

ONE_CORE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"}
HELD_BACK = (101, 102)
FIRST_HELD_BACK = 100
CAN_BE_SURE = ("tapeline", "last result", "plain average", "Glicko-like", "knows the truth")


def main() -> None:
    """Run the cohorts and print the tables."""
    if not ONE_CORE.keys() <= os.environ.keys():
        command = [sys.executable, "-m", "bench.forecasts", *sys.argv[1:]]
        raise SystemExit(subprocess.run(command, env=os.environ | ONE_CORE).returncode)
    asked = arguments()
    if asked.tune:
        from bench.honesty.tune import tune

        tune()
        return
    found = measure(asked)
    if asked.json:
        print(json.dumps(plain(found), indent=2))
    else:
        print("\n".join(lines_of(found)))


def arguments() -> argparse.Namespace:
    """What can be asked."""
    from bench.honesty.setting import SCENARIOS
    from bench.honesty.stream import POLICIES
    from bench.honesty.worlds import WORLDS

    about = (__doc__ or "").split("\n\n")[0]
    parser = argparse.ArgumentParser(description=about)
    parser.add_argument("--seeds", type=int, nargs="+", default=list(HELD_BACK))
    parser.add_argument("--policies", nargs="+", choices=POLICIES, default=list(POLICIES))
    names = [one.name for one in WORLDS]
    parser.add_argument("--worlds", nargs="+", choices=names, default=names)
    parser.add_argument(
        "--scenarios", type=int, nargs="+", choices=range(len(SCENARIOS)), default=[0, 1, 2]
    )
    parser.add_argument("--children", type=int, default=SCENARIOS[0].children)
    parser.add_argument("--weeks", type=int, default=SCENARIOS[0].weeks)
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--by-world", action="store_true", help="scores in each world as well")
    parser.add_argument("--tune", action="store_true", help="how the rivals were tuned")
    parser.add_argument("--json", action="store_true", help="print JSON")
    return parser.parse_args()


def streams_of(asked: argparse.Namespace) -> list[Any]:
    """All cohorts: the ordinary ones under every policy, the harder ones under the first."""
    from dataclasses import replace

    from bench.honesty.setting import SCENARIOS
    from bench.honesty.stream import run
    from bench.honesty.worlds import WORLDS

    worlds = [one for one in WORLDS if one.name in asked.worlds]
    jobs = []
    for number in asked.scenarios:
        setting = replace(SCENARIOS[number], children=asked.children, weeks=asked.weeks)
        policies = asked.policies if number == 0 else asked.policies[:1]
        jobs += list(product([setting], worlds, asked.seeds, policies))
    if asked.workers == 1:
        return [run(*job) for job in jobs]
    with ProcessPoolExecutor(asked.workers) as pool:
        return list(pool.map(run, *zip(*jobs, strict=True)))


def measure(asked: argparse.Namespace) -> dict[str, Any]:
    """Everything the tables show."""
    from bench.honesty.aims import OURS, forecast_aims, goal_aim
    from bench.honesty.summary import goal_words, policy_worth, sure_bins

    streams = streams_of(asked)
    settings = list(dict.fromkeys(one.setting for one in streams))
    ordinary = [one for one in streams if one.setting == settings[0]]
    by_policy = {name: [one for one in ordinary if one.policy == name] for name in asked.policies}
    first = by_policy[asked.policies[0]]
    scores = {name: all_scores(some) for name, some in by_policy.items()}
    words, sure = {}, {}
    for setting in settings:
        some = [s for s in streams if s.setting == setting and s.policy == asked.policies[0]]
        words[setting] = {name: goal_words(some, name) for name in CAN_BE_SURE}
        sure[setting] = sure_bins(some, OURS)
    aims = forecast_aims(first, scores[asked.policies[0]])
    aims += [goal_aim(setting, found[OURS]) for setting, found in words.items()]
    return {
        "seeds": asked.seeds,
        "held_back": all(seed >= FIRST_HELD_BACK for seed in asked.seeds),
        "cohorts": len(streams),
        "children": asked.children,
        "weeks": asked.weeks,
        "scores": scores,
        "worlds": by_world(first) if asked.by_world else {},
        "goals": words,
        "sure": sure,
        "policies": {name: policy_worth(some, asked.weeks) for name, some in by_policy.items()},
        "aims": aims,
    }


def all_scores(streams: Sequence[Any]) -> dict[str, Any]:
    """Every forecaster's scores on the same sessions."""
    from bench.honesty.scores import forecasts_of, score, sessions_of

    came = sessions_of(streams)
    return {name: score(forecasts_of(streams, name), came) for name in streams[0].forecasts}


def by_world(streams: Sequence[Any]) -> dict[str, dict[str, Any]]:
    """The scores in each world."""
    worlds = dict.fromkeys(one.world for one in streams)
    return {world: all_scores([s for s in streams if s.world == world]) for world in worlds}


def lines_of(found: dict[str, Any]) -> list[str]:
    """The tables as lines."""
    from bench.honesty.tables import aim_table, goal_table, policy_table, score_table, sure_table

    kind = "held back" if found["held_back"] else "NOT held back: tuning seeds among them"
    lines = [
        f"Seeds {' '.join(map(str, found['seeds']))} ({kind}); {found['cohorts']} cohorts of"
        f" {found['children']} children, {found['weeks']} weeks; ± is one standard error over"
        " children",
    ]
    for policy, scores in found["scores"].items():
        lines += ["", *score_table(f"Forecasts, steps chosen by: {policy}", scores)]
    for world, scores in found["worlds"].items():
        lines += ["", *score_table(f"Forecasts in the world: {world}", scores)]
    for setting, words in found["goals"].items():
        lines += ["", *goal_table(f"Goals said to be reached at 90 % sure, {setting}", words)]
        title = f"How sure tapeline was, every week and goal, {setting}"
        lines += ["", *sure_table(title, found["sure"][setting])]
    lines += ["", *policy_table("What the choice of steps reached", found["policies"])]
    return [*lines, "", *aim_table(found["aims"])]


def plain(found: dict[str, Any]) -> Any:
    """The same for JSON."""
    from bench.honesty.tables import as_plain

    return as_plain(found)


if __name__ == "__main__":
    main()
