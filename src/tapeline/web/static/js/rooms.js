/* The floor plan by pointer and arrow keys; everything also works as plain forms. */
"use strict";

(function () {
  const SNAP_CM = 5;
  const CLICK_SNAP_CM = 10;
  const SMALLEST_DRAG_PX = 6;
  const SVG = "http://www.w3.org/2000/svg";

  /* Arrow keys press the button of their direction while the focus is among those. */
  document.addEventListener("keydown", (event) => {
    const form = event.target.closest && event.target.closest("[data-arrows]");
    const button = form && form.querySelector(`[data-key="${event.key}"]`);
    if (!button) return;
    event.preventDefault();
    button.focus({ preventScroll: true });
    button.click();
  });

  /* Dragging a thing of the plan; a short press opens it. */
  function board(place) {
    const svg = place.querySelector("svg");
    let drag = null;
    bringIntoSight(place, svg);

    function at(event) {
      const point = new DOMPoint(event.clientX, event.clientY);
      return point.matrixTransform(svg.getScreenCTM().inverse());
    }

    svg.addEventListener("pointerdown", (event) => {
      const group = event.target.closest("g[data-thing]");
      if (!group || event.button !== 0) return;
      event.preventDefault();
      drag = { key: group.dataset.thing, from: at(event), x: event.clientX, y: event.clientY };
      svg.setPointerCapture(event.pointerId);
    });

    svg.addEventListener("pointermove", (event) => {
      if (!drag) return;
      const now = at(event);
      for (const group of of(svg, drag.key)) {
        group.setAttribute("transform", `translate(${now.x - drag.from.x} ${now.y - drag.from.y})`);
      }
    });

    svg.addEventListener("pointercancel", () => {
      if (!drag) return;
      for (const group of of(svg, drag.key)) group.removeAttribute("transform");
      drag = null;
    });

    svg.addEventListener("pointerup", (event) => {
      if (!drag) return;
      const now = at(event);
      const far = Math.hypot(event.clientX - drag.x, event.clientY - drag.y);
      const key = drag.key;
      const right = snapped(now.x - drag.from.x, SNAP_CM);
      const up = snapped(drag.from.y - now.y, SNAP_CM);
      drag = null;
      if (far < SMALLEST_DRAG_PX || (right === 0 && up === 0)) {
        open(place, key);
        return;
      }
      const moved = document.getElementById("moved");
      moved.elements.thing.value = key;
      moved.elements.right.value = right;
      moved.elements.up.value = up;
      moved.requestSubmit();
    });
  }

  function open(place, key) {
    const address = new URL(place.dataset.board, location.href);
    address.searchParams.set("thing", key);
    address.hash = "chosen";
    location.assign(address);
  }

  function of(svg, key) {
    return svg.querySelectorAll(`g[data-thing="${CSS.escape(key)}"]`);
  }

  /* What is chosen, else the first station, is in sight also where the plan is wider than the page. */
  function bringIntoSight(place, svg) {
    const shown = svg.querySelector("g.chosen") || svg.querySelector('g[data-thing^="station-"]');
    if (!shown || place.scrollWidth <= place.clientWidth) return;
    const box = shown.getBoundingClientRect();
    const frame = place.getBoundingClientRect();
    place.scrollLeft += box.x + box.width / 2 - frame.x - frame.width / 2;
  }

  function snapped(value, step) {
    return Math.round(value / step) * step;
  }

  /* Corners clicked on a grid go into the lines that can be typed as well. */
  function grid(place) {
    const area = document.getElementById("id_corners");
    const width = Number(place.dataset.width);
    const height = Number(place.dataset.height);
    const margin = 60;
    const svg = made("svg", { viewBox: `${-margin} ${-margin} ${width + 2 * margin} ${height + 2 * margin}`, "aria-hidden": "true" });
    for (let x = 0; x <= width; x += 100) svg.append(made("line", { class: "grid", x1: x, y1: 0, x2: x, y2: height }));
    for (let y = 0; y <= height; y += 100) svg.append(made("line", { class: "grid", x1: 0, y1: y, x2: width, y2: y }));
    const walls = made("g", {});
    svg.append(walls);
    place.querySelector(".hint").after(svg);
    place.hidden = false;

    function corners() {
      return area.value.split("\n").map((line) => line.match(/^\s*\[?\s*(-?\d+)\s*[,; ]\s*(-?\d+)\s*\]?\s*$/))
        .filter(Boolean).map((found) => [Number(found[1]), Number(found[2])]);
    }

    function draw() {
      const all = corners();
      walls.replaceChildren();
      const points = all.map(([x, y]) => `${x},${height - y}`);
      walls.append(made("polyline", { class: "wall", points: points.join(" ") }));
      if (all.length > 2) {
        walls.append(made("polyline", { class: "wall open", points: `${points[points.length - 1]} ${points[0]}` }));
      }
      all.forEach(([x, y], at) => {
        walls.append(made("circle", { cx: x, cy: height - y, r: 24 }));
        const number = made("text", { x, y: height - y + 12 });
        number.textContent = at + 1;
        walls.append(number);
      });
    }

    function keep(all) {
      area.value = all.map((one) => one.join(" ")).join("\n");
      draw();
    }

    svg.addEventListener("click", (event) => {
      const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const x = Math.min(width, Math.max(0, snapped(point.x, CLICK_SNAP_CM)));
      const y = Math.min(height, Math.max(0, snapped(height - point.y, CLICK_SNAP_CM)));
      keep([...corners(), [x, y]]);
    });
    place.querySelector("[data-undo]").addEventListener("click", () => keep(corners().slice(0, -1)));
    place.querySelector("[data-clear]").addEventListener("click", () => keep([]));
    area.addEventListener("input", draw);
    draw();
  }

  function made(name, attributes) {
    const found = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) found.setAttribute(key, value);
    return found;
  }

  /* Once for each place, also for those that come in while the page stands. */
  function begin() {
    for (const place of document.querySelectorAll("[data-board], [data-grid]")) {
      if (place.dataset.begun) continue;
      place.dataset.begun = "yes";
      if (place.matches("[data-grid]")) grid(place);
      else if (place.querySelector("svg")) board(place);
    }
  }

  begin();
  document.addEventListener("htmx:load", begin);
})();
