"""What every engine must agree on: counts and sums of whole numbers, which no order of addition changes."""

CHANCES = ("below_least", "below_most", "in_band_least", "in_band_most", "above_least", "above_most")
NEXT_SERVICE_HOURS = 500.0
RATES = ("rate", "rate_uncertainty")
# Sums of whole 1e-9, as whole numbers of 64 bits.
JUDGED = ["count(*)", *(f"coalesce(sum(cast(floor({name} * 1e9 + 0.5) AS BIGINT)), 0)" for name in CHANCES)]
LOOKS = [
    "count(*)", *(f"coalesce(sum(cast(floor({name} * 1e9 + 0.5) AS BIGINT)), 0)" for name in RATES),
    "coalesce(sum(cast(floor(look_at * 1e3 + 0.5) AS BIGINT)), 0)"]
JUDGED_SQL = f"SELECT kind, verdict, {', '.join(JUDGED)} FROM judged GROUP BY kind, verdict ORDER BY kind, verdict"
LOOKS_SQL = f"SELECT kind, look, {', '.join(LOOKS)} FROM looks GROUP BY kind, look ORDER BY kind, look"


def told(rows):
    """Lines of text from rows of numbers."""
    return [" ".join(str(item) for item in row) for row in rows]


def agree(name, found, expected):
    """Stops unless an engine found every line that is expected, and no other."""
    for part, lines in expected.items():
        if found[part] != lines:
            both = "\n".join([*found[part], "instead of", *lines])
            raise SystemExit(f"{name}: {part} differ:\n{both}")
    print(f"{name}: the same {sum(map(len, expected.values()))} lines", flush=True)
