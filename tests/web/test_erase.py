"""Deleting a child is real: nothing in the data folder knows the child afterwards."""

from __future__ import annotations

import datetime as dt
import json
import shutil
import zipfile
from pathlib import Path

import pytest
from django.db.models import CASCADE
from django.test import Client

from tapeline.errors import InputError
from tapeline.web.data_folder import backups_folder, own_database
from tapeline.web.pages.went import TABLES
from tapeline.web.records import models as rows
from tapeline.web.services import erase
from tapeline.web.services.backup import backup_make
from tapeline.web.services.erase import child_erase, erase_finish
from tapeline.web.services.erase_in_backups import InBackups
from tapeline.web.services.exchange import caseload_export, caseload_import
from tapeline.web.services.incoming import incoming_keep
from tapeline.web.services.keeping import backup_keep, backups_kept
from tapeline.web.services.restore import restore_stage, restore_swap
from tapeline.web.services.sessions import session_propose
from tests.web.conftest import SMALL
from tests.web.on_disk import bytes_with

KEY, NAME, HOME = "c-marasmark", "Mara Unusual", "h-marashome"
FIXTURES = Path(__file__).parent / "fixtures" / "backups"


@pytest.fixture
def with_mara(on_disk: Path) -> Path:
    """A data folder that knows Mara everywhere it can: rows, plans, backups, half-done imports."""
    data = json.loads(SMALL)
    data["homes"].append({"id": HOME, "name": f"Home of {NAME}", "helper": "her uncle"})
    data["children"].append(
        {"id": KEY, "name": NAME, "born": "2020-09", "mark": "kite", "home": HOME}
    )
    data["groups"][0]["members"].append({"child": KEY})
    data["trials"].append(
        {"id": "t8", "session": "s1", "child": KEY, "version": "quay_catch.bounced",
         "step": "catch2.bounced", "outcome": "alone", "count": 2}
    )  # fmt: skip
    caseload_import(text=json.dumps(data), name="file.json")
    session_propose(group_key="gulls", on=dt.date(2026, 12, 1))
    backup_keep(why="daily")
    backup_keep(why="before-import")
    incoming_keep(text=caseload_export())
    restore_stage(backup=backups_kept()[0].path)
    return on_disk


def test_nothing_in_the_data_folder_knows_a_deleted_child(with_mara: Path) -> None:
    before = bytes_with(with_mara, KEY, NAME, HOME)
    assert {"tapeline.sqlite3", "staged.sqlite3"} <= set(before)
    assert sum(name.endswith(".zip:caseload.json") for name in before) == 2
    erased = child_erase(child_key=KEY)
    assert bytes_with(with_mara, KEY, NAME, HOME) == []
    assert erased.name == NAME
    assert erased.rows["Trial"] == erased.rows["Home"] == erased.rows["Child"] == 1
    assert erased.plans == 1
    assert erased.in_backups == InBackups(rewritten=2, removed=0)
    assert erased.mentions == ()


def test_the_others_stay_as_they_were_in_records_and_backups(with_mara: Path) -> None:
    child_erase(child_key=KEY)
    now = json.loads(caseload_export())
    assert [child["id"] for child in now["children"]] == ["c1", "c2", "c3"]
    newest = backups_kept()[0]
    with zipfile.ZipFile(newest.path) as packed:
        assert json.loads(packed.read("caseload.json"))["children"] == now["children"]
        assert json.loads(packed.read("backup.json"))["counts"]["children"] == 3
    restore_swap(checksum=restore_stage(backup=newest.path).checksum)
    assert json.loads(caseload_export()) == now


def test_a_backup_that_cannot_be_cleaned_is_removed(with_mara: Path) -> None:
    newest, older = (one.path for one in backups_kept()[:2])
    content = older.read_bytes()
    older.write_bytes(content[: len(content) // 2])
    damaged = backups_folder(with_mara) / "damaged-2026-11-25-101010.sqlite3"
    damaged.write_bytes(own_database(with_mara).read_bytes()[:50_000])
    erased = child_erase(child_key=KEY)
    assert erased.in_backups == InBackups(rewritten=1, removed=2)
    assert newest.exists()
    assert not older.exists()
    assert not damaged.exists()


def test_a_backup_of_an_older_version_is_cleaned_too(on_disk: Path) -> None:
    folder = backups_folder(on_disk)
    folder.mkdir()
    kept = folder / "before-upgrade-2026-11-20-101010.zip"
    shutil.copy(FIXTURES / "0001_first.zip", kept)
    assert bytes_with(folder, "Odo") != []
    erased = child_erase(child_key="c1")
    assert erased.in_backups == InBackups(rewritten=1, removed=0)
    assert bytes_with(folder, "Odo") == []
    assert bytes_with(folder, "Wim") != []


def test_cut_off_in_the_middle_a_deletion_is_finished_at_the_next_start(
    with_mara: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def killed(child_key: str) -> InBackups:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(erase, "erase_in_backups", killed)
        with pytest.raises(KeyboardInterrupt):
            child_erase(child_key=KEY)
    assert not rows.Child.objects.filter(key=KEY).exists()
    assert bytes_with(with_mara, NAME) != []
    erase_finish()
    assert bytes_with(with_mara, KEY, NAME, HOME) == []


def test_a_deletion_that_never_began_deletes_nothing_later(with_mara: Path) -> None:
    (with_mara / erase.UNFINISHED).write_text(json.dumps([KEY]), encoding="utf-8")
    erase_finish()
    assert rows.Child.objects.filter(key=KEY).exists()
    assert not (with_mara / erase.UNFINISHED).exists()
    with pytest.raises(InputError, match="no child 'zz'"):
        child_erase(child_key="zz")
    assert not (with_mara / erase.UNFINISHED).exists()


def test_a_home_where_a_brother_lives_stays(with_mara: Path) -> None:
    rows.Child.objects.filter(key="c2").update(home=rows.Home.objects.get(key=HOME))
    erased = child_erase(child_key=KEY)
    assert "Home" not in erased.rows
    assert [mention.where for mention in erased.mentions] == [f"the home Home of {NAME}"]


def test_texts_that_still_name_the_child_are_listed(with_mara: Path) -> None:
    rows.Child.objects.filter(key="c2").update(note=f"plays well with {NAME.lower()}")
    rows.Session.objects.filter(key="s2").update(reason=f"{NAME} and others ill")
    rows.Session.objects.filter(key="s1").update(reason=f"{NAME}s")
    page = Client(headers={"host": "127.0.0.1"}).get(f"/children/{KEY}/delete/")
    erased = child_erase(child_key=KEY)
    places = {mention.where for mention in erased.mentions}
    assert places == {"the page of Wim", "Thursday at home on 2026-11-19"}
    assert all(place in page.content.decode() for place in places)


def test_every_table_that_can_lose_rows_with_a_child_has_a_name() -> None:
    reached, found = [rows.Child], {"Child", "Home"}
    while reached:
        for relation in reached.pop()._meta.related_objects:
            if relation.on_delete is CASCADE and relation.related_model.__name__ not in found:
                found.add(relation.related_model.__name__)
                reached.append(relation.related_model)
    assert found == set(TABLES)


def test_the_page_says_what_it_did(with_mara: Path, tmp_path: Path) -> None:
    backup_make(to=tmp_path / "away.zip")
    browser = Client(headers={"host": "127.0.0.1"})
    asked = browser.get(f"/children/{KEY}/delete/").content.decode()
    assert "out of the 3 backups in the data folder" in asked
    said = browser.post(f"/children/{KEY}/delete/").content.decode()
    assert f"{NAME} is deleted" in said
    assert "Rows of tries: 1" in said
    assert "1 plan lost the child" in said
    assert "2 backups in the data folder were written anew without the child" in said
    assert "away.zip:caseload.json" in bytes_with(tmp_path, NAME)
    assert bytes_with(with_mara, KEY, NAME, HOME) == []
