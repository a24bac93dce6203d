/* Keeps the run page for a reload while tapeline does not answer; see run_worker.js. */
"use strict";
window.Tapeline = window.Tapeline || {};

Tapeline.kept = (function () {
  const { worker } = document.body.dataset;
  const isPossible = "serviceWorker" in navigator && Boolean(worker);

  async function tell(message) {
    if (!isPossible) return;
    try {
      const registration = await navigator.serviceWorker.ready;
      registration.active.postMessage(message);
    } catch (error) { /* it is only missed when the server is lost */ }
  }

  async function begin() {
    if (!isPossible) return;
    try {
      await navigator.serviceWorker.register(worker, { updateViaCache: "none" });
      await document.fonts.ready;
    } catch (error) {
      return;  // nobody answers, or this browser keeps nothing
    }
    const loaded = performance.getEntriesByType("resource").map((one) => one.name);
    const named = [...document.querySelectorAll("link[href], script[src]")]
      .map((one) => one.href || one.src);
    await tell({ assets: [...new Set([...named, ...loaded])] });
  }

  return {
    begin,
    forget: () => tell({ forget: true }),
    isShown: () => "kept" in document.body.dataset,
  };
})();
