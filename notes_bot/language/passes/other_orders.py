"""Counts told otherwise than number and noun: "blancas y amarillas, 7 de cada", "9 numa e 13 na outra".

"Doce (12) blancas" and "unas cuantas blancas (5)" tell a number in brackets; "branca contei quinze e amarela só duas"
names each color before its count; "y en las tres más que nada amarillas" speaks of the three plants told before.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import in_figures, is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at, put_aside
from notes_bot.language.lexicon.words import Entry, Table, anywhere

MOST_BETWEEN = 4
"""Pieces from a color to its count, "amarela eu contei só quinze" (judgement)."""
MOST_SAID = 5
"""Pieces of a phrase such as "en la del medio" (judgement)."""
FARTHEST = 40
"""Pieces back to the plants that are spoken of again (judgement)."""
MOST_ONE_BY_ONE = 6
"""Plants told as one, another, the last (judgement)."""
_FEMALE = (Entry("FEMALES", "female"),)
_PLANT = (Entry("PLANTS", "plants"),)


def counted_up_to(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "(Llegué a) 14 blancas", "(contei até) 14 fêmeas", "(got up to) 14 white": how far one came is the count."""
    return put_aside(pieces, lambda n: _counting_up(pieces, n, made))


def _counting_up(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the words before such a count end; 0 for none."""
    if not made.has("reached_word", pieces[n].text.split(" ")[-1]):
        return 0
    for size in (2, 1):
        noun = piece_at(pieces, n + size + 2)
        led = made.has("reached_to", " ".join(piece.text for piece in pieces[n + 1 : n + 1 + size]))
        if led and count_told(piece_at(pieces, n + size + 1)) is not None and is_any(noun, ("COLOUR", "FEMALES")):
            return n + size + 1
    return 0


def counts_in_brackets(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Doce (12) blancas", "un par de tostadas (2)": what stands in brackets is the count, told once."""
    out = list(pieces)
    for n in range(len(out) - 3, 0, -1):
        if n + 2 >= len(out) or out[n].text != "(" or out[n + 2].text != ")":
            continue
        number, shade, before = out[n + 1], out[n - 1], piece_at(out, n - 2)
        count = count_told(number)
        if count is None:
            continue
        shaded = is_any(shade, ("COLOUR",)) and n > 1 and before is not None
        if count_told(shade) == count or (shaded and count_told(before) == count):
            del out[n : n + 3]
        elif shaded and before is not None and made.has("some_few", before.text):
            color = Piece("word", shade.text, number.end, number.end, shade.entries)
            out[n - 2 : n + 3] = [in_figures(number), color]
    return out


def colors_told_again(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Ocho color té con leche, (o sea tostadas)", "b 6, a 10 (blancas, amarillas)": counted, and named once more."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _said_otherwise(pieces, n, made) or _legend(pieces, n)
        out.append(Piece("aside", "", pieces[n].start, pieces[end - 1].end) if end else pieces[n])
        n = end or n + 1
    return out


def _said_otherwise(pieces: list[Piece], n: int, made: Table) -> int:
    """Where ", o sea tostadas" behind a color ends; 0 for no such."""
    if not n or not is_any(pieces[n - 1], ("COLOUR",)):
        return 0
    k = n + (pieces[n].text == ",")
    size = next((size for size in (2, 1) if made.has("that_is", " ".join(p.text for p in pieces[k : k + size]))), 0)
    at = k + size + (getattr(piece_at(pieces, k + size), "text", "") == ",")
    told = size and is_any(piece_at(pieces, at), ("COLOUR",)) and ends_clause(piece_at(pieces, at + 1))
    return at + 1 if told else 0


def _legend(pieces: list[Piece], n: int) -> int:
    """Where a bracket that holds only colors counted right before it ends; 0 for no such."""
    if pieces[n].text != "(" or not is_any(piece_at(pieces, n + 1), ("COLOUR",)):
        return 0
    closes = next((k for k in range(n + 1, min(n + MOST_IN_LEGEND, len(pieces))) if pieces[k].text == ")"), 0)
    shades = [p.types["COLOUR"].value for p in pieces[n + 1 : closes] if is_any(p, ("COLOUR",))]
    told = range(max(1, n - MOST_IN_LEGEND), n)
    counted = [
        p.types["COLOUR"].value
        for k, p in ((k, pieces[k]) for k in told)
        if is_any(p, ("COLOUR",)) and (number_like(pieces[k - 1]) or number_like(piece_at(pieces, k + 1)))
    ]
    bare = not any(number_like(p) for p in pieces[n + 1 : closes])
    return closes + 1 if closes and bare and len(shades) > 1 and set(shades) <= set(counted) else 0


MOST_IN_LEGEND = 14
"""Pieces of a bracket that names the colors, and of what it explains (judgement)."""


def colors_before_counts(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Branca contei quinze e amarela só duas" as "branca quinze e amarela duas": two colors or more told so."""
    drop: list[int] = []
    run: list[int] = []
    told = 0
    n = 0
    while n < len(pieces):
        end = _count_behind(pieces, n, made) if is_any(pieces[n], ("COLOUR",)) and len(pieces[n].text) > 1 else 0
        if not end:
            n += 1
            continue
        before = piece_at(pieces, n - 1)
        if number_like(before) or (is_any(before, ("FEMALES",)) and number_like(piece_at(pieces, n - 2))):
            return pieces  # "12 blancas conté 3 .."
        run += range(n + 1, end)
        told += 1
        n = end + 1
        behind = piece_at(pieces, n)
        if ends_clause(behind) and (behind is None or behind.value != "soft"):
            drop, run, told = drop + (run if told > 1 else []), [], 0
    drop += run if told > 1 else []
    gone = set(drop)
    return [piece for n, piece in enumerate(pieces) if n not in gone] if gone else pieces


def _count_behind(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the count of the color at n stands, words like "contei só" between; 0 for none."""
    for k in range(n + 1, min(n + 2 + MOST_BETWEEN, len(pieces))):
        if count_told(pieces[k]) is not None:
            behind = piece_at(pieces, k + 1)
            free = ends_clause(behind) or (behind is not None and behind.text in anywhere("and_word"))
            return k if free else 0
        if not all(made.has("counts_shade", word) for word in pieces[k].text.split(" ")):
            return 0
    return 0


def each_of_two_colors(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Blancas y amarillas, 7 de cada", "mitad y mitad, 8 y 6": so many of the one and so many of the other."""
    for n in range(len(pieces) - 2):
        first, joint, second = pieces[n : n + 3]
        pair = is_any(first, ("COLOUR",)) and is_any(second, ("COLOUR",)) and joint.text in anywhere("and_word")
        if not pair or min(len(first.text), len(second.text)) < 2 or number_like(piece_at(pieces, n - 1)):
            continue
        k = n + 3
        while (piece := piece_at(pieces, k)) is not None and (
            made.has("halves_word", piece.text) or piece.text in (",", ":", "-")
        ):
            k += 1
        counts, end = _each_or_both(pieces, k, made)
        if counts is not None and k > n + 3 and not _two_plants(pieces, n):
            begin = n
            while begin and (made.has("halves_word", pieces[begin - 1].text)):
                begin -= 1
            return [*pieces[:begin], *_told(counts, (first, second)), *each_of_two_colors(pieces[end:], made)]
    return pieces


def each_ahead(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "7 de cada color, blancas y amarillas"."""
    for n in range(len(pieces) - 3):
        counts, end = _each_or_both(pieces, n, made) if count_told(pieces[n]) is not None else (None, n)
        if counts is None or counts[0] is not counts[1]:
            continue
        k = end + (getattr(piece_at(pieces, end), "text", "") in (",", ":"))
        row = pieces[k : k + 3]
        pair = len(row) == 3 and is_any(row[0], ("COLOUR",)) and is_any(row[2], ("COLOUR",))
        if pair and row[1].text in anywhere("and_word") and ends_clause(piece_at(pieces, k + 3)):
            return [*pieces[:n], *_told(counts, (row[0], row[2])), *pieces[k + 3 :]]
    return pieces


def _each_or_both(pieces: list[Piece], k: int, made: Table) -> tuple[tuple[Piece, Piece] | None, int]:
    """The counts of two colors that stand at k, "7 de cada una" or "8 y 6", and where they end."""
    number = piece_at(pieces, k)
    if number is None or count_told(number) is None:
        return None, k
    joint, other = piece_at(pieces, k + 1), piece_at(pieces, k + 2)
    if joint is None or other is None:
        return None, k
    if made.has("of_word", joint.text) and is_any(other, ("EACH",)):
        end = k + 3 + (made.has("color_word", getattr(piece_at(pieces, k + 3), "text", "")))
        plant = any(e.type == "PLANTS" for w in other.text.split(" ") for e in made.singles.get(w, ()))
        return (None, k) if plant or not ends_clause(piece_at(pieces, end)) else ((number, number), end)
    if joint.text in anywhere("and_word") and count_told(other) is not None and ends_clause(piece_at(pieces, k + 3)):
        return (number, other), k + 3
    return None, k


def _two_plants(pieces: list[Piece], n: int) -> bool:
    """Were two plants told before, of which each may have had one of two counts?"""
    return any(is_any(pieces[k], ("PLANTS", "DUG")) and count_told(pieces[k - 1]) == 2 for k in range(1, n))


def _told(counts: tuple[Piece, Piece], shades: tuple[Piece, Piece]) -> list[Piece]:
    """Two counts with their colors, a comma between."""
    row: list[Piece] = []
    for count, shade in zip(counts, shades, strict=True):
        number = in_figures(count)
        row += [Piece("break", ",", number.start, number.start, (), "soft")] if row else []
        row += [number, Piece("word", shade.text, number.end, number.end, shade.entries)]
    return row


def plants_that_were_dug(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "De diez que saqué a pala salieron 14 hembras": the ten are plants, where no others are counted."""
    for n in range(len(pieces) - 2):
        that = made.has("that_word", pieces[n + 1].text) and is_any(pieces[n + 2], ("DUG",))
        share = n > 1 and count_told(pieces[n - 2]) is not None and made.has("of_word", pieces[n - 1].text)
        share = share or (n > 1 and count_told(pieces[n - 2]) is not None and is_any(pieces[n - 1], ("DAP",)))
        if not that or share or count_told(pieces[n]) is None:
            continue  # "3 das 8 que arranquei"
        counted = (k for k, p in enumerate(pieces) if k and is_any(p, ("PLANTS",)))
        if any(count_told(pieces[k - 1]) is not None for k in counted):
            return pieces
        number = in_figures(pieces[n])
        end = n + 3
        while (how := piece_at(pieces, end)) is not None and is_any(how, ("TOOL", "SOAKED")):
            end += 1
        plants = [number, Piece("word", "", number.end, number.end, _PLANT)]
        stop = Piece("break", ",", pieces[end - 1].end, pieces[end - 1].end, (), "soft")
        behind = piece_at(pieces, end)
        rest = pieces[end + (behind is not None and behind.text in (",", ":")) :]
        first = n
        while first and (
            made.has("of_word", pieces[first - 1].text)
            or is_any(pieces[first - 1], ("DAP",))
            or made.has("name_article", pieces[first - 1].text)
        ):
            first -= 1
        return [*pieces[:first], *plants, *pieces[n + 2 : end], stop, *rest]
    return pieces


def plants_meant_again(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Tres plantas y (en las tres) más que nada amarillas": as many as were told, in all of which it was so."""
    for n in range(2, len(pieces)):
        count = count_told(pieces[n])
        led = made.has("upon_plants", pieces[n - 1].text) or (
            made.has("upon_plant", pieces[n - 2].text) and made.has("plants_article", pieces[n - 1].text)
        )
        if not count or not led or not is_any(piece_at(pieces, n + 1), ("MOSTLY", "COLOUR")):
            continue
        before = range(max(1, n - FARTHEST), n - 1)
        if any(is_any(pieces[k], ("PLANTS",)) and count_told(pieces[k - 1]) == count for k in before):
            first = n - 1 if made.has("upon_plants", pieces[n - 1].text) else n - 2
            aside = Piece("aside", "", pieces[first].start, pieces[n].end)
            return [*pieces[:first], aside, *plants_meant_again(pieces[n + 1 :], made)]
    return pieces


def one_and_another(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "9 numa e 13 na outra", "una con 9, la otra con 13", "4 na primeira, zero na do meio e 6 na última"."""
    for n in range(len(pieces)):
        rows, end = _one_by_one(pieces, n, made)
        if len(rows) < 2:
            continue
        plants = next(
            (count_told(pieces[k - 1]) for k in range(n - 1, 0, -1) if is_any(pieces[k], ("PLANTS", "DUG"))), None
        )
        if plants is None:
            dug = (k for k in range(n - 1, 0, -1) if is_any(pieces[k - 1], ("DUG",)))
            plants = next((count_told(pieces[k]) for k in dug), None)
        if plants is not None and plants != len(rows):
            continue
        marked: list[Piece] = []
        for place, count in enumerate(rows, 1):
            value = count_told(count) or 0
            number = Piece("number", str(value), count.start, count.end, (), value, count.spaced)
            marked += [Piece("mark", "", count.start, count.start, (), place, True), number]
            marked.append(Piece("word", "", count.end, count.end, _FEMALE))
        return [*pieces[:n], *marked, *pieces[end:]]
    return pieces


def last_of_list(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Na primeira 2, aí 1, 1, 0, 3 (e na última) 5": the last of a list, as the others stand."""
    for n in range(3, len(pieces) - 1):
        size = _said(pieces, n, "on_last_plant", made)
        if not size or count_told(piece_at(pieces, n + size)) is None:
            continue
        before = n - 1 - (pieces[n - 1].text in anywhere("and_word"))
        before -= pieces[before].value == "soft"
        row = count_told(pieces[before]) is not None and pieces[before - 1].text == ","
        if not row or count_told(piece_at(pieces, before - 2)) is None:
            continue
        end = n + size + 1
        end += is_any(piece_at(pieces, end), ("FEMALES",))
        if ends_clause(piece_at(pieces, end)):
            at = pieces[before].end
            comma = Piece("break", ",", at, at, (), "soft", False)
            return [*pieces[: before + 1], comma, in_figures(pieces[n + size]), *pieces[end:]]
    return pieces


def _one_by_one(pieces: list[Piece], n: int, made: Table) -> tuple[list[Piece], int]:
    """What each of the plants told one after the other from n on had, and where that ends."""
    rows: list[Piece] = []
    k, end = n, n
    before = False
    while k < len(pieces) and len(rows) < MOST_ONE_BY_ONE:
        manner = "on_other_plant" if rows else "on_one_plant_of"
        holder = "other_plant" if rows else "one_plant_of"
        if (not rows or before) and (size := _count_first(pieces, k, manner, made)):
            before, count = True, pieces[k]
        elif (not rows or not before) and (size := _holder_first(pieces, k, holder, made, bool(rows))):
            count = pieces[k + size - 1]
        else:
            break
        rows.append(count)
        k = end = k + size
        while (piece := piece_at(pieces, k)) is not None and (
            piece.value == "soft" or piece.text in anywhere("and_word")
        ):
            k += 1
    behind = piece_at(pieces, end)
    free = ends_clause(behind) or (behind is not None and behind.text in anywhere("and_word"))
    more = k > end and _counts(piece_at(pieces, k))  # ".., two more on the third"
    return (rows, end) if free and not more else ([], n)


def _counts(piece: Piece | None) -> bool:
    """A number or none at all."""
    return count_told(piece) is not None or is_any(piece, ("NONE",))


def _count_first(pieces: list[Piece], k: int, manner: str, made: Table) -> int:
    """How many pieces "9 hembras en una (planta)" takes; 0 for no such."""
    if not _counts(piece_at(pieces, k)):
        return 0
    at = k + 1 + is_any(piece_at(pieces, k + 1), ("FEMALES",))
    size = _said(pieces, at, manner, made)
    if not size:
        return 0
    end = at + size
    end += is_any(piece_at(pieces, end), ("PLANTS",))
    behind = piece_at(pieces, end)
    free = ends_clause(behind) or (behind is not None and behind.text in anywhere("and_word"))
    return end - k if free else 0


def _holder_first(pieces: list[Piece], k: int, manner: str, made: Table, bare: bool) -> int:
    """How many pieces "una (planta) con 9" takes, or "la otra 13" behind such; 0 for no such."""
    size = _said(pieces, k, manner, made)
    if not size:
        return 0
    at = k + size
    at += is_any(piece_at(pieces, at), ("PLANTS",))
    led = piece_at(pieces, at)
    if led is not None and (is_any(led, ("HAD",)) or made.has("counted", led.text)):
        at += 1
    elif not bare:
        return 0
    behind = piece_at(pieces, at + 1)
    ends = ends_clause(behind) or (behind is not None and behind.text in anywhere("and_word"))
    return at + 1 - k if ends and _counts(piece_at(pieces, at)) else 0


def _said(pieces: list[Piece], k: int, manner: str, made: Table) -> int:
    """How many pieces from k on a phrase of a manner takes; 0 for none."""
    for size in range(min(MOST_SAID, len(pieces) - k), 0, -1):
        if made.has(manner, " ".join(piece.text for piece in pieces[k : k + size])):
            return size
    return 0
