"""Packs one archive: pack.py TARGET BUILT SCRATCH OUT.

BUILT holds the program, SCRATCH the published guide and the licences. Entries are sorted, and all carry the time in
SOURCE_DATE_EPOCH, so that the same commit gives the same bytes."""

import gzip
import hashlib
import os
import sys
import tarfile
import time
import tomllib
import zipfile
from io import BytesIO
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
WHEN = int(os.environ["SOURCE_DATE_EPOCH"])
SYSTEMS = {"x86_64-unknown-linux-musl": "linux", "x86_64-pc-windows-gnu": "windows"}


def under(folder, into, leave_out=()):
    """The files under a folder, each by its name in the archive."""
    files = {}
    for file in folder.rglob("*"):
        name = file.relative_to(folder)
        if file.is_file() and name.parts[0] not in leave_out:
            files[f"{into}/{name.as_posix()}"] = file.read_bytes()
    return files


def readme(system):
    text = (TOP / f".ci/handover/{system}.txt").read_text(encoding="utf-8")
    return (text.replace("\n", "\r\n") if system == "windows" else text).encode()


def contents(target, built, scratch):
    """What the archive holds. The guide is there as a site; its sources, a course of their own, are left out."""
    system = SYSTEMS[target]
    program = "seatwork.exe" if system == "windows" else "seatwork"
    files = {program: (built / target / "release" / program).read_bytes(), "README.txt": readme(system)}
    files |= under(TOP / "content", "content", leave_out={"guide", ".schema"})
    files |= under(scratch / "guide", "guide") | under(scratch / f"licences-{target}", "licences")
    sums = "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in sorted(files.items()))
    return files | {"checksums.txt": sums.encode()}


def mode(name):
    return 0o755 if name == "seatwork" else 0o644


def tar(top, files, out):
    packed = BytesIO()
    with tarfile.open(fileobj=packed, mode="w", format=tarfile.USTAR_FORMAT) as archive:
        for name, data in sorted(files.items()):
            entry = tarfile.TarInfo(f"{top}/{name}")
            entry.size, entry.mtime, entry.mode = len(data), WHEN, mode(name)
            archive.addfile(entry, BytesIO(data))
    out.write_bytes(gzip.compress(packed.getvalue(), 9, mtime=0))


def zipped(top, files, out):
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in sorted(files.items()):
            entry = zipfile.ZipInfo(f"{top}/{name}", time.gmtime(WHEN)[:6])
            entry.create_system, entry.external_attr = 3, (0o100000 | mode(name)) << 16
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, data)


def main(target, built, scratch, out):
    version = tomllib.loads((TOP / "Cargo.toml").read_text())["workspace"]["package"]["version"]
    top = f"seatwork-{version}-{SYSTEMS[target]}"
    files = contents(target, Path(built), Path(scratch))
    if SYSTEMS[target] == "windows":
        zipped(top, files, Path(out) / f"{top}.zip")
    else:
        tar(top, files, Path(out) / f"{top}.tar.gz")
    print(f"{top}: {len(files)} files")


if __name__ == "__main__":
    main(*sys.argv[1:])
