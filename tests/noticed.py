"""What notices a change of one file: used by `deletions` and `mutants`."""

import os
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

CORE = [
    ["-p", "shophead", "--lib"],
    ["-p", "shophead-tests", "--test", "reference"],
    ["-p", "shophead-tests", "--test", "laws"],
    ["-p", "shophead-cli", "--test", "cli"],
]
CLI = [["-p", "shophead-cli", "--test", "cli"]]
JOB = [["-p", "shophead-job", "--lib"], *CLI]
# Few cases of each law: what they notice, they notice soon.
FEW = os.environ | {"PROPTEST_CASES": os.environ.get("PROPTEST_CASES", "32")}
# Longer than any of these takes; what hangs is noticed.
PATIENCE = 1200


def is_clean():
    return subprocess.run(["git", "diff", "--quiet"], cwd=ROOT).returncode == 0


def passes(tests):
    try:
        return subprocess.run(["cargo", "test", "--quiet", *tests], cwd=ROOT, capture_output=True, timeout=PATIENCE, env=FEW).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def noticed_by(file, changed, tests):
    """Which tests fail with this text in the file, the quickest first; `None` where none does, "the compiler" where it does not build."""
    kept = file.read_text()
    try:
        file.write_text(changed)
        if subprocess.run(["cargo", "check", "--quiet", *tests[-1][:2]], cwd=ROOT, capture_output=True).returncode != 0:
            return "the compiler"
        return next((" ".join(some) for some in tests if not passes(some)), None)
    finally:
        file.write_text(kept)
