"""The reports as people read them on a terminal: from the same data that programs get as JSON."""

from pantry.terminal.shown.alerts import alerts
from pantry.terminal.shown.changes import changes
from pantry.terminal.shown.code import code
from pantry.terminal.shown.cold_chain import checks, cooling, temperatures
from pantry.terminal.shown.coverage import coverage, coverage_of_one
from pantry.terminal.shown.credits import owed
from pantry.terminal.shown.days import days
from pantry.terminal.shown.devices import devices
from pantry.terminal.shown.dishes import dishes
from pantry.terminal.shown.dishes_for import dishes_for
from pantry.terminal.shown.expected import expected
from pantry.terminal.shown.house import house
from pantry.terminal.shown.invoices import invoices
from pantry.terminal.shown.items import items
from pantry.terminal.shown.labels import labels
from pantry.terminal.shown.late_change import late_change
from pantry.terminal.shown.lists import pick, pull
from pantry.terminal.shown.longer_notice import longer_notice
from pantry.terminal.shown.menus import menus
from pantry.terminal.shown.morning import morning
from pantry.terminal.shown.notice import notice
from pantry.terminal.shown.ordering import budget, orders, prices, reorder
from pantry.terminal.shown.plan import plan
from pantry.terminal.shown.preparations import preparations
from pantry.terminal.shown.presence import presence
from pantry.terminal.shown.questions import questions
from pantry.terminal.shown.recipes import recipe, recipes
from pantry.terminal.shown.serving import instead, served, serving
from pantry.terminal.shown.sheets import sheets
from pantry.terminal.shown.standing_orders import standing_orders
from pantry.terminal.shown.stock import stock
from pantry.terminal.shown.supplier_record import supplier_record
from pantry.terminal.shown.suppliers import suppliers
from pantry.terminal.shown.trace import trace
from pantry.terminal.shown.use_first import use_first
from pantry.terminal.shown.waste import waste, waste_without_batch
from pantry.terminal.shown.wrong_places import wrong_places

__all__ = [
    "alerts",
    "budget",
    "changes",
    "checks",
    "code",
    "cooling",
    "coverage",
    "coverage_of_one",
    "days",
    "devices",
    "dishes",
    "dishes_for",
    "expected",
    "house",
    "instead",
    "invoices",
    "items",
    "labels",
    "late_change",
    "longer_notice",
    "menus",
    "morning",
    "notice",
    "orders",
    "owed",
    "pick",
    "plan",
    "preparations",
    "presence",
    "prices",
    "pull",
    "questions",
    "recipe",
    "recipes",
    "reorder",
    "served",
    "serving",
    "sheets",
    "standing_orders",
    "stock",
    "supplier_record",
    "suppliers",
    "temperatures",
    "trace",
    "use_first",
    "waste",
    "waste_without_batch",
    "wrong_places",
]
