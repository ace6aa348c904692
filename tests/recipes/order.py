#!/usr/bin/env python3
"""What to buy for a job, and which rows wait for it: plan and order of shophead put together.

    ./order.py JOB.toml STOCK.csv > wanted.csv

Ends with the status of shophead: 0, or 1 when something has to be referred; 2 or 3 when there is no answer.
"""

import csv
import json
import subprocess
import sys

DONE, REFER = 0, 1


class NoAnswer(Exception):
    """Shophead did not answer: its status, and what it said."""

    def __init__(self, status, said):
        super().__init__(said)
        self.status = status


def shophead(*words):
    """The answer of a command. Words are passed on one by one, so a blank in a file name does no harm."""
    run = subprocess.run(["shophead", *words, "--format", "json"], capture_output=True, text=True, encoding="utf-8", check=False)
    if run.returncode not in (DONE, REFER):
        raise NoAnswer(run.returncode, run.stderr.strip())
    answer = json.loads(run.stdout)
    if answer["schema"] != 1:
        raise NoAnswer(2, f"this program reads schema 1, not {answer['schema']}")
    return answer


def must_be_referred(answer):
    return [finding for finding in answer["findings"] if finding["severity"] == "refer" and "answer" not in finding]


def rows_by_part(plan):
    """In which rows each part goes, with its own holes and those that take another rivet than their row."""
    rows = {}
    for row in plan["result"]["rows"]:
        for part in [row["part"], *(hole["part"] for hole in row["holes"])]:
            if part is not None:
                rows.setdefault(part, {})[row["name"]] = True
    return {part: list(names) for part, names in rows.items()}


def main(job, stock):
    plan = shophead("plan", job)
    order = shophead("order", job, "--stock", stock)
    rows = rows_by_part(plan)
    wanted = csv.writer(sys.stdout, lineterminator="\n")
    wanted.writerow(["part", "buy", "rows"])
    for line in order["result"]["lines"]:
        if line["buy"] > 0:
            wanted.writerow([line["part"], line["buy"], " ".join(rows.get(line["part"], []))])
    stops = must_be_referred(plan)
    for finding in stops:
        print(f"{finding['subject']}: {finding['message']}", file=sys.stderr)
    return REFER if stops else DONE


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("usage: order.py JOB.toml STOCK.csv")
    try:
        sys.exit(main(*sys.argv[1:]))
    except NoAnswer as error:
        print(error, file=sys.stderr)
        sys.exit(error.status)
