"""The tables, by what they are about; every row belongs to one house.

Ids are text: a slug of the name for what a house names (`whole-milk`), `DATE/MEAL/TABLE` for a
service, a UUID for what commands make. Quantities are whole thousandths of the item's base unit,
money whole minor units, instants aware UTC. Kinds are text with a named CHECK.
"""

from sqlalchemy.orm import configure_mappers
from sqlmodel import SQLModel

SQLModel.metadata.naming_convention = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}

from pantry.records.tables.access import (  # noqa: E402 - names constraints before any table
    PASSING,
    DeviceCodeRow,
    DeviceKeyRow,
    DevicePersonRow,
    PasswordRow,
    PinRow,
    SessionRow,
    TryRow,
    WayInRow,
    WrongPinRow,
)
from pantry.records.tables.alerts import (  # noqa: E402 - as above
    AlertRow,
    AlertStageRow,
    CalendarFeedRow,
    DigestRow,
    LetterRow,
    NoLettersRow,
    SeenToRow,
)
from pantry.records.tables.cold_chain import (  # noqa: E402 - as above
    CleaningRow,
    CoolingReadingRow,
    HeldWarmRow,
    ProbeCheckRow,
    TemperatureRow,
)
from pantry.records.tables.house import (  # noqa: E402 - as above
    AnswersForRow,
    AreaRow,
    DeviceHeardRow,
    DeviceRow,
    HouseRow,
    PersonRow,
    PolicyOverrideRow,
)
from pantry.records.tables.invoices import (  # noqa: E402 - as above
    InvoiceAgreedRow,
    InvoiceCreditRow,
    InvoiceLineRow,
    InvoiceOrderRow,
    InvoiceRow,
)
from pantry.records.tables.journal import ChangeRow, JournalRow, QuestionRow  # noqa: E402 - as above
from pantry.records.tables.labels import (  # noqa: E402 - as above
    LabelRangeRow,
    NumberedLabelRow,
    PrintedLabelRow,
)
from pantry.records.tables.menu import (  # noqa: E402 - as above
    ConstraintRow,
    DiningTableRow,
    IngredientRow,
    LeftOverRow,
    NeedRow,
    OverrideRow,
    PromisedRow,
    PromiseRow,
    RecipeRow,
    ServiceRow,
    ServingRow,
    SubstituteRow,
    VariantRow,
)
from pantry.records.tables.ordering import (  # noqa: E402 - as above
    AnsweredLineRow,
    BudgetRow,
    FreeLineRow,
    OrderBeforeRow,
    OrderSentRow,
    PackPriceRow,
    SupplierAnswerRow,
)
from pantry.records.tables.pictures import PictureRow  # noqa: E402 - as above
from pantry.records.tables.presence import (  # noqa: E402 - as above
    AwayRow,
    RotaRow,
    StayRow,
)
from pantry.records.tables.restoring import (  # noqa: E402 - as above
    AwaitedRow,
    GatheredRow,
    MissingRow,
)
from pantry.records.tables.sheets import (  # noqa: E402 - as above
    MenuAnswerRow,
    SheetLinkRow,
    SheetRow,
    SheetServiceRow,
)
from pantry.records.tables.shop import (  # noqa: E402 - as above
    AskedForRow,
    ShopRunLineRow,
    ShopRunRow,
)
from pantry.records.tables.standing import (  # noqa: E402 - as above
    StandingDeliveryRow,
    StandingLineRow,
    StandingOrderRow,
)
from pantry.records.tables.stock import (  # noqa: E402 - as above
    BalanceRow,
    BatchParentRow,
    BatchRow,
    CountedRow,
    ItemRow,
    MovementRow,
    ReceiptRow,
)
from pantry.records.tables.supply import (  # noqa: E402 - as above
    ClosureRow,
    CreditRow,
    DeliveryRuleRow,
    DriverLeftRow,
    HarvestRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    SupplierRow,
    SupplierTermsRow,
)
from pantry.records.tables.waste import WasteWithoutBatchRow  # noqa: E402 - as above

configure_mappers()
"""A row's columns cannot be read before; SQLAlchemy itself would wait for the first new row."""

__all__ = [
    "PASSING",
    "AlertRow",
    "AlertStageRow",
    "AnsweredLineRow",
    "AnswersForRow",
    "AreaRow",
    "AskedForRow",
    "AwaitedRow",
    "AwayRow",
    "BalanceRow",
    "BatchParentRow",
    "BatchRow",
    "BudgetRow",
    "CalendarFeedRow",
    "ChangeRow",
    "CleaningRow",
    "ClosureRow",
    "ConstraintRow",
    "CoolingReadingRow",
    "CountedRow",
    "CreditRow",
    "DeliveryRuleRow",
    "DeviceCodeRow",
    "DeviceHeardRow",
    "DeviceKeyRow",
    "DevicePersonRow",
    "DeviceRow",
    "DigestRow",
    "DiningTableRow",
    "DriverLeftRow",
    "FreeLineRow",
    "GatheredRow",
    "HarvestRow",
    "HeldWarmRow",
    "HouseRow",
    "IngredientRow",
    "InvoiceAgreedRow",
    "InvoiceCreditRow",
    "InvoiceLineRow",
    "InvoiceOrderRow",
    "InvoiceRow",
    "ItemRow",
    "JournalRow",
    "LabelRangeRow",
    "LeftOverRow",
    "LetterRow",
    "MenuAnswerRow",
    "MissingRow",
    "MovementRow",
    "NeedRow",
    "NoLettersRow",
    "NumberedLabelRow",
    "OrderBeforeRow",
    "OrderLineRow",
    "OrderRow",
    "OrderSentRow",
    "OverrideRow",
    "PackPriceRow",
    "PackRow",
    "PasswordRow",
    "PersonRow",
    "PictureRow",
    "PinRow",
    "PolicyOverrideRow",
    "PrintedLabelRow",
    "ProbeCheckRow",
    "PromiseRow",
    "PromisedRow",
    "QuestionRow",
    "ReceiptRow",
    "RecipeRow",
    "RotaRow",
    "SQLModel",
    "SeenToRow",
    "ServiceRow",
    "ServingRow",
    "SessionRow",
    "SheetLinkRow",
    "SheetRow",
    "SheetServiceRow",
    "ShopRunLineRow",
    "ShopRunRow",
    "StandingDeliveryRow",
    "StandingLineRow",
    "StandingOrderRow",
    "StayRow",
    "SubstituteRow",
    "SupplierAnswerRow",
    "SupplierRow",
    "SupplierTermsRow",
    "TemperatureRow",
    "TryRow",
    "VariantRow",
    "WasteWithoutBatchRow",
    "WayInRow",
    "WrongPinRow",
]
