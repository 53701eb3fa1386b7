// Puts the page together.
import * as api from "./api.js";
import { byId, count, many, say, tell, time } from "./words.js";
import { Edits } from "./edits.js";
import { Filter } from "./filter.js";
import { keys } from "./keys.js";
import { List } from "./list.js";
import { Place } from "./place.js";
import { Rules } from "./rules.js";
import { SideStrip } from "./side-strip.js";
import { Sign } from "./sign.js";
import { Sound } from "./sound.js";
import { Spectra } from "./spectra.js";
import { Verdict } from "./verdict.js";
import { View } from "./view.js";
import { Waves } from "./waves.js";

const READING_MS = 600;
const WATCH_MS = 4000;

function trouble(error) {
  const box = byId("trouble");
  box.hidden = false;
  box.textContent = error.message;
}

function calm() {
  byId("trouble").hidden = true;
}

async function open() {
  await api.enter();
  const [about, buffer, marks, first] = await Promise.all([
    api.json("side"),
    api.bytes("edits"),
    api.bytes("marks"),
    api.json("decisions"),
  ]);
  const edits = new Edits(buffer, about, new Uint8Array(marks));
  const page = build(about, edits);
  page.state(first);
  page.start();
}

function build(about, edits) {
  document.title = "Review of " + about.name;
  tell("title", about.name);
  tell("facts", facts(about));
  byId("facts").title = "seal of the ledger: " + about.seal;
  document.querySelector("main").hidden = false;

  let revision = 0;
  const view = new View(about.frames, about.sampleRateHz);
  const waves = new Waves(about, () => redraw(), trouble);
  const strip = new SideStrip(edits, about, waves, view);
  const place = new Place(edits, about, waves, view, choose);
  const spectra = new Spectra(edits, about, view, trouble);
  const sound = new Sound(about, trouble);
  sound.view = view;
  const list = new List(edits, about, choose);
  const filter = new Filter(edits, about, list);
  const verdict = new Verdict(edits, about, change);
  const rules = new Rules(edits, about, view, change);
  const sign = new Sign(about, change, ended, trouble, () => verdict.comment(false));
  let over = false;

  function redraw() {
    place.later();
    strip.stale();
  }

  function choose(index) {
    if (index < 0) return;
    list.mark(index);
    place.chosen = spectra.chosen = index;
    view.fit(edits.start[index], edits.frames[index]);
    sound.at(edits.start[index], edits.frames[index]);
    verdict.show(index).catch(trouble);
  }

  verdict.goTo = choose;
  verdict.next = () => choose(list.neighbour(1));

  function state(told) {
    revision = told.revision;
    verdict.state(told);
    rules.state(told);
    sign.state(told);
  }

  /** Changes a decision; true, or what was told, once it is on the disk. */
  async function change(path, body, leaving = false) {
    try {
      const told = await api.post(path, body, leaving);
      calm();
      if (told.edit) edits.marks[told.edit - 1] = told.mark;
      else edits.marks.set(new Uint8Array(await api.bytes("marks")));
      state(told.state);
      filter.marks();
      strip.stale();
      return told;
    } catch (error) {
      trouble(error);
      say(error.message);
      return null;
    }
  }

  function ended() {
    over = true;
    sound.stop();
    document.querySelector("main").hidden = true;
    tell("files", "");
    tell("facts", "The review is over; what was decided is in " + about.decisions + ". Next: " + about.command);
  }

  function status(told) {
    const reading = told.state === "READING";
    tell("files", reading ? "Reading the side and comparing it with the ledger: " + Math.floor(told.share * 100) + " %" : told.sentence);
    byId("files").classList.toggle("trouble", told.state === "DIFFERS" || told.state === "FAILED");
    waves.complete = told.state === "HOLDS" || told.state === "DIFFERS";
    if (reading || !status.done) {
      waves.refresh();
      redraw();
    }
    status.done = !reading;
    return reading;
  }

  async function watch() {
    if (over) return;
    let reading = false;
    try {
      if (!status.done) {
        reading = status(await api.json("status"));
      } else if (!document.hidden) {
        const told = await api.json("decisions");
        // another window of the same review
        if (told.revision !== revision) {
          edits.marks.set(new Uint8Array(await api.bytes("marks")));
          state(told);
          filter.marks();
          strip.stale();
        }
      }
      if (watch.lost) calm();
      watch.lost = false;
    } catch (error) {
      if (over) return;
      watch.lost = true;
      trouble(error);
    }
    setTimeout(watch, reading ? READING_MS : WATCH_MS);
  }

  function step(by) {
    choose(list.neighbour(by));
  }

  function start() {
    status(about.status);
    filter.apply();
    byId("help").open = false;
    window.addEventListener("recolour", () => strip.stale());
    wire({ view, edits, list, verdict, sound, filter, step, choose, place });
    if (list.order.length > 0) choose(list.order[0]);
    setTimeout(watch, READING_MS);
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        document.documentElement.dataset.readyMs = Math.round(performance.now());
      }),
    );
  }

  return { state, start };
}

function facts(about) {
  const seconds = about.frames / about.sampleRateHz;
  return [
    time(about.frames, about.sampleRateHz, 0) + " min",
    about.channels === 1 ? "mono" : "stereo",
    count(about.sampleRateHz) + " Hz",
    many(about.edits, "edit") + " (" + (about.edits / (seconds / 60)).toFixed(1) + " a minute)",
    count(about.changedSamples) + " samples changed",
    about.wholeSignal ? "stages that may touch any sample ran too; single edits are what is decided here" : "repairs only",
  ].join("; ");
}

function wire({ view, edits, list, verdict, sound, filter, step, choose, place }) {
  const quarter = () => (view.to - view.from) / 4;
  const whole = () => view.set(0, Infinity);
  const fit = () => place.chosen >= 0 && view.fit(edits.start[place.chosen], edits.frames[place.chosen]);
  const press = (id, act) => byId(id).addEventListener("click", act);
  press("closer", () => view.zoom(0.5));
  press("wider", () => view.zoom(2));
  press("earlier", () => view.move(-quarter()));
  press("later", () => view.move(quarter()));
  press("fit", fit);
  press("all", whole);
  keys([
    ["ArrowDown", "next edit of the list", () => step(1)],
    ["ArrowUp", "the edit before", () => step(-1)],
    ["PageDown", "a page of edits on", () => step(list.pageRows())],
    ["PageUp", "a page of edits back", () => step(-list.pageRows())],
    ["Home", "first edit of the list", () => step(-Infinity)],
    ["End", "last edit of the list", () => step(Infinity)],
    ["n", "next edit about which nothing is decided", () => choose(undecided(list, edits))],
    ["1", "hear the place before", () => sound.hear("before")],
    ["2", "hear it after", () => sound.hear("after")],
    ["3", "hear what was taken away", () => sound.hear("removed")],
    [" ", "stop", () => sound.again()],
    ["k", "keep the edit", () => verdict.decide("keep")],
    ["u", "undo the edit", () => verdict.decide("undo")],
    ["m", "mark it for a person", () => verdict.decide("ask")],
    ["x", "clear the decision about it", () => verdict.forget()],
    ["c", "write a comment; Ctrl Enter saves it, Escape leaves", () => byId("comment").focus()],
    ["z", "take back the last decision", () => verdict.back()],
    ["+", "look closer", () => view.zoom(0.5)],
    ["-", "look wider", () => view.zoom(2)],
    ["ArrowLeft", "earlier", () => view.move(-quarter())],
    ["ArrowRight", "later", () => view.move(quarter())],
    ["f", "show this edit", fit],
    ["0", "show the whole side", whole],
    ["s", "order by doubt or by time", () => filter.turn()],
    ["l", "to the list", () => byId("list").focus()],
    ["?", "show or hide the keys", () => showKeys()],
  ]);
}

function undecided(list, edits) {
  const order = list.order;
  for (let k = 1; k <= order.length; k++) {
    const i = order[(list.position + k) % order.length];
    if ((edits.marks[i] & 12) === 0) return i;
  }
  say("Something is decided about every edit of the list.");
  return -1;
}

function showKeys() {
  const help = byId("help");
  help.open = !help.open;
  if (help.open) {
    help.scrollIntoView();
    help.querySelector("summary").focus();
  }
}

open().catch((error) => {
  tell("title", "Review");
  trouble(error);
});
