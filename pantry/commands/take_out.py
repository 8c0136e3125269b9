"""Take part of a batch out for a service or a preparation (LG2)."""

from pantry.commands import naming
from pantry.commands.child_batch import Part
from pantry.commands.facts import TakeOut
from pantry.commands.food_put_in import put_into_preparation, put_into_service
from pantry.commands.given import Given
from pantry.commands.shelf import draw, stood
from pantry.commands.treatments import thaw_part
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.tables import ServiceRow
from pantry.refusals import UnreadableInput, declare
from pantry.rules.menu import ServiceState
from pantry.rules.stock import State

PURPOSE_MISSING = declare("purpose_missing", "What it was taken out for is not said.")


def take_out(books: Books, given: Given[TakeOut]) -> None:
    """From the shelf to the kitchen; what the service still wants is less by so much.

    What is taken out of the freezer thaws from then on, as a child batch under the command's own id
    (SL3).

    Raises:
        NotThere: an unknown batch, area, service or preparation.
        UnreadableInput: the quantity cannot be read, `purpose_missing`.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    source = stood(naming.area(books, body.area).id if body.area else None)
    target = _target(books, body)
    pieces = naming.pieces(body.quantity)
    _look_at_food(books, body, batch.item)
    if batch.state == State.FROZEN:
        part = Part(batch, quantity, given.at, given.id, None, pieces, source, target)
        thaw_part(books, part)
        return
    draw(books, batch, Movement(batch.id, quantity, source, target, given.at, pieces=pieces))


def _look_at_food(books: Books, body: TakeOut, item: str) -> None:
    """Whoever cannot eat what stands in for something is looked for (AL3)."""
    if body.service is not None:
        service = naming.service(books, body.service)
        eaten = service.state == ServiceState.SERVED
        put_into_service(books, service, [item], eaten=eaten)
    elif body.preparation is not None:
        recipe = naming.recipe(books, body.preparation, "body.preparation")
        put_into_preparation(books, recipe.id, [item])


def _target(books: Books, body: TakeOut) -> str:
    if body.service is not None:
        return _for_service(books, naming.service(books, body.service))
    if body.preparation is None:
        raise UnreadableInput(
            PURPOSE_MISSING,
            f"{body.batch} was taken out, but not for what.",
            "Name the service or the preparation.",
            value=body.batch,
            field="body.service",
        )
    recipe = naming.recipe(books, body.preparation, "body.preparation")
    return accounts.kitchen(recipe.makes or recipe.id)


def _for_service(books: Books, service: ServiceRow) -> str:
    """The kitchen; of a service that has been served it is eaten already."""
    if service.state == ServiceState.SERVED:
        return accounts.served(service.id)
    if service.state == ServiceState.TAKEN_OFF:
        ask_what_becomes(books, service.id)
    return accounts.kitchen(service.id)


def ask_what_becomes(books: Books, service: str) -> None:
    """Ask what becomes of food that was taken out for a service nobody eats."""
    ask(
        books,
        "taken_out_for_nobody",
        "chef",
        service,
        recorded=f"Food was taken out for {service}.",
        against="The service does not take place.",
        answers=("it was put back", "it was used otherwise", "it was thrown away"),
    )
