"""Put first on the path of a process, this ends it at the first try to reach the network or to start a program."""

import os
import sys

_BARRED = (
    "socket.", "urllib.", "http.client.", "ftplib.", "smtplib.", "subprocess.", "os.system", "os.exec",
    "os.posix_spawn", "os.spawn", "os.fork", "os.startfile", "webbrowser.", "ctypes.dlopen",
)  # fmt: skip
_HARMLESS = ("socket.gethostname",)


def _watch(event: str, args: tuple[object, ...]) -> None:
    if event.startswith(_BARRED) and event not in _HARMLESS:
        os.write(2, f"barred: {event} {args!r}\n".encode())
        os._exit(97)


sys.addaudithook(_watch)
