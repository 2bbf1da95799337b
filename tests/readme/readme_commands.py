#!/usr/bin/env python3
"""Runs the README's own commands against exactly what samples/run builds: readme_commands.py SOURCE BUILD.

Every command of the table and every line of a sh block that starts build/release/halfhard is run once in a folder of its
own, in the README's order; `view` must open and stay open. The programs must be inputs of the target that samples/run
asks for, so that no command of the README needs what only the tests build."""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

source, build = (pathlib.Path(word).resolve() for word in sys.argv[1:3])
failures = []


def check(holds, what):
    print(("ok      " if holds else "FAILED  ") + what)
    if not holds:
        failures.append(what)


targets = re.findall(r"bash \.ci/build (\S+)", (source / "samples/run").read_text())
check(targets[-1] == "programs", "samples/run ends by building the target programs")
steps = subprocess.run(["ninja", "-C", build, "-t", "commands", targets[-1]], capture_output=True, text=True).stdout
linked = set(re.findall(r"-o (halfhard[a-z-]*)\s", steps))
for program in ["halfhard", "halfhard-make", "halfhard-solids", "halfhard-window"]:
    check(program in linked, f"{program} is built by samples/run")

readme = (source / "README.md").read_text()
blocks = re.findall(r"```sh\n(.*?)```", readme, re.S)
lines = [line.split("#")[0].strip() for block in blocks for line in block.splitlines()]
commands = [line for line in lines if line.startswith("build/release/halfhard")]
check(len(commands) >= 3, "the README shows commands to try")
# A command of the table with its words in capitals replaced by what a person would have at hand.
words = {"JOB...": "tail.json", "[JOB]": "tail.json", "JOB": "tail.json", "KIND": "offset", "DIR": "out", "FILE.png": "tail.png",
         "FILE.html": "tail.html", "TRIAL": "trial.json", "MEASURED": "measured.json"}
for row in re.findall(r"^\| `halfhard ([^|]*)` \|", readme, re.M):
    row = row.replace("`, `", "\n").split("\n")[0]
    row = re.sub(r"\[--[^\]]*\]", "", row)
    for name, value in words.items():
        row = row.replace(name, value)
    commands.append("build/release/halfhard " + row.strip())

with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    (work / "build").mkdir()
    (work / "build/release").symlink_to(build)
    (work / "trial.json").write_text('{ "format": "halfhard-trial/1", "title": "scrap", "bender": "bench", "tube": "15 mm", '
        '"outside_diameter": 15, "trials": [ { "set": 92, "got": 90, "cut_length": 400, "legs": [217.5, 223.25], "mark": 150 } ] }')
    (work / "measured.json").write_text('{ "format": "halfhard-measured/1", "run": "tail", '
        '"bends": [ { "number": 1, "angle": 44.9 }, { "number": 2, "angle": 45 } ] }')
    for command in commands:
        opens = " view" in command
        line = ("xvfb-run -a timeout 6 " if opens else "") + command
        ran = subprocess.run(["bash", "-c", line], cwd=work, capture_output=True, text=True)
        # 1 is an answer: nothing found, or a check that fails on purpose. A window that stays open is ended by the clock.
        well = ran.returncode == 124 if opens else ran.returncode in (0, 1)
        check(well, f"{command} (left with {ran.returncode}) {ran.stderr.strip()[-300:] if not well else ''}")
    for made in ["tail.json", "out/tail/tail-bend-table.txt", "out/tail/picture.png", "tail.png"]:
        check((work / made).is_file() and (work / made).stat().st_size > 0, f"{made} was made")
sys.exit(1 if failures else 0)
