"""The command line: builds the real things and holds no logic. Imports are made where needed: reading a note
must not wait for the science."""

from __future__ import annotations

import argparse
import gc
import json
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from pathlib import Path
from types import FrameType
from typing import Any

from notes_bot import __version__, clock
from notes_bot.model import DatabaseWrong


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; gives the exit status (0 done, 1 not done, 2 not understood)."""
    parser = _parser()
    chosen = parser.parse_args(argv)
    run: Callable[[argparse.Namespace], int] = chosen.run
    try:
        return run(chosen)
    except DatabaseWrong as error:
        return _wrong(str(error))
    except BrokenPipeError:  # the reader of our output has gone (head, less)
        sys.stderr.close()
        return 1
    except KeyboardInterrupt:
        return 130


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="notes-bot", description="Field-notes assistant for soybean cyst nematode scouting, by text and email."
    )
    parser.add_argument("--version", action="version", version=__version__)
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    demo = commands.add_parser("demo", help="play an invented crew's season over real mail on this machine")
    demo.add_argument("--folder", type=Path, default=Path("notes-bot-demo"), help="where to leave what it made")
    demo.add_argument("--quick", action="store_true", help="the first month only")
    demo.set_defaults(run=_demo)

    init = commands.add_parser("init", help="write a commented settings file to start from")
    init.add_argument("file", nargs="?", type=Path, default=Path("notes-bot.toml"))
    init.set_defaults(run=_init)

    serve = commands.add_parser("serve", help="run the service until it is told to stop")
    serve.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    serve.set_defaults(run=_serve)

    check = commands.add_parser("check", help="read the settings and the database, and say what is there")
    check.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    check.set_defaults(run=_check)

    again = commands.add_parser("reread", help="read all kept messages again and compare with the records")
    again.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    again.add_argument("--replace", action="store_true", help="put what was read again in place (a copy is kept)")
    again.set_defaults(run=_reread)

    tracer = commands.add_parser("trace", help="the life of one message: how it came, what it led to, what left")
    tracer.add_argument("which", metavar="NUMBER-OR-MESSAGE-ID")
    tracer.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    tracer.add_argument("--raw", action="store_true", help="print the message as it came, and nothing else")
    tracer.add_argument("--pictures", type=Path, metavar="FOLDER", help="write the pictures that came with it there")
    tracer.set_defaults(run=_trace)

    retry = commands.add_parser("again", help="put messages that were set aside (stuck) back in line")
    retry.add_argument("numbers", type=int, nargs="+", metavar="NUMBER")
    retry.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    retry.set_defaults(run=_again)

    password = commands.add_parser("password", help="hash a password for mail_in.logins; asks, or reads standard input")
    password.set_defaults(run=_password)

    read = commands.add_parser("read", help="how a note would be understood, without storing it")
    read.add_argument("text", nargs="?", help="the note; - reads it from standard input")
    read.add_argument("--json", action="store_true", help="as data (the note contract)")
    read.add_argument("--sent", type=_day, metavar="DATE", help="day it was sent, as 2026-06-11; today if left out")
    read.add_argument("--fields", nargs="*", default=[], metavar="NAME", help="known fields: names, or a file of them")
    read.add_argument("--language", choices=("en", "es", "pt"), help="do not decide the language, take this")
    read.add_argument("--lines", type=Path, metavar="FILE", help="JSON Lines with text and sent; one reading a line")
    read.set_defaults(run=_read)

    card = commands.add_parser("card", help="print the pocket cards: what to write, one page a language")
    card.add_argument("--folder", type=Path, default=Path(), help="where to leave them (PDF and PNG)")
    card.set_defaults(run=_card)

    foresee = commands.add_parser("foresee", help="where a population is and when to look, from data")
    foresee.add_argument("--json", action="store_true", help="as data (the outlook contract)")
    foresee.add_argument(
        "--lines", type=Path, metavar="FILE", required=True, help="JSON Lines of questions; - is stdin"
    )
    foresee.set_defaults(run=_foresee)

    weather = commands.add_parser("weather", help="bring a temperature file in")
    weather.add_argument("file", type=Path)
    weather.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    weather.add_argument("--field", default="", help="the field it is for; all fields if left out")
    weather.add_argument("--units", choices=("C", "F"), default="", help="when the file does not say")
    weather.add_argument("--station", default="", help="which one, when the file holds several")
    weather.set_defaults(run=_weather)
    return parser


# --- reading and foreseeing -------------------------------------------------------------------------


def _read(chosen: argparse.Namespace) -> int:
    if chosen.lines is not None:
        from notes_bot.asdata import reading_as_data
        from notes_bot.language import read_note

        for number, row in _json_lines(chosen.lines):
            text, sent = row.get("text"), row.get("sent")
            if not isinstance(text, str):
                return _wrong(
                    f'line {number}: text is missing: {{"text": "kestrel 6/11 dug 5 none", "sent": "2026-06-11"}}'
                )
            try:
                day = date.fromisoformat(str(sent)[:10]) if sent else clock.today()
            except ValueError:
                return _wrong(f"line {number}: sent is {sent!r}: write a day as 2026-06-11")
            reading = read_note(
                text, sent=day, fields=_names(row.get("fields") or chosen.fields), language=chosen.language
            )
            known = {"id": row["id"]} if "id" in row else {}
            print(json.dumps({**known, **reading_as_data(reading)}, ensure_ascii=False))
        return 0
    if chosen.text is None and len(chosen.fields) > 1:
        chosen.text = chosen.fields.pop()  # "--fields NAMES TEXT": the last one is the note
    if chosen.text is None:
        return _wrong('give the note in quotes: notes-bot read "kestrel 6/11 dug 6, 12 white"')
    text = sys.stdin.read() if chosen.text == "-" else chosen.text
    gc.disable()  # building the word tables leaves nothing to collect, and looking for it takes a twentieth of the time
    try:
        from notes_bot.language import read_note

        reading = read_note(
            text, sent=chosen.sent or clock.today(), fields=_names(chosen.fields), language=chosen.language
        )
    finally:
        gc.freeze()  # nor is there any when the program ends
        gc.enable()
    if chosen.json:
        from notes_bot.asdata import reading_as_data

        print(json.dumps(reading_as_data(reading), ensure_ascii=False, indent=2))
    else:
        print("\n".join(_reading_for_people(reading)))
    return 0


def _reading_for_people(reading: Any) -> list[str]:
    from notes_bot.language import spell

    lines = [f"Read as: {spell(note, reading.language)}" for note in reading.notes]
    for command in reading.commands:
        asked = ", ".join(f"{name} {value}" for name, value in command.args.items())
        lines.append(f"Asked: {command.kind}{': ' if asked else ''}{asked}")
    lines += [f"Note: {remark.wrong}" for remark in reading.remarks]
    for problem in reading.problems:
        lines.append(f'Line {problem.where.line}: "{problem.where.text}"')
        lines.append(f"  {problem.wrong}")
        if problem.instead:
            lines.append(f"  This works: {problem.instead}")
    return lines or ["Nothing to keep in this message."]


def _names(given: Sequence[str] | str) -> list[str]:
    """Names as given (one each, or several with commas), or the lines of a file when the one name is a file's."""
    names = [given] if isinstance(given, str) else list(given)
    if len(names) == 1 and Path(names[0]).is_file():
        names = Path(names[0]).read_text("utf-8").splitlines()
    return [name.strip() for line in names for name in line.split(",") if name.strip()]


def _card(args: argparse.Namespace) -> int:
    from notes_bot.reply.card import write

    for path in write(args.folder):
        print(path)
    return 0


def _foresee(chosen: argparse.Namespace) -> int:
    from notes_bot.asdata import BadInput, outlook_as_data
    from notes_bot.outlook import foresee
    from notes_bot.question import question_from_data
    from notes_bot.reply import say
    from notes_bot.weather import climate_at

    status = 0
    try:
        for number, line in _text_lines(chosen.lines):
            row: Any = None
            try:
                row = json.loads(line)
                question = question_from_data(row)
            except (BadInput, ValueError, RecursionError) as error:
                # A line that cannot be used costs that line: it gets its answer in its place, and the others go on.
                said = str(error) if isinstance(error, BadInput) else f"is not JSON: {error}"
                status = _wrong(f"line {number}: {said}")
                if chosen.json:
                    known = row.get("id") if isinstance(row, dict) else None
                    print(json.dumps({"id": known, "line": number, "error": said}, ensure_ascii=False))
                continue
            history = question.history
            climate = climate_at(history.latitude, history.longitude)
            outlook = foresee(history, question.temperatures, climate, question.as_of, past_years=question.past_years)
            data = outlook_as_data(outlook, question.id, lambda fact: say(fact, "en"))
            if question.ignored:
                data["ignored"] = list(question.ignored)
                print(f"notes-bot: line {number}: not known: {', '.join(question.ignored)}", file=sys.stderr)
            if chosen.json:
                print(json.dumps(data, ensure_ascii=False))
            else:
                print("\n".join(_outlook_for_people(data)))
    except (OSError, UnicodeDecodeError) as error:
        return _wrong(f"{chosen.lines} cannot be read: {error}")
    return status


def _outlook_for_people(data: dict[str, Any]) -> list[str]:
    lines = [
        f"{data['id'] or 'field'}, {data['as_of']}: {data['stage']}, generation {data['generation'] or 'not known'}"
    ]
    lines += [
        f"  {window['event']} (generation {window['generation'] or '-'}): "
        f"{window['earliest']} - {window['likely']} - {window['latest']}"
        for window in data["windows"]
    ]
    again = data["look_again"]
    lines.append(
        f"  look again {again['earliest']} - {again['likely']} - {again['latest']}: {again['why']}"
        if again
        else f"  no look again: {data.get('why', '')}"
    )
    return [*lines, f"  infested: {data['infested_probability']:.0%}", *(f"  from: {line}" for line in data["basis"])]


# --- the service ------------------------------------------------------------------------------------


def _init(chosen: argparse.Namespace) -> int:
    from notes_bot.settings import STARTER

    try:
        with chosen.file.open("x", encoding="utf-8") as file:
            file.write(STARTER)
    except FileExistsError:
        return _wrong(f"{chosen.file} is there already: name another file, or move it away first")
    except OSError as error:
        return _wrong(f"{chosen.file} cannot be written: {error.strerror}")
    print(f"Wrote {chosen.file}. Put your crew's people and fields in it, then:")
    print(f"  notes-bot check --settings {chosen.file}")
    print(f"  notes-bot serve --settings {chosen.file}")
    return 0


def _serve(chosen: argparse.Namespace) -> int:
    import logging

    from notes_bot.service import Service, ServiceWrong
    from notes_bot.settings import SettingsWrong, read_settings

    try:
        service = Service(read_settings(chosen.settings), clock.now, say=print)
    except SettingsWrong as error:
        return _wrong(str(error))
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(message)s")
    logging.getLogger("mail.log").setLevel(logging.WARNING)  # the listener's own talk of every SMTP line
    logging.getLogger("dkimpy").setLevel(logging.CRITICAL)  # what is wrong with a signature is in the message's reason
    stop = threading.Event()

    def end(_number: int, _frame: FrameType | None) -> None:
        stop.set()

    signal.signal(signal.SIGTERM, end)
    signal.signal(signal.SIGINT, end)
    try:
        service.start()
    except ServiceWrong as error:
        return _wrong(str(error))
    try:
        while not stop.wait(0.5):
            if service.trouble:
                print(f"stopping: {service.trouble}", file=sys.stderr)
                return 1
    finally:
        service.stop()
    return 0


def _check(chosen: argparse.Namespace) -> int:
    from notes_bot.service import faults
    from notes_bot.settings import SettingsWrong, read_settings
    from notes_bot.store import Store

    try:
        settings = read_settings(chosen.settings)
    except SettingsWrong as error:
        return _wrong(str(error))
    found = faults(settings)
    order = "in order" if not found else "readable, but:"
    print(f"settings {chosen.settings}: {len(settings.people)} people, {len(settings.fields)} fields, {order}")
    for fault in found:
        print(f"  {fault}")
    if not settings.database.exists():
        print(f"database {settings.database}: not there yet; serve makes it")
        return 1 if found else 0
    store = Store(settings.database)
    try:
        for state, count in sorted(store.counts().items()):
            print(f"{state}: {count}")
        for held in store.held_messages():
            print(f"held {held.number} from {held.sender}: {held.reason}: {held.first_line}")
        for stuck in store.stuck_messages():
            print(f"stuck {stuck.id} (kept whole, traceback follows)\n{stuck.trouble}")
    finally:
        store.close()
    return 1 if found else 0


def _reread(chosen: argparse.Namespace) -> int:
    import logging
    import sqlite3

    from notes_bot.reread import in_words, reread
    from notes_bot.service import ServiceWrong
    from notes_bot.settings import SettingsWrong, read_settings

    logging.disable(logging.ERROR)  # what the desk says of each message is for the log of the day it came
    try:
        settings = read_settings(chosen.settings)
        if not settings.database.exists():
            return _wrong(f"{settings.database} is not there: nothing has been kept yet")
        compared, backup = reread(settings, clock.now, swap=chosen.replace, tell=lambda line: print(line, flush=True))
    except (SettingsWrong, ServiceWrong) as error:
        return _wrong(str(error))
    except (OSError, sqlite3.Error) as error:
        return _wrong(f"nothing was changed: {error}")
    finally:
        logging.disable(logging.NOTSET)
    for line in in_words(compared, backup):
        print(line)
    return 0 if compared.same or backup is not None else 1


def _trace(chosen: argparse.Namespace) -> int:
    from notes_bot.mail.opening import attachments_of
    from notes_bot.store.tracing import trace

    store = _store_of(chosen)
    if store is None:
        return 2
    try:
        found = trace(store, chosen.which)
    finally:
        store.close()
    if not found:
        return _wrong(f"no message {chosen.which}: give its number, or a Message-ID with its <angle brackets>, quoted")
    for life in found:
        if chosen.raw:
            sys.stdout.buffer.write(life.kept.raw)
            continue
        print("\n".join(_life_for_people(life)))
        if chosen.pictures is not None:
            for number, (about, data) in enumerate(attachments_of(life.kept.raw), start=1):
                kind = about.content_type.partition("/")
                if kind[0] != "image":
                    continue
                # The sender's own file name stays outside: it may be anything.
                path = chosen.pictures / f"message-{life.kept.id}-{number}.{_plain(kind[2])}"
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(data)
                print(f"  wrote {path}")
    return 0


def _life_for_people(life: Any) -> Iterator[str]:
    from dataclasses import replace

    from notes_bot.language import spell

    kept = life.kept
    yield f"message {kept.id} {life.message_id}".rstrip()
    yield f"  came {_instant(kept.arrived_at)} by {kept.door} from {kept.peer or 'here'}, {len(kept.raw)} bytes"
    yield f"  from {life.sender or 'nobody plain'} (envelope {kept.envelope_from or 'empty'})"
    yield f"  proof: {kept.proof or 'none'}"
    yield f"  {kept.state}{': ' + kept.reason if kept.reason else ''}{_since(kept.finished_at)}"
    for made in life.made:
        words = f" {spell(replace(made.note, field=None, date=None), 'en')}" if made.note else ""
        yield f"  {made.kind} {made.field} {made.day}{words}: {made.fate}"
    for left in life.left:
        trouble = f", last error: {left.last_error}" if left.last_error else ""
        yield f"  {left.kind} to {left.recipient} {left.message_id}: {left.state}{_since(left.finished_at)}{trouble}"
    if kept.trouble:
        yield kept.trouble


def _plain(text: str) -> str:
    return "".join(ch for ch in text if ch.isascii() and ch.isalnum())[:10] or "bin"


def _instant(at: Any) -> str:
    return f"{at:%Y-%m-%d %H:%M:%S} UTC"


def _since(at: Any) -> str:
    return f" {_instant(at)}" if at is not None else ""


def _again(chosen: argparse.Namespace) -> int:
    store = _store_of(chosen)
    if store is None:
        return 2
    try:
        found = store.try_again(chosen.numbers)
    finally:
        store.close()
    for number in found:
        print(f"message {number} is back in line; a service that runs takes it within a second")
    for number in chosen.numbers:
        if number not in found:
            print(f"message {number} is not stuck", file=sys.stderr)
    return 0 if len(found) == len(chosen.numbers) else 1


def _password(_chosen: argparse.Namespace) -> int:
    import getpass

    from notes_bot.mail.passwords import LEAST_LENGTH, hash_password

    asked = sys.stdin.isatty()
    password = getpass.getpass("Password: ") if asked else sys.stdin.readline().rstrip("\r\n")
    if asked and getpass.getpass("Once more: ") != password:
        return _wrong("the two are not the same: nothing made")
    if len(password) < LEAST_LENGTH:
        return _wrong(f"take at least {LEAST_LENGTH} characters")
    print(hash_password(password))
    return 0


def _store_of(chosen: argparse.Namespace) -> Any:
    """The store of a settings file, or ``None`` after saying why not."""
    from notes_bot.settings import SettingsWrong, read_settings
    from notes_bot.store import Store

    try:
        settings = read_settings(chosen.settings)
    except SettingsWrong as error:
        _wrong(str(error))
        return None
    if not settings.database.exists():
        _wrong(f"{settings.database} is not there: nothing has been kept yet")
        return None
    return Store(settings.database)


def _weather(chosen: argparse.Namespace) -> int:
    import difflib

    from notes_bot.reply import say
    from notes_bot.service import known_fields, places_of
    from notes_bot.settings import SettingsWrong, read_settings
    from notes_bot.store import Store
    from notes_bot.weather import WeatherWrong, open_temperatures

    try:
        settings = read_settings(chosen.settings)
    except SettingsWrong as error:
        return _wrong(str(error))
    settings.service.folder.mkdir(parents=True, exist_ok=True)
    store = Store(settings.database)
    try:
        names = [f.name for f in known_fields(settings, store)]
        if chosen.field and chosen.field.casefold() not in {name.casefold() for name in names}:
            close = difflib.get_close_matches(chosen.field, names, n=3) or sorted(set(names))[:6]
            return _wrong(f"no field is named {chosen.field}; there is {', '.join(close) or 'none yet'}")
        near = places_of(settings, store, [chosen.field] if chosen.field else [])
        record = open_temperatures(chosen.file, units=chosen.units or None, station=chosen.station or None, near=near)
        store.keep_temperatures(chosen.field.casefold() or "*", record.days, chosen.file.name)
    except WeatherWrong as error:
        return _wrong(str(error))
    finally:
        store.close()
    print(f"{len(record.days)} days from {chosen.file} kept for {chosen.field or 'all fields'}")
    for repair in record.repairs:
        print("mended: " + say(repair, "en"))
    return 0


def _demo(chosen: argparse.Namespace) -> int:
    from notes_bot.demo import play

    def say(line: str) -> None:
        print(line, flush=True)

    return play(chosen.folder, say=say, quick=chosen.quick)


# --- small ------------------------------------------------------------------------------------------


def _json_lines(path: Path) -> Iterator[tuple[int, dict[str, Any]]]:
    lines: Iterable[str] = sys.stdin if str(path) == "-" else path.read_text("utf-8").splitlines()
    for number, line in enumerate(lines, start=1):
        if line.strip():
            try:
                row = json.loads(line)
            except json.JSONDecodeError as error:
                raise SystemExit(_wrong(f"line {number} is not JSON: {error}")) from None
            if not isinstance(row, dict):
                raise SystemExit(_wrong(f"line {number} must be a JSON object"))
            yield number, row


def _text_lines(path: Path) -> Iterator[tuple[int, str]]:
    """Numbered lines of a file or of standard input as they come, empty ones left out."""
    with sys.stdin if str(path) == "-" else path.open(encoding="utf-8-sig") as lines:
        for number, line in enumerate(lines, start=1):
            if line.strip():
                yield number, line


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is not a day: write it as 2026-06-11") from None


def _wrong(what: str) -> int:
    print(f"notes-bot: {what}", file=sys.stderr)
    return 2
