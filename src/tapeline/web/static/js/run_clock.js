/* The clock of the part that is on: kept in this browser, so that sleep and reload lose nothing. */
"use strict";
window.Tapeline = window.Tapeline || {};

Tapeline.clock = (function () {
  const key = `tapeline.clock.${document.body.dataset.session}`;
  const TAPE = 640;
  const EVERY_MS = 250;
  let shown = null;             // the screen that is on
  let saved = read();           // {block, left: {block: seconds}, since: ms or null}

  function read() {
    try {
      return JSON.parse(localStorage.getItem(key)) || { block: null, left: {}, since: null };
    } catch (error) {
      return { block: null, left: {}, since: null };
    }
  }

  function keep() {
    try {
      localStorage.setItem(key, JSON.stringify(saved));
    } catch (error) { /* the clock goes on without being kept */ }
  }

  function left() {
    const at = saved.left[saved.block];
    return saved.since === null ? at : at - (Date.now() - saved.since) / 1000;
  }

  function enter(screen) {
    shown = screen;
    const block = screen.dataset.block;
    if (block !== saved.block) {
      const goesOn = saved.block !== null && hasStarted();
      if (saved.block !== null) saved.left[saved.block] = left();
      saved.block = block;
      if (!(block in saved.left)) saved.left[block] = Number(screen.dataset.seconds);
      saved.since = goesOn ? Date.now() : null;
      keep();
    }
    draw();
  }

  function hasStarted() {
    return saved.since !== null || Boolean(saved.begun);
  }

  function isRunning() {
    return saved.since !== null;
  }

  function start() {
    if (isRunning()) return;
    saved.begun = true;
    saved.since = Date.now();
    keep();
    draw();
  }

  function pause() {
    if (!isRunning()) return;
    saved.left[saved.block] = left();
    saved.since = null;
    keep();
    draw();
  }

  function words(seconds) {
    const whole = seconds >= 0 ? Math.ceil(seconds) : Math.floor(-seconds);
    const text = `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
    return seconds < 0 && whole > 0 ? `+${text}` : text;
  }

  function draw() {
    if (!shown) return;
    const now = left();
    const clock = shown.querySelector(".clock");
    const text = words(now);
    if (clock.textContent !== text) clock.textContent = text;
    const share = Math.max(0, Math.min(1, now / Number(shown.dataset.seconds)));
    shown.querySelector(".tape-left").setAttribute("width", (TAPE * share).toFixed(1));
  }

  function secondsLeft() {
    return Math.max(0, Math.round(left()));
  }

  setInterval(draw, EVERY_MS);
  document.addEventListener("visibilitychange", draw);
  return { enter, start, pause, isRunning, hasStarted, secondsLeft };
})();
