"""A disk in memory that loses power: what was not synchronised may be gone, piece by piece.

Killing a process is not power loss: what it had written is in the system's hands by then.
Here nothing is safe before `xSync`; a deleted file may come back unless the deletion itself
was synchronised. Assumptions as SQLite states them for its own VFS
(https://www.sqlite.org/atomiccommit.html, sections 2 and 6, from memory): a synchronised
write stays, an unsynchronised one may or may not, in any order; a new file's name is on disk
once the file was synchronised.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import apsw

Change = Callable[[bytearray], None]
Image = dict[str, bytes]


@dataclass
class File:
    """What programs read, what is safe, and the changes in between."""

    content: bytearray = field(default_factory=bytearray)
    safe: bytearray = field(default_factory=bytearray)
    changes: list[Change] = field(default_factory=list)

    def change(self, change: Change) -> None:
        change(self.content)
        self.changes.append(change)

    def sync(self) -> None:
        self.safe = bytearray(self.content)
        self.changes.clear()

    def after_power_loss(self, chance: random.Random) -> bytes:
        left = bytearray(self.safe)
        for change in self.changes:
            if chance.random() < 0.5:
                change(left)
        return bytes(left)


class Disk:
    """Names and files; `watch` is called before every change."""

    def __init__(self, files: Image, watch: Callable[[], None]) -> None:
        self.names = {name: File(bytearray(text), bytearray(text)) for name, text in files.items()}
        self.safe_names = dict(self.names)
        self.watch = watch

    def after_power_loss(self, chance: random.Random) -> Image:
        """Names and contents as the next start may find them."""
        return {name: file.after_power_loss(chance) for name, file in self.safe_names.items()}


class DiskOfMemory(apsw.VFS):
    """Hands SQLite the files of a `Disk`."""

    def __init__(self, name: str, disk: Disk) -> None:
        super().__init__(name, "")
        self.disk = disk

    def xFullPathname(self, name: str) -> str:
        return name

    def xAccess(self, pathname: str, flags: int) -> bool:
        return pathname in self.disk.names

    def xDelete(self, filename: str, syncdir: bool) -> None:
        self.disk.watch()
        self.disk.names.pop(filename, None)
        if syncdir:
            self.disk.safe_names.pop(filename, None)

    def xOpen(self, name: Any, flags: list[int]) -> Any:
        flags[1] = flags[0]
        plain = name.filename() if isinstance(name, apsw.URIFilename) else name
        if plain is None:
            return Opened(self.disk, "", File())
        return Opened(self.disk, plain, self.disk.names.setdefault(plain, File()))


class Opened:
    """One open file; locks are not needed, since one connection works at a time."""

    def __init__(self, disk: Disk, name: str, file: File) -> None:
        self.disk, self.name, self.file = disk, name, file

    def xRead(self, amount: int, offset: int) -> bytes:
        return bytes(self.file.content[offset : offset + amount])

    def xWrite(self, data: bytes, offset: int) -> None:
        self.disk.watch()
        kept = bytes(data)

        def write(content: bytearray) -> None:
            if len(content) < offset:
                content.extend(bytes(offset - len(content)))
            content[offset : offset + len(kept)] = kept

        self.file.change(write)

    def xTruncate(self, newsize: int) -> None:
        self.disk.watch()

        def truncate(content: bytearray) -> None:
            del content[newsize:]

        self.file.change(truncate)

    def xSync(self, flags: int) -> None:
        self.disk.watch()
        self.file.sync()
        if self.name:
            self.disk.safe_names[self.name] = self.file

    def xFileSize(self) -> int:
        return len(self.file.content)

    def xClose(self) -> None:
        pass

    def xLock(self, level: int) -> None:
        pass

    def xUnlock(self, level: int) -> None:
        pass

    def xCheckReservedLock(self) -> bool:
        return False

    def xFileControl(self, op: int, pointer: int) -> bool:
        return False

    def xSectorSize(self) -> int:
        return 512

    def xDeviceCharacteristics(self) -> int:
        return 0
