"""The routes that answer what is printed, as they are described to programs."""

from typing import Any

from pantry.http.operation import Operation, asked

PDF: dict[str, Any] = {"type": "string", "contentMediaType": "application/pdf"}
"""A file that is printed."""

_LABELS = (
    asked("paper", "a sheet as a4/3x8/70x37 or a roll as 62x29, in mm", type="string"),
    asked("start", "the first free label of a begun sheet", type="integer", minimum=1),
    asked("copies", "of each batch's label", type="integer", minimum=1, maximum=50),
    asked("batch", "by id or label", type="array", items={"type": "string"}),
    asked("order", "all that was received of it", type="string"),
    asked("day", "all that came or was made on it", type="string", format="date"),
    asked("numbers", "the id of the command that reserved them", type="string"),
)

ON_PAPER = (
    Operation(
        "get",
        "/api/labels.pdf",
        "Labels of batches, a delivery, a day, or reserved numbers; for porter, chef, manager.",
        PDF,
        problems=(401, 403, 404, 422, 503),
        answered_as="application/pdf",
        parameters=_LABELS,
    ),
    Operation(
        "get",
        "/api/orders.pdf",
        "An order on A4, as its supplier reads it; for chef, manager.",
        PDF,
        problems=(401, 403, 404, 503),
        answered_as="application/pdf",
        parameters=(asked("order", "its id", type="string"),),
    ),
    Operation(
        "get",
        "/api/reorder.pdf",
        "What must be ordered, by deadline and supplier, on A4; for chef, manager.",
        PDF,
        problems=(401, 403, 503),
        answered_as="application/pdf",
    ),
    Operation(
        "get",
        "/api/invoices.pdf",
        "What suppliers billed, what it should have come to, on A4; for chef, manager.",
        PDF,
        problems=(401, 403, 503),
        answered_as="application/pdf",
    ),
    Operation(
        "get",
        "/api/preparations.pdf",
        "The preparation list on A4; for porter, chef, manager.",
        PDF,
        problems=(401, 403, 422, 503),
        answered_as="application/pdf",
        parameters=(asked("days", "how many, today first", type="integer", minimum=1),),
    ),
    Operation(
        "get",
        "/api/recipes.pdf",
        "A recipe for so many covers, or all of them, on A4; for chef, manager, approver.",
        PDF,
        problems=(401, 403, 404, 422, 503),
        answered_as="application/pdf",
        parameters=(
            asked("recipe", "its name or id", type="string"),
            asked("covers", "for how many", type="integer", minimum=1),
        ),
    ),
)
"""Every PDF there is."""
