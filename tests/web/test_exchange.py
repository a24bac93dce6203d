"""A caseload file laid over what is on file."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.history import Blank, PromptLevel, PromptList
from tapeline.caseload.people import Child
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.selectors.people import child_of
from tapeline.web.services.exchange import caseload_export, caseload_import, caseload_preview

pytestmark = pytest.mark.django_db


def bring_in(caseload: Caseload):
    return caseload_import(text=caseload_json(caseload), name="file.json")


def test_an_empty_place_takes_everything(caseload: Caseload) -> None:
    found = bring_in(caseload)
    assert found.count("refused") == 0
    assert caseload_from_rows() == caseload


def test_what_was_taken_out_comes_in_unchanged(on_file: Caseload) -> None:
    found = caseload_preview(text=caseload_export(), name="file.json")
    assert {line.verdict for line in found.lines} == {"unchanged"}


def test_a_preview_writes_nothing(on_file: Caseload) -> None:
    text = caseload_json(
        replace(
            on_file, children=(), groups=(), sessions=(), trials=(), blanks=(), family_answers=()
        )
    )
    assert caseload_preview(text=text, name="x").count("inactive") == 3
    assert caseload_from_rows() == on_file


def test_a_child_missing_in_the_file_becomes_inactive_and_is_kept(on_file: Caseload) -> None:
    bring_in(
        replace(
            on_file,
            children=on_file.children[:2],
            groups=on_file.groups[:1],
            sessions=on_file.sessions[:1],
        )
    )
    assert not child_of("c3").active
    assert child_of("c3").note == "likes water"
    assert len(caseload_from_rows().groups) == 2


def test_new_and_changed_are_told_apart_with_what_changed(on_file: Caseload) -> None:
    changed = replace(on_file.child("c2"), born="2019-12", note="new splints")
    fresh = Child(id="c4", name="Bo", born="2020-02")
    others = (on_file.child("c1"), on_file.child("c3"))
    found = bring_in(replace(on_file, children=(*others, changed, fresh)))
    lines = {line.id: line for line in found.lines if line.kind == "children"}
    assert (lines["c2"].verdict, lines["c2"].why) == ("changed", "born, note")
    assert lines["c4"].verdict == "new"
    assert child_of("c2") == changed


def test_tries_are_added_and_never_removed(on_file: Caseload) -> None:
    more = replace(on_file.trials[0], id="t9", count=1)
    bring_in(replace(on_file, trials=(more,)))
    assert [trial.id for trial in caseload_from_rows().trials] == ["t1", "t2", "t3", "t9"]


def test_a_different_try_under_a_known_id_is_refused_and_listed(on_file: Caseload) -> None:
    other = replace(on_file.trials[0], count=2)
    found = bring_in(replace(on_file, trials=(other, *on_file.trials[1:])))
    (line,) = found.of("refused")
    assert (line.kind, line.id) == ("trials", "t1")
    assert "count" in line.why
    assert caseload_from_rows() == on_file


def test_a_held_session_is_not_rewritten(on_file: Caseload) -> None:
    other = replace(on_file.sessions[0], activities=("low_line",))
    found = bring_in(replace(on_file, sessions=(other, on_file.sessions[1])))
    assert [line.id for line in found.of("refused")] == ["s1"]
    assert caseload_from_rows() == on_file


def test_another_blank_for_the_same_is_refused(on_file: Caseload) -> None:
    other = Blank(session="s1", child="c2", kind="refused")
    found = bring_in(replace(on_file, blanks=(other,)))
    assert found.of("refused")[0].why == "absent is on file for this, and the file says refused"
    assert caseload_from_rows() == on_file


def test_levels_of_help_may_be_hidden_and_not_reordered(on_file: Caseload) -> None:
    levels = PromptList().levels
    hidden = PromptList(levels=(replace(levels[0], hidden=True), *levels[1:]))
    bring_in(replace(on_file, prompt_lists=(hidden,)))
    assert caseload_from_rows().prompt_lists == (hidden,)
    turned = PromptList(levels=tuple(reversed(levels)))
    own = PromptList(id="mine", levels=(PromptLevel(id="alone", name="alone"),))
    found = bring_in(replace(on_file, prompt_lists=(turned, own)))
    assert [line.id for line in found.of("refused")] == ["shipped"]
    assert caseload_from_rows().prompt_lists == (hidden, own)


def test_all_faults_of_a_file_are_said_at_once_and_nothing_is_written(on_file: Caseload) -> None:
    first, second, third = on_file.children
    wrong = (replace(first, born="1901-01"), replace(second, home="h9"), third, third)
    with pytest.raises(ManyFaults) as error:
        bring_in(replace(on_file, children=wrong))
    text = str(error.value)
    assert "1901-01" in text
    assert "'h9'" in text
    assert "Two children have the id c3" in text
    assert caseload_from_rows() == on_file


def test_a_partial_file_may_name_what_is_on_file_already(on_file: Caseload) -> None:
    group = replace(on_file.group("gulls"), minutes=45)
    bring_in(Caseload(groups=(group,), children=on_file.children))
    assert caseload_from_rows().group("gulls").minutes == 45


def test_an_empty_profile_does_not_wipe_hers(on_file: Caseload) -> None:
    bring_in(Caseload(children=on_file.children))
    assert caseload_from_rows().therapist == on_file.therapist


def test_invented_children_do_not_mix_with_real_ones(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="invented children, and yours are real"):
        bring_in(replace(on_file, invented=True))


def test_a_caseload_that_changed_since_the_preview_is_not_written_over(on_file: Caseload) -> None:
    wanted = replace(
        on_file, children=(replace(on_file.children[0], note="x"), *on_file.children[1:])
    )
    text = caseload_json(wanted)
    seen = caseload_preview(text=text, name="x")
    bring_in(wanted)
    with pytest.raises(InputError, match="changed since you looked"):
        caseload_import(text=text, name="x", expected=seen.digest)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("hello", "x.json is not JSON"),
        ("[]", "not a caseload file"),
        ('{"format": 7}', "of format 7"),
        ('{"format": 1, "children": [{"id": "c1"}]}', "name is missing"),
        (
            '{"format": 1, "own_activities": [{"note": "no id"}]}',
            "Own activity 1 in x.json has no id",
        ),
    ],
)
def test_what_is_no_caseload_file_is_said(db: None, text: str, words: str) -> None:
    with pytest.raises(InputError, match=words):
        caseload_preview(text=text, name="x.json")
