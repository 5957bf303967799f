"""Puts changes into the text of a Rust file, each behind a number that is asked at run time."""

from dataclasses import dataclass

import tree_sitter
import tree_sitter_rust

PARSER = tree_sitter.Parser(tree_sitter.Language(tree_sitter_rust.language()))
#: What stands around what, when two changes are of the same text.
BODY, GUARD, EXPRESSION = range(3)


@dataclass
class Mutant:
    """A change as cargo-mutants names it, with a number of its own."""

    number: int
    said: dict

    @property
    def name(self):
        return self.said["name"]

    @property
    def file(self):
        return self.said["file"]

    @property
    def asked(self):
        return f"::mutant_switch::on({self.number})"


def numbered(listed):
    return [Mutant(number, said) for number, said in enumerate(listed, 1)]


@dataclass
class Place:
    """Where changes go: a stretch of the text, and what stands there with them."""

    start: int
    end: int
    rank: int
    of: list


class Source:
    """A file that changes are woven into."""

    def __init__(self, text):
        self.text = text
        self.tree = PARSER.parse(text)
        self.lines = text.decode().split("\n")
        self.starts = [0]
        for line in self.lines:
            self.starts.append(self.starts[-1] + len(line.encode()) + 1)
        self.places = {}

    def offset(self, at):
        line = self.lines[at["line"] - 1]
        return self.starts[at["line"] - 1] + len(line[: at["column"] - 1].encode())

    def of(self, node):
        return self.text[node.start_byte : node.end_byte].decode()

    def add(self, mutant):
        """Takes in a change; says whether it knows how."""
        start, end = (self.offset(mutant.said["span"][it]) for it in ("start", "end"))
        node = self.tree.root_node.descendant_for_byte_range(start, end)
        match mutant.said["genre"]:
            case "FnValue":
                self.place(start, end, BODY).append((mutant, None))
            case "BinaryOperator" | "UnaryOperator":
                node = node.parent if node.child_count == 0 else node
                if node.type not in ("binary_expression", "compound_assignment_expr", "unary_expression"):
                    return False
                self.place(node.start_byte, node.end_byte, EXPRESSION).append((mutant, node))
            case "MatchArmGuard":
                self.place(start, end, GUARD).append((mutant, mutant.said["replacement"]))
            case "MatchArm":
                while node.type != "match_arm":
                    if node.parent is None:
                        return False
                    node = node.parent
                pattern = node.child_by_field_name("pattern")
                guard = pattern.child_by_field_name("condition")
                if guard is None:
                    self.place(pattern.end_byte, pattern.end_byte, GUARD).append((mutant, "none"))
                elif guard.type in ("let_condition", "let_chain"):
                    return False
                else:
                    self.place(guard.start_byte, guard.end_byte, GUARD).append((mutant, "false"))
            case _:
                return False
        return True

    def place(self, start, end, rank):
        key = (start, -end, rank)
        return self.places.setdefault(key, Place(start, end, rank, [])).of

    def woven(self):
        """The text with every change in it."""
        ordered = [self.places[key] for key in sorted(self.places)]
        text, _ = self.stretch(0, len(self.text), ordered, 0)
        return text

    def stretch(self, start, end, places, first):
        """The text from `start` to `end` with the places from `first` on that lie in it, and the place behind them."""
        said, at = [], start
        while first < len(places) and places[first].end <= end:
            place = places[first]
            said.append(self.text[at : place.start].decode())
            inner, first = self.inside(place, places, first + 1)
            said.append(inner)
            at = place.end
        said.append(self.text[at:end].decode())
        return "".join(said), first

    def inside(self, place, places, first):
        inner, first = self.stretch(place.start, place.end, places, first) if place.end > place.start else ("", first)
        return self.changed(place, inner), first

    def changed(self, place, inner):
        if place.rank == BODY:
            returns = (f"if {mutant.asked} {{ return {mutant.said['replacement']}; }}" for mutant, _ in place.of)
            return " ".join(returns) + " " + inner
        if place.rank == GUARD:
            return self.guard(place.of, inner)
        ways = " else ".join(f"if {mutant.asked} {{ {self.other(mutant, node)} }}" for mutant, node in place.of)
        return f"({ways} else {{ ({inner}) }})"

    @staticmethod
    def guard(of, inner):
        for mutant, what in of:
            if what == "none":
                return f" if !{mutant.asked}"
            inner = f"({mutant.asked} || ({inner}))" if what == "true" else f"(!{mutant.asked} && ({inner}))"
        return inner

    def other(self, mutant, node):
        """What stands there with the change, and with no other."""
        new = mutant.said["replacement"]
        if node.type == "unary_expression":
            return f"{new}({self.of(node.children[-1])})"
        left, right = node.child_by_field_name("left"), node.child_by_field_name("right")
        return f"({self.of(left)}) {new} ({self.of(right)})"
