"""The archive for Windows, under wine, held against the one for Linux."""

import unittest

from hand_over import WINE, Linux, Windows, files
from journeys import Journeys

# Names that Windows keeps for devices, or does not allow.
REFUSED = ["con", "nul", "Aux.txt", "com1", "in/con/course", "ends.", "what?", "a*b", "pipe|d", "<angle>", 'quo"ted']


class WindowsJourneys(Journeys, unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.program = Windows()
        cls.addClassCleanup(cls.program.close)
        cls.linux = Linux()
        cls.addClassCleanup(cls.linux.close)

    def both(self, *arguments):
        """A command on both systems: what each said."""
        said = {}
        for program in [self.program, self.linux]:
            status, said[program] = program.run(*arguments)
            self.assertEqual(status, 0, f"{arguments}: {said[program]}")
        return said[self.program], said[self.linux]

    def same_files(self, name):
        here, there = files(self.path(name)), files(self.linux.folder / name)
        self.assertEqual(sorted(here), sorted(there))
        for file, data in here.items():
            self.assertEqual(data, there[file], file)
        return len(here)

    def test_the_sites_are_those_of_linux(self):
        self.both("publish", "--course", "content", "--to", "site")
        self.both("guide", "guide-again")
        self.both("start", "both")
        self.both("publish", "--course", "both", "--to", "both-site")
        self.both("sheet", "spring_rate_for_rise", "--seed", "7", "--course", "content", "--to", "both/paper.html")
        self.assertIn("both/paper-key.html", {f"both/{name}" for name in files(self.path("both"))})
        counts = {name: self.same_files(name) for name in ["both", "both-site", "site", "guide-again", "guide"]}
        self.assertEqual(files(self.path("guide-again")), files(self.path("guide")))
        print(f"\nthe same bytes from Windows and Linux: {counts} files")

    def test_commands_say_what_they_say_on_linux(self):
        for command in [
            ("draw", "spring_rate_for_rise", "--seed", "48213", "--units", "si", "--answers", "--course", "content"),
            ("work", "opening_accumulation", "full_open=110 psig", "opening=100 psig"),
            ("work", "--list"),
        ]:
            here, there = self.both(*command)
            self.assertEqual(here, there)

    def test_names_that_windows_refuses(self):
        self.fresh("sound")
        before = sorted(file.name for file in self.program.folder.iterdir())
        for name in REFUSED:
            with self.subTest(name=name):
                for command in [("start", name), ("publish", "--course", "sound", "--to", name)]:
                    status, said = self.program.run(*command)
                    self.assertEqual(status, 2, said)
                    self.assertIn("Windows cannot hold the name", said)
        self.assertEqual(sorted(file.name for file in self.program.folder.iterdir()), before)

    def test_double_clicked_it_says_what_to_type_and_waits(self):
        alone = [WINE, str(self.path("seatwork.exe"))]
        shown, waits, status = self.program.in_a_window(alone, b"to close this window")
        self.assertIn("seatwork start my-course", shown)
        self.assertTrue(waits, "the window stays")
        self.assertEqual(status, 2)

    def test_with_something_to_do_in_its_own_window_it_waits_too(self):
        alone = [WINE, str(self.path("seatwork.exe")), "publsh"]
        shown, waits, status = self.program.in_a_window(alone, b"to close this window")
        self.assertIn("publish", shown)
        self.assertTrue(waits)
        self.assertEqual(status, 2)

    def test_typed_into_a_window_it_does_not_wait(self):
        typed = [WINE, "cmd", "/c", str(self.path("seatwork.exe")), "--version"]
        shown, waits, status = self.program.in_a_window(typed, b"to close this window")
        self.assertNotIn("to close this window", shown)
        self.assertFalse(waits)
        self.assertEqual(status, 0)
