"""The moving picture of a move: a file of its own, with its own policy, found from the page."""

from __future__ import annotations

import gzip

import pytest
from django.urls import reverse

pytestmark = pytest.mark.django_db


def test_a_moving_picture_is_an_svg_file_with_a_policy_of_its_own(client):
    answer = client.get(reverse("move_loop", args=["throw_under"]) + "?target=spot&way=wheelchair")
    assert answer.status_code == 200
    assert answer["Content-Type"] == "image/svg+xml"
    assert "style-src 'unsafe-inline'" in answer["Content-Security-Policy"]
    assert "script" not in answer.content.decode()
    assert len(gzip.compress(answer.content)) < 40_000


@pytest.mark.parametrize(
    "address",
    [
        "moonwalk",
        "hop?target=box",
        "hop?way=wheelchair",
        "throw_under?distance_cm=0",
        "throw_under?distance_cm=²",
        "throw_under?distance_cm=" + "9" * 400,
    ],
)
def test_what_cannot_be_drawn_is_not_found(client, address):
    move, _, query = address.partition("?")
    answer = client.get(reverse("move_loop", args=[move]) + f"?{query}")
    assert answer.status_code == 404


def test_the_page_of_an_activity_offers_to_watch_it_move(client):
    page = client.get(reverse("library_activity", args=["sock_basket"])).content.decode()
    assert "data-loop" in page
    assert "/moves/" in page
    assert "js/loops.js" in page
