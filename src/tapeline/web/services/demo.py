"""The invented caseload, in a database of its own beside hers."""

from __future__ import annotations

import datetime as dt

from django.db import connections

from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, invented_database
from tapeline.web.records.convert import rows_from_caseload
from tapeline.web.records.which import INVENTED, opened
from tapeline.web.services.saving import saving


def demo_open(*, today: dt.date) -> None:
    """Make the invented caseload anew, as it is on that day; hers is not touched."""
    from tapeline.sessions.demo import demo_caseload
    from tapeline.web.start_up import migrate

    caseload = demo_caseload(today)
    with opened(INVENTED):
        if not demo_is_ready():
            _remove_unusable_file()
            migrate(INVENTED)
        with saving():
            _take_everything_out()
            rows_from_caseload(caseload)


def demo_is_ready() -> bool:
    """Whether there is an invented caseload that this version can read."""
    connection = connections[INVENTED]
    if connection.is_in_memory_db():
        return "records_child" in connection.introspection.table_names()
    return _file_is_current()


def _file_is_current() -> bool:
    from tapeline.errors import TapelineError

    try:
        return database_file.age_of(invented_database(data_folder())) == "current"
    except TapelineError:
        return False


def _remove_unusable_file() -> None:
    connection = connections[INVENTED]
    if not connection.is_in_memory_db():
        connection.close()
        invented_database(data_folder()).unlink(missing_ok=True)


def _take_everything_out() -> None:
    from tapeline.web.records import models as rows

    for model in (
        rows.Trial,
        rows.Blank,
        rows.FamilyAnswer,
        rows.SessionNote,
        rows.KeptReport,
        rows.MadeUp,
        rows.Session,
        rows.Membership,
        rows.Group,
        rows.Site,
        rows.Child,
        rows.Home,
        rows.PromptList,
        rows.OwnPiece,
        rows.LeftOut,
        rows.Profile,
    ):
        model.objects.all().delete()
