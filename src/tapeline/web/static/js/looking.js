"use strict";

// While she types or chooses something in the plan, it is not exchanged under her hands: the
// question for news says so, and the answer offers the newer plan as a link.
document.addEventListener("htmx:configRequest", (event) => {
  const plan = document.getElementById("plan");
  const asks = event.target instanceof Element && event.target.closest("#looking");
  if (asks && plan && plan.contains(document.activeElement)) {
    event.detail.parameters.quiet = "1";
  }
});
