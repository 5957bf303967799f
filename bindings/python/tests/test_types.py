"""What a type checker sees of the installed package."""

import pathlib
import re
import unittest

from mypy import api

HERE = pathlib.Path(__file__).resolve().parent / "types"


def found(name):
    """The lines of a file that mypy refuses, each with its kind of mistake."""
    words = ["--strict", "--no-incremental", "--cache-dir", "/dev/null", str(HERE / name)]
    printed, trouble, _ = api.run(words)
    if trouble:
        raise AssertionError(trouble)
    return {int(line): kind for line, kind in re.findall(r":(\d+): error: .*\[([\w-]+)\]$", printed, re.MULTILINE)}


class Types(unittest.TestCase):
    def test_a_right_program_has_no_mistakes(self):
        self.assertEqual(found("consumer.py"), {})

    def test_every_mistake_is_seen(self):
        lines = (HERE / "mistakes.py").read_text().splitlines()
        wanted = {at: line.rsplit("  # ", 1)[1] for at, line in enumerate(lines, 1) if "  # " in line}
        self.assertGreater(len(wanted), 10)
        self.assertEqual(found("mistakes.py"), wanted)


if __name__ == "__main__":
    unittest.main()
