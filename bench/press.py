"""From a press to its answer that it is on disk, over HTTP in this process, at sixty children.

python -m bench.press [--runs 400] [--json]

Each press is posted alone, as while a session runs, to a session that fills up as they come.
The baseline is the page that only says tapeline is alive. `double` is a press sent again.
"""

from __future__ import annotations

import itertools
import json
import os
import tempfile
from typing import Any

from bench.pages import TODAY, a_client
from bench.report import Measured, arguments, tell, timed


def main() -> None:
    """Fill a data folder, plan a session of today, and press."""
    asked = arguments(__doc__ or "", runs=400)
    with tempfile.TemporaryDirectory() as home:
        os.environ |= {"TAPELINE_HOME": home, "TAPELINE_TODAY": TODAY.isoformat()}
        client = a_client()
        baseline = Measured(name="alive", seconds=timed(lambda: client.get("/alive/"), asked.runs))
        press = pressing(client)
        press()
        rows = [
            Measured(name="press to stored", seconds=timed(press, asked.runs)),
            Measured(name="double", seconds=timed(lambda: press(again=True), asked.runs)),
        ]
        tell("A press, stored", rows, baseline=baseline, as_json=asked.json)


def pressing(client: Any) -> Any:
    """Posts one press of the session's first counted game; `again` repeats the first id."""
    from tapeline.activities.models import PARTS_WITH_TRIALS
    from tapeline.web.selectors.sessions import plan_of, session_of

    plan = plan_of(session_of("mixed", TODAY))
    assert plan is not None
    part = next(one for one in plan.parts if one.part in PARTS_WITH_TRIALS)
    row = part.children[0]
    number = itertools.count()

    def press(again: bool = False) -> None:
        one = {
            "id": f"bench.{0 if again else next(number)}",
            "kind": "try",
            "child": row.id,
            "activity": part.activity,
            "version": row.version,
            "outcome": "alone",
            "clock": "10:10",
        }
        answer = client.post(
            f"/groups/mixed/{TODAY}/run/presses/",
            json.dumps({"presses": [one]}),
            content_type="application/json",
        )
        assert answer.json()["taken"] == [one["id"]], answer.content[:300]

    return press


if __name__ == "__main__":
    main()
