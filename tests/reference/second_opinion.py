"""A second opinion on the core's arithmetic, from general-purpose libraries.

Reads one JSON object a line: what was asked of the core ("of", and the inputs) and what it found. Works
the same out with pint (units), uncertainties (propagation) or scipy (probability) and fails with the line
wherever the two differ. It knows no answer beforehand and reads no other file.
"""

import collections
import json
import math
import sys

import pint
from scipy import stats
from uncertainties import ufloat

UNITS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
KEPT_IN = {"length": "mm", "mass": "kg", "temperature": "degC"}


def near(found, expected, relative=1e-12, absolute=0.0):
    return math.isclose(found, expected, rel_tol=relative, abs_tol=absolute)


def typed(line):
    """A number and a unit as typed, against the library's factor; every unit that was typed is added."""
    kept = KEPT_IN[line["quantity"]]
    parts = [UNITS.Quantity(value, unit).to(kept) for value, unit in line["parts"]]
    return near(line["found"], sum(part.magnitude for part in parts), absolute=1e-9)


def shown_density(line):
    second = UNITS.Quantity(line["kg_per_m3"], "kg/m^3").to("lb/ft^3").magnitude
    return near(line["found"], second, relative=0, absolute=0.0501)


def board_feet(line):
    return near(line["found"], UNITS.Quantity(line["board_feet"], "board_foot").to("m^3").magnitude)


def same_estimate(line, second):
    """Value and uncertainty, as a whole and by source. The core moves each source by its uncertainty, the
    library takes the slope: they differ by the curve between, less than a hundredth here."""
    found = line["found"]
    by_source = collections.Counter()
    for variable, part in second.error_components().items():
        by_source[variable.tag] += part
    return (
        near(found["value"], second.nominal_value, relative=1e-9)
        and near(found["standard"], second.std_dev, relative=1e-2)
        and all(
            near(abs(found["parts"].get(source, 0.0)), part, relative=2e-2, absolute=1e-3 * second.std_dev)
            for source, part in by_source.items()
        )
        and set(found["parts"]) <= set(by_source)
    )


def plank_volume(line):
    """By stations, each width and each thickness off by one and the same error of its tool."""
    off = {source: ufloat(0, standard, source) for source, standard in line["inputs"].items()}
    length = line["length"] + off["Length"]
    sections = [
        (width + off["Width"]) * (thickness + off["Thickness"])
        for width, thickness in zip(line["widths"], line["thicknesses"])
    ]
    volume = length * (sections[0] + 4 * sections[1] + sections[2]) / 6 / 1e9
    return volume, off


def volume(line):
    return same_estimate(line, plank_volume(line)[0])


def density(line):
    volume, off = plank_volume(line)
    # Each end is weighed with the same scale: its error counts twice.
    mass = sum(line["ends"]) + 2 * off["Scale"]
    return same_estimate(line, mass / volume)


def density_at_12(line):
    volume, off = plank_volume(line)
    mass = sum(line["ends"]) + 2 * off["Scale"]
    moisture = line["moisture"] + off["Meter"] + 0.5 * (20 - line["warmth"] - off["Temperature"]) / 5.6
    gravity = mass / volume / (1000 * (1 + moisture / 100))
    basic = gravity / (1 + 0.265 * gravity * (1 - moisture / 30))
    at_12 = basic / (1 - 0.265 * basic * (1 - 12 / 30))
    return same_estimate(line, 1000 * at_12 * 1.12)


def normal_cdf(line):
    return near(line["found"], stats.norm.cdf(line["z"]), absolute=1e-15)


def conformance(line):
    value = stats.norm(line["value"], line["standard"])
    return near(line["found"], value.cdf(line["high"]) - value.cdf(line["low"]), relative=1e-9, absolute=1e-14)


def geometric_mean(line):
    return near(line["found"], stats.gmean(line["each"]))


def chance_of_at_least(line):
    second = stats.binom.sf(line["wanted"] - 1, line["started"], line["share"])
    return near(line["found"], second, relative=1e-9, absolute=1e-12)


def how_many_to_start(line):
    """The least number: enough, and one less is not."""
    wanted, started, share = line["wanted"], line["found"], line["share"]
    enough = stats.binom.sf(wanted - 1, started, share)
    one_less = stats.binom.sf(wanted - 1, started - 1, share)
    hair = 1e-9
    return enough >= line["confidence"] - hair and one_less < line["confidence"] + hair


CHECKS = {
    check.__name__: check
    for check in [
        typed,
        shown_density,
        board_feet,
        volume,
        density,
        density_at_12,
        normal_cdf,
        conformance,
        geometric_mean,
        chance_of_at_least,
        how_many_to_start,
    ]
}


def main():
    agreed = collections.Counter()
    differing = 0
    for text in sys.stdin:
        line = json.loads(text)
        if CHECKS[line["of"]](line):
            agreed[line["of"]] += 1
        else:
            differing += 1
            print("differs:", text.strip())
    for name in CHECKS:
        print(f"{name:<24}{agreed[name]:>6} agree")
        if agreed[name] == 0:
            differing += 1
            print(f"differs: nothing was asked about {name}")
    print(f"{sum(agreed.values())} agree, {differing} differ")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
