"""Bring Django and the data folder up, quickly: nothing is done that is done already."""

from __future__ import annotations

import os
import warnings
from pathlib import Path

from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, make_data_folder, own_database

SETTINGS = "tapeline.web.settings"


def start_django() -> None:
    """Set Django up once; later calls do nothing."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", SETTINGS)
    import django
    from django.apps import apps

    if not apps.ready:
        django.setup()


def open_records() -> Path:
    """Her data folder, made where it is missing, checked, and of this version.

    Raises
    ------
    TapelineError
        The records are damaged, or belong to a newer version. Nothing was changed.
    """
    folder = data_folder()
    make_data_folder(folder)
    path = own_database(folder)
    age = database_file.age_of(path)
    if age != "new":
        database_file.refuse_damage(path)
        database_file.refuse_newer(path)
    start_django()
    if age == "older":
        keep_before_change()
    if age in ("new", "older"):
        migrate("default")
    return folder


def keep_before_change() -> None:
    """A backup of the records, made before a change of version touches them."""
    from tapeline.web.services.keeping import backup_keep

    backup_keep(why="before-upgrade")


def migrate(alias: str) -> None:
    """Bring one database to this version."""
    from django.core.management import call_command

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        call_command("migrate", database=alias, verbosity=0, interactive=False)
