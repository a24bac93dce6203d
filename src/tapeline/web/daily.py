"""What is done behind the pages once a day: finish deletions, make the backup of the day."""

from __future__ import annotations

import logging

from tapeline.errors import TapelineError
from tapeline.web import rescue

log = logging.getLogger("tapeline.keeping")


def keep_records() -> None:
    """Do what is due; a failure is logged, and shows as an old date on every page."""
    from django.db import DatabaseError, connections

    from tapeline.web.gate import GATE
    from tapeline.web.services.erase import erase_finish
    from tapeline.web.services.keeping import backup_daily

    if rescue.damage() is not None:
        return
    try:
        erase_finish()
        with GATE.passing():
            backup_daily()
    except (TapelineError, DatabaseError, OSError) as error:
        log.error("the backup of the day was not made: %s", type(error).__name__)
    finally:
        connections.close_all()
