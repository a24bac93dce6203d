"""Starting, restoring and meeting trouble, as processes of their own on a folder of their own."""

from __future__ import annotations

import json
import os
import re
import shutil
import socket
import sqlite3
import subprocess
import sys
import urllib.request
import zipfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from tapeline.web.data_folder import README, make_data_folder, own_database, secret_key
from tapeline.web.database_file import MIGRATIONS, known_migrations
from tests.web.conftest import SMALL

HEAVY = ("pandas", "ortools", "cv2", "scipy", "typst", "shapely")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A data folder that is not there yet."""
    return tmp_path / "records"


@pytest.fixture(scope="module")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with a small caseload, to be copied."""
    folder = tmp_path_factory.mktemp("made-once")
    file = folder / "small.json"
    file.write_text(SMALL, encoding="utf-8")
    assert run(folder / "records", "import", file).returncode == 0
    return folder / "records"


@pytest.fixture
def filled(made_once: Path, folder: Path) -> Path:
    """A data folder with a small caseload."""
    shutil.copytree(made_once, folder)
    return folder


def run(folder: Path, *words: object) -> subprocess.CompletedProcess[str]:
    """Run tapeline on a data folder to its end."""
    command = [sys.executable, "-m", "tapeline", *map(str, words)]
    return subprocess.run(
        command, env=_environment(folder), capture_output=True, text=True, timeout=60
    )


@contextmanager
def serving(folder: Path, port: int) -> Iterator[tuple[str, list[str]]]:
    """tapeline's address and the lines it printed, while it runs."""
    command = [sys.executable, "-m", "tapeline", "serve", "--port", str(port)]
    with subprocess.Popen(
        command, env=_environment(folder), stdout=subprocess.PIPE, text=True
    ) as process:
        try:
            lines = []
            for line in process.stdout:
                lines.append(line.strip())
                if "ready at" in line:
                    break
            yield lines[-1].split(" at ")[1], lines
        finally:
            process.terminate()
            process.wait(timeout=20)


def _environment(folder: Path) -> dict[str, str]:
    own = {"TAPELINE_HOME": str(folder), "TAPELINE_TODAY": "2026-11-25", "PYTHONUTF8": "1"}
    kept = {key: value for key, value in os.environ.items() if key != "DJANGO_SETTINGS_MODULE"}
    return {**kept, **own}


def get(address: str) -> str:
    """The text of a page."""
    with urllib.request.urlopen(address, timeout=20) as answer:
        return answer.read().decode()


def free_port() -> int:
    """A port that nobody listens on now."""
    with closing(socket.socket()) as found:
        found.bind(("127.0.0.1", 0))
        return found.getsockname()[1]


def test_a_first_start_makes_the_folder_and_says_each_step(folder: Path) -> None:
    with serving(folder, free_port()) as (address, lines):
        assert "Start with my own group" in get(address)
    assert [line.split(" ")[0] for line in lines] == ["Made", "Opening", "tapeline"]
    assert (folder / "README.txt").read_text(encoding="utf-8") == README
    assert own_database(folder).exists()


def test_a_second_start_beside_a_running_one_points_to_it(folder: Path) -> None:
    with serving(folder, free_port()) as (address, _):
        second = run(folder, "serve")
        assert second.returncode == 0
        assert f"running already at {address}" in second.stdout
        refused = run(folder, "restore", "x.zip", "--yes")
        assert refused.returncode == 1
        assert "tapeline is running on" in refused.stderr
    with serving(folder, free_port()) as (_, lines):
        assert len(lines) == 2


def test_a_port_in_use_is_left_and_the_next_one_taken(folder: Path) -> None:
    with closing(socket.socket()) as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        taken = other.getsockname()[1]
        with serving(folder, taken) as (address, lines):
            assert f"Port {taken} is in use; trying {taken + 1}." in lines
            assert not address.endswith(f":{taken}/")


def test_starting_loads_no_heavy_part() -> None:
    asked = (
        "import sys, tapeline.web.serve, tapeline.web.start_up as up; up.start_django();"
        "import django.urls; django.urls.get_resolver().url_patterns; import waitress;"
        "from django.core.handlers.wsgi import WSGIHandler; WSGIHandler();"
        f"print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, timeout=60)
    assert done.stdout.strip() == "[]", done.stderr


def test_a_newer_data_folder_is_one_sentence_and_is_not_touched(filled: Path) -> None:
    path = own_database(filled)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(
            "INSERT INTO django_migrations (app, name, applied)"
            " VALUES ('records', '9999_from_tomorrow', '2030-01-01')"
        )
        connection.commit()
    before = path.read_bytes()
    done = run(filled, "serve")
    assert done.returncode == 1
    assert len(done.stderr.strip().splitlines()) == 1
    assert "written by a newer version" in done.stderr
    assert path.read_bytes() == before


def test_a_damaged_database_is_one_sentence_that_points_to_restore(
    filled: Path, tmp_path: Path
) -> None:
    backup = tmp_path / "kept.zip"
    assert run(filled, "backup", backup).returncode == 0
    before = run(filled, "export", "-").stdout
    damage(own_database(filled))
    for words in (("export", "-"), ("backup", tmp_path / "b.zip")):
        done = run(filled, *words)
        assert done.returncode == 1
        assert len(done.stderr.strip().splitlines()) == 1
        assert "damaged" in done.stderr
        assert "restore" in done.stderr
    assert run(filled, "restore", backup, "--yes").returncode == 0
    assert run(filled, "export", "-").stdout == before


def test_with_a_damaged_database_the_only_page_brings_a_backup_back(
    filled: Path, tmp_path: Path
) -> None:
    backup = tmp_path / "kept.zip"
    run(filled, "backup", backup)
    before = run(filled, "export", "-").stdout
    damage(own_database(filled))
    with serving(filled, free_port()) as (address, lines):
        assert "is damaged and was not opened" in lines[1]
        browser = Browser(address)
        assert "is damaged and was not opened" in browser.read("children/")
        page = browser.upload("restore/", backup.read_bytes())
        assert "not readable" in page
        checksum = re.search(r'name="checksum" value="(\w+)"', page)[1]
        browser.post("restore/now/", {"checksum": checksum})
        assert browser.read("take-out/caseload.json") == before
    assert len(list((filled / "backups").glob("damaged-*.sqlite3"))) == 1


def damage(path: Path) -> None:
    """Overwrite the middle of a file."""
    with path.open("r+b") as file:
        file.seek(8192)
        file.write(b"\xa5" * 30000)


def test_a_backup_brings_back_what_was_there_and_keeps_what_is(
    filled: Path, tmp_path: Path
) -> None:
    backup = tmp_path / "b.zip"
    run(filled, "backup", backup)
    before = run(filled, "export", "-").stdout
    fewer = json.loads(SMALL)
    fewer["children"][0]["name"] = "Someone else"
    changed = tmp_path / "changed.json"
    changed.write_text(json.dumps(fewer), encoding="utf-8")
    run(filled, "import", changed)
    assert run(filled, "export", "-").stdout != before
    done = run(filled, "restore", backup, "--yes")
    assert "children 3" in done.stdout
    assert run(filled, "export", "-").stdout == before
    (kept,) = (filled / "backups").glob("before-restore-*.zip")
    assert "Someone else" in _names(kept, tmp_path)


def test_a_backup_holds_the_caseload_as_an_open_file_too(filled: Path, tmp_path: Path) -> None:
    backup = tmp_path / "b.zip"
    run(filled, "backup", backup)
    with zipfile.ZipFile(backup) as packed:
        assert packed.read("caseload.json").decode() == run(filled, "export", "-").stdout
        assert b"Keep it where only you can read it" in packed.read("README.txt")
        assert json.loads(packed.read("backup.json"))["counts"]["children"] == 3


def test_a_backup_of_an_older_version_is_brought_up_to_date(filled: Path, tmp_path: Path) -> None:
    """A later version adds a table; here the newest change of this one is taken back first."""
    backup = tmp_path / "b.zip"
    run(filled, "backup", backup)
    before = run(filled, "export", "-").stdout
    program = _program_with_one_more_change(tmp_path)
    done = _run_program(program, filled, "restore", backup, "--yes")
    assert done.returncode == 0, done.stderr
    with closing(sqlite3.connect(own_database(filled))) as connection:
        tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master")}
    assert "records_tomorrow" in tables
    assert _run_program(program, filled, "export", "-").stdout == before
    assert run(filled, "export", "-").returncode == 1


def _program_with_one_more_change(tmp_path: Path) -> Path:
    """A copy of the program whose database has one more change than this one."""
    program = tmp_path / "newer"
    source = MIGRATIONS.parents[2]
    shutil.copytree(source, program / "tapeline", ignore=shutil.ignore_patterns("__pycache__"))
    newest = max(known_migrations())
    change = program / "tapeline" / "web" / "records" / "migrations" / "9000_tomorrow.py"
    change.write_text(
        "from django.db import migrations\n"
        "class Migration(migrations.Migration):\n"
        f"    dependencies = [('records', {newest!r})]\n"
        "    operations = [migrations.RunSQL('CREATE TABLE records_tomorrow (id integer)')]\n",
        encoding="utf-8",
    )
    return program


def _run_program(program: Path, folder: Path, *words: object) -> subprocess.CompletedProcess[str]:
    environment = {**_environment(folder), "PYTHONPATH": str(program)}
    command = [sys.executable, "-m", "tapeline", *map(str, words)]
    return subprocess.run(command, env=environment, capture_output=True, text=True, timeout=60)


def test_records_of_an_older_version_are_copied_before_they_change(
    filled: Path, tmp_path: Path
) -> None:
    program = _program_with_one_more_change(tmp_path)
    before = run(filled, "export", "-").stdout
    assert _run_program(program, filled, "export", "-").stdout == before
    (kept,) = (filled / "backups").glob("before-upgrade-*.zip")
    assert "Odo" in _names(kept, tmp_path)


@pytest.mark.parametrize("how", ["no zip", "another zip", "cut", "changed inside", "missing"])
def test_a_bad_backup_is_one_sentence_and_changes_nothing(
    filled: Path, tmp_path: Path, how: str
) -> None:
    backup = tmp_path / "b.zip"
    run(filled, "backup", backup)
    spoil(backup, how)
    before = own_database(filled).read_bytes()
    done = run(filled, "restore", backup, "--yes")
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) == 1
    assert own_database(filled).read_bytes() == before
    assert not (filled / "staged.sqlite3").exists()


def spoil(backup: Path, how: str) -> None:
    """Make a backup unusable in one of several ways."""
    content = backup.read_bytes()
    if how == "no zip":
        backup.write_text("hello", encoding="utf-8")
    elif how == "missing":
        backup.unlink()
    elif how == "cut":
        backup.write_bytes(content[: len(content) // 2])
    else:
        _pack_anew(backup, how)


def _pack_anew(backup: Path, how: str) -> None:
    with zipfile.ZipFile(backup) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    if how == "another zip":
        parts.pop("tapeline.sqlite3")
    else:
        parts["tapeline.sqlite3"] = parts["tapeline.sqlite3"][:-4096] + b"\0" * 4096
    with zipfile.ZipFile(backup, "w") as packed:
        for name, part in parts.items():
            packed.writestr(name, part)


def test_a_backup_comes_back_on_the_page_of_an_empty_start(filled: Path, tmp_path: Path) -> None:
    backup = tmp_path / "b.zip"
    run(filled, "backup", backup)
    before = run(filled, "export", "-").stdout
    fresh = tmp_path / "fresh"
    with serving(fresh, free_port()) as (address, _):
        browser = Browser(address)
        page = browser.upload("restore/", backup.read_bytes())
        assert "It is whole" in page
        checksum = re.search(r'name="checksum" value="(\w+)"', page)[1]
        page = browser.post("restore/now/", {"checksum": checksum})
        assert "The backup is back" in page
        assert browser.read("take-out/caseload.json") == before


class Browser:
    """Just enough of a browser: cookies, tokens, forms."""

    def __init__(self, address: str) -> None:
        from http.cookiejar import CookieJar

        self.address = address
        jar = urllib.request.HTTPCookieProcessor(CookieJar())
        self.opener = urllib.request.build_opener(jar)

    def read(self, path: str) -> str:
        """The text of a page."""
        with self.opener.open(self.address + path, timeout=20) as answer:
            return answer.read().decode()

    def _token(self) -> str:
        page = self.read("restore/")
        return re.search(r'csrfmiddlewaretoken" value="(\w+)"', page)[1]

    def post(self, path: str, fields: dict[str, str]) -> str:
        """Send a form."""
        from urllib.parse import urlencode

        data = urlencode({**fields, "csrfmiddlewaretoken": self._token()}).encode()
        with self.opener.open(self.address + path, data=data, timeout=20) as answer:
            return answer.read().decode()

    def upload(self, path: str, content: bytes) -> str:
        """Send a form with a file."""
        edge = "edge-of-the-parts"
        head = (
            f'--{edge}\r\nContent-Disposition: form-data; name="csrfmiddlewaretoken"\r\n\r\n'
            f"{self._token()}\r\n--{edge}\r\n"
            'Content-Disposition: form-data; name="file"; filename="b.zip"\r\n'
            "Content-Type: application/zip\r\n\r\n"
        )
        data = head.encode() + content + f"\r\n--{edge}--\r\n".encode()
        kind = {"Content-Type": f"multipart/form-data; boundary={edge}"}
        asked = urllib.request.Request(self.address + path, data=data, headers=kind)
        with self.opener.open(asked, timeout=20) as answer:
            return answer.read().decode()


def test_what_is_deleted_cannot_be_read_out_of_the_file(filled: Path, tmp_path: Path) -> None:
    assert b"Mara Unusual" not in own_database(filled).read_bytes()
    with_her = json.loads(SMALL)
    with_her["children"].append({"id": "c77", "name": "Mara Unusual", "born": "2021-01"})
    file = tmp_path / "her.json"
    file.write_text(json.dumps(with_her), encoding="utf-8")
    run(filled, "import", file)
    assert b"Mara Unusual" in own_database(filled).read_bytes()
    asked = (
        "from tapeline.web.start_up import open_records; open_records();"
        "from tapeline.web.services.erase import child_erase; child_erase(child_key='c77')"
    )
    subprocess.run([sys.executable, "-c", asked], env=_environment(filled), check=True, timeout=60)
    assert b"Mara Unusual" not in own_database(filled).read_bytes()


def test_the_secret_key_is_made_once(folder: Path) -> None:
    make_data_folder(folder)
    first = secret_key(folder)
    assert len(first) >= 50
    assert secret_key(folder) == first


def _names(backup: Path, tmp_path: Path) -> set[str]:
    with zipfile.ZipFile(backup) as packed:
        path = Path(packed.extract("tapeline.sqlite3", tmp_path))
    with closing(sqlite3.connect(path)) as connection:
        return {name for (name,) in connection.execute("SELECT name FROM records_child")}
