"""One run on a cluster of Spark on this machine: a driver, and executors that are processes of their own.

`on_spark.py WORK EXECUTORS READINGS PAST [--wheel ZIP] [--judge] [--kill] [--once] [--text]`; the answer is a line of
JSON, the last of what is printed.
"""

import json
import os
import signal
import sys
import threading
import time
from pathlib import Path

from lines import JUDGED_SQL, LOOKS_SQL, NEXT_SERVICE_HOURS, told
from pyspark.sql import SparkSession
from readings import ROWS_A_VALVE
from spark_fleet import due, judged, looks

# Where the wheel is unpacked in the folder in which an executor works.
UNPACKED = "lashwork-wheel"
# Tasks of what comes behind an exchange; both kinds of valves are worked on together, each with so many.
AFTER_EXCHANGE = 8


def session(work, executors, wheel, once):
    os.environ["PYSPARK_PYTHON"] = sys.executable
    builder = SparkSession.builder.master(f"local-cluster[{executors},1,1024]").appName("fleet")
    settings = {
        "spark.driver.host": "127.0.0.1", "spark.driver.bindAddress": "127.0.0.1", "spark.ui.enabled": "false",
        "spark.ui.showConsoleProgress": "false", "spark.local.dir": work,
        # Enough tasks that one of them runs when an executor is killed.
        "spark.sql.files.minPartitionNum": str(ROWS_A_VALVE), "spark.sql.files.openCostInBytes": "1m",
        "spark.sql.shuffle.partitions": str(AFTER_EXCHANGE),
        "spark.sql.adaptive.coalescePartitions.enabled": "false"}
    if wheel:
        settings |= {"spark.archives": f"{wheel}#{UNPACKED}", "spark.executorEnv.PYTHONPATH": UNPACKED}
    if once:
        # What is wrong with every worker need not be tried four times.
        settings["spark.task.maxFailures"] = "1"
    return builder.config(map=settings).getOrCreate()


def descendants():
    """Processes that descend from this one, each with what it is and for how long it and what it waited for worked."""
    parents, found = {}, {}
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                fields = (entry / "stat").read_text().rsplit(") ", 1)[1].split()
                parents[int(entry.name)] = int(fields[1])
                found[int(entry.name)] = (entry / "cmdline").read_bytes(), sum(map(int, fields[11:15]))
            except OSError:
                pass  # It ended.

    def is_own(pid):
        while pid > 1 and pid != os.getpid():
            pid = parents.get(pid, 0)
        return pid == os.getpid()

    return {pid: held for pid, held in found.items() if pid != os.getpid() and is_own(pid)}


def executors():
    return sorted(pid for pid, (command, _) in descendants().items() if b"CoarseGrainedExecutorBackend" in command)


def worked():
    """Seconds of processors, of the driver's machine for Java and of the executors."""
    return sum(ticks for _, ticks in descendants().values()) / os.sysconf("SC_CLK_TCK")


class Killer(threading.Thread):
    """Kills one executor when a quarter of the tasks of the stage that does the work is done."""

    def __init__(self, context, stage_of_job):
        super().__init__(daemon=True)
        self.tracker, self.stage_of_job, self.over, self.killed = context.statusTracker(), stage_of_job, False, None

    def run(self):
        while not self.over and self.killed is None:
            for number in self.tracker.getActiveStageIds():
                stage = self.tracker.getStageInfo(number)
                if not stage or not self.stage_of_job(stage):
                    continue
                if stage.numTasks // 4 <= stage.numCompletedTasks < stage.numTasks - 2:
                    pid = executors()[0]
                    os.kill(pid, signal.SIGKILL)
                    self.killed = {"executor": pid, "done": stage.numCompletedTasks, "of": stage.numTasks}
                    return
            time.sleep(0.005)


def timed(spark, sql, kill):
    """Lines of one question, how long it took, and what was killed while it was worked on."""
    killer = Killer(spark.sparkContext, kill) if kill else None
    if killer:
        killer.start()
    began, before = time.perf_counter(), worked()
    lines = told(tuple(row) for row in spark.sql(sql).collect())
    took = time.perf_counter() - began, worked() - before
    if killer:
        killer.over = True
        killer.join()
    return lines, took, killer and killer.killed


def main(work, count, folder, past, *rest):
    wheel = rest[rest.index("--wheel") + 1] if "--wheel" in rest else None
    kill = "--kill" in rest
    spark = session(work, int(count), wheel, "--once" in rest)
    try:
        readings = spark.read.parquet(folder)
        if "--text" in rest:
            readings = readings.withColumn("low_mm", readings["low_mm"].cast("string"))
        # Executors and their Python begin, and the wheel is unpacked, before time is taken.
        judged(readings.limit(100)).count()
        answer = {"executors": len(executors())}
        judged(readings).createOrReplaceTempView("judged")
        judging = kill and (lambda stage: stage.numTasks > 2 * AFTER_EXCHANGE)
        answer["judged"], answer["judge_seconds"], answer["killed_judging"] = timed(spark, JUDGED_SQL, judging)
        if "--judge" not in rest:
            past = spark.read.parquet(past)
            found = looks(past).cache()
            found.createOrReplaceTempView("looks")
            drifting = kill and (lambda stage: stage.numTasks == 2 * AFTER_EXCHANGE)
            answer["looks"], answer["drift_seconds"], answer["killed_drifting"] = timed(spark, LOOKS_SQL, drifting)
            answer["due"] = [str(due(past, found, NEXT_SERVICE_HOURS).count())]
        print(json.dumps(answer))
    finally:
        spark.stop()
