/* The run page when tapeline does not answer: the page as it was last seen, and what it needs.

   Its scope is one session's run page. The network is always asked first; only when nobody
   answers is something kept shown. Pages of other addresses and forms pass by untouched. */
"use strict";

const PAGE = new URL(self.registration.scope).pathname;
const KEPT = `tapeline-run ${PAGE}`;
const ASSETS = "/static/";

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== self.location.origin) return;
  if (request.mode === "navigate") {
    if (address.pathname === PAGE) event.respondWith(page(request, address));
  } else if (address.pathname.startsWith(ASSETS)) {
    event.respondWith(asset(request));
  }
});

self.addEventListener("message", (event) => {
  event.waitUntil(event.data.forget ? forget() : keep(event.data.assets));
});

async function page(request, address) {
  let answer;
  try {
    answer = await fetch(request);
  } catch (error) {
    return (await lastSeen()) || Response.error();
  }
  const kept = await caches.open(KEPT);
  if (!answer.ok) await kept.delete(PAGE);  // it is another page by now, or none
  else if (!address.searchParams.has("stopped")) await kept.put(PAGE, answer.clone());
  return answer;
}

/* The kept page, marked as such in its body. */
async function lastSeen() {
  const found = await (await caches.open(KEPT)).match(PAGE);
  if (!found) return null;
  const text = (await found.text()).replace('<body class="run"', '<body class="run" data-kept="yes"');
  const headers = new Headers(found.headers);
  for (const name of ["Content-Length", "Content-Encoding"]) headers.delete(name);
  return new Response(text, { headers });
}

async function asset(request) {
  const kept = await caches.open(KEPT);
  try {
    const answer = await fetch(request);
    if (answer.ok) await kept.put(request.url, answer.clone());
    return answer;
  } catch (error) {
    return (await kept.match(request.url)) || Response.error();
  }
}

/* What came before this worker did: the page itself, and what it has loaded. */
async function keep(assets) {
  const kept = await caches.open(KEPT);
  for (const address of assets) {
    const { pathname, origin } = new URL(address, self.location);
    if (origin !== self.location.origin || !pathname.startsWith(ASSETS)) continue;
    if (!(await kept.match(address))) await kept.add(address);
  }
  if (await kept.match(PAGE)) return;
  const answer = await fetch(PAGE);
  if (answer.ok && !answer.redirected) await kept.put(PAGE, answer);
}

async function forget() {
  await caches.delete(KEPT);
  await self.registration.unregister();
}
