"""Proves the functions for fleets in engines for data: `fleet small WORK`, `fleet cluster WORK WHEEL ROWS`.

Small: DuckDB and Polars answer as the column calls do, bit for bit. Cluster: so does Spark with executors that are
processes of their own, to which the wheel is sent, also when some are killed; and it refuses what it must.
"""

import shutil
import sys
import zipfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
JOBS = HERE.parents[3] / "examples/fleet"


def unpacked(wheel, into):
    """The wheel where this process finds it, and no other does."""
    shutil.rmtree(into, ignore_errors=True)
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(into)
    sys.path.insert(0, str(into))


def main(what, work, *rest):
    sys.path[:0] = [str(JOBS), str(HERE)]
    work = Path(work).resolve()
    if what == "small":
        import small

        small.prove(work)
    else:
        wheel, rows = rest
        unpacked(wheel, work / "wheel")
        import cluster

        cluster.prove(Path(wheel), work, int(rows))


if __name__ == "__main__":
    main(*sys.argv[1:])
