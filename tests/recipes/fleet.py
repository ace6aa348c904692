"""The holes of a fleet, answered on every machine of a Spark cluster: each gets a part of the file, and pipes it through shophead.

    spark-submit fleet.py hole HOLES.csv ANSWERS

HOLES.csv has its header in the first line and every row on one line. ANSWERS becomes a folder with the answers in parts, without header, in
the order of the rows; the header is printed. shophead has to be on the same path on every machine. The exit status is that of a single run: 2
when a row is wrong, else 1 when something has to be referred, else 0.
"""

import csv
import os
import shlex
import subprocess
import sys

from pyspark.sql import SparkSession


def main(question, holes, answers):
    spark = SparkSession.builder.appName("shophead").getOrCreate().sparkContext
    lines = spark.textFile(holes)
    first = lines.first()
    header = first.removeprefix("\ufeff")

    # Once, to hear of a wrong header before the cluster is set to work, and for the names of the answer's columns.
    asked = subprocess.run(["shophead", "batch", question], input=header + "\n", capture_output=True, text=True)
    if asked.returncode != 0:
        sys.exit(asked.stderr)
    columns = next(csv.reader([asked.stdout]))
    print(asked.stdout, end="")

    # --header: a part of the file has no header line, and gets none. 1 and 2 are answers too; anything else stops the job.
    # The stage gets no other environment than this.
    path = {"PATH": os.environ["PATH"]}
    command = f'shophead batch {question} --header {shlex.quote(header)} || [ $? -le 2 ]'
    rows = lines.filter(lambda line: line != first).pipe(f"sh -c {shlex.quote(command)}", env=path, checkCode=True).cache()
    rows.saveAsTextFile(answers)

    error, severity = columns.index("error"), columns.index("severity")
    # A cell of the input may have a line end in it only where the file had one, and then textFile has cut it already.
    told = rows.map(lambda line: next(csv.reader([line]))).map(lambda row: 2 if row[error] else int(row[severity] == "refer"))
    worst = told.fold(0, max)
    spark.stop()
    return worst


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
