"""Addresses of e-mail: one mailbox, `name@domain` (RFC 5322, section 3.4.1)."""

from email.headerregistry import Address

from pantry.refusals import UnreadableInput, declare

ADDRESS_UNREADABLE = declare("address_unreadable", "The e-mail address is not one.")


def address(written: str) -> str:
    """An e-mail address, looked at: one mailbox and nothing else.

    Raises:
        UnreadableInput: `address_unreadable`.
    """
    try:
        found = Address(addr_spec=written.strip())
        if found.username and "." in found.domain.strip("."):
            return found.addr_spec
        if found.username and found.domain == "localhost":
            return found.addr_spec
    except (ValueError, IndexError):
        pass
    raise UnreadableInput(
        ADDRESS_UNREADABLE,
        f"{written!r} is no e-mail address.",
        "Write one address, such as office@larkfield.example.",
        value=written,
    )
