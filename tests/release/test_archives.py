"""What is in the archives, and that nothing of the building machine is."""

import hashlib
import os
import re
import subprocess
import tarfile
import tomllib
import unittest
import zipfile
from pathlib import Path, PurePosixPath

from hand_over import OUT, TOP, archive

DEVICES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)


def tar_files():
    with tarfile.open(archive(".tar.gz")) as packed:
        return {entry.name: packed.extractfile(entry).read() for entry in packed}


def zip_files():
    with zipfile.ZipFile(archive(".zip")) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


def inside(packed):
    """The files of an archive, without the folder that holds them all."""
    [top] = {name.split("/")[0] for name in packed}
    return {name.removeprefix(f"{top}/"): data for name, data in packed.items()}


def linked_crates(package, target):
    """The crates of others in a program, as the package manager's own tree prints them."""
    shown = ["tree", "--locked", "--package", package, "--edges", "normal", "--target", target, "--prefix", "none", "--format", "{p}"]
    tree = subprocess.run(["cargo", *shown], cwd=TOP, check=True, stdout=subprocess.PIPE, text=True).stdout
    crates = {tuple(line.split()[:2]) for line in tree.splitlines() if "(/" not in line and line.strip()}
    return {(name, version.removeprefix("v")) for name, version in crates}


class Archives(unittest.TestCase):
    def setUp(self):
        self.both = {"linux": tar_files(), "windows": zip_files()}

    def test_each_holds_all_that_is_handed_over(self):
        for system, program in [("linux", "seatwork"), ("windows", "seatwork.exe")]:
            held = inside(self.both[system])
            for name in [program, "README.txt", "content/course.yaml", "guide/index.html", "checksums.txt", "licences/libraries.txt"]:
                self.assertTrue(held.get(name), f"{system} lacks {name}")
            course = {file.relative_to(TOP).as_posix() for file in (TOP / "content/en").rglob("*") if file.is_file()}
            self.assertLessEqual(course, set(held))

    def test_the_readmes_name_what_is_there(self):
        for system, packed in self.both.items():
            held = inside(packed)
            text = held["README.txt"].decode()
            self.assertEqual("\r\n" in text, system == "windows")
            table = text.split("What is here")[1].split("It teaches")[0]
            named = set(re.findall(r"^  ([\w.]+)  ", table, re.MULTILINE))
            self.assertEqual(named | {"README.txt"}, {name.split("/")[0] for name in held})

    def test_checksums(self):
        for packed in self.both.values():
            held = inside(packed)
            lines = held.pop("checksums.txt").decode().splitlines()
            told = {name: sum for sum, name in (line.split("  ", 1) for line in lines)}
            self.assertEqual(told, {name: hashlib.sha256(data).hexdigest() for name, data in held.items()})
        subprocess.run(["sha256sum", "--check", "--quiet", "SHA256SUMS"], cwd=OUT, check=True)

    def test_entries_are_sorted_and_of_one_time(self):
        with tarfile.open(archive(".tar.gz")) as packed:
            entries = packed.getmembers()
            self.assertEqual({(entry.uid, entry.gid, entry.uname, entry.gname) for entry in entries}, {(0, 0, "", "")})
            self.assertEqual({entry.mtime for entry in entries}, {int(os.environ["SOURCE_DATE_EPOCH"])})
        with zipfile.ZipFile(archive(".zip")) as packed:
            self.assertEqual(len({entry.date_time for entry in packed.infolist()}), 1)
        for packed in self.both.values():
            self.assertEqual(list(packed), sorted(packed))

    def test_names_are_such_that_every_system_holds_them(self):
        for packed in self.both.values():
            self.assertEqual(len({name.lower() for name in packed}), len(packed))
            for name in packed:
                self.assertLess(len(name), 150, name)
                self.assertRegex(name, r"\A[\w./-]+\Z")
                for part in PurePosixPath(name).parts:
                    self.assertIsNone(DEVICES.fullmatch(part), name)

    def test_no_path_of_the_building_machine_is_in_a_program(self):
        home = os.environ.get("CARGO_HOME", str(Path.home() / ".cargo"))
        paths = {str(TOP), home, str(Path.home()), os.environ.get("SEATWORK_BUILT", str(TOP / "target"))} - {"/"}
        for packed, program in [(self.both["linux"], "seatwork"), (self.both["windows"], "seatwork.exe")]:
            data = inside(packed)[program]
            for path in paths:
                self.assertNotIn(f"{path}/".encode(), data)
            self.assertIn(b"crates/", data, "the paths that were put in their place")

    def test_no_licence_is_missing(self):
        targets = {"linux": "x86_64-unknown-linux-musl", "windows": "x86_64-pc-windows-gnu"}
        for system, target in targets.items():
            held = inside(self.both[system])
            text = held["licences/libraries.txt"].decode()
            heads = re.findall(r"^([\w-]+) (\S+): [^\n]+\n=+\n\n--- \S+\n\n.{20}", text, re.MULTILINE | re.DOTALL)
            crates = linked_crates("seatwork", target) | linked_crates("engine", "wasm32-unknown-unknown")
            self.assertGreater(len(crates), 100)
            self.assertEqual(crates - set(heads), set())
            own = {"licences/LICENSE-MIT.txt", "licences/LICENSE-APACHE.txt", "licences/rust/COPYRIGHT-library.html"}
            beside = {"linux": {"licences/musl.txt"}, "windows": {"licences/mingw-w64.txt", "licences/gcc-runtime.txt"}}
            for name in own | beside[system]:
                self.assertGreater(len(held[name]), 900, name)

    def test_a_licence_that_is_not_allowed_is_found(self):
        import sys

        sys.path.insert(0, str(TOP / ".ci/handover"))
        import licences

        rules = tomllib.loads((TOP / "deny.toml").read_text())["licenses"]
        crate = lambda licence, name="some": {"name": name, "license": licence}
        for licence in ["MIT", "MIT OR Apache-2.0", "Apache-2.0/MIT", "GPL-3.0 OR MIT", "(MIT OR GPL-3.0) AND Unicode-3.0"]:
            self.assertTrue(licences.allowed(crate(licence), rules), licence)
        for licence in ["GPL-3.0", "MIT AND GPL-3.0", "CC0-1.0", None, "Apache-2.0 WITH Other-exception AND GPL-2.0"]:
            self.assertFalse(licences.allowed(crate(licence), rules), licence)
        self.assertTrue(licences.allowed(crate("CC0-1.0", "notify"), rules))
