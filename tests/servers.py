"""Real mail programs for the tests, each in a folder of its own on loopback: no service manager, no network.

Each class starts its program, waits until its port answers, and stops only what it started. A missing
package skips the test and says which. Postfix and Dovecot need root (they change user themselves).
"""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import socket
import subprocess
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import dns.flags
import dns.message
import dns.rcode
import dns.rdatatype
import dns.rrset
import pytest


def need(program: str, package: str) -> str:
    """The path of a program; skips the test when it is not installed or we may not run it."""
    found = shutil.which(program, path=os.environ.get("PATH", "") + ":/usr/sbin:/sbin")
    if found is None:
        pytest.skip(f"{package} is not installed (apt-get install {package})")
    if os.geteuid() != 0:
        pytest.skip(f"{package} must be started by root")
    return found


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def wait_for(what: Callable[[], object], seconds: float = 20.0, *, said: str = "") -> None:
    """Until something is true.

    Raises:
        TimeoutError: it never was.
    """
    until = time.monotonic() + seconds
    while not what():
        if time.monotonic() > until:
            raise TimeoutError(said or "what was waited for did not happen")
        time.sleep(0.02)


def answers(port: int) -> bool:
    try:
        with socket.create_connection(("127.0.0.1", port), timeout=2) as probe:
            return bool(probe.recv(4))
    except OSError:
        return False


def open_folder() -> Path:
    """A folder that the servers' own users may enter; pytest's are root's alone."""
    folder = Path(tempfile.mkdtemp(prefix="notes-bot-test-"))
    folder.chmod(0o755)
    return folder


def end(process: subprocess.Popen[bytes]) -> None:
    """Stop a process that we started."""
    if process.poll() is None:
        process.terminate()
        try:
            process.wait(10)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait(10)


class Postfix:
    """Takes mail for ``domain`` on :attr:`port` and hands it to ``127.0.0.1:deliver_to`` over SMTP.

    ``others`` maps further domains to ports (a person's mail server, say). ``milter`` is a port of one.
    """

    def __init__(
        self,
        deliver_to: int,
        *,
        domain: str = "crew.example",
        others: Mapping[str, int] | None = None,
        milter: int | None = None,
        lifetime: str = "6s",
    ) -> None:
        self.program = need("postfix", "postfix")
        need("postqueue", "postfix")
        self.port = free_port()
        self.folder = folder = open_folder()
        self.etc = folder / "etc"
        for name in ("etc", "spool", "lib"):
            (folder / name).mkdir()
        shutil.chown(folder / "lib", "postfix")
        routes = {domain: deliver_to, **(others or {})}
        table = ", ".join(f"{{ {name} = smtp:[127.0.0.1]:{port} }}" for name, port in routes.items())
        lines = [
            "compatibility_level = 3.6",
            f"queue_directory = {folder}/spool",
            f"data_directory = {folder}/lib",
            f"maillog_file = {folder}/mail.log",
            "maillog_file_prefixes = /",
            "inet_interfaces = 127.0.0.1",
            "inet_protocols = ipv4",
            "myhostname = mx.crew.example",
            "mydestination =",
            "mynetworks = 127.0.0.0/8",
            f"relay_domains = {' '.join(routes)}",
            f"transport_maps = inline:{{ {table} }}",
            "smtpd_relay_restrictions = permit_mynetworks, reject_unauth_destination",
            "smtpd_forbid_bare_newline = normalize",
            "smtpd_forbid_bare_newline_exclusions =",
            "smtp_dns_support_level = disabled",
            "smtp_host_lookup = native",
            "alias_maps =",
            "alias_database =",
            "local_recipient_maps =",
            "minimal_backoff_time = 1s",
            "maximal_backoff_time = 2s",
            "queue_run_delay = 1s",
            f"maximal_queue_lifetime = {lifetime}",
            f"bounce_queue_lifetime = {lifetime}",
            "default_destination_concurrency_limit = 20",
        ]
        if milter is not None:
            lines += [f"smtpd_milters = inet:127.0.0.1:{milter}", "milter_default_action = accept"]
        (self.etc / "main.cf").write_text("\n".join(lines) + "\n")
        (self.etc / "master.cf").write_text(
            f"127.0.0.1:{self.port} inet n - n - - smtpd\n"
            "pickup unix n - n 60 1 pickup\ncleanup unix n - n - 0 cleanup\nqmgr unix n - n 300 1 qmgr\n"
            "rewrite unix - - n - - trivial-rewrite\nbounce unix - - n - 0 bounce\ndefer unix - - n - 0 bounce\n"
            "trace unix - - n - 0 bounce\nproxymap unix - - n - - proxymap\nsmtp unix - - n - - smtp\n"
            "showq unix n - n - - showq\nerror unix - - n - - error\nretry unix - - n - - error\n"
            "anvil unix - - n - 1 anvil\nscache unix - - n - 1 scache\npostlog unix-dgram n - n - 1 postlogd\n"
        )
        self.process = subprocess.Popen(
            [self.program, "-c", str(self.etc), "start-fg"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        try:
            wait_for(lambda: answers(self.port))
        except TimeoutError:
            log = self.log()
            self.stop()
            raise TimeoutError(f"postfix did not start: {log}") from None

    def log(self) -> str:
        log = self.folder / "mail.log"
        return log.read_text()[-3000:] if log.exists() else ""

    def queue(self) -> str:
        made = subprocess.run(["postqueue", "-c", str(self.etc), "-p"], capture_output=True, check=False)
        return made.stdout.decode()

    def flush(self) -> None:
        subprocess.run(["postqueue", "-c", str(self.etc), "-f"], check=False)

    def stop(self) -> None:
        subprocess.run([self.program, "-c", str(self.etc), "stop"], capture_output=True, check=False)
        end(self.process)
        shutil.rmtree(self.folder, ignore_errors=True)


class Dovecot:
    """IMAP on :attr:`imap`, delivery by LMTP on :attr:`lmtp`; any user, password ``secret``."""

    def __init__(self) -> None:
        program = need("dovecot", "dovecot-imapd")
        if not Path("/usr/lib/dovecot/lmtp").exists():
            pytest.skip("dovecot-lmtpd is not installed (apt-get install dovecot-lmtpd)")
        self.imap, self.lmtp = free_port(), free_port()
        self.folder = folder = open_folder()
        (folder / "mail").mkdir()
        (folder / "mail").chmod(0o777)
        (folder / "dovecot.conf").write_text(
            f"base_dir = {folder}/run\nstate_dir = {folder}/run\nlog_path = {folder}/dovecot.log\n"
            "protocols = imap lmtp\nlisten = 127.0.0.1\nssl = no\ndisable_plaintext_auth = no\n"
            f"mail_location = maildir:{folder}/mail/%u\nmail_uid = nobody\nmail_gid = nogroup\n"
            "first_valid_uid = 1\nfirst_valid_gid = 1\n"
            "passdb {\n  driver = static\n  args = password=secret\n}\n"
            "userdb {\n  driver = static\n"
            f"  args = uid=nobody gid=nogroup home={folder}/mail/%u allow_all_users=yes\n}}\n"
            f"service imap-login {{\n  chroot =\n  inet_listener imap {{\n    port = {self.imap}\n  }}\n"
            "  inet_listener imaps {\n    port = 0\n  }\n}\n"
            f"service lmtp {{\n  inet_listener lmtp {{\n    address = 127.0.0.1\n    port = {self.lmtp}\n  }}\n}}\n"
            "service anvil {\n  chroot =\n}\nservice stats {\n  chroot =\n}\n"
            "namespace inbox {\n  inbox = yes\n  separator = /\n}\n"
        )
        self.start(program)

    def start(self, program: str = "/usr/sbin/dovecot") -> None:
        self.process = subprocess.Popen(
            [program, "-F", "-c", str(self.folder / "dovecot.conf")],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            wait_for(lambda: answers(self.imap) and answers(self.lmtp), said="dovecot did not start")
        except TimeoutError:
            end(self.process)
            log = self.folder / "dovecot.log"
            raise TimeoutError(log.read_text() if log.exists() else "dovecot did not start") from None

    def deliver(self, raw: bytes, user: str = "notes") -> None:
        """Put a message into a user's mailbox, as the mail server in front of it would."""
        import smtplib

        with smtplib.LMTP("127.0.0.1", self.lmtp) as client:
            client.sendmail("scout@farm.example", [user], raw)

    def imap_processes(self) -> list[int]:
        """Ids of the processes that serve logged-in users of this server."""
        found = []
        for path in Path("/proc").iterdir():
            if not path.name.isdigit():
                continue
            with contextlib.suppress(OSError):
                name = (path / "comm").read_text().strip()
                parent = int((path / "stat").read_text().rsplit(")", 1)[1].split()[1])
                if name == "imap" and parent == self.process.pid:
                    found.append(int(path.name))
        return found

    def stop(self) -> None:
        """Stop; the mailboxes stay for :meth:`start`."""
        end(self.process)

    def remove(self) -> None:
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)


class ModemDaemon:
    """gammu-smsd with a dummy phone: files in ``phone`` are received, files in ``outbox`` are sent."""

    def __init__(self, folder: Path) -> None:
        program = need("gammu-smsd", "gammu-smsd")
        self.folder = folder
        self.inbox, self.outbox, self.sent = folder / "inbox", folder / "outbox", folder / "sent"
        self.phone = folder / "dev" / "sms" / "1"
        for path in (self.inbox, self.outbox, self.sent, folder / "error", self.phone):
            path.mkdir(parents=True)
        for number in range(2, 6):
            (folder / "dev" / "sms" / str(number)).mkdir()
        (folder / "smsd.conf").write_text(
            f"[gammu]\nmodel = dummy\nconnection = none\nport = {folder}/dev\ngammuloc = /dev/null\n"
            f"[smsd]\nservice = files\nlogfile = {folder}/smsd.log\ndebuglevel = 1\ninboxpath = {self.inbox}/\n"
            f"outboxpath = {self.outbox}/\nsentsmspath = {self.sent}/\nerrorsmspath = {folder}/error/\n"
            "inboxformat = detail\ntransmitformat = auto\nloopsleep = 1\ncommtimeout = 1\nreceivefrequency = 1\n"
            "statusfrequency = 0\nresetfrequency = 0\nchecksecurity = 0\nmultiparttimeout = 5\n"
        )
        self.process = subprocess.Popen(
            [program, "-c", str(folder / "smsd.conf")], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )

    def receive(self, number: str, text: str, *, at: str = "20260706T190000Z", index: int = 1) -> None:
        """As if a phone had sent this."""
        digits = text.encode("utf-16-be").hex().upper()
        lines = "\n".join(f"Text{n // 200:02} = {digits[n : n + 200]}" for n in range(0, len(digits), 200))
        coding = "Default_No_Compression" if text.isascii() else "Unicode_No_Compression"
        content = (
            f'[SMSBackup000]\nPDU = Deliver\nDateTime = {at}\nState = UnRead\nNumber = "{number}"\n'
            f"NumberUnicode = {number.encode('utf-16-be').hex().upper()}\n{lines}\nCoding = {coding}\nFolder = 1\n"
            f"Length = {len(text)}\nClass = -1\nReplySMSC = False\nRejectDuplicates = False\nReplaceMessage = 0\n"
            "MessageReference = 0\n"
        )
        part = self.folder / "arriving"
        part.write_text(content)
        part.rename(self.phone / str(index))

    def stop(self) -> None:
        end(self.process)


class NameServer:
    """Answers TXT questions from a table over UDP on loopback; ``deaf`` makes it silent."""

    def __init__(self, texts: Mapping[str, bytes]) -> None:
        self.texts = dict(texts)
        self.deaf = False
        self.asked: list[str] = []
        self._socket = socket.socket(socket.AF_INET, socket.SOCK_DGRAM)
        self._socket.bind(("127.0.0.1", 0))
        self._socket.settimeout(0.1)
        self.port = int(self._socket.getsockname()[1])
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._serve, daemon=True)
        self._thread.start()

    def _serve(self) -> None:
        while not self._stop.is_set():
            try:
                data, peer = self._socket.recvfrom(4096)
            except TimeoutError:
                continue
            question = dns.message.from_wire(data)
            name = question.question[0].name
            self.asked.append(name.to_text(omit_final_dot=True))
            if self.deaf:
                continue
            reply = dns.message.make_response(question)
            found = self.texts.get(self.asked[-1])
            if found is None:
                reply.set_rcode(dns.rcode.NXDOMAIN)
            elif question.question[0].rdtype == dns.rdatatype.TXT:
                pieces = " ".join(f'"{found[i : i + 250].decode()}"' for i in range(0, len(found), 250))
                reply.answer.append(dns.rrset.from_text(name, 60, "IN", "TXT", pieces))
            self._socket.sendto(reply.to_wire(), peer)

    def stop(self) -> None:
        self._stop.set()
        self._thread.join()
        self._socket.close()


class OpenDkim:
    """Verifies and signs as a milter on :attr:`port`; ``keys`` are DNS names with their TXT."""

    def __init__(self, folder: Path, keys: Mapping[str, bytes], *, authserv_id: str = "mx.crew.example") -> None:
        program = need("opendkim", "opendkim")
        folder.mkdir(parents=True, exist_ok=True)
        self.port = free_port()
        (folder / "keys").write_text("".join(f"{name} {text.decode()}\n" for name, text in keys.items()))
        (folder / "internal").write_text("192.0.2.1\n")
        (folder / "opendkim.conf").write_text(
            f"Mode v\nSocket inet:{self.port}@127.0.0.1\nAuthservID {authserv_id}\nTestPublicKeys {folder}/keys\n"
            f"InternalHosts {folder}/internal\nRequireSafeKeys false\nSyslog false\nUserID root\n"
            "AlwaysAddARHeader yes\n"
        )
        self.process = subprocess.Popen(
            [program, "-f", "-x", str(folder / "opendkim.conf")], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        wait_for(lambda: _listens(self.port), said="opendkim did not start")

    def stop(self) -> None:
        end(self.process)


def _listens(port: int) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port), timeout=1).close()
    except OSError:
        return False
    return True


@contextlib.contextmanager
def running(server: Any) -> Iterator[Any]:
    try:
        yield server
    finally:
        getattr(server, "remove", server.stop)()


SIGKILL, SIGSTOP, SIGCONT = signal.SIGKILL, signal.SIGSTOP, signal.SIGCONT
