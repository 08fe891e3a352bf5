"""What the tests of the archives share: the archives, and the program in each run as it is on its own system."""

import os
import pty
import select
import shutil
import subprocess
import tarfile
import tempfile
import time
import zipfile
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
OUT = Path(os.environ.get("SEATWORK_OUT", TOP / "target/release-archives"))
WINE = "/usr/lib/wine/wine64"
TEXTS = {".md", ".yaml", ".csv", ".vtt", ".svg"}
# The wine of the distribution has no such function; on Windows it is part of the system.
PRNG = """
#include <windows.h>
#include <ntsecapi.h>
__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE to, SIZE_T length) { return RtlGenRandom(to, (ULONG)length); }
"""


def archive(ending):
    [found] = OUT.glob(f"*{ending}")
    return found


def files(folder):
    """The bytes of all files under a folder, by name."""
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


class Program:
    """The program of one archive. `folder` is where the archive was extracted, and the program's current folder."""

    def __init__(self):
        self.scratch = Path(tempfile.mkdtemp(prefix="seatwork-release-"))

    def command(self, *arguments):
        raise NotImplementedError

    def environment(self):
        return {}

    def options(self):
        return {"cwd": self.folder, "env": self.environment(), "stdin": subprocess.DEVNULL}

    def run(self, *arguments):
        """What came of a command: its status and all that it said."""
        done = subprocess.run(
            self.command(*arguments), stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=300, **self.options()
        )
        return done.returncode, done.stdout.decode("utf-8", "replace").replace("\r\n", "\n")

    def start(self, *arguments):
        return subprocess.Popen(
            self.command(*arguments), stdout=subprocess.PIPE, stderr=subprocess.STDOUT, **self.options()
        )

    def close(self):
        shutil.rmtree(self.scratch)


class Linux(Program):
    """In a root folder that holds what the archive holds and an empty `tmp`, and nothing else."""

    def __init__(self):
        super().__init__()
        with tarfile.open(archive(".tar.gz")) as packed:
            packed.extractall(self.scratch)
        [self.folder] = self.scratch.iterdir()
        (self.scratch / "tmp").mkdir()

    def command(self, *arguments):
        inside = f"/{self.folder.name}"
        enter = ["unshare", "--map-root-user", f"--root={self.scratch}", f"--wd={inside}"]
        return [*enter, f"{inside}/seatwork", *arguments]

    def environment(self):
        return {"HOME": "/tmp"}

    def options(self):
        return super().options() | {"cwd": "/"}


class Windows(Program):
    """Under wine, with a home of its own."""

    def __init__(self):
        super().__init__()
        with zipfile.ZipFile(archive(".zip")) as packed:
            packed.extractall(self.scratch / "hand-over")
        [self.folder] = (self.scratch / "hand-over").iterdir()
        source = self.scratch / "prng.c"
        source.write_text(PRNG)
        library = self.folder / "bcryptprimitives.dll"
        compiler = "x86_64-w64-mingw32-gcc"
        subprocess.run([compiler, "-shared", "-o", library, source, "-ladvapi32"], check=True)

    def environment(self):
        wine = {"WINEDEBUG": "-all", "WINEDLLOVERRIDES": "bcryptprimitives=n;mscoree,mshtml=", "LC_ALL": "C.UTF-8"}
        return wine | {"HOME": str(self.scratch), "WINEPREFIX": str(self.scratch / "wine"), "PATH": os.environ["PATH"]}

    def command(self, *arguments):
        return [WINE, str(self.folder / "seatwork.exe"), *arguments]

    def in_a_window(self, command, until):
        """A command in a console of its own: what it showed, whether it waited after `until`, and its status once Enter
        was pressed."""
        ours, theirs = pty.openpty()
        running = subprocess.Popen(command, **(self.options() | {"stdin": theirs, "stdout": theirs, "stderr": theirs}))
        shown, waits, end = b"", False, time.monotonic() + 90
        while running.poll() is None and time.monotonic() < end:
            if select.select([ours], [], [], 1)[0]:
                shown += os.read(ours, 4096)
            elif until in shown:
                # Quiet for a second after the question, and still there. The console may need to be told more than once.
                waits = True
                os.write(ours, b"\r")
        running.kill()
        while select.select([ours], [], [], 0)[0]:
            shown += os.read(ours, 4096)
        os.close(ours)
        os.close(theirs)
        return shown.decode("utf-8", "replace"), waits, running.wait()

    def close(self):
        subprocess.run(["/usr/lib/wine/wineserver", "-k"], env=self.environment(), check=False)
        super().close()
