"""Start tapeline on this computer: one line per step, ending with its address."""

from __future__ import annotations

import errno
import socket
import threading
from collections.abc import Callable
from typing import Any

from tapeline.errors import TapelineError
from tapeline.web import rescue
from tapeline.web.data_folder import data_folder, forget_leftovers, make_data_folder
from tapeline.web.database_file import DamagedRecords
from tapeline.web.running import OnlyOne
from tapeline.web.start_up import open_records, start_django
from tapeline.web.sweep import keep_for_good, sweep_until

HOST = "127.0.0.1"
PORT = 8642
PORTS_TO_TRY = 20
THREADS = 6
WARM_AFTER_S = 0.7  # the first page comes first
LOOK_AGAIN_S = 600.0  # a computer that is never shut down has days too


def serve(*, port: int | None = None, open_browser: bool = False) -> None:
    """Serve the pages until the process is stopped.

    Parameters
    ----------
    port
        Where to listen; when it is in use the next free one is taken, and said.
    open_browser
        Open the first page in the default browser.

    Damaged records are said, and the only page there is brings a backup back.

    Raises
    ------
    TapelineError
        The records belong to a newer version, or no port is free.
    """
    folder = data_folder()
    if make_data_folder(folder):
        say(f"Made the folder for your records: {folder}")
    only = OnlyOne(folder)
    if not only.take():
        point_to_running(only, open_browser=open_browser)
        return
    try:
        say(f"Opening your records in {folder}")
        forget_leftovers(folder)
        _open_or_rescue()
        _serve_until_stopped(only, first_free_port(port or PORT), open_browser=open_browser)
    finally:
        only.give_back()


def _open_or_rescue() -> None:
    try:
        open_records()
    except DamagedRecords as error:
        say(f"tapeline: {error}")
        rescue.begin(error)
        start_django()


def point_to_running(only: OnlyOne, *, open_browser: bool) -> None:
    """Say that tapeline is running already, and open it."""
    address = only.address()
    if address is None:
        say("tapeline is being started already. Wait a moment.")
        return
    say(f"tapeline is running already at {address}")
    if open_browser:
        show_in_browser(address)


def first_free_port(wanted: int) -> socket.socket:
    """A socket that listens on the wanted port, or on the next free one.

    Raises
    ------
    TapelineError
        None of the next ports is free.
    """
    for port in range(wanted, wanted + PORTS_TO_TRY):
        found = _listen(port)
        if found is None:
            say(f"Port {port} is in use; trying {port + 1}.")
            continue
        return found
    raise TapelineError(
        f"No port from {wanted} to {wanted + PORTS_TO_TRY - 1} is free.",
        hint="Choose another with --port.",
    )


def _listen(port: int) -> socket.socket | None:
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if hasattr(socket, "SO_EXCLUSIVEADDRUSE"):  # Windows would share the port silently
        found.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
    else:
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((HOST, port))
        found.listen(128)
    except OSError as error:
        found.close()
        if error.errno in (errno.EADDRINUSE, errno.EACCES):
            return None
        raise
    return found


def _serve_until_stopped(only: OnlyOne, listening: socket.socket, *, open_browser: bool) -> None:
    from waitress import create_server

    server = create_server(
        _application(),
        sockets=[listening],
        threads=THREADS,
        ident=None,
        clear_untrusted_proxy_headers=True,
    )
    address = f"http://{HOST}:{listening.getsockname()[1]}/"
    only.note(address)
    say(f"tapeline is ready at {address}")
    if open_browser:
        show_in_browser(address)
    stopping = threading.Event()
    threading.Thread(target=work_behind, args=(stopping,), daemon=True).start()
    try:
        server.run()
    except KeyboardInterrupt:
        say("tapeline has stopped.")
    finally:
        stopping.set()


def _application() -> Callable[..., Any]:
    from django.core.handlers.wsgi import WSGIHandler

    return WSGIHandler()


def show_in_browser(address: str) -> None:
    """Open the page without waiting for the browser."""
    import webbrowser

    threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()


def work_behind(stopping: threading.Event) -> None:
    """Warm up once the first page is out, then keep the records, day after day."""
    from tapeline.web.daily import keep_records

    if stopping.wait(WARM_AFTER_S):
        return
    warm_up()
    threading.Thread(target=sweep_until, args=(stopping,), daemon=True).start()
    while not stopping.is_set():
        keep_records()
        stopping.wait(LOOK_AGAIN_S)


def warm_up() -> None:
    """Load the library while she reads the first page; a fault shows where it is used."""
    from contextlib import suppress

    with suppress(Exception):
        from tapeline.activities.loader import load_library, load_rule_book

        load_library()
        load_rule_book()
        _load_the_planner()
    keep_for_good()


def _load_the_planner() -> None:
    """A first plan waits a second less once this is read."""
    import tapeline.sessions.prepare  # noqa: F401
    from tapeline.checking.rulebook import shipped_book

    shipped_book()


def say(line: str) -> None:
    """One line of progress, at once."""
    print(line, flush=True)
