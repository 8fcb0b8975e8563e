"""compare.py CLI SEEDS | compare.py CLI FOLDER ELEVATION: the program's scores against the oracle's.

For each seed a random fleet goes through `CLI create`, `import` and `score --format json`. Results must be equal and scores
within 0.01, except that a check within 1e-6 of another result may have either; every judged check must have the same
conformity, within 0.0001. Exit 1 with each difference told."""
import json
import os
import subprocess
import sys
import tempfile

import oracle
import random_fleet
import tables

NAMES = ("airflow", "reheat_lockout", "discharge_rise")
TABLES = ("air-handlers", "profiles", "instruments", "schedule", "readings")


def run(*words):
    done = subprocess.run(words, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit("%s: exit %d\n%s%s" % (" ".join(words), done.returncode, done.stdout, done.stderr))
    return done.stdout


def program_scores(cli, folder, elevation, project):
    run(cli, "create", project, "--building", "Oracle", "--elevation", elevation)
    for name in TABLES:
        run(cli, "import", name, project, os.path.join(folder, name + ".csv"))
    return json.loads(run(cli, "score", project, "--format", "json"))["units"]


def same(ours, theirs, near):
    result = ours["result"] == theirs["result"] or near
    a, b = ours["score"], theirs["score"]
    return result and ((a is None) == (b is None)) and (a is None or abs(a - b) <= 0.01)


def same_checks(criterion, name, theirs):
    """Whether the judged checks of a criterion have the same conformities, one by one."""
    found = sorted(c["conformity"] for c in theirs["checks"] if c["criterion"] == name and c["conformity"] is not None)
    mine = sorted(c.conformity for c in criterion.checks)
    return len(found) == len(mine) and all(abs(a - b) <= 1e-4 for a, b in zip(mine, found))


def describe(name, criterion, theirs):
    print("    %s: oracle %s %s missing %s" % (name, criterion.result, criterion.score, criterion.missing))
    for check in criterion.checks:
        print("      oracle  ", check)
    for check in theirs["checks"]:
        if check["criterion"] == name:
            print("      program  %s %s: y %s u %s [%s, %s] p %s %s %s" % tuple(check.get(k) for k in (
                "check", "step", "measured", "u", "low", "high", "conformity", "result", "because")))


def compare(cli, folder, elevation, title):
    """The number of units judged, and of those that differ."""
    expected = oracle.judge_folder(folder, tables.number(elevation, "ft"))
    with tempfile.TemporaryDirectory() as place:
        units = program_scores(cli, folder, elevation, os.path.join(place, "oracle.ductwright"))
    different = 0
    if sorted(u["unit"] for u in units) != sorted(expected):
        sys.exit(title + ": the units themselves differ")
    for unit in units:
        mine = expected[unit["unit"]]
        near = any(c.near < 1e-6 for k in mine["criteria"].values() for c in k.checks)
        whole = {"result": mine["result"], "score": mine["score"]}
        bad = [n for n in NAMES if not same({"result": mine["criteria"][n].result, "score": mine["criteria"][n].score},
                                            unit["criteria"][n], near)
               or not same_checks(mine["criteria"][n], n, unit)]
        if bad or not same(whole, unit, near):
            different += 1
            print("%s, unit %s: oracle %s %s, program %s %s" % (
                title, unit["unit"], mine["result"], mine["score"], unit["result"], unit["score"]))
            for name in bad:
                describe(name, mine["criteria"][name], unit)
    return len(units), different


def main():
    cli, what = sys.argv[1], sys.argv[2]
    judged = different = 0
    if os.path.isdir(what):
        judged, different = compare(cli, what, sys.argv[3], what)
    else:
        for seed in range(1, int(what) + 1):
            with tempfile.TemporaryDirectory() as folder:
                elevation = random_fleet.write(folder, seed)
                n, bad = compare(cli, folder, elevation, "seed %d" % seed)
            judged, different = judged + n, different + bad
    print("%d units judged twice, %d different" % (judged, different))
    sys.exit(1 if different or not judged else 0)


if __name__ == "__main__":
    main()
