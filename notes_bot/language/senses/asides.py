"""Words that tell nothing of the plants: phrases that only look like ours, thanks, "same", a field only mentioned."""

from __future__ import annotations

from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.senses.walk import Walk, unknown


def same(walk: Walk) -> int:
    """Same, ditto; not "same spot"."""
    if walk.after is not None and walk.made.has("except_word", walk.after.text):
        return walk.take()  # "ditto except 4 white"
    return 0 if " " not in walk.piece.text and unknown(walk.after) else walk.take()


def courtesy(walk: Walk) -> int:
    """Thanks, ok: between two breaks."""

    def open_end(piece: Piece | None) -> bool:
        return piece is None or piece.kind in ("break", "line") or "COURTESY" in piece.types

    if walk.has("all_well") and walk.lead == "soft" and walk.first_name < walk.i:
        return 0  # "checked the beans at sycamore lane, all good"
    ends = open_end(walk.at(walk.direct_index(walk.i, -1))) and (open_end(walk.after) or walk.i == 0)
    ends = ends or (walk.has("thank_word") and open_end(walk.after))  # "tomorrow thanks"
    return walk.emit("COURTESY", None, walk.piece.start, walk.piece.end) if ends else 0


def field(walk: Walk) -> int:
    """A known name that is only mentioned."""
    return 0 if len(walk.piece.types) > 1 else walk.text()
