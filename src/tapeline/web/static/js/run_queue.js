/* Presses: kept in this browser first, then sent in order; the same id twice counts once. */
"use strict";
window.Tapeline = window.Tapeline || {};

Tapeline.queue = (function () {
  const body = document.body;
  const prefix = `tapeline.press.${body.dataset.session}.`;
  const unkept = [];            // presses that this browser refused to keep
  const listeners = [];
  const LONGEST_WAIT_MS = 8000;
  const ANSWER_WITHIN_MS = 8000;
  const AT_ONCE = 100;
  const stateKey = `tapeline.state.${body.dataset.session}`;
  const isKeptPage = Tapeline.kept.isShown();
  let state = (isKeptPage && lastState()) || JSON.parse(body.dataset.state);
  let known = new Set(state.known);
  let sending = false;
  let failures = 0;
  let lost = isKeptPage;
  let isTurnedDown = false;     // it answers, and takes nothing now
  let isBack = false;           // the server answered a page that had been kept
  let later = null;
  let made = 0;

  /* What was on file when the server last answered: newer than a page that was kept. */
  function lastState() {
    try {
      return JSON.parse(localStorage.getItem(stateKey));
    } catch (error) {
      return null;
    }
  }

  function keepState() {
    try {
      localStorage.setItem(stateKey, JSON.stringify(state));
    } catch (error) { /* only missed on a page that was kept */ }
  }

  function device() {
    const key = `tapeline.device.${body.dataset.session}`;
    try {
      if (!localStorage.getItem(key)) localStorage.setItem(key, body.dataset.device);
      return localStorage.getItem(key);
    } catch (error) {
      return body.dataset.device;
    }
  }

  function freshId() {
    const bytes = crypto.getRandomValues(new Uint32Array(2));
    return `${device()}.${bytes[0].toString(36)}${bytes[1].toString(36)}`;
  }

  function clock(now) {
    return `${String(now.getHours()).padStart(2, "0")}:${String(now.getMinutes()).padStart(2, "0")}`;
  }

  function press(kind, fields) {
    const now = new Date();
    const one = { id: freshId(), kind, at: now.toISOString(), clock: clock(now), ...fields };
    made += 1;
    const order = `${String(now.getTime()).padStart(15, "0")}.${String(made).padStart(5, "0")}`;
    try {
      localStorage.setItem(`${prefix}${order}.${one.id}`, JSON.stringify(one));
    } catch (error) {
      unkept.push(one);
    }
    tell();
    send();
    return one;
  }

  function kept() {
    const keys = [];
    try {
      for (let at = 0; at < localStorage.length; at += 1) {
        const key = localStorage.key(at);
        if (key.startsWith(prefix)) keys.push(key);
      }
    } catch (error) {
      return [];
    }
    return keys.sort();
  }

  function waiting() {
    const found = kept().map((key) => JSON.parse(localStorage.getItem(key))).filter(Boolean);
    return [...found, ...unkept].filter((one) => !known.has(one.id));
  }

  function forget(ids) {
    const gone = new Set(ids);
    for (const key of kept()) {
      const one = JSON.parse(localStorage.getItem(key));
      if (!one || gone.has(one.id)) localStorage.removeItem(key);
    }
    for (let at = unkept.length - 1; at >= 0; at -= 1) {
      if (gone.has(unkept[at].id)) unkept.splice(at, 1);
    }
  }

  async function send(ask = false) {
    if (sending) return;
    sending = true;
    clearTimeout(later);
    try {
      if (ask && !waiting().length) await sendBatch([]);  // what another device has counted
      let batch = waiting().slice(0, AT_ONCE);
      while (batch.length) {
        await sendBatch(batch);
        failures = 0;
        lost = false;
        isTurnedDown = false;
        tell();
        batch = waiting().slice(0, AT_ONCE);
      }
      if (isBack) lost = false;
    } catch (error) {
      failures += 1;
      lost = true;
      later = setTimeout(() => send(true), Math.min(LONGEST_WAIT_MS, 500 * 2 ** failures));
    } finally {
      sending = false;
      tell();
    }
  }

  async function sendBatch(batch) {
    isTurnedDown = false;
    const stop = new AbortController();
    const limit = setTimeout(() => stop.abort(), ANSWER_WITHIN_MS);
    try {
      const answer = await fetch(body.dataset.presses, {
        method: "POST",
        headers: {
          "Content-Type": "application/json",
          "X-CSRFToken": document.querySelector("#token input").value,
        },
        body: JSON.stringify({ presses: batch }),
        credentials: "same-origin",
        signal: stop.signal,
      });
      isTurnedDown = !answer.ok && answer.status < 500;
      if (!answer.ok) throw new Error(String(answer.status));
      take(await answer.json());
    } finally {
      clearTimeout(limit);
    }
  }

  function take(answer) {
    state = answer.state;
    known = new Set(state.known);
    keepState();
    isBack = isKeptPage;
    forget([...answer.taken, ...answer.refused.map((one) => one.id)]);
    for (const one of answer.refused) {
      for (const listener of listeners) if (listener.refused) listener.refused(one);
    }
  }

  function tell() {
    for (const listener of listeners) listener.changed();
  }

  function begin() {
    forget(known);
    for (const name of ["online", "focus", "pageshow"]) window.addEventListener(name, () => send(true));
    window.addEventListener("storage", tell);
    document.addEventListener("visibilitychange", () => {
      if (!document.hidden) send(true);
    });
    if (!isKeptPage) keepState();
    tell();
    send(isKeptPage);
  }

  return {
    begin,
    press,
    send,
    waiting,
    listen: (listener) => listeners.push(listener),
    state: () => state,
    isLost: () => lost,
    isTurnedDown: () => isTurnedDown,
    isBack: () => isBack,
    isKept: () => unkept.length === 0,
  };
})();
