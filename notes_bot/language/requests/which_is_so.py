"""Which of two values is so, by the words between and around them: "14 not 12", "i put 12, was 14", "from 12 to 14".

A value with no other beside it is so where a word says that something was wrong.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise, takewhile
from typing import TYPE_CHECKING, Any

from notes_bot.language.requests.amends import MOST_DAY
from notes_bot.language.requests.word_parts import COUNTS, PAIR, SHADES, Part

if TYPE_CHECKING:
    pass


MOST_PAIRS = 3
"""Data put right in one sentence; more is a note (judgement)."""


@dataclass(slots=True)
class Right:
    """One datum put right."""

    what: str
    value: Any
    old: Any = None
    told: bool = False
    """Without an old one: do words right before it say that it be so ("should read 9", "change it to 9")?"""


def denies_either(parts: list[Part]) -> bool:
    """ "Blancas 9 no son 11": the "no" may be of either number."""
    roles = [part.role for part in parts]
    return any(roles[n : n + EITHER] == ["value", "not", "now", "value"] for n in range(len(roles)))


EITHER = 4
"""Parts of "9 no son 11"."""


def shades_turned(parts: list[Part]) -> bool:
    """ "6 white should be yellow", "whites were really yellows": one color stood for another; how many, is asked."""
    at = [n for n, part in enumerate(parts) if part.role == "noun" and part.what in SHADES]
    values = [n for n, part in enumerate(parts) if part.role == "value"]
    if len(at) != PAIR or parts[at[0]].what == parts[at[1]].what or len(values) > 1:
        return False
    if not values and any(part.what == "strong" for part in parts):
        return True  # "kestrel white and yellow got swapped"
    before, between = parts[: at[0]], parts[at[0] + 1 : at[1]]
    roles = {part.role for part in between}
    if "stop" in roles or any(parts[n].what is not None or n >= at[0] for n in values):
        return False
    led = not before or before[-1].role in ("value", "instead") or before[0].what == "set"
    turned = any(part.what == "strong" for part in between) or roles >= {"now", "sure"} or (led and "now" in roles)
    denied = "not" in roles and bool(values) and any(part.role == "now" for part in before)
    return turned or denied


def rights_of(parts: list[Part]) -> list[Right] | None:
    """What is put right, in order; ``None`` where a value stands for nothing."""
    parts = [part for part in parts if part.role != "little"]
    if any(part.role == "lacks" and other.role != "stop" for part, other in pairwise([*parts, Part("stop")])):
        return None  # "no shovel, pulled"
    at = [n for n, part in enumerate(parts) if part.role == "value"]
    sure = any(part.role == "sure" and part.what != "set" for part in parts)
    if not at:
        return None
    out: list[Right] = []
    alone: list[tuple[int, Part]] = []
    n = 0
    done = 0
    while n < len(at):
        first = parts[at[n]]
        second = parts[at[n + 1]] if n + 1 < len(at) else None
        order = None
        if second is not None and _of_one_kind(first, second) and _alike(parts, at[n], at[n + 1], done):
            order = _order(parts[done : at[n]], parts[at[n] + 1 : at[n + 1]], first.what == "method")
        if order is None:
            alone.append((n, first))
            done = at[n] + 1
            n += 1
            continue
        what = _what(parts, at[n], at[n + 1], done)
        if what is None:
            return None
        new, old = parts[at[n]], parts[at[n + 1]]
        new, old = (new, old) if order == "new" else (old, new)
        weeks = what == "look_again" and new.verb and old.what is None
        out.append(Right(what, new.value, UNSAID if weeks else old.value))
        done = at[n + 1] + 1
        n += 2
    out += _alone(parts, at, alone, bool(out), sure) or ([] if not alone else [Right("", None)])
    if any(not right.what or right.value == right.old for right in out) or len(out) > MOST_PAIRS + 1:
        return None
    told = [right.what for right in out]
    return out if len(set(told)) == len(told) else None


def bare_right(parts: list[Part]) -> Right | None:
    """ "Sorry, 9 not 6": one number for another, and nothing said of what they count; ``None`` for anything more."""
    parts = [part for part in parts if part.role != "little"]
    at = [n for n, part in enumerate(parts) if part.role == "value"]
    if len(at) != PAIR or any(part.role in ("noun", "lacks") for part in parts):
        return None
    first, second = (parts[n] for n in at)
    if any(part.what is not None or not isinstance(part.value, int) for part in (first, second)):
        return None
    before, between = parts[: at[0]], parts[at[0] + 1 : at[1]]
    but = [part.role for part in between] == ["but"] and any(part.role == "not" for part in before)
    order = "old" if but else _order(before, between, ways=False)
    if order is None or first.value == second.value:
        return None
    new, old = (first, second) if order == "new" else (second, first)
    return Right("", new.value, old.value)


UNSAID = -1
"""Days of "i put 2" beside "3 weeks": days or weeks is not said."""


def _of_one_kind(first: Part, second: Part) -> bool:
    """Can the one stand for the other: two stages, two numbers, a day and the number of one?"""
    if first.what == second.what:
        return True
    bare = second if second.what is None else first
    other = first if bare is second else second
    if bare.what is not None or not isinstance(bare.value, int):
        return False
    return other.what == "look_again" or (other.what == "date" and 0 < bare.value <= MOST_DAY)


def _alike(parts: list[Part], first: int, second: int, done: int) -> bool:
    """Do two numbers count the same thing, as far as each has its own word beside it? "Dug 6 had 9 white" does not.

    Nor does the number of a day count anything: "in tuesday's note change the total to 22".
    """
    own = _noun_of(parts, first, done), _noun_of(parts, second, first + 1)
    if {parts[first].what, parts[second].what} == {"date", None}:
        return own == (None, None)
    return None in own or own[0] == own[1]


def _noun_of(parts: list[Part], at: int, begin: int) -> str | None:
    """What is named right behind a number, or else before it."""
    if at + 1 < len(parts) and parts[at + 1].role == "noun":
        return _counted(parts[at + 1])
    return next((_counted(part) for part in reversed(parts[begin:at]) if part.role == "noun"), None)


def _order(before: list[Part], between: list[Part], ways: bool) -> str | None:
    """Which of two values is so: "new" the first, "old" the second, ``None`` when no word tells.

    Of two ``ways`` to take plants out, one denied is enough: "i didn't pull the kestrel plants i dug them".
    """
    roles = ["not" if part.role == "lacks" else part.role for part in between if part.role != "noun"]
    ahead = [part.role for part in before if part.role != "noun"]
    stops = bool({"stop", "now", "sure", "but"} & set(roles))
    denies = {"not", "instead"} & set(roles)
    if "not" in ahead and _last_but(ahead, ("now", "stop")) == "not" and not denies:
        return "old" if (stops and roles != ["but"]) or (ways and not roles) else None
    if "instead" in ahead and not denies:
        return "old"
    if denies:
        if roles[:2] == ["not", "stop"] and "not" not in roles[2:]:
            return "old"  # "blancas 9 no, son 11"
        led = roles[roles.index("not" if "not" in denies else "instead") + 1 :]
        return "new" if set(led) <= {"now", "had", "wrote"} else None
    if "wrote" in roles and "wrote" not in ahead:
        return _around_wrote(roles)
    if "had" in roles and not {"wrote", "and"} & {*ahead, *roles} and roles[-1] == "had":
        return "new"  # "dug five plants and they had 17 on them" counts females
    if "wrote" in ahead and (stops or "had" in roles):
        return "old"
    sets = any(part.what == "set" for part in before) and roles == ["now"]  # "chg plts 6 > 5"
    return "old" if sets or ("sure" in roles and "now" in roles) else None


def _around_wrote(roles: list[str]) -> str | None:
    """ "14 white, i put 12", "that 6 yellow i sent should read 16": is what was written told behind or before?"""
    at = roles.index("wrote")
    told = roles[at + 1 :]
    if "sure" in told or ("now" in told and "stop" in told[: told.index("now")]):
        return "old"
    return "new" if "now" not in told or "stop" in roles[:at] else None


def _last_but(roles: list[str], passed: tuple[str, ...]) -> str | None:
    """The last of them, little ones passed over."""
    return next((role for role in reversed(roles) if role not in passed), None)


def _what(parts: list[Part], first: int, second: int, done: int) -> str | None:
    """What two values, or one, are of: their own kind, or what is named beside them."""
    own = parts[first].what or parts[second].what
    if own is not None:
        named = any(part.role == "noun" and part.what == "look_again" for part in parts)
        if own == "date":
            return "look_again" if named else "date"
        return own if own != "look_again" or named else None
    for at in (first, second):
        if at + 1 < len(parts) and parts[at + 1].role == "noun":
            return _counted(parts[at + 1])
    nouns = [part for part in parts[done:first] if part.role == "noun"]
    nouns = nouns or [part for part in parts[first + 1 : second] if part.role == "noun"]
    named_only = [part for part in nouns if part.what not in ("dug", "look_again", "date")] or nouns
    named_only = [part for part in named_only if part.what in SHADES] or named_only  # "the yellow count"
    if len({part.what for part in named_only}) > 1:
        return None
    return _counted(named_only[-1]) if named_only else _counted_behind(parts, second)


def _counted_behind(parts: list[Part], second: int) -> str | None:
    """ "It was 7 not 5, the plants": the one thing named behind."""
    nouns = [part for part in parts[second + 1 :] if part.role == "noun" and part.what != "dug"]
    return _counted(nouns[0]) if len(nouns) == 1 and not any(p.role == "value" for p in parts[second + 1 :]) else None


def _counted(noun: Part) -> str | None:
    """What a number beside this noun counts."""
    what = "plants" if noun.what == "dug" else noun.what
    return what if what in COUNTS else None


_ALONE = COUNTS | {"stage", "moisture", "texture", "method", "roots", "tops", "variety", "spray", "look_again"}
"""What may be put right without its old value, where a word says that something was wrong."""


def _alone(
    parts: list[Part], at: list[int], alone: list[tuple[int, Part]], paired: bool, sure: bool
) -> list[Right] | None:
    """Values with none beside them: the day of the note, how it was dug in passing, or what is so after all."""
    out: list[Right] = []
    for n, part in alone:
        what = _what(parts, at[n], at[n], at[n - 1] + 1 if n else 0)
        owned = sure or any(p.what == "set" for p in parts)
        wrong = any(p.what == "strong" or (owned and p.what == "date") for p in parts[: at[n]])
        if what == "date" and len(at) == 1 and wrong:
            out.append(Right("date", part.value, told=True))  # "had the wrong date. i was there yesterday"
            continue
        if part.what == "date" and (paired or any(p.role == "value" for m, p in enumerate(parts) if m != at[n])):
            if not (at[n] and parts[at[n] - 1].role == "wrote"):  # "lo que mandé anoche": when it was sent
                out.append(Right("visit", part.value))
            continue
        led = parts[: at[n]]
        says = any(p.role == "now" or p.what == "strong" for p in parts[max(0, at[n] - LED) : at[n] + LED])
        says = says or any(p.what == "strong" for p in parts[: at[0]])  # "al revés, 4 blancas y 12 amarillas"
        named = _named_behind(parts, at[n])
        told = what is not None and ((_told_before(led, what) and not named) or (named and _set_to(led)))
        unlike = any(p.what == "unlike" for p in parts)
        slip = len(at) == 1 and what in SHADES and any(p.what == "slip" for p in parts[at[n] :])
        if paired and what in COUNTS and _is_counted(parts, at[n]):
            out.append(Right(what, part.value, told=True))  # "(soil was moist, I put dry.) and tan is 3"
            continue
        if paired or what not in _ALONE or not (told or unlike or slip or (sure and says)) or _turned(led):
            return None
        out.append(Right(what, part.value, told=told or unlike))
    return out


def _is_counted(parts: list[Part], at: int) -> bool:
    """ "And tan is 3": behind a stop or "and", what is counted, "is" and the number, and no more."""
    led, behind = parts[max(0, at - 3) : at], parts[at + 1 : at + 2]
    roles = [part.role for part in led]
    return roles[1:] == ["noun", "now"] and roles[0] in ("and", "stop") and all(p.role == "stop" for p in behind)


def _turned(led: list[Part]) -> bool:
    """Does a word before a lone value deny it? "Scratch that, 9 white" denies what was before."""
    return any(p.role in ("not", "had") and q.role != "stop" for p, q in pairwise([*led, Part("now")]))


def _set_to(led: list[Part]) -> bool:
    """ "Cambiá a (8 las plantas)": a verb of changing and "to" right before a value."""
    return len(led) > 1 and led[-1].role == "now" and led[-2].what == "set"


def _named_behind(parts: list[Part], at: int) -> bool:
    """ "Make 5 plants": is what a number counts named behind it?"""
    return parts[at].what is None and at + 1 < len(parts) and parts[at + 1].role == "noun"


def _told_before(led: list[Part], what: str) -> bool:
    """ "White should be 8", "make the whites ten and the tans two", "change the soil to wet": is a value said to be so?

    A verb of changing alone says nothing: "make a plan, 6 plants", "poné 6 plantas 3 blancas" are notes.
    """
    said = list(takewhile(lambda part: part.role != "stop", reversed(led)))[::-1]
    if any(part.what == "strong" for part in said):
        return True
    sets = next((n for n, part in enumerate(said) if part.what == "set"), None)
    if sets is None or not said:
        return False
    leads = said[-1].role == "now" or said[-1].verb
    if what not in COUNTS:
        return leads
    return any(part.role == "noun" and _counted(part) == what for part in (led if leads else said))


LED = 4
"""Parts around a lone value among which it is said to be so (judgement)."""
