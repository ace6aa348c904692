"""What `shophead batch length` does, as somebody would write it in Python: one function a step, whole nanometres, no tricks.

Knows universal head rivets of 2117 (MS20470AD) under the handbooks' limits, in packs of which some length is within limits, and reads the
columns of `rows`: layers, diameter, hole and tolerance. Its output is the same to the byte; benches/ratios compares the two.

    python3 benches/length_rows.py ROWS.csv > ANSWERS.csv
    python3 benches/length_rows.py --cache ROWS.csv > ANSWERS.csv     keeps its last 16 384 answers: one line
"""

import csv
import functools
import math
import sys
from fractions import Fraction

INCH = 25_400_000
SIXTEENTH = INCH // 16
THIRTY_SECOND = INCH // 32
TEN_THOUSANDTH = INCH // 10_000

# By dash number, in ten-thousandths of an inch.
# MS20470: least and greatest shank.
SHANKS = {3: (930, 970), 4: (1240, 1280), 5: (1550, 1590), 6: (1860, 1900), 8: (2490, 2530)}
# The sizes that there are.
DASHES = [2, 3, 4, 5, 6, 8, 10, 12]
# The shortest length in the table of the series.
SHORTEST = {3: 3 * SIXTEENTH, 4: 3 * SIXTEENTH}
# How much longer or shorter a rivet may be.
LENGTH_TOLERANCE = 100 * TEN_THOUSANDTH
# AC 43.13-1B table 4-8: the drills; MIL-R-47196A(MI) table I: the greatest holes; table III: the greatest heights of a driven head.
DRILLS = {3: 980, 4: 1285, 5: 1590, 6: 1910, 8: 2570}
HOLES_GREATEST = {3: 1030, 4: 1350, 5: 1710, 6: 2020, 8: 2650}
HEIGHTS_GREATEST = {3: 500, 4: 700, 5: 920, 6: 1050, 8: 1300}
# The training sheet's largest head: width and height.
HEADS_GREATEST = {3: (1600, 600), 4: (2100, 800), 5: (2700, 1000), 6: (3200, 1200), 8: (4300, 1700)}
# MIL-HDBK-5: the hole that joints were tested with.
NOMINAL_HOLES = {3: 960, 4: 1285, 5: 1590, 6: 1910, 8: 2570}

COLUMNS = [
    "part", "length_in", "grip_min_in", "grip_in", "grip_max_in", "hole_min_in", "hole_max_in", "rule_of_thumb_length_in",
    "protrusion_min_in", "protrusion_max_in", "head_diameter_min_in", "head_diameter_max_in", "head_height_in", "window_height_min_in",
    "window_height_max_in", "window_diameter_min_in", "also_good", "by_hole", "severity", "findings", "error",
]
SEVERITIES = ["", "note", "caution", "refer"]


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


def part(dash, chosen):
    half = "" if chosen % SIXTEENTH == 0 else ".5"
    return f"MS20470AD{dash}-{chosen // SIXTEENTH}{half}"


def answer(layers, diameter, hole, tolerance):
    sheets = [length(layer) for layer in layers.split(",")]
    tolerance = length(tolerance)
    nominal = length(diameter)
    dash = nominal // THIRTY_SECOND
    hole = length(hole)
    thinnest, thickest = (limit * TEN_THOUSANDTH for limit in SHANKS[dash])
    grip = sum(sheets)
    grip_min, grip_max = grip - tolerance * len(sheets), grip + tolerance * len(sheets)

    # The least head, the greatest, the one to aim at, and the longest tail.
    width_least, height_least = nominal * 13 // 10, nominal * 3 // 10
    width_greatest, metal_height = (limit * TEN_THOUSANDTH for limit in HEADS_GREATEST[dash])
    height_greatest = HEIGHTS_GREATEST[dash] * TEN_THOUSANDTH
    height_target = nominal // 2
    tail_greatest = 2 * nominal
    rule = nearest(grip + nominal * 3 // 2, SIXTEENTH)

    # Metal is neither made nor lost: shank² length = hole² grip + head² height. Too little is judged at the worst ends, too much at nominal sizes.
    filled_most = max(hole, thinnest) ** 2 * grip_max
    filled = max(hole, nominal) ** 2 * grip
    filled_least = max(hole, thickest) ** 2 * grip_min
    shortest = -(-(width_least**2 * height_least + filled_most) // thinnest**2) + LENGTH_TOLERANCE
    by_tail = grip + tail_greatest
    by_head = (width_greatest**2 * metal_height + filled) // nominal**2
    longest = min(by_tail, by_head)
    step = SIXTEENTH
    chosen = within(shortest, longest, step, rule)
    if chosen is None:
        step = THIRTY_SECOND
        chosen = within(shortest, longest, step, rule)
    if chosen is None:
        raise ValueError(f"{layers} with {diameter} in {inches(hole)}: the length goes by the hole, which this script does not know")

    found = []
    if chosen != rule:
        found.append(("differs-from-rule", "note"))
    # Too long only at the worst ends is worth a note.
    if chosen > (width_greatest**2 * metal_height + filled_least) // thickest**2 - LENGTH_TOLERANCE:
        found.append(("head-too-large", "note"))
    if chosen > grip_min + tail_greatest - LENGTH_TOLERANCE:
        found.append(("tail-too-long", "note"))
    if chosen % SIXTEENTH:
        found.append(("half-length", "note"))
    if chosen < SHORTEST.get(dash, 0):
        found.append(("length-not-tabulated", "note"))
    # The diameter is one to three times the thickest sheet, then the next larger size; in structure not below 3/32.
    sizes = [size * THIRTY_SECOND for size in DASHES]
    if not max(sheets) <= nominal <= next((size for size in sizes if size >= max(3 * max(sheets), 3 * THIRTY_SECOND)), nominal):
        found.append(("diameter-outside-rule", "note"))
    # No bearing strength is published for a sheet thinner than 0.18 of the hole.
    across = max(hole, NOMINAL_HOLES[dash] * TEN_THOUSANDTH)
    if any(sheet * 100 < across * 18 for sheet in sheets):
        found.append(("sheet-too-thin-for-table", "refer"))
    if hole < thickest:
        found.append(("shank-may-not-enter", "note"))
    if hole > HOLES_GREATEST[dash] * TEN_THOUSANDTH:
        found.append(("hole-over-limit", "refer"))
    elif hole > max(thickest + 40 * TEN_THOUSANDTH, DRILLS[dash] * TEN_THOUSANDTH):
        found.append(("hole-above-drill", "caution"))

    # The driven head: what the least metal makes at the least height and at the least width, and the head at the height to aim at.
    least = thinnest**2 * (chosen - LENGTH_TOLERANCE) - filled_most
    most = thickest**2 * (chosen + LENGTH_TOLERANCE) - filled_least
    window_top = min(height_greatest, least // width_least**2)
    height = min(max(height_target, height_least), window_top)
    others = range(ceil_to(max(shortest, THIRTY_SECOND), THIRTY_SECOND), longest + 1, THIRTY_SECOND)
    cells = [part(dash, chosen), inches(chosen)]
    cells += [inches(value) for value in (grip_min, grip, grip_max, hole, hole, rule)]
    cells += [
        inches(chosen - LENGTH_TOLERANCE - grip_max),
        inches(chosen + LENGTH_TOLERANCE - grip_min),
        inches(math.isqrt(max(least, 0) // height)),
        inches(math.isqrt(max(most, 0) // height)),
        inches(height),
        inches(height_least),
        inches(window_top),
        inches(width_least),
        " ".join(part(dash, other) for other in others if other != chosen),
        "",
    ]
    severity = max((severity for _, severity in found), key=SEVERITIES.index, default="")
    return cells + [severity, " ".join(dict.fromkeys(code for code, _ in found)), ""]


def main():
    *options, path = sys.argv[1:]
    row_answer = functools.lru_cache(16384)(answer) if "--cache" in options else answer
    with open(path, newline="", encoding="utf-8-sig") as file:
        reader = csv.reader(file)
        writer = csv.writer(sys.stdout, lineterminator="\n")
        header = next(reader)
        layers, diameter, hole, tolerance = (header.index(name) for name in ("layers", "diameter", "hole", "tolerance"))
        writer.writerow(header + COLUMNS)
        for row in reader:
            writer.writerow(row + row_answer(row[layers], row[diameter], row[hole], row[tolerance]))


main()
