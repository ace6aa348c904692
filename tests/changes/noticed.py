"""What notices a change of the sources: used by `deletions` and `mutants`.

All changes of a run are put into one copy of the committed tree, each behind a switch, and built once. What cannot stand behind a switch (a `const fn`, a
type that no `return` gives) is built by itself.
"""

import functools
import json
import os
import shutil
import signal
import subprocess
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
]
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


def fails(tests, number=0, only=()):
    """The first test that fails with that change switched on; it is not waited for the others."""
    environment = ENVIRONMENT | {"SHOPHEAD_CHANGE": str(number)}
    for program, folder in programs(tuple(tests)):
        running = subprocess.Popen(
            ["timeout", str(PATIENCE), program, *only],
            cwd=folder,
            env=environment,
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
        if running.wait() != 0:
            return HANGS
    return None


def noticed_by(tests, number=0):
    """The test that failed, those that take the shortest asked first; `None` where none did."""
    for some in tests:
        if failed := fails(some, number):
            # A change that is built by itself cannot be switched off.
            if number:
                must_pass(some, failed)
            return f"{some[1]}: {failed}"
    return None


@functools.cache
def passes_alone(some, failed):
    return not fails(some, only=() if failed == HANGS else ("--exact", failed))


def must_pass(some, failed):
    """A test that fails without a change notices none."""
    if not passes_alone(tuple(some), failed):
        raise SystemExit(f"fails without a change: {' '.join(some)}: {failed}")


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
        checked = cargo("check", "--message-format=json", *(f"--package={package}" for package in packages))
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
