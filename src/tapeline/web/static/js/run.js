/* The run page: presses, help in force, blanks, keys; everything also works as plain forms. */
"use strict";

(function () {
  const { queue, clock, kept } = Tapeline;
  const body = document.body;
  const say = document.getElementById("words").dataset;
  const screens = [...document.querySelectorAll(".screen")];
  const stored = document.getElementById("stored");
  const OUTCOMES = ["alone", "with_help", "not_yet"];
  const UNDO_KEPT = 60;
  const undoKey = `tapeline.undo.${body.dataset.session}`;
  const partKey = `tapeline.part.${body.dataset.session}`;
  const helpKey = `tapeline.help.${body.dataset.session}`;
  let shown = screens.find((one) => !one.hidden) || screens[0];
  let finishing = false;

  body.classList.add("scripted");

  /* What this browser remembers beside the presses. */
  function recall(key, otherwise) {
    try {
      return JSON.parse(localStorage.getItem(key)) ?? otherwise;
    } catch (error) {
      return otherwise;
    }
  }

  function remember(key, value) {
    try {
      localStorage.setItem(key, JSON.stringify(value));
    } catch (error) { /* it is only a convenience */ }
  }

  /* Which activity is on. */
  function show(place, { focus = true } = {}) {
    const wanted = screens.find((one) => one.dataset.part === String(place));
    if (!wanted) return;
    for (const one of screens) one.hidden = one !== wanted;
    shown = wanted;
    remember(partKey, place);
    history.replaceState(null, "", `?part=${place}`);
    for (const field of document.querySelectorAll(".part-now")) field.value = place;
    clock.enter(shown);
    draw();
    if (focus) {
      window.scrollTo(0, 0);
      shown.querySelector("h1").focus();
    }
  }

  /* Counts: what is stored, and what waits. */
  function drawn() {
    const state = queue.state();
    const counts = {};
    for (const [key, found] of Object.entries(state.counts)) counts[key] = found.slice(0, 3);
    const blanks = { ...state.blanks };
    const left = { ...state.left };
    const late = { ...state.late };
    for (const one of queue.waiting()) {
      const key = `${one.child}/${one.activity || ""}`;
      const comings = { late, left_early: left };
      if (one.kind === "try" || (one.kind === "undo" && one.what === "try")) {
        counts[key] = counts[key] || [0, 0, 0];
        counts[key][OUTCOMES.indexOf(one.outcome)] += one.kind === "try" ? 1 : -1;
      } else if (one.kind === "blank") {
        blanks[key] = one.blank;
      } else if (one.kind in comings) {
        comings[one.kind][one.child] = one.clock;
      } else if (one.kind === "unblank") {
        delete blanks[key];
      } else if (one.kind === "unlate") {
        delete comings[one.what][one.child];
      } else if (one.kind === "undo" && one.what === "blank") {
        put(blanks, key, one.was);
      } else if (one.kind === "undo" && one.what in comings) {
        put(comings[one.what], one.child, one.was);
      }
    }
    return { counts, blanks, left, late };
  }

  function put(where, key, value) {
    if (value) where[key] = value;
    else delete where[key];
  }

  function draw() {
    const now = drawn();
    for (const row of shown.querySelectorAll(".row")) drawRow(row, now);
    const pause = shown.querySelector("[data-pause]");
    pause.hidden = false;
    pause.textContent = clock.isRunning() ? say.pause : clock.hasStarted() ? say.goOn : say.start;
    pause.classList.toggle("main", !clock.isRunning());
    const next = shown.querySelector(".run-bar .next.button, .run-bar .next button");
    next.classList.toggle("main", clock.isRunning());
    for (const box of document.querySelectorAll("[data-away]")) {
      if (box.dataset.touched) continue;
      const isGone = `${box.value}/` in now.blanks || box.value in now.left;
      box.checked = isGone || (box.defaultChecked && !(box.value in now.late));
    }
    drawStored();
  }

  function drawRow(row, now) {
    const child = row.dataset.child;
    const key = `${child}/${shown.dataset.activity}`;
    const counts = now.counts[key] || [0, 0, 0];
    row.querySelectorAll(".try .count").forEach((place, at) => {
      if (place.textContent !== String(counts[at])) place.textContent = counts[at];
    });
    const blank = now.blanks[`${child}/`] || now.blanks[key] || "";
    const notes = [];
    if (blank) notes.push(say[blank]);
    if (child in now.late) notes.push(`${say.late} ${now.late[child]}`);
    if (child in now.left) notes.push(`${say.left} ${now.left[child]}`);
    row.querySelector(".blank").textContent = notes.join(" · ");
    row.toggleAttribute("data-absent", blank === "absent");
    row.toggleAttribute("data-left", child in now.left);
    for (const button of row.querySelectorAll(".try")) button.disabled = blank === "absent";
    row.querySelector(".take-back").hidden = !blank || blank === "absent";
    row.querySelector(".here-after-all").hidden = blank !== "absent";
    row.querySelector(".back-again").hidden = !(child in now.left);
    const help = row.querySelector("input[name=help]:checked");
    if (help) row.querySelector(".in-force").textContent = help.dataset.name;
  }

  function drawStored() {
    const count = queue.waiting().length;
    let text = say.allStored;
    if (count) text = (count === 1 ? say.oneWaits : say.someWait).replace("%d", count);
    if (count && queue.isLost()) text += ` ${queue.isTurnedDown() ? say.notNow : say.noAnswer}`;
    if (!queue.isKept()) text += ` ${say.notKept}`;
    if (stored.textContent !== text) stored.textContent = text;
    stored.classList.toggle("waits", count > 0);
    document.getElementById("no-server").hidden = !kept.isShown() || queue.isBack();
    if (finishing && !count) leave();
    else if (queue.isBack() && !count && !isWriting()) location.reload();
  }

  function isWriting() {
    return [...document.querySelectorAll("textarea")].some((one) => one.value.trim());
  }

  async function leave() {
    await kept.forget();
    location.assign(body.dataset.record);
  }

  function refused(one) {
    const list = document.getElementById("refused");
    const line = document.createElement("li");
    line.textContent = `${say.notTaken} ${one.sentence}`;
    list.append(line);
    list.hidden = false;
  }

  /* Presses. */
  function tellHer(text) {
    document.getElementById("said").textContent = text;
  }

  function inWords(one) {
    const row = document.querySelector(`.row[data-child="${CSS.escape(one.child)}"]`);
    const what = { alone: say.alone, with_help: say.withHelp, not_yet: say.notYet }[one.outcome]
      || say[one.blank]
      || { late: say.late, left_early: say.left, stop: say.stop, timed: say.timing }[one.kind]
      || { unblank: say[one.was], late: say.late, left_early: say.left }[one.what || one.kind];
    return [row ? row.dataset.mark : "", what].filter(Boolean).join(", ");
  }

  function comings(kind) {
    return kind === "late" ? drawn().late : drawn().left;
  }

  /* Each press with what stood there before it, so that undo gives just that back. */
  function remembered(one, was = null) {
    tellHer("");
    const stack = recall(undoKey, []);
    stack.push({ ...one, was });
    remember(undoKey, stack.slice(-UNDO_KEPT));
  }

  function pressed(form, action) {
    const [what, about] = action.split(":");
    const child = form.elements.child ? form.elements.child.value : null;
    const activity = form.elements.activity ? form.elements.activity.value : null;
    if (OUTCOMES.includes(what)) {
      const help = form.querySelector("input[name=help]:checked");
      remembered(queue.press("try", {
        child, activity, outcome: what, version: form.elements.version.value,
        help: what === "alone" || !help ? "alone" : help.value,
      }));
    } else if (what === "blank") {
      const where = about === "absent" ? null : activity;
      const was = drawn().blanks[`${child}/${where || ""}`] || null;
      remembered(queue.press("blank", { child, activity: where, blank: about }), was);
      close(form);
    } else if (what === "unblank" || what === "here") {
      const where = what === "here" ? null : activity;
      const was = drawn().blanks[`${child}/${where || ""}`];
      if (was) remembered(queue.press("unblank", { child, activity: where }), was);
      close(form);
    } else if (what === "late" || what === "left_early") {
      const was = comings(what)[child] || null;
      remembered(queue.press(what, { child }), was);
      close(form);
    } else if (what === "unlate") {
      const was = comings(about)[child];
      if (was) remembered(queue.press("unlate", { child, what: about }), was);
      close(form);
    } else if (what === "stop") {
      stop(form, activity);
    } else if (what === "ended") {
      finish();
    }
  }

  function undo() {
    const stack = recall(undoKey, []);
    const one = stack.pop();
    remember(undoKey, stack);
    if (!one) {
      tellHer(say.nothingToUndo);
      return;
    }
    tellHer(say.takenBack.replace("%s", inWords(one)));
    const { child, activity, was } = one;
    if (one.kind === "unblank") {
      queue.press("blank", { child, activity, blank: was });
    } else if (one.kind === "unlate") {
      const again = queue.press(one.what, { child, clock: was });
      const first = stack.findLast((other) => other.kind === one.what && other.child === child);
      if (first) first.id = again.id;  // the row on file is the new one by now
      remember(undoKey, stack);
    } else {
      const { id: of, kind: what, outcome, blank } = one;
      queue.press("undo", { of, what, child, activity, outcome, blank, was });
    }
  }

  function stop(form, activity) {
    const child = form.querySelector("input[name=child]:checked").value || null;
    remembered(queue.press("stop", {
      activity, child, happened: form.elements.happened.value, done: form.elements.done.value,
    }));
    form.reset();
    form.closest(".stop-form").hidden = true;
    const next = document.getElementById("stop-kept");
    for (const one of next.querySelectorAll("[data-child]")) {
      one.hidden = child !== null && one.dataset.child !== child;
    }
    next.hidden = false;
    next.focus();
  }

  function finish() {
    clock.pause();
    finishing = true;
    queue.press("ended", {});
  }

  function close(form) {
    const list = form.querySelector("details");
    if (list) {
      list.open = false;
      list.querySelector("summary").focus();
    }
  }

  function toggleClock() {
    if (clock.isRunning()) {
      clock.pause();
    } else {
      const isFirst = !clock.hasStarted() && !queue.state().began;
      clock.start();
      if (isFirst) queue.press("began", {});
      stayAwake();
    }
    draw();
  }

  function openStop() {
    clock.pause();
    const form = shown.querySelector(".stop-form");
    form.hidden = false;
    form.scrollIntoView({ block: "center" });
    form.querySelector("textarea").focus();
    draw();
  }

  async function stayAwake() {
    try {
      await navigator.wakeLock.request("screen");
    } catch (error) { /* a screen that sleeps loses nothing */ }
  }

  /* Time five: one button starts, the same one stops. */
  function timeFive(button) {
    const form = button.closest("form");
    const began = Number(button.dataset.began || 0);
    if (!began) {
      button.dataset.began = Date.now();
      button.textContent = say.stopAfterFive;
      return;
    }
    delete button.dataset.began;
    const seconds = Math.round((Date.now() - began) / 100) / 10;
    remembered(queue.press("timed", {
      child: form.elements.child.value, version: form.elements.version.value,
      seconds, units: 5 * Number(button.dataset.size),
    }));
    button.textContent = say.timed.replace("%s", seconds);
  }

  /* Keys. */
  function rows() {
    return [...shown.querySelectorAll(".row")];
  }

  function currentRow() {
    return document.activeElement.closest ? document.activeElement.closest(".row") : null;
  }

  function choose(at) {
    const row = rows()[at];
    if (row) (row.querySelector(".try:not([disabled])") || row.querySelector("summary")).focus();
  }

  function pressIn(row, action) {
    const button = row && row.querySelector(`[value="${action}"]`);
    if (button && !button.disabled) {
      pressed(button.form, action);
      button.focus();
    }
  }

  function key(event) {
    const at = event.target;
    if (event.key === "Escape") {
      escape(at);
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (!document.getElementById("keys-on").checked) return;
    if (at.closest("textarea, select, .stop-form, .run-more") || at.type === "radio") return;
    const act = KEYS[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    const number = /^[1-9]$/.test(event.key) ? Number(event.key) : 0;
    if (number) choose(number - 1);
    else if (act) act();
    else return;
    event.preventDefault();
  }

  const KEYS = {
    a: () => pressIn(currentRow(), "alone"),
    h: () => pressIn(currentRow(), "with_help"),
    n: () => pressIn(currentRow(), "not_yet"),
    l: () => openList(currentRow()),
    u: undo,
    p: toggleClock,
    s: openStop,
    ArrowRight: () => go(shown.querySelector(".next[data-go]")),
    ArrowLeft: () => go(shown.querySelector(".back[data-go]")),
    ArrowDown: () => choose(rows().indexOf(currentRow()) + 1),
    ArrowUp: () => choose(Math.max(0, rows().indexOf(currentRow()) - 1)),
  };

  function openList(row) {
    if (!row) return;
    const list = row.querySelector("details");
    list.open = true;
    (list.querySelector("input:checked") || list.querySelector("button")).focus();
  }

  function escape(at) {
    const list = at.closest("details[open]");
    if (list) {
      list.open = false;
      list.querySelector("summary").focus();
    }
    const form = at.closest(".stop-form, #stop-kept");
    if (form) form.hidden = true;
  }

  function go(link) {
    if (link) show(link.dataset.go);
  }

  /* Wiring. */
  document.addEventListener("submit", (event) => {
    const left = event.target.querySelector(".left-now");
    if (left) left.value = clock.secondsLeft();
    const button = event.submitter;
    if (!button || button.name !== "do") return;
    event.preventDefault();
    if ("undo" in button.dataset) undo();
    else pressed(event.target, button.value);
  });
  document.addEventListener("click", (event) => {
    const target = event.target.closest("[data-go], [data-pause], [data-stop], [data-close], .time-five");
    if (!target) {
      const choice = event.target.closest(".help input[type=radio]");
      if (choice && event.detail > 0) close(choice.form);
      return;
    }
    event.preventDefault();
    if (target.dataset.go) go(target);
    else if ("pause" in target.dataset) toggleClock();
    else if ("stop" in target.dataset) openStop();
    else if ("close" in target.dataset) target.closest(".stop-form, #stop-kept").hidden = true;
    else timeFive(target);
  });
  document.addEventListener("change", (event) => {
    if (event.target.name === "help") {
      const helps = recall(helpKey, {});
      const form = event.target.form;
      helps[`${form.elements.child.value}/${form.elements.activity.value}`] = event.target.value;
      remember(helpKey, helps);
      draw();
    }
    if ("away" in event.target.dataset) event.target.dataset.touched = "yes";
    if (event.target.id === "keys-on") remember("tapeline.keys", event.target.checked);
  });
  document.addEventListener("toggle", (event) => {
    if (event.target.matches(".help[open]")) event.target.querySelector(".help-list").scrollIntoView({ block: "nearest" });
  }, true);
  document.addEventListener("keydown", key);
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden && clock.isRunning()) stayAwake();
  });

  for (const [name, level] of Object.entries(recall(helpKey, {}))) {
    const [child, activity] = name.split("/");
    const screen = screens.find((one) => one.dataset.activity === activity);
    const choice = screen && screen.querySelector(
      `[data-child="${CSS.escape(child)}"] input[name=help][value="${CSS.escape(level)}"]`);
    if (choice) choice.checked = true;
  }
  for (const button of document.querySelectorAll(".time-five")) button.hidden = false;
  document.getElementById("keys-on").checked = recall("tapeline.keys", true);
  queue.listen({ changed: draw, refused });
  const asked = new URLSearchParams(location.search).get("part");
  show(asked ?? recall(partKey, shown.dataset.part), { focus: false });
  queue.begin();
  if (queue.state().status === "planned") kept.begin();
  else kept.forget();
})();
