"use strict";

// "Watch it move" plays the moving picture in place, once. The file stops by itself after at most
// five seconds; asking again loads it again, so that it begins anew.
document.addEventListener("click", (event) => {
  const link = event.target instanceof Element && event.target.closest("a[data-loop]");
  if (!link) {
    return;
  }
  event.preventDefault();
  const place = document.getElementById(link.dataset.loop);
  let picture = place.querySelector("img");
  if (!picture) {
    picture = document.createElement("img");
    picture.alt = link.dataset.alt || "";
    place.replaceChildren(picture);
  }
  const again = Number(link.dataset.times || "0") + 1;
  link.dataset.times = String(again);
  picture.src = `${link.href}&again=${again}`;
});
