"""What notices a change of the sources: used by `deletions` and `mutants`.

All changes of a run are put into one copy of the committed tree, each behind a switch, and built once. A switch also tells which tests come by it: only
they can notice the change, and those that come by little and end soon are asked first. What cannot stand behind a switch (a `const fn`, a type that no
`return` gives) is built by itself.
"""

import functools
import json
import os
import shutil
import signal
import subprocess
import time
from concurrent.futures import ThreadPoolExecutor
from itertools import groupby
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
WORK = ROOT / "target" / "changes"
TREE = WORK / "tree"

# In the order of what they take.
CORE = [
    ["-p", "shophead", "--lib", "--features", "serde"],
    ["-p", "shophead-tests", "--test", "handheld"],
    ["-p", "shophead-tests", "--test", "laws"],
    ["-p", "shophead-tests", "--test", "reference"],
    ["-p", "shophead-cli", "--test", "cli"],
    ["-p", "shophead-ffi", "--lib"],
]
# The examples of the documentation, asked where no other test notices anything: they are built each time.
EXAMPLES = ["-p", "shophead", "--doc", "--features", "serde"]
CLI = [["-p", "shophead-cli", "--test", "cli"]]
JOB = [["-p", "shophead-job", "--lib"], *CLI]
HANDHELD = [["-p", "shophead-handheld", "--lib"], ["-p", "shophead-tests", "--test", "handheld"]]
# Few cases of each law, and no search for a smaller one: what they notice, they notice soon.
FEW = {"PROPTEST_CASES": os.environ.get("PROPTEST_CASES", "64"), "PROPTEST_MAX_SHRINK_ITERS": "0", "PROPTEST_RNG_SEED": "20470"}
ENVIRONMENT = os.environ | FEW | {"CARGO_TARGET_DIR": os.environ.get("CARGO_TARGET_DIR", str(WORK / "built"))}
# Longer than any of these takes; what hangs is noticed.
PATIENCE = 300
HANGS = "it does not end well"


def explained():
    """What no test can notice."""
    lines = (ROOT / "tests" / "changes" / "explained.txt").read_text().splitlines()
    return {line.split(" -- ")[0] for line in lines if " -- " in line}


def fresh_tree():
    """The committed tree, without what was changed in the last run. Files that are the same keep their times, so that nothing is built twice."""
    unpacked = WORK / "fresh"
    shutil.rmtree(unpacked, ignore_errors=True)
    unpacked.mkdir(parents=True)
    archive = subprocess.run(["git", "archive", "HEAD"], cwd=ROOT, capture_output=True, check=True).stdout
    subprocess.run(["tar", "-x", "-C", unpacked], input=archive, check=True)
    TREE.mkdir(exist_ok=True)
    wanted = {file.relative_to(unpacked) for file in unpacked.rglob("*") if file.is_file()}
    for file in [file for file in TREE.rglob("*") if file.is_file()]:
        if file.relative_to(TREE) not in wanted:
            file.unlink()
    for file in wanted:
        new, old = unpacked / file, TREE / file
        if not old.exists() or old.read_bytes() != new.read_bytes():
            old.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(new, old)


def cargo(*arguments):
    return subprocess.run(["cargo", *arguments], cwd=TREE, capture_output=True, text=True, env=ENVIRONMENT)


@functools.cache
def programs(tests):
    """The programs of these tests, built, and the folder where each belongs."""
    built = cargo("test", "--no-run", "--message-format=json", *tests)
    if built.returncode != 0:
        raise SystemExit(built.stderr)
    found = [json.loads(line) for line in built.stdout.splitlines()]
    return [(one["executable"], Path(one["manifest_path"]).parent) for one in found if one.get("executable") and one["profile"]["test"]]


def fails(tests):
    """The first test of these that fails."""
    of_all = (fails_of(program, folder, 0, [], PATIENCE) for program, folder in programs(tuple(tests)))
    return next(filter(None, of_all), None)


def fails_of(program, folder, number, only, patience):
    """The first test of a program that fails with that change switched on; it is not waited for the others."""
    running = subprocess.Popen(
        ["timeout", str(patience), program, *only],
        cwd=folder,
        env=switched(number),
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        errors="replace",
        start_new_session=True,
    )
    for line in running.stdout:
        if line.rstrip().endswith("... FAILED"):
            os.killpg(running.pid, signal.SIGKILL)
            running.wait()
            return line.removeprefix("test ").split(" ... ")[0]
    return HANGS if running.wait() != 0 else None


def noticed_by(tests, number=0):
    """The test that failed; `None` where none did."""
    if number:
        by = asked(tuple(map(tuple, tests)), number)
    else:
        # A change that is built by itself cannot be switched off, so nobody knows who comes by it.
        failures = ((some[1], fails(some)) for some in tests)
        by = next((f"{package}: {failed}" for package, failed in failures if failed), None)
    return by or (example_fails(number) if tests is CORE else None)


def example_fails(number):
    shown = subprocess.run(["cargo", "test", "--quiet", *EXAMPLES], cwd=TREE, capture_output=True, text=True, env=switched(number))
    if shown.returncode == 0:
        return None
    failed = [line for line in shown.stdout.splitlines() if line.endswith("--- FAILED")]
    return f"example: {failed[0].removesuffix(' --- FAILED')}" if failed else HANGS


def switched(number):
    return ENVIRONMENT | {"SHOPHEAD_CHANGE": str(number)}


def asked(tests, number):
    """Four tests first, then three times as many each time."""
    left = sorted((one for one in comes_by(tests) if number in one["reached"]), key=lambda one: one["took"] * (20 + len(one["reached"])) ** 0.5)
    many = 4
    while left:
        now, left = sorted(left[:many], key=lambda one: one["program"]), left[many:]
        many *= 3
        for (program, package, folder), some in groupby(now, key=lambda one: (one["program"], one["package"], one["folder"])):
            some = list(some)
            patience = max(15, 10 * sum(one["took"] for one in some))
            if failed := fails_of(program, folder, number, ["--exact", *(one["test"] for one in some)], patience):
                return f"{package}: {failed}"
    return None


def names(program, folder):
    """The tests of a program that are not left out."""

    def listed(*which):
        command = [program, "--list", "--format", "terse", *which]
        lines = subprocess.run(command, cwd=folder, capture_output=True, text=True, env=ENVIRONMENT).stdout.splitlines()
        return {line.removesuffix(": test") for line in lines if line.endswith(": test")}

    return sorted(listed() - listed("--ignored"))


@functools.cache
def comes_by(tests):
    """Of every test which changes it comes by, and how long it takes. Each has to pass without a change: one that fails anyhow notices none."""
    records = WORK / "reached"
    shutil.rmtree(records, ignore_errors=True)
    records.mkdir(parents=True)

    def one(place, program, package, folder, test):
        record = records / str(place)
        record.unlink(missing_ok=True)
        started = time.monotonic()
        command = [program, "--exact", test, "--test-threads=1"]
        ended = subprocess.run(command, cwd=folder, capture_output=True, env=switched(0) | {"SHOPHEAD_REACHED": str(record)})
        if ended.returncode != 0:
            return None
        numbers = record.read_bytes() if record.exists() else b""
        reached = {int.from_bytes(numbers[at : at + 4], "little") for at in range(0, len(numbers), 4)}
        return {"program": program, "package": package, "folder": folder, "test": test, "took": time.monotonic() - started, "reached": reached}

    wanted = [(program, some[1], folder, test) for some in tests for program, folder in programs(some) for test in names(program, folder)]
    numbered = list(enumerate(wanted))
    with ThreadPoolExecutor(os.cpu_count()) as several:
        found = dict(zip(range(len(wanted)), several.map(lambda each: one(each[0], *each[1]), numbered)))
    for place, (program, package, folder, test) in numbered:
        # Once more by itself: some are in a hurry.
        if found[place] is None:
            found[place] = one(place, program, package, folder, test)
        if found[place] is None:
            raise SystemExit(f"fails without a change: {package}: {test}")
    return list(found.values())


def mismatched(message):
    return (message["message"]["code"] or {}).get("code") == "E0308"


def place(changes, packages):
    """Puts all into the tree that can stand behind a switch there. Gives their numbers."""
    changes = [{name: change[name] for name in ("number", "file", "genre", "span", "replacement")} for change in changes]
    placer = ["cargo", "run", "--quiet", "--manifest-path", str(ROOT / "tests/changes/Cargo.toml"), "--", str(TREE)]
    left = {change["number"]: change for change in changes}
    environment = ENVIRONMENT | {"CARGO_TARGET_DIR": str(WORK / "placer")}
    while True:
        fresh_tree()
        asked = json.dumps(list(left.values()))
        placed = json.loads(subprocess.run(placer, input=asked, capture_output=True, text=True, check=True, env=environment, cwd=ROOT).stdout)
        left = {number: left[number] for number in {one["number"] for one in placed}}
        checked = cargo("check", "--message-format=json", "--features=shophead/serde", *(f"--package={package}" for package in packages))
        wrong = set()
        for line in checked.stdout.splitlines():
            message = json.loads(line)
            if message.get("reason") != "compiler-message" or message["message"]["level"] != "error":
                continue
            for span in (span for span in message["message"]["spans"] if span["is_primary"]):
                there = [one for one in placed if one["file"] == span["file_name"]]
                within = [one for one in there if one["start"] <= span["byte_start"] < one["end"]]
                if within:
                    smallest = min(one["end"] - one["start"] for one in within)
                    wrong |= {one["number"] for one in within if one["end"] - one["start"] == smallest}
                elif mismatched(message) and (before := [one for one in there if one["end"] <= span["byte_start"]]):
                    # Of a function that gives one of two types it is complained where it ends.
                    wrong.add(max(before, key=lambda one: one["start"])["number"])
                elif behind := [one for one in there if one["start"] > span["byte_start"]]:
                    # A match that lacks an arm is complained of where it begins.
                    wrong.add(min(behind, key=lambda one: one["start"])["number"])
        programs.cache_clear()
        comes_by.cache_clear()
        if not wrong:
            if checked.returncode != 0:
                raise SystemExit(checked.stderr)
            return set(left)
        for number in wrong:
            del left[number]


def alone(change, package, tests=None):
    """What notices a change that is built by itself; "the compiler" where it does not build. Without tests only whether it builds."""
    file = TREE / change["file"]
    kept = (ROOT / change["file"]).read_text()
    try:
        file.write_text(change["text"](kept))
        if cargo("check", "--quiet", "-p", package).returncode != 0:
            return "the compiler"
        programs.cache_clear()
        return noticed_by(tests) if tests else None
    finally:
        file.write_text(kept)
