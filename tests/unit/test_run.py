"""The starter: what it decides before anything is installed."""

from __future__ import annotations

import ast
import re
import tomllib
from pathlib import Path

import pytest

import run

ROOT = Path(run.HERE)


@pytest.fixture
def house(tmp_path, monkeypatch):
    """A folder with lock files, a make-believe environment, and nothing stamped."""
    locks = {name: str(tmp_path / f"{name}.lock") for name in ("run", "test")}
    for path in locks.values():
        Path(path).write_text("one==1.0\n")
    monkeypatch.setattr(run, "VENV", str(tmp_path / ".venv"))
    monkeypatch.setattr(run, "LOCKS", locks)
    python = Path(run.venv_python())
    python.parent.mkdir(parents=True)
    python.touch()
    return tmp_path


def stamp(house: Path, name: str) -> None:
    (house / ".venv" / f"{name}.stamp").write_text(run.digest(run.LOCKS[name]))


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ([], ["serve", "--open"]),
        (["--port", "8111"], ["serve", "--open", "--port", "8111"]),
        (["--no-browser"], ["serve", "--no-browser"]),
        (["--no-browser", "--port", "8111"], ["serve", "--no-browser", "--port", "8111"]),
        (["plan", "a.json", "--group", "g"], ["plan", "a.json", "--group", "g"]),
        (["serve", "--port", "8111"], ["serve", "--port", "8111"]),
        (["--", "--version"], ["--version"]),
        (["help"], ["--help"]),
    ],
)
def test_words_without_a_command_start_the_pages(typed, meant):
    assert run.tapeline_arguments(typed) == meant


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 12, 4), (4, 0, 0)])
def test_a_new_enough_python_passes(version):
    run.check_python(version)


def test_an_old_python_is_told_its_version_in_one_sentence():
    with pytest.raises(run.CannotStart, match=r"3\.11 or newer, and this is Python 3\.9\.2\."):
        run.check_python((3, 9, 2))


def test_the_starter_still_parses_on_an_old_python_to_say_so():
    ast.parse((ROOT / "run.py").read_text(encoding="utf-8"), feature_version=(3, 7))


def test_a_python_without_venv_names_the_package_to_install(monkeypatch):
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(run.CannotStart, match=r"apt install python3\.13-venv"):
        run.check_venv((3, 13))


def test_windows_keeps_its_python_elsewhere():
    assert Path(run.venv_python(windows=True)).parts[-2:] == ("Scripts", "python.exe")
    assert Path(run.venv_python(windows=False)).parts[-2:] == ("bin", "python")


def test_an_environment_without_a_stamp_is_not_installed(house):
    assert not run.is_installed("run")


def test_a_stamped_environment_is_left_alone(house, monkeypatch):
    stamp(house, "run")
    monkeypatch.setattr(run, "quietly", lambda *_, **__: pytest.fail("nothing should run"))
    run.install("run")
    assert run.is_installed("run")


def test_a_changed_lock_is_installed_again(house):
    stamp(house, "run")
    Path(run.LOCKS["run"]).write_text("one==1.1\n")
    assert not run.is_installed("run")


def test_the_run_stamp_says_nothing_about_the_tests(house):
    stamp(house, "run")
    assert not run.is_installed("test")


def test_an_environment_whose_python_is_gone_is_not_installed(house):
    stamp(house, "run")
    Path(run.venv_python()).unlink()
    assert not run.is_installed("run")


def test_line_ends_of_another_system_do_not_change_the_digest(tmp_path):
    for name, text in (("unix", b"one==1.0\ntwo==2.0\n"), ("windows", b"one==1.0\r\ntwo==2.0\r\n")):
        (tmp_path / name).write_bytes(text)
    assert run.digest(str(tmp_path / "unix")) == run.digest(str(tmp_path / "windows"))


@pytest.mark.parametrize(
    ("printed", "start_of_sentence"),
    [
        ("OSError: [Errno 28] No space left on device", "The disk is full"),
        ("THESE PACKAGES DO NOT MATCH THE HASHES FROM", "A downloaded package is not"),
        (
            "WARNING: Retrying ... NewConnectionError\nERROR: No matching distribution found",
            "The packages could not be downloaded",
        ),
        ("ERROR: No matching distribution found for typst==0.15.2", "Some packages do not exist"),
        ("something new", "The packages could not be installed"),
    ],
)
def test_a_failed_installation_gives_the_sentence_that_helps(printed, start_of_sentence):
    assert run.what_pip_meant(printed).startswith(start_of_sentence)


def test_every_check_of_ci_is_run_and_pytest_comes_last():
    names = [name for name, _ in run.checks([])]
    assert names == ["ruff check", "ruff format", "mypy", "imports", "pytest"]


def test_words_after_test_reach_pytest():
    two = ["-n", "2", "--dist", "loadfile"]
    assert run.checks(["-k", "turns"])[-1][1] == ["-m", "pytest", *two, "-k", "turns"]


@pytest.mark.parametrize(
    ("failing", "expected"),
    [((), 0), (("mypy",), 1), (("pytest",), 5), (("mypy", "pytest"), 5)],
)
def test_pytest_decides_the_exit_code_and_no_other_failure_is_lost(
    monkeypatch, capsys, failing, expected
):
    monkeypatch.setattr(run, "checks", lambda _: [("mypy", ["mypy"]), ("pytest", ["pytest"])])

    def pretend(command, **_):
        code = 5 if command[-1] in failing else 0
        return run.subprocess.CompletedProcess(command, code, stdout="")

    monkeypatch.setattr(run, "quietly", pretend)
    monkeypatch.setattr(run.subprocess, "run", pretend)
    assert run.run_checks([]) == expected
    last = capsys.readouterr().out.splitlines()[-1]
    assert all(name in last for name in failing)


def test_nothing_but_the_standard_library_is_imported():
    tree = ast.parse((ROOT / "run.py").read_text(encoding="utf-8"))
    imported = {
        name.split(".")[0]
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for name in (
            [node.module] if isinstance(node, ast.ImportFrom) else [a.name for a in node.names]
        )
    }
    assert imported <= run.sys.stdlib_module_names


@pytest.mark.parametrize("name", ["run", "test"])
def test_every_locked_package_is_pinned_with_a_hash(name):
    text = (ROOT / "requirements" / f"{name}.lock").read_text(encoding="utf-8")
    entries = re.split(r"\n(?=\w)", text)
    assert len(entries) > 20
    for entry in entries:
        assert re.match(r"[\w.-]+==\S+", entry), entry
        assert "--hash=sha256:" in entry, entry


@pytest.mark.parametrize("path", sorted((ROOT / "requirements").iterdir()), ids=lambda p: p.name)
def test_no_lock_file_names_where_packages_come_from(path):
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"://|--(index-url|extra-index-url|find-links|trusted-host)", text)


def test_both_locks_agree_where_they_meet():
    def pins(name):
        text = (ROOT / "requirements" / f"{name}.lock").read_text(encoding="utf-8")
        found: dict[str, set[str]] = {}
        for package, version in re.findall(r"^([\w.-]+)==([^\s;]+)", text, re.MULTILINE):
            found.setdefault(package, set()).add(version)
        return found

    to_run, to_test = pins("run"), pins("test")
    shared = to_run.keys() & to_test.keys()
    assert shared
    assert {name: to_run[name] for name in shared} == {name: to_test[name] for name in shared}


def test_the_package_asks_for_what_the_run_lock_was_made_from():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lines = (ROOT / "requirements" / "run.in").read_text(encoding="utf-8").splitlines()
    assert project["dependencies"] == [line for line in lines if line and line[0] != "#"]
