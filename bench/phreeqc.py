"""Runs waters through PHREEQC (phreeqpython's shared library): standard input and output are JSON.

All waters stand in one input text, so that a call from Python is made once and not per water. Timed is that one call, in
processor time, without any output asked of it; the figures are read afterwards, which is not timed.
"""
import json
import os
import sys
import time

import phreeqpython
from phreeqpython.viphreeqc import VIPhreeqc

DATABASE = os.path.join(os.path.dirname(phreeqpython.__file__), "database", "phreeqc.dat")


def block(number, water):
    lines = [f"SOLUTION {number}", f" temp {water['t']!r}", " pH 7", " units mol/kgw"]
    lines += [f" {name} {amount!r}" for name, amount in water["totals"].items() if amount > 0]
    lines += [f" C(4) {water['dic']!r}", f" Alkalinity {water['alk']!r}", ""]
    return "\n".join(lines)


def figures(program, number):
    return [program.get_ph(number), program.get_molality(number, "CO2"), program.get_si(number, "Calcite")]


def main():
    question = json.load(sys.stdin)
    text = "".join(block(i + 1, w) for i, w in enumerate(question["waters"])) + "END\n"
    best = float("inf")
    for _ in range(question["runs"]):
        program = VIPhreeqc()
        program.load_database(DATABASE)
        start = time.process_time()
        program.run_string(text)
        best = min(best, time.process_time() - start)
    answer = {"seconds": best, "waters": [figures(program, i + 1) for i in range(len(question["waters"]))]}
    json.dump(answer, sys.stdout)


main()
