# SPDX-License-Identifier: LGPL-2.1-or-later

"""A thousand forms, by hand:

    python tests/corpus/run.py --count 1000 --seed 1              # triangles, plain Python
    python tests/corpus/run.py --what solids --count 300 --seed 1  # Part solids, a Python that finds FreeCAD
    python tests/corpus/run.py --what models                       # files of other people's forms, the same Python

Forms are planned in a process beside, which is ended when it takes too long. Every outcome is a line of JSON in --out,
and what stands there already is not done again; at the end stands the table by kind. A fault is told with the kind and
number that make it again: --kind KIND --only NUMBER.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import os
import sys
from collections.abc import Callable, Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
sys.path.insert(0, str(Path(__file__).resolve().parent))

from chances import settings_for
from meshforms import KINDS, mesh_form
from trial import FAULT, PROVEN, REFUSED, Outcome, planned_mesh, tried

#: Processor seconds after which a form is given up: a busy machine is no fault.
GIVEN_UP = 180.0
Task = tuple[str, str, int, bool]  # what, kind, seed, judged


def tasks(what: str, kinds: list[str], count: int, seed: int, every: int) -> Iterator[Task]:
    """`count` forms, the kinds in turn; of each kind every `every`th is judged from outside."""
    for k in range(count):
        yield what, kinds[k % len(kinds)], seed * 100_000 + k // len(kinds), (k // len(kinds)) % every == 0


def name_of(task: Task) -> str:
    """What its outcome is called."""
    return task[1] if task[0] == "models" else f"{task[1]} {task[2]}"


def outcome(task: Task) -> Outcome:
    """Try one form."""
    what, kind, seed, judge = task
    if what == "meshes":
        return mesh_outcome(kind, seed, judge)
    if what == "solids":
        from partforms import solid_outcome

        return solid_outcome(kind, seed, judge)
    from modelfiles import model_outcome

    return model_outcome(kind, seed, judge)


def mesh_outcome(kind: str, seed: int, judge: bool) -> Outcome:
    """Form `seed` of a kind of triangles."""
    raw = mesh_form(kind, seed)
    return tried(
        kind, f"{kind} {seed}",
        lambda: planned_mesh(raw.vertices, raw.triangles, lambda box: settings_for(seed, box, raw.step)), judge,
    )  # fmt: skip


def _worker(pipe: Any) -> None:
    while True:
        task = pipe.recv()
        if task is None:
            return
        pipe.send(outcome(task))


def spent(process: int) -> float:
    """Processor seconds of a process so far (/proc/PID/stat, fields 14 and 15: proc(5))."""
    fields = Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def all_outcomes(todo: list[Task], given_up: float = GIVEN_UP) -> Iterator[Outcome]:
    """Every form in turn, in a process beside this one, which is ended and begun anew where it hangs or falls."""
    context = multiprocessing.get_context("spawn")
    process = pipe = None
    for task in todo:
        if process is None:
            pipe, end = context.Pipe()
            process = context.Process(target=_worker, args=(end,), daemon=True)
            process.start()
            end.close()
        pipe.send(task)
        started = spent(process.pid)
        try:
            while not (there := pipe.poll(2.0)) and spent(process.pid) - started < given_up:
                pass
            found = pipe.recv() if there else None
        except EOFError:
            found = Outcome(task[1].split("/")[0], name_of(task), FAULT, 0.0, "the process ended")
            process = None
        if found is None:
            process.kill()
            process, found = None, Outcome(task[1].split("/")[0], name_of(task), FAULT, given_up, "given up: it hangs")
        yield found
    if process is not None:
        pipe.send(None)
        process.join(10)


def table(found: list[Outcome]) -> str:
    """The table by kind, as it stands in the docs."""
    lines = ["| kind | forms | proven | of these, a room left out | refused | faults | judged outside | most layers |"
             " longest, s | all, s |", "|---|---|---|---|---|---|---|---|---|---|"]  # fmt: skip
    kinds = list(dict.fromkeys(o.kind for o in found))
    for kind in [*kinds, ""]:
        of = [o for o in found if kind in ("", o.kind)]
        count = {v: sum(o.verdict == v for o in of) for v in (PROVEN, REFUSED, FAULT)}
        left = sum(bool(o.left_out) for o in of)
        lines.append(
            f"| {kind or 'all'} | {len(of)} | {count[PROVEN]} | {left} | {count[REFUSED]} | {count[FAULT]} | "
            f"{sum(o.judged for o in of)} | {max(o.layers for o in of)} | {max(o.seconds for o in of):.1f} | "
            f"{sum(o.seconds for o in of):.0f} |"
        )
    return "\n".join(lines)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--what", choices=["meshes", "solids", "models"], default="meshes")
    parser.add_argument("--count", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", action="append", help="only these; may be given several times")
    parser.add_argument("--only", type=int, help="the number of one form, as a fault names it, with --kind")
    parser.add_argument("--judge-every", type=int, default=1)
    parser.add_argument("--out", type=Path, help="a file for every outcome, a line of JSON each")
    parser.add_argument("--table", type=Path, nargs="+", help="only the table of files written before")
    asked = parser.parse_args()
    if asked.table:
        found = [read(line) for path in asked.table for line in path.read_text(encoding="utf-8").splitlines()]
        print(table(found))
        return 0
    kinds: Callable[[], list[str]] = {"meshes": lambda: list(KINDS), "solids": _solids, "models": _models}[asked.what]
    chosen = asked.kind or kinds()
    if asked.only is not None:
        print(outcome((asked.what, chosen[0], asked.only, True)))
        return 0
    count = asked.count if asked.what != "models" else len(chosen)
    found = []
    if asked.out and asked.out.is_file():
        found = [read(line) for line in asked.out.read_text(encoding="utf-8").splitlines()]
    done = {o.name for o in found}
    todo = [t for t in tasks(asked.what, chosen, count, asked.seed, asked.judge_every) if name_of(t) not in done]
    for one in all_outcomes(todo):
        found.append(one)
        if asked.out:
            with asked.out.open("a", encoding="utf-8") as file:
                file.write(json.dumps(asdict(one)) + "\n")
        if one.verdict == FAULT:
            print(f"FAULT {one.name} ({one.seconds:.1f} s): {one.says}", flush=True)
    print(table(found))
    refusals = sorted({o.says for o in found if o.verdict == REFUSED})
    print(f"{len(refusals)} refusals:", *refusals[:60], sep="\n  ")
    return int(any(o.verdict == FAULT for o in found))


def read(line: str) -> Outcome:
    """An outcome from its line."""
    fields = json.loads(line)
    return Outcome(**{**fields, "left_out": tuple(fields["left_out"])})


def _solids() -> list[str]:
    from partforms import SOLIDS

    return list(SOLIDS)


def _models() -> list[str]:
    from modelfiles import names

    return names()


if __name__ == "__main__":
    raise SystemExit(main())
