"""The list of children, the short form that begins, pasting, and a child's own page."""

from __future__ import annotations

from dataclasses import replace

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods

from tapeline.activities.loader import load_rule_book
from tapeline.web.forms.ability import band_typed
from tapeline.web.forms.base import saved
from tapeline.web.forms.children import AboutChildForm, JoinGroupForm, NewChildForm, about_child
from tapeline.web.forms.paste import PasteForm
from tapeline.web.pages.answers import done, found_or_404, page, typed_into
from tapeline.web.pages.went import went
from tapeline.web.records.convert import tries_of
from tapeline.web.records.convert.whole import prompt_lists_from_rows
from tapeline.web.records.which import invented_is_open
from tapeline.web.selectors import children_view as view
from tapeline.web.selectors.goals_ahead import goals_with_ahead
from tapeline.web.selectors.groups import groups_list
from tapeline.web.selectors.last_results import last_results
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.losses import loss_lines
from tapeline.web.selectors.mentions import mentions_of
from tapeline.web.selectors.people import child_of, home_of
from tapeline.web.services.erase import child_erase
from tapeline.web.services.keeping import backups_kept
from tapeline.web.services.know import child_begin
from tapeline.web.services.paste import children_add, table_of
from tapeline.web.services.people import child_save
from tapeline.web.today import today
from tapeline.web.words import GETS_ABOUT, PLACES, age_in_words

MANY = 12
MOST_AT_ONCE = 60


@require_GET
def children(request: HttpRequest) -> HttpResponse:
    """Every child, those who take part first; a search where there are many."""
    everyone = view.child_names()
    words = request.GET.get("words", "").strip()
    lines = view.child_lines(everyone, groups_list(), on=today())
    if words:
        lines = tuple(line for line in lines if _matches(line, words))
    context = {
        "active": [line for line in lines if line.child.active],
        "inactive": [line for line in lines if not line.child.active],
        "count": len(everyone),
        "has_many": len(everyone) > MANY,
        "words": words,
    }
    return render(request, "children/list.html", context)


def _matches(line: view.ChildLine, words: str) -> bool:
    text = f"{line.child.name} {' '.join(line.groups)}".casefold()
    return all(word in text for word in words.casefold().split())


@require_http_methods(["GET", "POST"])
def child_new(request: HttpRequest) -> HttpResponse:
    """A child in within a minute: name or code, birth month, group."""
    groups = groups_list()
    first = {"group": request.GET.get("group", "")}
    form = NewChildForm(typed_into(request), groups=groups, initial=first)
    by_id = {group.id: group for group in groups}
    made = []

    def save(typed: dict[str, str]) -> None:
        group = by_id.get(typed["group"])
        made.append(child_begin(name=typed["name"], born=typed["born"], group=group))

    if request.method == "POST" and saved(form, save):
        return _after_beginning(request, made[0].id, made[0].name)
    return page(request, "children/new.html", {"form": form}, has_faults=bool(form.errors))


def _after_beginning(request: HttpRequest, key: str, name: str) -> HttpResponse:
    said = _("%(name)s is on file.") % {"name": name}
    if "another" in request.POST:
        return done(request, said, "child_new")
    return done(request, said, "child", key)


@require_http_methods(["GET", "POST"])
def child_paste(request: HttpRequest) -> HttpResponse:
    """Children from a spreadsheet: look first, then add them all."""
    form = PasteForm(typed_into(request), request.FILES or None)
    context = {"form": form, "groups": groups_list(), "most": MOST_AT_ONCE}
    if request.method != "POST" or not form.is_valid():
        return page(request, "children/paste.html", context, has_faults=bool(form.errors))
    text = form.cleaned_data["text"]
    found, faults = table_of(text=text)
    context |= {"found": found, "faults": faults, "text": text}
    if len(found) > MOST_AT_ONCE:
        said = _("The table has %(n)d children. Bring in at most %(most)d at a time.")
        form.add_error("text", said % {"n": len(found), "most": MOST_AT_ONCE})
    if faults or form.errors:
        context["form"] = form if form.errors else PasteForm(initial={"text": text})
        return page(request, "children/paste.html", context, has_faults=True)
    if "sure" not in request.POST:
        return render(request, "children/paste_preview.html", context)
    added = children_add(text=text)
    said = ngettext("%(n)d child is on file.", "%(n)d children are on file.", len(added))
    return done(request, said % {"n": len(added)}, "children")


@require_GET
def child(request: HttpRequest, key: str) -> HttpResponse:
    """All that is known about a child, piece by piece, each with a way to change it."""
    one = found_or_404(child_of, key)
    groups = groups_list()
    library = library_now()
    tries = tries_of(one)
    levels = {level.id: level.name for level in prompt_lists_from_rows()[-1].levels}
    mine = view.memberships_of(key, groups, on=today())
    joined = {line.group.id for line in mine if not line.is_over}
    others = [group for group in groups if group.id not in joined]
    context = {
        "child": one,
        "age": age_in_words(one.age_months(today())),
        "gets_about": GETS_ABOUT[one.gets_about],
        "home": home_of(one.home) if one.home else None,
        "memberships": [(line, PLACES[line.member.place]) for line in mine],
        "join": JoinGroupForm(groups=others) if others else None,
        "starts": view.start_lines(one, library),
        "goals": goals_with_ahead(view.goal_lines(one, library, levels), tries, one, on=today()),
        "losses": loss_lines(tries, one, on=today()),
        "results": last_results(tries, one, on=today()),
        "band": band_typed(one),
        "precautions": view.precaution_lines(one, load_rule_book(), on=today()),
    }
    return render(request, "children/child.html", context)


@require_http_methods(["GET", "POST"])
def child_about(request: HttpRequest, key: str) -> HttpResponse:
    """Name, birth month, mark, how the child gets about, own measures, note, active."""
    one = found_or_404(child_of, key)
    taken = view.marks_taken_near(key)
    form = AboutChildForm(typed_into(request), initial=about_child(one), taken=taken)
    if request.method == "POST" and saved(
        form, lambda typed: child_save(child=replace(one, **typed))
    ):
        said = _("Saved: %(name)s.") % {"name": form.cleaned_data["name"]}
        return done(request, said, "child", key)
    context = {"form": form, "child": one}
    return page(request, "children/about.html", context, has_faults=bool(form.errors))


@require_http_methods(["GET", "POST"])
def child_away(request: HttpRequest, key: str) -> HttpResponse:
    """Delete a child for good: asks once, says what goes, and then what went."""
    one = found_or_404(child_of, key)
    if request.method == "POST":
        return render(request, "children/deleted.html", went(child_erase(child_key=key)))
    context = {
        "child": one,
        "recorded": view.counts_recorded(key),
        "home_too": view.home_goes_too(key),
        "backups": 0 if invented_is_open() else len(backups_kept()),
        "mentions": mentions_of(one.name, but_child=key),
    }
    return render(request, "children/delete.html", context)
