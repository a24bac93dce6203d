"""Write docs/caseload.schema.json from the program.

python scripts/write_caseload_schema.py
"""

from __future__ import annotations

import json
from pathlib import Path

from tapeline.caseload.file import caseload_schema

SCHEMA = Path(__file__).parents[1] / "docs" / "caseload.schema.json"


def main() -> None:
    """Write the schema, keys sorted, so that a change shows as a small difference."""
    text = json.dumps(caseload_schema(), indent=2, sort_keys=True, ensure_ascii=False)
    SCHEMA.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
