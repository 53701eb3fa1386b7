// All talk with the program. The token comes in the address behind #, which browsers send to nobody; it is
// taken out of the address at once and kept for this tab alone, so that the page can be loaded again.

const KEPT = "groovemend-token";
let token = null;

export async function enter() {
  const told = new URLSearchParams(location.hash.slice(1));
  if (told.has("token")) {
    token = told.get("token");
  } else if (told.has("ticket")) {
    token = (await post("enter", { ticket: told.get("ticket") })).token;
  } else {
    token = sessionStorage.getItem(KEPT);
  }
  if (!token) {
    throw new Error("Open the address that groovemend review printed; this one lacks its token.");
  }
  sessionStorage.setItem(KEPT, token);
  history.replaceState(null, "", location.pathname);
}

// The program can end before its answer has begun or while it comes.
async function orLost(promise) {
  try {
    return await promise;
  } catch (lost) {
    if (lost.name === "AbortError") throw lost;
    throw new Error(
      "The program does not answer; was it ended? Start groovemend review again: what was decided is saved.",
    );
  }
}

async function ask(path, kind, options = {}) {
  const answer = await orLost(
    fetch("/api/" + path, {
      ...options,
      headers: { ...(options.headers || {}), ...(token ? { "Groovemend-Token": token } : {}) },
      credentials: "omit",
      redirect: "error",
      referrerPolicy: "no-referrer",
    }),
  );
  if (!answer.ok) {
    const said = await answer.json().catch(() => ({}));
    throw new Error(said.error || "The program answered " + answer.status + ".");
  }
  return orLost(answer[kind]());
}

const address = (path, query) => path + (query ? "?" + new URLSearchParams(query) : "");

export const json = (path, query) => ask(address(path, query), "json");

export const bytes = (path, query) => ask(address(path, query), "arrayBuffer");

export const blob = (path, query) => ask(address(path, query), "blob");

// leaving: the request goes on when the page is gone (at most 64 KiB, which a comment never has)
export const post = (path, body, leaving = false) =>
  ask(path, "json", {
    keepalive: leaving,
    method: "POST",
    body: JSON.stringify(body),
    headers: { "Content-Type": "application/json" },
  });
