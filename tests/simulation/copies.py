"""What a phone or a desk is told of the house: each thing as it stands, by what and key.

A change of the house's one sequence says what is different; its reader gets the thing as it stands
now. A fresh copy is every thing. Read by plain SQL, so that a change that was not numbered shows as
a difference between the two.
"""

from sqlalchemy import Connection, text

from tests.simulation.thornwick import ID

Thing = dict
Things = dict[tuple[str, str], Thing]
"""Things by what they are and their key."""

_ONE = {
    "batch": text("SELECT item, label FROM batch WHERE house = :house AND id = :key"),
    "item": text(
        "SELECT version, last_command, level, floor, order_up_to FROM item"
        " WHERE house = :house AND id = :key"
    ),
    "service": text(
        "SELECT state, covers, version, last_command FROM service"
        " WHERE house = :house AND id = :key"
    ),
    "question": text(
        "SELECT kind, owner, about, version, answers, settled_by FROM question"
        " WHERE house = :house AND id = :key"
    ),
    "device": text("SELECT name, revoked FROM device WHERE house = :house AND id = :key"),
}
_STANDS = text(
    "SELECT account, quantity FROM balance"
    " WHERE house = :house AND batch = :key AND quantity <> 0 ORDER BY account"
)
_PROMISED = text(
    "SELECT batch, SUM(quantity) FROM promised"
    " WHERE house = :house AND service = :key GROUP BY batch ORDER BY batch"
)
_MORE = {"batch": ("stands", _STANDS), "service": ("promised", _PROMISED)}
_KEYS = {
    what: text(f"SELECT id FROM {what} WHERE house = :house")  # noqa: S608 - the names above
    for what in _ONE
}
_CHANGES = text(
    "SELECT number, what, key FROM change WHERE house = :house AND number > :after ORDER BY number"
)


def whole(connection: Connection) -> Things:
    """Every thing as it stands."""
    return {
        (what, key): thing(connection, what, key)
        for what in _ONE
        for (key,) in connection.execute(_KEYS[what], {"house": ID})
    }


def since(connection: Connection, after: int) -> tuple[list[int], Things]:
    """The numbers of the changes after one, and what they are about, as it stands."""
    rows = connection.execute(_CHANGES, {"house": ID, "after": after}).all()
    about = dict.fromkeys((what, key) for _, what, key in rows)
    return [number for number, _, _ in rows], {
        (what, key): thing(connection, what, key) for what, key in about
    }


def thing(connection: Connection, what: str, key: str) -> Thing:
    """One thing as it stands.

    Raises:
        KeyError: the product numbers changes of a kind that is not simulated.
    """
    where = {"house": ID, "key": key}
    row = connection.execute(_ONE[what], where).mappings().one()
    found = dict(row)
    if what in _MORE:
        name, query = _MORE[what]
        found[name] = {first: int(second) for first, second in connection.execute(query, where)}
    return found
