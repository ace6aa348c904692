"""What `shophead batch length` does, as somebody would write it in Python: one function a step, whole nanometres, no tricks.

Knows universal head rivets of 2117 (MS20470AD) under the handbooks' limits and reads the columns of `rows`: layers, diameter, hole and
tolerance. Its output is the same to the byte; benches/ratios compares the two.

    python3 benches/length_rows.py ROWS.csv > ANSWERS.csv
"""

import csv
import math
import sys
from fractions import Fraction

INCH = 25_400_000
SIXTEENTH = INCH // 16
THIRTY_SECOND = INCH // 32
THOUSANDTH = INCH // 1000

# Dash number: least and greatest shank in thousandths of an inch.
SHANKS = {3: (93, 97), 4: (124, 128), 5: (155, 159), 6: (186, 190), 8: (249, 253)}
# The shortest length in the table of the series.
SHORTEST = {3: 3 * SIXTEENTH, 4: 3 * SIXTEENTH}
# How much longer or shorter a rivet may be.
LENGTH_TOLERANCE = 10 * THOUSANDTH

COLUMNS = [
    "part", "length_in", "grip_min_in", "grip_in", "grip_max_in", "hole_min_in", "hole_max_in", "rule_of_thumb_length_in",
    "protrusion_min_in", "protrusion_max_in", "head_diameter_min_in", "head_diameter_max_in", "head_height_in", "severity", "findings", "error",
]


def length(text):
    """Inches, as a decimal or as a fraction, in nanometres."""
    return round(Fraction(text) * INCH)


def inches(nanometres):
    """Rounded half away from zero to five places, three at least."""
    scaled = (abs(nanometres) * 2 * 100_000 + INCH) // (2 * INCH)
    sign = "-" if nanometres < 0 and scaled else ""
    whole, fraction = divmod(scaled, 100_000)
    digits = f"{fraction:05}"
    while len(digits) > 3 and digits.endswith("0"):
        digits = digits[:-1]
    return f"{sign}{whole}.{digits}"


def ceil_to(value, step):
    return -(-value // step) * step


def floor_to(value, step):
    return value // step * step


def nearest(value, step):
    return (value + step // 2) // step * step


def within(shortest, longest, step, wanted):
    least = ceil_to(max(shortest, step), step)
    most = floor_to(longest, step)
    return min(max(wanted, least), most) if least <= most else None


def answer(layers, diameter, hole, tolerance):
    sheets = [length(layer) for layer in layers.split(",")]
    tolerance = length(tolerance)
    nominal = length(diameter)
    dash = nominal // THIRTY_SECOND
    hole = length(hole)
    thinnest, thickest = (limit * THOUSANDTH for limit in SHANKS[dash])
    grip = sum(sheets)
    grip_min, grip_max = grip - tolerance * len(sheets), grip + tolerance * len(sheets)

    # The limits of the driven head, and the longest tail.
    head_least = nominal * 13 // 10, nominal * 3 // 10
    head_greatest = nominal * 83 // 50, nominal * 33 // 50
    height = nominal // 2
    tail_greatest = 2 * nominal
    rule = nearest(grip + nominal * 3 // 2, SIXTEENTH)

    # Metal is neither made nor lost: shank² length = hole² grip + head² height, in the worst cases.
    wide, narrow = max(hole, thinnest), max(hole, thickest)
    needed = head_least[0] ** 2 * head_least[1] + wide**2 * grip_max
    shortest = -(-needed // thinnest**2) + LENGTH_TOLERANCE
    by_tail = grip_min + tail_greatest - LENGTH_TOLERANCE
    room = head_greatest[0] ** 2 * head_greatest[1] + narrow**2 * grip_min
    by_head = room // thickest**2 - LENGTH_TOLERANCE
    longest = min(by_tail, by_head)
    chosen = within(shortest, longest, SIXTEENTH, rule)
    if chosen is None:
        chosen = within(shortest, longest, THIRTY_SECOND, rule)

    findings = []
    severity = "note"
    if chosen is None:
        findings.append("no-length-fits")
        severity = "refer"
    else:
        if chosen != rule:
            findings.append("differs-from-rule")
        if by_head < by_tail:
            findings.append("limit-from-memory")
        if chosen % SIXTEENTH:
            findings.append("half-length")
        if chosen < SHORTEST.get(dash, 0):
            findings.append("length-not-tabulated")
    if hole < thickest:
        findings.append("shank-may-not-enter")
    if not max(sheets) <= nominal <= 3 * max(sheets):
        findings.append("diameter-outside-rule")
    if not findings:
        severity = ""

    cells = ["", ""]
    made = [""] * 5
    if chosen is not None:
        half = "" if chosen % SIXTEENTH == 0 else ".5"
        cells = [f"MS20470AD{dash}-{chosen // SIXTEENTH}{half}", inches(chosen)]
        least = thinnest**2 * (chosen - LENGTH_TOLERANCE) - wide**2 * grip_max
        most = thickest**2 * (chosen + LENGTH_TOLERANCE) - narrow**2 * grip_min
        made = [
            inches(chosen - LENGTH_TOLERANCE - grip_max),
            inches(chosen + LENGTH_TOLERANCE - grip_min),
            inches(math.isqrt(max(least, 0) // height)),
            inches(math.isqrt(max(most, 0) // height)),
            inches(height),
        ]
    cells += [inches(value) for value in (grip_min, grip, grip_max, hole, hole, rule)]
    return cells + made + [severity, " ".join(findings), ""]


def main():
    with open(sys.argv[1], newline="", encoding="utf-8-sig") as file:
        reader = csv.reader(file)
        writer = csv.writer(sys.stdout, lineterminator="\n")
        header = next(reader)
        layers, diameter, hole, tolerance = (header.index(name) for name in ("layers", "diameter", "hole", "tolerance"))
        writer.writerow(header + COLUMNS)
        for row in reader:
            writer.writerow(row + answer(row[layers], row[diameter], row[hole], row[tolerance]))


main()
