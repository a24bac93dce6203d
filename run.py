#!/usr/bin/env python3
"""Start tapeline, or test it, with nothing but Python 3.11 or newer.

python3 run.py                  start and open the browser
python3 run.py --no-browser     start only; --port N chooses the port
python3 run.py test             run every check; more words go to pytest
python3 run.py plan FILE ...    any command of tapeline; 'help' lists them

The first start makes the folder .venv beside this file and installs the
packages named in requirements/run.lock. Later starts find it and go on.
To begin anew, delete .venv and start again.
"""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
import time

OLDEST = (3, 11)
HERE = os.path.dirname(os.path.abspath(__file__))
VENV = os.path.join(HERE, ".venv")
LOCKS = {name: os.path.join(HERE, "requirements", name + ".lock") for name in ("run", "test")}

# What pip prints (a pattern), and the sentence that helps. The first that fits counts:
# without a connection pip also claims that no package matches.
PIP_SIGNS = {
    "No space left|not enough space|Errno 28": (
        "The disk is full, so the packages could not be stored. Free about 1 GB and start again."
    ),
    "DO NOT MATCH THE HASHES": (
        "A downloaded package is not the one this version was tested with, so it was not"
        " installed. Start again, and report it if it happens twice."
    ),
    "NewConnectionError|name resolution|getaddrinfo|Connect|ReadTimeout|ProxyError": (
        "The packages could not be downloaded because the package index cannot be reached."
        " Connect to the internet and start again; later starts need no connection."
    ),
    "No matching distribution|not a supported wheel": (
        "Some packages do not exist for this Python or this computer."
        " Install a 64-bit Python 3.11 to 3.14 and start again."
    ),
}
PIP_UNKNOWN = "The packages could not be installed. What pip said stands above; then start again."


class CannotStart(Exception):
    """A sentence for the person at the keyboard: what is missing and what to do."""


def main(arguments: list[str]) -> int:
    """Do what the command line asks for and return the exit code."""
    if arguments[:1] in (["-h"], ["--help"]):
        print(__doc__)
        return 0
    try:
        check_python(sys.version_info[:3])
        install("run")
        if arguments[:1] == ["test"]:
            install("test")
            return run_checks(arguments[1:])
    except CannotStart as reason:
        print(reason, file=sys.stderr)
        return 1
    return hand_over(tapeline_arguments(arguments))


def tapeline_arguments(arguments: list[str]) -> list[str]:
    """The words for tapeline's own command line; none or only options mean `serve`."""
    if arguments[:1] == ["--"]:
        return arguments[1:]
    if arguments == ["help"]:
        return ["--help"]
    if arguments and not arguments[0].startswith("-"):
        return arguments
    opening = [] if "--no-browser" in arguments else ["--open"]
    return ["serve", *opening, *arguments]


def check_python(version: tuple[int, ...]) -> None:
    """Refuse a Python that is too old."""
    if version < OLDEST:
        raise CannotStart(
            "tapeline needs Python 3.11 or newer, and this is Python {}."
            " Install a newer one and start again with it.".format(".".join(map(str, version)))
        )


def check_venv(version: tuple[int, ...]) -> None:
    """Refuse a Python whose distribution left out what makes environments."""
    from importlib.util import find_spec

    if find_spec("venv") is None or find_spec("ensurepip") is None:
        raise CannotStart(
            "This Python cannot make its own folder for packages, because venv is missing."
            " On Debian or Ubuntu install it with: sudo apt install python{}.{}-venv".format(
                *version
            )
        )


def venv_python(windows: bool = os.name == "nt") -> str:
    """The path of the environment's Python."""
    return os.path.join(VENV, *(("Scripts", "python.exe") if windows else ("bin", "python")))


def digest(path: str) -> str:
    """The SHA-256 of a file's text, the same under both kinds of line end."""
    with open(path, "rb") as file:
        return hashlib.sha256(file.read().replace(b"\r\n", b"\n")).hexdigest()


def is_installed(name: str) -> bool:
    """Whether the environment already holds what this lock file says."""
    try:
        with open(os.path.join(VENV, name + ".stamp"), encoding="ascii") as file:
            stamped = file.read()
    except FileNotFoundError:
        return False
    return stamped == digest(LOCKS[name]) and os.path.exists(venv_python())


def install(name: str) -> None:
    """Bring the environment in line with a lock file; do nothing when it is."""
    if is_installed(name):
        return
    if not has_pip(venv_python()):
        make_venv()
    lock = LOCKS[name]
    say(f"Downloading and installing what it takes to {name} tapeline (once) ...")
    pip = [venv_python(), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    how = ["--no-input", "--retries", "2", "--only-binary", ":all:", "--require-hashes"]
    done = quietly([*pip, *how, "-r", lock])
    if done.returncode != 0:
        print("\n".join(done.stdout.strip().splitlines()[-8:]), file=sys.stderr)
        raise CannotStart(what_pip_meant(done.stdout))
    show_source_to_venv()
    with open(os.path.join(VENV, name + ".stamp"), "w", encoding="ascii") as file:
        file.write(digest(lock))


def has_pip(python: str) -> bool:
    """Whether an environment is there and whole; an interrupted one is not."""
    return os.path.exists(python) and quietly([python, "-m", "pip", "--version"]).returncode == 0


def make_venv() -> None:
    """Make the environment, over whatever an interrupted start left."""
    check_venv(sys.version_info[:2])
    say("Making the folder .venv for tapeline's packages (once) ...")
    # On Linux name the versioned program, so that a later system Python is noticed.
    linux = sys.platform.startswith("linux")
    python = os.path.realpath(sys.executable) if linux else sys.executable
    done = quietly([python, "-m", "venv", "--clear", VENV])
    if done.returncode != 0:
        print(done.stdout.strip(), file=sys.stderr)
        raise CannotStart(
            f"The folder {VENV} could not be made."
            " Check that this folder may be written to and that the disk is not full."
        )


def show_source_to_venv() -> None:
    """Let the environment import tapeline from src/, wherever the whole folder is moved."""
    ask = [venv_python(), "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"]
    packages = quietly(ask).stdout.strip()
    with open(os.path.join(packages, "tapeline.pth"), "w", encoding="ascii") as file:
        file.write(os.path.relpath(os.path.join(HERE, "src"), packages) + "\n")


def what_pip_meant(output: str) -> str:
    """The sentence for a failed installation."""
    for sign, sentence in PIP_SIGNS.items():
        if re.search(sign, output):
            return sentence
    return PIP_UNKNOWN


def checks(pytest_arguments: list[str]) -> list[tuple[str, list[str]]]:
    """Each check's name and the words after `python -m`, in the order they run."""
    linter = "from importlinter.cli import lint_imports_command as run; run()"
    return [
        ("ruff check", ["-m", "ruff", "check", "--quiet"]),
        ("ruff format", ["-m", "ruff", "format", "--check", "--quiet"]),
        ("mypy", ["-m", "mypy"]),
        ("imports", ["-c", linter, "--no-logo"]),
        ("pytest", ["-m", "pytest", "-n", "2", "--dist", "loadfile", *pytest_arguments]),
    ]


def run_checks(pytest_arguments: list[str]) -> int:
    """Run every check, one line each, and return pytest's code or 1 if another failed."""
    failed, code = [], 0
    for name, words in checks(pytest_arguments):
        began = time.monotonic()
        command = [venv_python(), *words]
        shown = name == "pytest"
        done = subprocess.run(command, cwd=HERE) if shown else quietly(command, cwd=HERE)
        if done.returncode != 0:
            failed.append(name)
            code = done.returncode if shown else 1
            print(done.stdout or "", end="")
        verdict = "ok" if done.returncode == 0 else f"FAILED (code {done.returncode})"
        say(f"{name}: {verdict}, {time.monotonic() - began:.1f} s")
    say("Failed: {}.".format(", ".join(failed)) if failed else "All checks passed.")
    return code


def hand_over(arguments: list[str]) -> int:
    """Become tapeline; on Windows, wait for it."""
    command = [venv_python(), "-m", "tapeline", *arguments]
    if os.name != "nt":
        os.execv(command[0], command)
    try:
        return subprocess.call(command)
    except KeyboardInterrupt:
        return 130


def quietly(command: list[str], cwd: str | None = None) -> subprocess.CompletedProcess[str]:
    """Run a command and keep what it prints, errors included, for when it fails."""
    pipe, none, out = subprocess.PIPE, subprocess.DEVNULL, subprocess.STDOUT
    return subprocess.run(
        command, cwd=cwd, stdin=none, stdout=pipe, stderr=out, text=True, errors="replace"
    )


def say(line: str) -> None:
    """Print one line of progress at once."""
    print(line, flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
