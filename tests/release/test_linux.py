"""The archive for Linux, in an empty root."""

import stat
import subprocess
import unittest

from hand_over import Linux
from journeys import Journeys


class LinuxJourneys(Journeys, unittest.TestCase):
    # In an empty root nothing tells a program which file it is.
    second_time = "Published"

    @classmethod
    def setUpClass(cls):
        cls.program = Linux()
        cls.addClassCleanup(cls.program.close)

    def test_it_needs_nothing_around_it(self):
        program = self.path("seatwork")
        self.assertTrue(program.stat().st_mode & stat.S_IXUSR)
        asked = subprocess.run(["ldd", program], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        self.assertRegex(asked.stdout, "statically linked|not a dynamic executable")
        around = {file.name for file in self.program.scratch.iterdir()}
        self.assertLessEqual(around, {self.program.folder.name, "tmp"})
