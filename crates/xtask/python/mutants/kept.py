"""What a run has found so far, so that one that was ended goes on where it was."""

import hashlib
import json


class Kept:
    """A file of lines, each a heading and what is kept below it; begun anew for other sources or another sample."""

    def __init__(self, work, of):
        self.file = work / "kept.jsonl"
        key = hashlib.sha256("\n".join(of).encode()).hexdigest()
        self.held = {}
        lines = self.file.read_text().splitlines() if self.file.exists() else []
        if lines and json.loads(lines[0]) == ["key", key]:
            for heading, value in map(json.loads, lines[1:]):
                self.held[heading] = self.held[heading] | value if heading in self.held else value
        else:
            self.file.write_text(json.dumps(["key", key]) + "\n")

    def of(self, heading):
        return self.held.get(heading)

    def add(self, heading, value):
        """Keeps a value; one more dictionary below a heading is added to those that are there."""
        with self.file.open("a") as file:
            file.write(json.dumps([heading, value]) + "\n")
        return value
