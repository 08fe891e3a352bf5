"""The licences of all that is linked into the program for one target: licences.py TARGET OUT.

What is linked is read from the metadata of the package manager: every crate that the program rests on, and every one that
the engine inside it rests on. Each must be allowed by deny.toml and bring the text of its licence. Ends with status 1, and
names them, where one does not."""

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
ENGINE = "wasm32-unknown-unknown"
TEXTS = re.compile(r"(un)?licen[cs]e|copying|copyright|notice", re.IGNORECASE)
# These say MIT in their description and pack no text. The text is the one everybody uses, with the authors they name.
WITHOUT_TEXT = {"math-core", "math-core-renderer-internal"}
# What is linked beside the crates: the name here, and where a package of the distribution or the toolchain keeps the text.
DOCUMENTS = Path("/usr/share/doc")
BESIDE = {
    "x86_64-unknown-linux-musl": {"musl.txt": "musl/copyright"},
    "x86_64-pc-windows-gnu": {
        "mingw-w64.txt": "mingw-w64-x86-64-dev/copyright",
        "gcc-runtime.txt": "gcc-mingw-w64-x86-64-win32/copyright",
    },
}
RUST = ["COPYRIGHT-library.html", "licenses/Apache-2.0.txt", "licenses/MIT.txt", "licenses/LLVM-exception.txt"]


def metadata(target):
    command = ["cargo", "metadata", "--locked", "--format-version", "1", "--filter-platform", target]
    return json.loads(subprocess.run(command, cwd=TOP, check=True, stdout=subprocess.PIPE).stdout)


def linked(root, target):
    """The crates of others that `root` rests on when it is built for `target`, those that write code for it included."""
    found = metadata(target)
    packages = {package["id"]: package for package in found["packages"]}
    nodes = {node["id"]: node for node in found["resolve"]["nodes"]}
    waiting = [id for id, package in packages.items() if package["name"] == root and not package["source"]]
    seen = set()
    while waiting:
        id = waiting.pop()
        if id not in seen:
            seen.add(id)
            waiting += [
                each["pkg"] for each in nodes[id]["deps"] if any(kind["kind"] is None for kind in each["dep_kinds"])
            ]
    return {(packages[id]["name"], packages[id]["version"]): packages[id] for id in seen if packages[id]["source"]}


def allowed(package, rules):
    """Whether the licence that a crate names is one that deny.toml allows."""
    names = set(rules["allow"])
    for exception in rules["exceptions"]:
        if exception["crate"] == package["name"]:
            names |= set(exception["allow"])
    expression = (package["license"] or "").replace("/", " OR ")
    tokens = re.findall(r"\(|\)|AND\b|OR\b|[\w.+-]+(?: WITH [\w.-]+)?", expression)
    words = [token.lower() if token in ("AND", "OR") else token if token in "()" else str(token in names) for token in tokens]
    return bool(words) and eval(" ".join(words), {"__builtins__": {}})


def texts(package):
    """The licence texts that a crate packs, by file name."""
    folder = Path(package["manifest_path"]).parent
    files = {folder / package["license_file"]} if package["license_file"] else set()
    files |= {file for file in folder.iterdir() if file.is_file() and TEXTS.match(file.name)}
    found = {file.name: file.read_text(encoding="utf-8").strip() for file in sorted(files)}
    if not found and package["name"] in WITHOUT_TEXT and package["license"] == "MIT":
        terms = (TOP / "LICENSE-MIT").read_text().split("\n\n", 2)[2]
        authors = ", ".join(author.split(" <")[0] for author in package["authors"])
        found = {"MIT": f"Copyright (c) {authors}\n\n{terms.strip()}"}
    return {name: text for name, text in found.items() if text}


def section(package):
    head = f"{package['name']} {package['version']}: {package['license']}"
    parts = [f"{head}\n{'=' * len(head)}"] + [f"--- {name}\n\n{text}" for name, text in texts(package).items()]
    return "\n\n".join(parts)


def crates(target):
    """All crates of others in the program and in the engine that it carries, in order."""
    both = linked("seatwork", target) | linked("engine", ENGINE)
    return [both[key] for key in sorted(both)]


def refused(packages):
    rules = tomllib.loads((TOP / "deny.toml").read_text())["licenses"]
    for package in packages:
        name = f"{package['name']} {package['version']}"
        if not allowed(package, rules):
            yield f"{name}: {package['license']} is not allowed by deny.toml"
        if not texts(package):
            yield f"{name} packs no text of its licence"


def copy(source, target):
    if not source.is_file():
        sys.exit(f"licences.py: {source} is not there")
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(source, target)


def main(target, out):
    packages = crates(target)
    if faults := list(refused(packages)):
        sys.exit("\n".join(faults))
    out = Path(out)
    out.mkdir(parents=True)
    intro = "The libraries in this program, each with the text of its licence."
    text = "\n\n\n".join([intro] + [section(package) for package in packages]) + "\n"
    (out / "libraries.txt").write_text(text.replace("\r\n", "\n"), encoding="utf-8", newline="\n")
    for name in ["LICENSE-MIT", "LICENSE-APACHE"]:
        copy(TOP / name, out / f"{name}.txt")
    toolchain = subprocess.run(["rustc", "--print", "sysroot"], cwd=TOP, check=True, stdout=subprocess.PIPE, text=True)
    for name in RUST:
        copy(Path(toolchain.stdout.strip()) / "share/doc/rust" / name, out / "rust" / os.path.basename(name))
    for name, where in BESIDE[target].items():
        copy(DOCUMENTS / where, out / name)
    print(f"{target}: the licences of {len(packages)} libraries")


if __name__ == "__main__":
    main(*sys.argv[1:])
