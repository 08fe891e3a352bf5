"""What an instructor does with the program, the same on every system. A mixin: `program` is set by who inherits it."""

import concurrent.futures
import shutil
import time
import urllib.request

from hand_over import TEXTS, files

# Folders that systems of every kind allow and programs still trip over.
NAMES = ["a course with spaces", "Überströmventil", "安全弁", "it's 100 % [of] (it) & more"]


class Journeys:
    # What a second publish says. The program may be unable to tell that nothing has changed, and then writes the same again.
    second_time = "Nothing has changed"

    def path(self, *parts):
        return self.program.folder.joinpath(*parts)

    def done(self, *arguments):
        status, said = self.program.run(*arguments)
        self.assertEqual(status, 0, f"{arguments}: {said}")
        return said

    def fresh(self, course):
        """A small course, and the name of its site, neither of which is there yet."""
        for each in [course, f"{course}-site"]:
            shutil.rmtree(self.path(each), ignore_errors=True)
        self.done("start", course)
        return f"{course}-site"

    def publish(self, course, site, *more):
        return self.done("publish", "--course", course, "--to", site, *more)

    def nothing_is_left_beside(self, site):
        left = [file.name for file in self.path(site).parent.iterdir() if file.name.endswith("-work")]
        self.assertEqual(left, [], "work folders")

    def test_help_and_version(self):
        self.assertIn("publish", self.done("--help"))
        self.assertIn(self.program.folder.name.split("-")[1], self.done("--version"))
        self.assertEqual(self.program.run("publsh")[0], 2)

    def test_first_day(self):
        site = self.fresh("first-day")
        self.assertIn("recipes proven", self.done("proof", "--course", "first-day"))
        self.publish("first-day", site)
        self.nothing_is_left_beside(site)
        before = files(self.path(site))
        self.assertIn("index.html", before)
        self.assertIn(self.second_time, self.publish("first-day", site))
        self.assertEqual(files(self.path(site)), before)
        self.publish("first-day", site, "--afresh")
        self.assertEqual(files(self.path(site)), before)
        self.nothing_is_left_beside(site)

        lesson = next(self.path("first-day").rglob("lessons/*.md"))
        lesson.write_bytes(lesson.read_bytes() + b"\nOne more paragraph of the instructor.\n")
        self.publish("first-day", site)
        after = files(self.path(site))
        self.assertTrue(any(b"One more paragraph" in data for data in after.values()))
        self.nothing_is_left_beside(site)

        lesson.write_bytes(lesson.read_bytes() + b"\n<b>raw</b> and [a term](term:nowhere)\n")
        status, said = self.program.run("publish", "--course", "first-day", "--to", site)
        self.assertEqual(status, 1, said)
        last = len(lesson.read_bytes().splitlines())
        self.assertIn(f"{lesson.name}:{last}", said)
        self.assertEqual(files(self.path(site)), after, "a fault leaves the old site")
        self.nothing_is_left_beside(site)

    def test_a_file_of_somebody_is_kept(self):
        site = self.fresh("kept")
        self.publish("kept", site)
        self.path(site, "notes.txt").write_text("mine")
        status, said = self.program.run("publish", "--course", "kept", "--to", site, "--afresh")
        self.assertEqual(status, 3, said)
        self.assertIn("notes.txt", said)
        self.assertEqual(self.path(site, "notes.txt").read_text(), "mine")
        self.nothing_is_left_beside(site)

    def test_three_at_once(self):
        site = self.fresh("at-once")
        with concurrent.futures.ThreadPoolExecutor() as pool:
            runs = [pool.submit(self.publish, "at-once", site, "--afresh") for _ in range(3)]
        for run in runs:
            self.assertIn("Published", run.result())
        self.nothing_is_left_beside(site)

    def test_names_of_folders(self):
        self.publish("plain", self.fresh("plain"))
        for name in NAMES:
            with self.subTest(name=name):
                self.publish(name, self.fresh(name))
                self.assertEqual(files(self.path(f"{name}-site")), files(self.path("plain-site")))
                self.nothing_is_left_beside(f"{name}-site")

    def test_a_deep_folder(self):
        site = self.fresh("deep")
        deep = "/".join(["a folder in a folder"] * 15) + "/site"
        self.assertGreater(len(deep), 300)
        self.publish("deep", deep)
        self.publish("deep", site)
        self.assertEqual(files(self.path(*deep.split("/"))), files(self.path(site)))
        self.nothing_is_left_beside(deep)

    def test_line_ends_of_windows(self):
        plain = self.fresh("lines")
        self.publish("lines", plain)
        crlf = self.fresh("lines-crlf")
        changed = 0
        for file in self.path("lines-crlf").rglob("*"):
            if file.suffix in TEXTS:
                file.write_bytes(file.read_bytes().replace(b"\r\n", b"\n").replace(b"\n", b"\r\n"))
                changed += 1
        self.assertGreater(changed, 10)
        self.publish("lines-crlf", crlf)
        self.assertEqual(files(self.path(crlf)), files(self.path(plain)))

    def test_watch(self):
        self.fresh("watched")
        watching = self.program.start("watch", "--course", "watched")
        try:
            told = watching.stdout.readline() + watching.stdout.readline()
            address = next(word for word in told.decode().split() if word.startswith("http://127.0.0.1:")).rstrip("/")
            page = self.until(f"{address}/", b"<!doctype html>")
            self.assertIn(b"</html>", page)
            lesson = next(self.path("watched").rglob("lessons/*.md"))
            shown = f"{address}/site/en/lessons/{lesson.stem}.html"
            self.until(shown, b"</html>")
            lesson.write_bytes(lesson.read_bytes() + b"\nWritten while it was watched.\n")
            self.until(shown, b"Written while it was watched.")
        finally:
            watching.kill()
            watching.wait()
            watching.stdout.close()

    def until(self, address, wanted):
        """The page at an address, once it holds what is wanted."""
        end, page = time.monotonic() + 60, b""
        while time.monotonic() < end:
            try:
                page = urllib.request.urlopen(address, timeout=10).read()
            except OSError as error:
                page = str(error).encode()
            if wanted.lower() in page.lower():
                return page
            time.sleep(0.3)
        self.fail(f"{address} has no {wanted!r}: {page[:400]!r}")
