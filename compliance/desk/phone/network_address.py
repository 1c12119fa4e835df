"""The one address of this machine that a phone on the same network reaches."""

from __future__ import annotations

import ipaddress
import socket

from compliance.refused import RefusedError

_ELSEWHERE = ("198.51.100.1", 9)
"""In a block that is kept for documentation (RFC 5737): no packet is sent there."""


def network_address() -> str:
    """The IPv4 address from which this machine would reach others. A datagram socket that is given a destination asks
    the system for the route and sends nothing. Raises RefusedError."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(_ELSEWHERE)
            found = str(asking.getsockname()[0])
        except OSError:
            found = "0.0.0.0"
    if ipaddress.IPv4Address(found).is_unspecified or ipaddress.IPv4Address(found).is_loopback:
        instead = "connect it first, or name its address with --phone-address"
        raise RefusedError("phone-address", "this machine is on no network", instead)
    return refuse_open_address(found)


def refuse_open_address(text: str) -> str:
    """The address, where it is one of a local network. Raises RefusedError."""
    try:
        found = ipaddress.IPv4Address(text)
    except ValueError:
        raise RefusedError("phone-address", f"{text!r} is no IPv4 address", "write one such as 192.168.1.20") from None
    if found.is_global or found.is_unspecified or found.is_multicast or found.is_loopback:
        where = "all addresses at once" if found.is_unspecified else "no address of a local network"
        raise RefusedError(
            "phone-address", f"{text} is {where}", "name the one that this machine has on a network you trust"
        )
    return str(found)
