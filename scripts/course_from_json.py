#!/usr/bin/env python3
"""Lay out a course from a file: python3 scripts/course_from_json.py ROOM.json OUT.json

Needs no Django. docs/course-file.md says what the files hold. Exit codes: 0 placed, 2 the file
cannot be used, 3 no course.
"""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "src"))


def main(arguments: list[str]) -> int:
    """Read the room, lay out the course, write it; one sentence says how it went."""
    from tapeline.courses.course import lay_out_course
    from tapeline.courses.course_file import course_json, read_course_file
    from tapeline.errors import InputError

    if len(arguments) != 2:
        print(__doc__)
        return 2
    source, target = map(Path, arguments)
    try:
        asked = read_course_file(source.read_text(encoding="utf-8"))
        course = lay_out_course(asked.room, asked.stations, locked=asked.locked, seed=asked.seed)
    except OSError as error:
        print(f"{source} cannot be read: {error.strerror}.", file=sys.stderr)
        return 2
    except InputError as error:
        print(f"{source}: {error}", file=sys.stderr)
        return 2
    target.write_text(course_json(course), encoding="utf-8")
    print(f"{course.status}: {course.walk_cm} cm to walk, at least {course.bound_cm} cm.")
    return 0 if course.status == "placed" else 3


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
