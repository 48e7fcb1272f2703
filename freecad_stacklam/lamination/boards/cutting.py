# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cutting plan: staves onto the boards of the rack, and onto boards to buy where those run out.

How the cheapest boards are searched is told in packing/search.py: a quick answer at once, and on request so many rounds
of looking longer. Every plan passes the independent checker before it is returned.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from freecad_stacklam.lamination.boards import cutcheck
from freecad_stacklam.lamination.boards.gangs import Gang, cut_size, gangings, single
from freecad_stacklam.lamination.boards.sawing import RoughBoard, work
from freecad_stacklam.lamination.boards.stock import comes_flat, suits, trim_of
from freecad_stacklam.lamination.lengths import CUBIC_METRE, size, sizes
from freecad_stacklam.lamination.packing import bounds
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot
from freecad_stacklam.lamination.packing.search import Best, Cancelled, Progress, cheapest
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardsPlan, Stave
from freecad_stacklam.lamination.refusal import Defect, Refusal
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import NO_COST, ROUNDING, SAME_THICKNESS, WHOLE
from freecad_stacklam.lamination.words import say, say_many

#: A board on hand counts as this part of its cost, so that it is used before one is bought.
ON_HAND = 0.5
#: Rounds of looking longer for a cheaper plan.
LOOK_LONGER = 60
#: Ways to gang short staves that are laid at once when it looks longer; the likeliest of them get this part of the
#: rounds each. Both where staves and gangs are few enough for it to be quick.
GANGINGS, LIKELY, SOME, FEW_STAVES, FEW_GANGS = 12, 4, 0.15, 200, 60


class NoRoom(Refusal):
    """Staves that would fit boards which are used up already."""


@dataclass(frozen=True)
class _Job:
    """One kind of stock: its staves (with the copy), the boards that suit, and which of them are only assumed."""

    staves: tuple[tuple[Stave, int], ...]
    boards: tuple[Board, ...]
    assumed: int | None = None


def plan_cutting(
    staves: Sequence[Stave],
    rack: Rack,
    shop: ShopSettings,
    *,
    rounds: int = 0,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
    lp_bound: bool = False,
    avoided: Mapping[str, str] | None = None,
) -> BoardsPlan:
    """Cut all staves, every copy and the spare ones, from boards.

    rounds: 0 for the quick answer, else how long to look for a better one. progress: called with 0…1. cancelled: asked
    often; True ends the search and keeps the best plan so far. avoided: for staves, by name, how boards are sawn that
    they are not cut from. Raises Refusal when a stave fits on no board at all, NoRoom when it only fits boards that are
    used up.
    """
    staves = (*staves, *_spares(staves, shop.spare_staves))
    priced = all(b.price is not None for b in rack.boards)
    jobs = _jobs(staves, rack, shop, avoided or {})
    cuts: list[BoardCut] = []
    short: list[str] = []
    area_bound, lp = 0.0, 0.0 if lp_bound else None
    objective = 0.0
    methods: list[str] = []
    sheets_used: list[ClearBoard] = []
    pieces_in_all = sum(len(j.staves) for j in jobs)
    for n, job in enumerate(jobs):
        share = len(job.staves) / pieces_in_all

        def stage(part: float, n: int = n) -> None:
            if progress:
                progress((n + part) / len(jobs))

        laid = _laid(job, shop, priced, rounds, stage, cancelled)
        methods.append(laid.best.method)
        sheets_used += laid.boards
        objective += sum(laid.boards[f.kind].cost for f in laid.best.boards)
        made, missing = _records(job, laid, shop)
        cuts += made
        short += missing
        # What bounds say is of these gangs: a plan that parts the staves first may need less wood.
        sizes = [(g.length, g.width) for g in laid.gangs]
        floor = bounds.area_bound(sizes, laid.boards, shop.kerf)
        area_bound += floor
        if lp is not None:
            ways = ("crosscut", "rip") if shop.first_cut == "better" else (shop.first_cut,)
            found = bounds.lp_bound(sizes, laid.boards, shop.kerf, ways, share, cancelled)
            # Stopped early it may lie below the area bound, which the whole LP never does.
            lp = None if found is None else lp + max(floor, found)
    prices = {s.cost for s in sheets_used}
    bound = max(area_bound, lp or 0.0)
    # One price: what a bound leaves of a board is a whole one.
    least = ceil(bound / prices.pop() - WHOLE) if len(jobs) == 1 and len(prices) == 1 else None
    used = sum(b.length * b.width for b in cuts)
    pieces = sum(n * w for n, w in (cut_size(s, shop.jointing) for job in jobs for s, _ in job.staves))
    notes = [] if priced else [say("Not every board has a cost: the plan uses the least volume instead.")]
    plan = BoardsPlan(
        staves=tuple(staves), plan=tuple(cuts), kerf=shop.kerf, jointing=shop.jointing,
        shortest_to_machine=shop.shortest_to_machine, first_cut=shop.first_cut, yield_=pieces / used if used else None,
        cost=sum(b.cost for b in cuts if b.cost is not None) if all(b.cost is not None for b in cuts) else None,
        objective=objective, objective_unit="cost" if priced else "m3", bound_area=area_bound, bound_lp=lp,
        least_boards=least,
        short=tuple(short), notes=tuple(notes), method=", ".join(dict.fromkeys(methods)),
        glue_spread=shop.glue_spread, jointer_width=shop.jointer_width, planer_width=shop.planer_width,
        max_stave=shop.max_stave,
    )  # fmt: skip
    faults = cutcheck.faults_of(plan, rack.boards, shop)
    if faults:
        raise Defect(f"The cutting plan ({faults[0]})")
    return plan


def _spares(staves: Sequence[Stave], count: int) -> list[Stave]:
    """The largest staves of every stock once more."""
    kinds: dict[tuple[str, float], list[Stave]] = {}
    for s in staves:
        kinds.setdefault((s.species, round(s.thickness, 3)), []).append(s)
    return [
        replace(s, id=say("Spare for {id}", id=s.id), stack="", copies=1)
        for group in kinds.values()
        for s in sorted(group, key=lambda s: -s.length * s.width)[:count]
    ]


def _jobs(staves: Sequence[Stave], rack: Rack, shop: ShopSettings, avoided: Mapping[str, str]) -> list[_Job]:
    """Staves by species, thickness and the cut they avoid, thickest first, each with the boards that are left for
    it."""
    kinds: dict[tuple[str, float, str], list[tuple[Stave, int]]] = {}
    for s in staves:
        rows = kinds.setdefault((s.species.strip().lower(), round(s.thickness, 3), avoided.get(s.id, "")), [])
        rows += [(s, copy) for copy in range(1, s.copies + 1)]
    free = list(rack.boards)
    jobs = []
    for (species, thickness, cut), rows in sorted(kinds.items(), key=lambda k: (-k[0][1], k[0][0], k[0][2])):
        able = [b for b in rack.boards if suits(b, thickness, species, shop) and not (cut and b.cut == cut)]
        mine = [b for b in free if b in able]
        others = {round(t, 3) for (sp, t, _) in kinds if t != thickness and sp == species}
        # A board on hand serves one thickness: the one that wastes least of it.
        mine = [b for b in mine if b.for_sale or not any(thickness < t <= b.thickness + SAME_THICKNESS for t in others)]
        _takes(rows, mine or able, shop)
        assumed = None
        if not any(b.for_sale for b in mine):
            like = max(able, key=lambda b: (min(b.width, 1e9) * b.length, b.length))
            needed = [cut_size(s, shop.jointing) for s, _ in rows]
            whole = [b for b in able if all(_holds(b, size, shop) for size in needed)]
            like = min(whole, key=lambda b: b.width * b.length) if whole else like
            assumed = len(mine)
            mine = [*mine, replace(like, count=0, for_sale=True, knots=())]
        jobs.append(_Job(tuple(rows), tuple(mine), assumed))
        free = [b for b in free if b.for_sale or b not in mine]
    return jobs


def _holds(board: Board, size: tuple[float, float], shop: ShopSettings) -> bool:
    return size[0] <= board.length - 2 * trim_of(board, shop) + ROUNDING and size[1] <= board.width + ROUNDING


def _takes(rows: Sequence[tuple[Stave, int]], boards: Sequence[Board], shop: ShopSettings) -> None:
    """Refuse a stave that fits on no board, with what is missing."""
    for stave, _ in rows:
        length, width = cut_size(stave, shop.jointing)
        if any(_holds(b, (length, width), shop) for b in boards):
            continue
        if not boards:
            raise Refusal(
                say(
                    "Stave {stave} needs {thickness} {species}, but no board on the rack suits it: add a board of that "
                    "species and thickness.",
                    stave=stave.id,
                    thickness=size(stave.thickness),
                    species=stave.species,
                )
            )
        wide = [b for b in boards if b.width >= width - ROUNDING]
        if not wide:
            most = max(b.width for b in boards)
            raise Refusal(
                say(
                    "Stave {stave} is {width} wide as ripped, but the widest board is {widest}, {short} short: add a "
                    "wider board or allow narrower staves.",
                    stave=stave.id,
                    width=size(width),
                    widest=size(most),
                    short=size(width - most),
                )
            )
        most = max(b.length - 2 * trim_of(b, shop) for b in wide)
        raise Refusal(
            say(
                "Stave {stave} is {length} long, but the longest board wide enough has {longest} between its end "
                "trims, {short} short: add a longer board.",
                stave=stave.id,
                length=size(length),
                longest=size(most),
                short=size(length - most),
            )
        )


def _sheets(job: _Job, across: bool, priced: bool, shop: ShopSettings) -> list[ClearBoard]:
    """Boards as the packer sees them: crosscut first has the board's length along its first axis."""
    sheets = []
    for board in job.boards:
        trim = trim_of(board, shop)
        length = board.length - 2 * trim
        blocks = []
        for k in board.knots:
            x0, x1 = max(0.0, k.x - trim), min(length, k.x + k.dx - trim)
            if x0 < x1:
                blocks.append((x0, k.y, x1, k.y + k.dy) if across else (k.y, x0, k.y + k.dy, x1))
        worth = board.price if priced and board.price is not None else board.volume / CUBIC_METRE
        size = (length, board.width) if across else (board.width, length)
        cost = worth * (1.0 if board.for_sale else ON_HAND)
        sheets.append(ClearBoard(*size, max(cost, NO_COST), board.count, tuple(blocks), first=not board.for_sale))
    return sheets


def _last(sheets: Sequence[ClearBoard], assumed: int | None) -> list[ClearBoard]:
    """The same, with the board that is only assumed dearer than all others together: it is bought where they end."""
    if assumed is None:
        return list(sheets)
    others = sum(s.cost * s.count for n, s in enumerate(sheets) if n != assumed)
    return [replace(s, cost=s.cost + others) if n == assumed else s for n, s in enumerate(sheets)]


@dataclass(frozen=True)
class _Laid:
    """The gangs of a job, where they lie, and the boards, with their length along the first axis."""

    gangs: list[Gang]
    best: Best
    boards: list[ClearBoard]


def _laid(
    job: _Job, shop: ShopSettings, priced: bool, rounds: int, progress: Progress, cancelled: Cancelled | None
) -> _Laid:
    """The cheapest packing found: of gangs, else of staves with waste up to the machines' least length; only where the
    boards have no room for that, of staves as short as they are, which are then worked by hand."""
    ways = {"crosscut": (True,), "rip": (False,), "better": (True, False)}[shop.first_cut]
    along = _sheets(job, True, priced, shop)
    room = [(board.a, board.b) for board in along]
    as_machined = (shop.jointing, shop.kerf, shop.shortest_to_machine, room)
    bare = [single(s, shop.jointing, shop.kerf) for s in job.staves]

    def laid(gangs: list[Gang], rounds: int, progress: Progress = lambda part: None) -> _Laid:
        sizes = [(g.length, g.width) for g in gangs]
        lots = {
            across: Lot(
                sizes if across else [(b, a) for a, b in sizes],
                _last(_sheets(job, across, priced, shop), job.assumed),
                shop.kerf,
            )
            for across in ways
        }
        floor = bounds.area_bound(sizes, _last(along, job.assumed), shop.kerf)
        return _Laid(gangs, cheapest(lots, floor, rounds, progress, cancelled), along)

    many = GANGINGS if rounds > 0 and len(job.staves) <= FEW_STAVES else 2
    ways_to_gang = gangings(job.staves, *as_machined, many)
    tried: list[_Laid] = []
    for gangs in ways_to_gang:
        if len(tried) < 2 or not (cancelled and cancelled()):
            tried.append(laid(gangs, 0))
    tried.sort(key=lambda t: (len(t.best.left), t.best.cost, sum(g.length * g.width for g in t.gangs)))
    if tried[0].best.left:
        tried = [laid(bare, 0), tried[0]]
        tried.sort(key=lambda t: len(t.best.left))
    best = tried[0]
    if rounds <= 0:
        return best
    if len(tried) > 1 and len(best.gangs) <= FEW_GANGS:
        # The likeliest get some rounds each, the cheapest of them the rest.
        share = 0.5
        some = [t for t in tried if not t.best.left][:LIKELY]
        for n, one in enumerate(some):
            progress(share * n / len(some))
            other = laid(one.gangs, ceil(rounds * SOME))
            best = other if other.best.better_than(best.best) else best
    else:
        share = 0.0
    found = laid(best.gangs, rounds, lambda part: progress(share + (1 - share) * part))
    return found if found.best.better_than(best.best) else best


def _records(job: _Job, laid: _Laid, shop: ShopSettings) -> tuple[list[BoardCut], list[str]]:
    """Boards with their pieces, their work and offcuts, and in words what must be bought that the rack does not
    offer."""
    if laid.best.left:
        stave = laid.gangs[laid.best.left[0]].staves[0][0]
        raise NoRoom(
            say(
                "Stave {stave} finds no room on any board clear of its knots ({count} staves in all): add a board, "
                "or one that can be bought.",
                stave=stave.id,
                count=len(laid.best.left),
            )
        )
    cuts: list[BoardCut] = []
    number: dict[int, int] = {}
    for filled in laid.best.boards:
        kind, across = filled.kind, filled.across
        board = job.boards[kind]
        number[kind] = number.get(kind, 0) + 1
        trim, thickness = trim_of(board, shop), job.staves[0][0].thickness
        gangs = [(laid.gangs[i], *((a + trim, b) if across else (b + trim, a))) for i, a, b in filled.places]
        pieces = [p for gang, x, y in gangs for p in gang.pieces(x, y)]
        pieces.sort(key=lambda p: (round(p.x, 6), round(p.y, 6)))
        thick = abs(board.thickness - thickness) <= SAME_THICKNESS
        flat = comes_flat(board, thickness)
        rough = RoughBoard(
            board.length, board.width, shop.kerf, across, shop.shortest_to_machine, flat, thick and flat,
            shop.jointer_width, shop.planer_width,
        )  # fmt: skip
        operations, offcuts = work(rough, gangs)
        alike = board.count != 1
        cuts.append(
            BoardCut(
                board=f"{board.name} #{number[kind]}" if alike else board.name, width=board.width, length=board.length,
                thickness=board.thickness, species=board.species, cost=board.price, on_hand=not board.for_sale,
                pieces=tuple(pieces), knots=tuple(k.box for k in board.knots), operations=operations, offcuts=offcuts,
                priced=board.priced, grade=board.grade, cut=board.cut, end_trim=trim, flat=flat, planed=thickness,
                moisture=board.moisture,
            )
        )  # fmt: skip
    short = []
    if job.assumed is not None and number.get(job.assumed):
        board, count = job.boards[job.assumed], number[job.assumed]
        short.append(
            say_many(
                "The rack is short of {count} board of {board}, free of knots: buy as much, or add what you have.",
                "The rack is short of {count} boards of {board}, free of knots: buy as much, or add what you have.",
                count,
                board=f"{sizes(board.thickness, board.width, board.length)} {board.species}".rstrip(),
            )
        )
    return cuts, short
