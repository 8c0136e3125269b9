"""Exchanges and server processes with one method written wrongly."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import HouseRow
from tests.simulation.exchange import Exchange
from tests.simulation.server import Done, Server
from tests.simulation.thornwick import ID


class EpochIgnored(Exchange):
    def _is_of_another_epoch(self, _request: dict, _house: HouseRow) -> bool:
        return False


class ReplaysPhoneByPhone(Exchange):
    def _order(self) -> str:
        return "device, position"


class BackedUpByChanges(Exchange):
    def _backed_up(self, house: HouseRow) -> int:
        return house.change if house.backed_up else 0


class MissingIsNotAsked(Exchange):
    def _ask_about(self, *_: object) -> None:
        pass


class AnswersBeforeCommit(Server):
    def do(self, pieces: list[Callable], fault: str | None = None) -> list[Done]:
        early: list[Any] = []

        def telling(piece: Callable) -> Callable:
            def tell(connection: Any) -> Any:
                early.append(piece(connection))
                return early[-1]

            return tell

        done = super().do([telling(piece) for piece in pieces], fault)
        return [replace(each, reply=reply) for each, reply in zip(done, early, strict=True)]


class BackedUpBeforeVerified(Server):
    def back_up_in_vain(self) -> None:
        with writing(self.engine) as connection:
            change(connection, HouseRow, {"id": ID}, backed_up=self.house().position)
        super().back_up_in_vain()
