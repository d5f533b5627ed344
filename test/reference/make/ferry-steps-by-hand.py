"""The invented Ferry Steps drink computed by another program and another route.

Preparations are solved together as one linear system (numpy), not walked as a tree; densities by mpmath.
Run from the repository root:
python3 test/reference/make/ferry-steps-by-hand.py > test/reference/data/ferry-steps-by-hand.json
"""
import json
import math
import platform

import numpy
import mpmath

trial = json.load(open("lib/commands/example-trial.json"))
preps = trial["preparations"]
names = list(preps)


def grams(line):
    if line.get("weighedGrams"):
        return line["weighedGrams"]
    if "targetGrams" in line:
        return line["targetGrams"]
    return line["typed"]["amount"] * line["typed"]["density"]  # ml


def leaf(line, what):
    if what == "cost":
        return line.get("costPerGram", 0.0)
    if line["kind"] in ("water", "ice"):
        return 1.0 if what == "water" else 0.0
    return (line.get("composition") or {}).get(what, 0.0) / 100


def per_gram(what):
    """Content per gram of each preparation: (I - share of each input) x = what the leaves bring."""
    n = len(names)
    left, right = numpy.eye(n), numpy.zeros(n)
    for i, name in enumerate(names):
        prep = preps[name]
        into = sum(grams(x) for x in prep["inputs"])
        out = prep["outputGrams"]
        # Steam takes only water; what is strained off takes its share of everything but the money spent.
        keep = into if prep["kind"] == "mix" and what != "cost" else out
        for line in prep["inputs"]:
            if line.get("preparation"):
                left[i, names.index(line["preparation"])] -= grams(line) / keep
            else:
                right[i] += grams(line) * leaf(line, what) / keep
        if what == "water" and prep["kind"] == "syrup":
            right[i] -= (into - out) / out
    solved = dict(zip(names, numpy.linalg.solve(left, right)))
    if what in ("sugars", "freeSugars", "sweetness"):
        solved["date-syrup"] = preps["date-syrup"]["brixMeasured"] / 100  # only the refractometer knows
    return solved


exec(open("test/reference/make/icumsa-sps4-density.py").read().split("cases =")[0])  # solution(brix, t)

brew = trial["brew"]
dose = grams(trial["lines"][0])
W = brew["ratio"] * dose
B = W - brew["retention"] * dose
E = brew["extractionPercent"] / 100
strength = E * dose / (W + E * dose)
tables = {what: per_gram(what) for what in ("sugars", "freeSugars", "fat", "protein", "energyKcal", "sweetness", "water", "cost")}


def whole(what, coffee):
    total = coffee
    for line in trial["lines"][1:]:
        key = line.get("preparation")
        total += grams(line) * (tables[what][key] if key else leaf(line, what))
    return total


poured = {line["key"]: grams(line) for line in trial["lines"][1:]}
liquid = B + sum(g for k, g in poured.items() if k != "ice")
sugar_date, sugar_card = tables["sugars"]["date-syrup"], tables["sugars"]["cardamom-syrup"]
volume = (B + poured["date"] / float(solution(100 * sugar_date, 20)) * 1000
          + poured["cardamom"] / float(solution(100 * sugar_card, 20)) * 1000 + poured["milk"] / 1.065)


def syrup_heat(w, t):
    return 4.184 - 2.971 * w + 0.460 * w + 0.0075 * w * t


milk_water = 0.7404
heat = (B * 4.186 * 60 + poured["date"] * syrup_heat(sugar_date, 8) * 8
        + poured["cardamom"] * syrup_heat(sugar_card, 8) * 8
        + poured["milk"] * (4.19 * milk_water + 0.84 * (1 - milk_water)) * 5)
melt = (heat - 200 * 2.05 * 10) / 333.55
room = 0.35 * 25 * 60 / 333.55
solids = strength * B
cost = whole("cost", dose * 0.018)
glass = cost * 1.03 + 0.14
net = 3.5 / 1.12
reach = dose * 0.95 * B / W  # times mg of caffeine in a gram of coffee: 11 to 12 by the file
low, high = 0.7 * 11 * reach, 1.3 * 12 * reach
values = {
    "totalMass": liquid + 200, "volume": volume + 200 / 0.9167, "roomToBrim": 473 - volume - 200 / 0.9167,
    "roomToFillLine": 455 - volume - 200 / 0.9167,
    "iceMelted": melt, "temperature": 0.0,
    "solidsBeforeMelt": 100 * solids / liquid, "solidsAfterMelt": 100 * solids / (liquid + melt),
    "dilution5": melt + 5 * room, "dilution10": melt + 10 * room, "dilution20": melt + 20 * room,
    "sugars": whole("sugars", 0), "freeSugars": whole("freeSugars", 0), "sweetness": whole("sweetness", 0),
    "fat": whole("fat", B * 0.0002), "protein": whole("protein", B * 0.0012), "energy": whole("energyKcal", B * 0.01),
    "caffeine": (low + high) / 2, "caffeineLow": low, "caffeineHigh": high,
    "ingredients": cost, "perGlass": glass, "netPrice": net, "costShare": 100 * glass / net,
    "contribution": net - glass, "breakEven": math.ceil(1200 / (net - glass)),
    "priceForTargetNet": glass / 0.25, "priceForTargetMenu": glass / 0.25 * 1.12,
}
print(json.dumps({
    "source": "invented drink of lib/commands/example-trial.json; formulas as cited in lib/drink",
    "page": "balances of mass, sugar, heat and money",
    "tool": "numpy.linalg.solve, mpmath",
    "versions": {"python": platform.python_version(), "numpy": numpy.__version__, "mpmath": mpmath.__version__},
    "script": "test/reference/make/ferry-steps-by-hand.py", "made": "2026-11-25",
    "within": 1e-9, "cases": [{"figure": k, "value": v} for k, v in values.items()],
}, indent=1))
