"""Runs the six pages of `pages.py` through general-purpose typesetters and through our own, and
prints how many times longer than ours each takes: once from a cold start (a whole process that
makes one document), once warm (the median document of a process that makes many).

usage: python3 benches/typesetters.py [--rounds N] [--documents N] [--program PATH]
needs: python3 with venv, cargo, a package index to install typst, weasyprint and reportlab from

Everything runs on one processor, one engine after the other, in turns, so that what else the
machine does falls on all of them. Compare the ratios; the milliseconds drift.
"""

import argparse
import json
import os
import pathlib
import shutil
import statistics
import subprocess
import sys
import time
import venv

HERE = pathlib.Path(__file__).resolve().parent
ENGINES = ["typst", "typst-kept", "weasyprint", "reportlab"]
# Weasyprint takes about a second for a document: fewer of them say as much.
SLOW = {"weasyprint"}


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--documents", type=int, default=40)
    parser.add_argument("--program", help="ours, if it is built already: benches/paper.rs names itself")
    wish = parser.parse_args()

    work = HERE.parent / "target" / "typesetters"
    work.mkdir(parents=True, exist_ok=True)
    python = environment(work / "venv")
    pages = work / "pages"
    pages.mkdir(exist_ok=True)

    ours = wish.program or our_program()
    commands = {"lidsheet": [ours, "new"], "lidsheet-kept": [ours, "kept"]}
    for engine in ENGINES:
        commands[engine] = [python, HERE / "pages.py", engine]
    cold = {name: [] for name in commands}
    warm = {name: [] for name in commands}
    for _ in range(wish.rounds):
        for name, command in commands.items():
            start = time.perf_counter()
            run([*command, "1", pages])
            cold[name].append(time.perf_counter() - start)
            count = max(3, wish.documents // 10) if name in SLOW else wish.documents
            seconds = json.loads(run([*command, str(count), pages]))
            # The first document of a process pays for what the others then have at hand.
            warm[name].append(statistics.median(seconds[1:]))
    # What an empty interpreter costs: a cold start of the others holds it, ours does not.
    bare = []
    for _ in range(wish.rounds):
        start = time.perf_counter()
        run([python, "-c", "pass"])
        bare.append(time.perf_counter() - start)

    print(f"{wish.rounds} rounds, one processor, six A4 pages a document; ratios of medians (of the fastest)")
    print(f"{'':14} {'cold start':^29} {'warm':^29}")
    for name in commands:
        # What keeps nothing is compared with ours that keeps nothing, the kept with the kept.
        our = "lidsheet-kept" if name.endswith("-kept") else "lidsheet"
        cells = []
        for times in (cold, warm):
            middle = statistics.median(times[name])
            ratio = middle / statistics.median(times[our])
            least = min(times[name]) / min(times[our])
            cells.append(f"{middle * 1000:7.1f} ms {ratio:6.2f}x ({least:.2f}x)".ljust(29))
        print(f"{name:14} " + " ".join(cells).rstrip())
    print("kept: one typesetter for all documents, so that it may remember what it has set before")
    print(f"an empty Python process takes {statistics.median(bare) * 1000:.1f} ms")


def environment(folder):
    """A virtual environment with the typesetters in it; its Python."""
    python = folder / "bin" / "python"
    if not python.exists():
        venv.create(folder, with_pip=True)
    names = ["typst", "weasyprint", "reportlab"]
    subprocess.run([python, "-m", "pip", "install", "--quiet", *names], check=True)
    return python


def our_program():
    """Builds `benches/paper.rs` and gives its program."""
    built = subprocess.run(
        ["cargo", "bench", "--no-run", "--bench", "paper", "--message-format=json"],
        cwd=HERE.parent,
        check=True,
        stdout=subprocess.PIPE,
        text=True,
    )
    for line in built.stdout.splitlines():
        message = json.loads(line)
        if message.get("executable") and message["target"]["name"] == "paper":
            return message["executable"]
    sys.exit("cargo built no program for benches/paper.rs")


def run(command):
    """The standard output of a command that runs on one processor."""
    pin = ["taskset", "-c", "0"] if shutil.which("taskset") else []
    only_one = {**os.environ, "RAYON_NUM_THREADS": "1"}
    done = subprocess.run(
        [*pin, *map(str, command)], check=True, stdout=subprocess.PIPE, text=True, env=only_one
    )
    return done.stdout


if __name__ == "__main__":
    main()
