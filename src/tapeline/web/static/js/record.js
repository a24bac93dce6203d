/* The tally grid by keyboard: Enter goes to the next child, arrows up and down stay in a column. */
"use strict";

(function () {
  const form = document.getElementById("tally");

  function move(field, by) {
    const name = field.name.split("-")[0];
    const column = [...form.querySelectorAll(`[name^="${name}-"]`)];
    const next = column[column.indexOf(field) + by];
    if (next) {
      next.focus();
      if (next.select) next.select();
    }
    return Boolean(next);
  }

  function nextRow(field) {
    const rows = [...form.querySelectorAll("tbody tr")].filter((row) => row.querySelector("td input"));
    const next = rows[rows.indexOf(field.closest("tr")) + 1];
    const target = next ? next.querySelector("input[size]") : form.querySelector("button.main");
    target.focus();
  }

  form.addEventListener("keydown", (event) => {
    const field = event.target;
    if (!field.closest("table")) return;
    if (event.key === "Enter") {
      event.preventDefault();
      nextRow(field);
    } else if (field.tagName === "INPUT" && (event.key === "ArrowDown" || event.key === "ArrowUp")) {
      if (move(field, event.key === "ArrowDown" ? 1 : -1)) event.preventDefault();
    }
  });
})();
