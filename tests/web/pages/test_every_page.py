"""What holds on every page of records: nothing from outside, labels, one main thing to do."""

from __future__ import annotations

import re

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload

pytestmark = pytest.mark.django_db
PAGES = (
    "/children/",
    "/children/new/",
    "/children/paste/",
    "/children/c1/",
    "/children/c1/about/",
    "/children/c1/home/",
    "/children/c1/skills/",
    "/children/c1/goals/new/",
    "/children/c1/goals/g1/",
    "/children/c1/precautions/",
    "/children/c1/precautions/0/",
    "/children/c1/precautions/0/go-aheads/new/",
    "/children/c1/precautions/0/go-aheads/0/",
    "/children/c1/delete/",
    "/homes/",
    "/homes/new/",
    "/homes/h3/",
    "/homes/h3/things/",
    "/homes/h3/delete/",
    "/groups/",
    "/groups/new/",
    "/groups/gulls/",
    "/groups/gulls/delete/",
    "/sites/",
    "/sites/new/",
    "/sites/quay/",
    "/sites/quay/rooms/new/",
    "/sites/quay/rooms/hall/",
    "/sites/quay/delete/",
    "/about-you/",
    "/library/",
    "/library/loaf_catch/",
    "/library/loaf_catch/mine/",
    "/library/sock_basket/mine/half_metre.usual/",
    "/library/loaf_catch/changes/",
    "/library/loaf_catch/leave-out/",
    "/library/sock_basket/versions/new/",
    "/library/hers/",
    "/library/hers/new/",
    "/library/left-out/",
    "/library/share/",
    "/library/things/new/",
)


@pytest.mark.parametrize("address", PAGES)
def test_what_holds_on_every_page(browser: Client, on_file: Caseload, address: str) -> None:
    answer = browser.get(address)
    assert answer.status_code == 200
    main_part = re.search(r"<main.*</main>", answer.content.decode(), re.DOTALL)[0]
    for check in CHECKS:
        check(main_part)


def no_style_or_script_stands_in_the_page(main_part: str) -> None:
    assert not re.search(r'\sstyle="|<style|<script|\son[a-z]+="', main_part)
    assert not re.search(r'(?:src|href|action)="(?:https?:)?//', main_part)


def every_control_has_a_label_and_every_id_is_one_of_a_kind(main_part: str) -> None:
    ids = re.findall(r'\sid="([^"]*)"', main_part)
    assert len(ids) == len(set(ids))
    pointed = set(re.findall(r'<label[^>]*\sfor="([^"]*)"', main_part))
    wrapped = re.sub(r"<label.*?</label>", "", main_part, flags=re.DOTALL)
    for tag in re.findall(r"<(?:input|select|textarea)[^>]*>", wrapped):
        if 'type="hidden"' not in tag:
            assert re.search(r'\sid="([^"]*)"', tag), tag
            assert re.search(r'\sid="([^"]*)"', tag)[1] in pointed, tag


def what_a_field_is_described_by_is_on_the_page(main_part: str) -> None:
    ids = set(re.findall(r'\sid="([^"]*)"', main_part))
    for described in re.findall(r'aria-describedby="([^"]*)"', main_part):
        assert set(described.split()) <= ids


def one_main_thing_to_do_and_one_heading(main_part: str) -> None:
    assert main_part.count("<h1") == 1
    assert len(re.findall(r'class="(?:button )?main"', main_part)) <= 1


def each_set_of_choices_has_a_legend(main_part: str) -> None:
    for fieldset in re.findall(r"<fieldset[^>]*>\s*(<[a-z]+)", main_part):
        assert fieldset == "<legend"


CHECKS = (
    no_style_or_script_stands_in_the_page,
    every_control_has_a_label_and_every_id_is_one_of_a_kind,
    what_a_field_is_described_by_is_on_the_page,
    one_main_thing_to_do_and_one_heading,
    each_set_of_choices_has_a_legend,
)
