"""The application: every route, around what it serves."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import anyio
from litestar import Litestar
from litestar.config.compression import CompressionConfig
from litestar.datastructures import State
from litestar.middleware import DefineMiddleware
from litestar.types import ASGIApp

from pantry.http import (
    book,
    calendar_feed,
    commands,
    devices,
    enrolment,
    front,
    labels,
    listening,
    me,
    order_letters,
    orders,
    people,
    pictures,
    pins,
    preparation_list,
    recipes,
    reports,
    sheet_links,
    signing_in,
)
from pantry.http.alert_watch import AlertWatch
from pantry.http.client import client
from pantry.http.edge import Edge
from pantry.http.openapi import describe
from pantry.http.problems import HANDLERS
from pantry.http.proxies import Proxies
from pantry.http.served import Served
from pantry.http.who import Knows, renew

SMALLEST = 1_000
"""Bytes; what is shorter is sent as it is."""

ROUTES = [
    front.health,
    front.front,
    front.name_first_manager,
    signing_in.sign_in,
    signing_in.way_in,
    signing_in.sign_out,
    signing_in.change_password,
    me.me,
    devices.go_on_without,
    people.make_way_in,
    people.end_sessions,
    enrolment.make_device_code,
    enrolment.enrol_by_code,
    enrolment.this_device,
    pins.enter_pin,
    pins.set_pin,
    enrolment.unlock_device,
    commands.give_commands,
    commands.exchange,
    reports.report,
    labels.labels,
    preparation_list.preparations,
    orders.invoices,
    orders.order,
    order_letters.send,
    orders.reorder,
    recipes.recipes,
    recipes.read,
    recipes.amounts,
    pictures.keep_picture,
    pictures.picture,
    sheet_links.look,
    sheet_links.read_by_link,
    sheet_links.answer_by_link,
    sheet_links.picture_by_link,
    sheet_links.read_signed_in,
    sheet_links.answer_signed_in,
    sheet_links.picture_signed_in,
    sheet_links.sheet_on_paper,
    book.take_book,
    calendar_feed.my_calendar,
    calendar_feed.make_calendar,
    calendar_feed.withdraw_calendar,
    calendar_feed.calendar_at,
    listening.news,
    describe,
    client,
]


def application(of: Served, proxies: Proxies) -> ASGIApp:
    """The application that serves `of`; its writer is closed by whoever opened it."""

    @asynccontextmanager
    async def watching(_app: Litestar) -> AsyncIterator[None]:
        async with anyio.create_task_group() as group:
            group.start_soon(of.news.watch)
            watch = AlertWatch(of)
            if of.watches:
                group.start_soon(watch.watch)
            yield
            of.news.close()
            watch.close()

    return Edge(
        Litestar(
            route_handlers=ROUTES,
            state=State({"served": of}),
            middleware=[DefineMiddleware(Knows, exclude_from_auth_key="open")],
            exception_handlers=HANDLERS,
            before_send=[renew],
            lifespan=[watching],
            # news are sent one by one as they come
            compression_config=CompressionConfig(
                "gzip", minimum_size=SMALLEST, exclude=["^/api/news$"]
            ),
            openapi_config=None,
            logging_config=None,
        ),
        proxies,
    )
