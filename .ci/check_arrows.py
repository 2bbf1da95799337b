#!/usr/bin/env python3
"""Holds every include to .ci/arrows.txt, refuses a circle in it, and follows paths that comments name."""
import pathlib
import re
import subprocess
import sys

allowed = {}
for line in pathlib.Path(".ci/arrows.txt").read_text().splitlines():
    line = line.split("#")[0].strip()
    if line:
        room, sees = line.split(":")
        allowed[room] = sees.split()

files = subprocess.run(["git", "ls-files", "*.h", "*.cpp"], capture_output=True, text=True).stdout.split()
troubles = []


def room_of(path):
    parts = path.split("/")
    for room in ("/".join(parts[:2]), parts[0]):
        if room in allowed:
            return room
    return None


def may_see(room, other):
    return other == room or any(other == seen or other.startswith(seen + "/") or seen.startswith(other + "/") for seen in allowed[room])


for name in files:
    if name.startswith("tests/"):
        continue
    room, text = room_of(name), pathlib.Path(name).read_text()
    if room is None:
        if name != "modeller/main.cpp":
            troubles.append(f"{name}: its room is not in .ci/arrows.txt")
        continue
    for include in re.findall(r'^#include "([^"]+)"', text, re.M):
        if not pathlib.Path(include).is_file():
            troubles.append(f"{name}: includes {include}, which is not here")
        elif (other := room_of(include)) and not may_see(room, other):
            troubles.append(f"{name}: {room} may not see {other} ({include})")

# A circle would make the order of the rooms a lie.
done, path = set(), []


def visit(room):
    if room in path:
        troubles.append("rooms in a circle: " + " -> ".join(path[path.index(room):] + [room]))
    elif room in allowed and room not in done:
        path.append(room)
        for other in allowed[room]:
            visit(other)
        done.add(path.pop())


for room in allowed:
    visit(room)

# What a comment names must be here.
tracked = set(subprocess.run(["git", "ls-files"], capture_output=True, text=True).stdout.split())
folders = {str(parent) for name in tracked for parent in pathlib.PurePath(name).parents}
basenames = {pathlib.PurePath(name).name for name in tracked}
for name in files:
    for number, line in enumerate(pathlib.Path(name).read_text().splitlines(), 1):
        comment = line.split("//", 1)[1] if "//" in line and '"' not in line.split("//", 1)[0] else ""
        for cited in re.findall(r"\b(?:geometry|exporters|viewer|modeller|tests|samples)/[\w./-]*\w", comment):
            if cited not in tracked and cited not in folders:
                troubles.append(f"{name}:{number}: names {cited}, which is not here")
        for cited in re.findall(r"\b[\w-]+\.(?:md|h|cpp)\b", comment):
            if cited not in basenames:
                troubles.append(f"{name}:{number}: names {cited}, which is not here")
        if re.search(r"\bcontract\b[^.]*\b(?:section|page)\b|the contract\b", comment):
            troubles.append(f"{name}:{number}: cites a page that is not here: say the rule itself")

print("\n".join(troubles) if troubles else f"arrows: {len(files)} files as .ci/arrows.txt has them")
sys.exit(1 if troubles else 0)
