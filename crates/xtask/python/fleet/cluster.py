"""Spark on this machine: how runs are started and ended, and what must come of each."""

import json
import os
import signal
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import lashwork as lw
import plain
import readings
import small
import spark_fleet
from lines import agree

# Where the driver finds lashwork, the job and the rest.
FOUND_IN = [str(Path(lw.__file__).parents[1]), *(str(Path(module.__file__).parent) for module in (spark_fleet, readings))]
OTHER_VERSION = "0.0.1"
# Of more readings the drift is not asked: every reading costs it three hundred times what a verdict does.
PAST_ROWS = 1_000_000


class Failed(Exception):
    """A run that ended with an error; holds what was printed."""


def run(work, executors, folder, past, *words, minutes):
    """One driver with all that it starts; they are gone when this returns."""
    place = work / "spark"
    place.mkdir(exist_ok=True)
    # What the driver finds must not be found by an executor, which inherits variables: only what is sent to it is tried.
    begin = f"import sys; sys.path[:0] = {FOUND_IN!r}; import on_spark; on_spark.main(*sys.argv[1:])"
    env = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "LASHWORK_LIBRARY", "SPARK_HOME")}
    env |= {"SPARK_LOCAL_IP": "127.0.0.1", "SPARK_WORKER_DIR": str(place / "work")}
    command = [sys.executable, "-c", begin, str(place), str(executors), str(folder), str(past), *words]
    log = place / "log.txt"
    with log.open("w") as errors:
        driver = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=errors, text=True, env=env, cwd=place, start_new_session=True)
        try:
            printed, _ = driver.communicate(timeout=60 * minutes)
        except subprocess.TimeoutExpired:
            raise SystemExit(f"Spark {words}: not done in {minutes:.0f} minutes, see {log}") from None
        finally:
            # Its executors are in its group, and their Pythons end with them.
            try:
                os.killpg(driver.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
    text = log.read_text()
    if driver.returncode:
        raise Failed(text)
    return json.loads(printed.strip().splitlines()[-1]), text


def archive(wheel, to, version=None):
    """The wheel under a name by which Spark unpacks it; with a version, one that says that it has this one."""
    with zipfile.ZipFile(wheel) as source, zipfile.ZipFile(to, "w", zipfile.ZIP_STORED) as made:
        for name in source.namelist():
            data = source.read(name)
            if version and name == "lashwork/_library.py":
                data += f'\nversion = "{version}"\n'.encode()
            made.writestr(name, data)
    return to


def refused(name, parts, work, folder, *words, minutes):
    try:
        run(work, 1, folder, folder, *words, minutes=minutes)
    except Failed as why:
        text = str(why)
        for part in parts:
            if part not in text:
                raise SystemExit(f"{name}: refused, but not with {part!r}:\n{text[-3000:]}") from None
        line = next(line for line in text.splitlines() if parts[0] in line)
        print(f"{name}: {line.strip()[:400]}", flush=True)
        return
    raise SystemExit(f"{name}: not refused")


def prove(wheel, work, rows):
    # Whoever ends this ends what it started.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit("ended from outside"))
    small.prove(work)
    folder, past = work / "readings", work / "past"
    rows = readings.write(folder, rows)
    past_rows = readings.write(past, min(rows, PAST_ROWS))
    # Far more than it takes.
    minutes = 15 + rows / 200_000
    began = time.perf_counter()
    (judged, judging), (looks, drifting) = plain.judged(folder), plain.looks(past)
    expected = judged | looks
    print(f"{rows} invented rows judged, {past_rows} followed over the years, each in {readings.ROWS_A_VALVE} files")
    print(*judged["judged"], *looks["looks"], looks["due"][0], sep="\n", flush=True)
    sent = ("--wheel", str(archive(wheel, work / "lashwork.zip")))

    def on(executors, *words):
        return run(work, executors, folder, past, *sent, *words, minutes=minutes)

    one, _ = on(1, "--judge")
    agree("Spark, one executor", one, judged)
    two, _ = on(2)
    agree("Spark, two executors", two, expected)
    killed, text = on(2, "--kill")
    agree("Spark, two executors, killed", killed, expected)
    for at_work in ("judging", "drifting"):
        of = killed[f"killed_{at_work}"]
        if not of:
            raise SystemExit(f"no executor was killed while {at_work}")
        print(f"killed while {at_work}: executor of process {of['executor']}, {of['done']} of {of['of']} tasks done")
    lost = text.count("Lost executor")
    if lost < 2:
        raise SystemExit(f"two executors were killed, the driver lost {lost}")
    refusals(wheel, work, sent, minutes)

    heads = ("million rows a second", "of the clock", "of processors")
    print(f"\n{heads[0]:<54} {heads[1]:>14} {heads[2]:>14}")
    speed("column call, one thread, judging", rows, *judging)
    speed("column call, one thread, drift and next look", past_rows, *drifting)
    for name, found in (("one executor", one), ("two executors", two), ("two, one of them killed", killed)):
        speed(f"Spark, {name}, judging", rows, *found["judge_seconds"])
    for name, found in (("two executors", two), ("two, one of them killed", killed)):
        speed(f"Spark, {name}, drift and next look", past_rows, *found["drift_seconds"])
    load, processors = os.getloadavg()[1], os.cpu_count()
    print(f"on {processors} processors, with a load of {load:.1f} in the last five minutes")
    print(f"all in {time.perf_counter() - began:.0f} s")


def refusals(wheel, work, sent, minutes):
    """What must not be worked on, and what is said of it."""
    other = archive(wheel, work / "other.zip", OTHER_VERSION)
    for name, parts, words in (
            ("a worker with another version", (f"has lashwork {OTHER_VERSION}, this work is for lashwork {lw.version}",),
             ("--wheel", str(other), "--once")),
            ("a worker without lashwork", ("cannot load lashwork: No module named 'lashwork'", f"install lashwork {lw.version}"),
             ("--once",)),
            ("a column of another type", ('column "low_mm" is string, cast it to double',), (*sent, "--text"))):
        refused(name, parts, work, work / "small", *words, minutes=minutes)


def speed(name, rows, clock, processors):
    print(f"{name:<54} {rows / clock / 1e6:>14.3f} {rows / processors / 1e6:>14.3f}", flush=True)
