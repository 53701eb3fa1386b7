// Decisions about many edits at once.
import { byId, count, frameOf, many, say, tell, time, wall } from "./words.js";

export class Rules {
  constructor(edits, about, view, change) {
    Object.assign(this, { edits, about, view, change });
    for (const stage of edits.stages) {
      byId("r-stage").append(new Option(stage, stage));
    }
    for (let c = 0; c < about.channels; c++) byId("r-channel").append(new Option(wall(c, about.channels), c));
    byId("rule").addEventListener("input", () => this.meets());
    byId("rule").addEventListener("submit", (e) => {
      e.preventDefault();
      this.add();
    });
    byId("r-visible").addEventListener("click", () => {
      byId("r-from").value = time(view.from, about.sampleRateHz);
      byId("r-to").value = time(view.to, about.sampleRateHz);
      this.meets();
    });
  }

  /** The rule as stated, or a sentence about what cannot be read. */
  stated() {
    const rate = this.about.sampleRateHz;
    const said = (id) => byId(id).value.trim();
    const margin = said("r-margin").replace("−", "-").replace(",", ".");
    const rule = {
      verdict: said("r-verdict"),
      stage: said("r-stage") || null,
      channel: said("r-channel") === "" ? null : Number(said("r-channel")),
      fromFrame: frameOf(said("r-from"), rate),
      toFrame: frameOf(said("r-to"), rate),
      belowMargin: margin === "" ? null : Number(margin),
      comment: said("r-comment"),
    };
    if (Number.isNaN(rule.fromFrame) || Number.isNaN(rule.toFrame)) return "Times are seconds, or minutes:seconds.";
    if (Number.isNaN(rule.belowMargin)) return "The margin is a number.";
    if (rule.fromFrame !== null && rule.toFrame !== null && rule.toFrame <= rule.fromFrame) return "The end lies before the beginning.";
    return rule;
  }

  meets() {
    const rule = this.stated();
    tell("r-meets", typeof rule === "string" ? rule : "It is about " + many(this.edits.met(rule), "edit") + ".");
  }

  async add() {
    const rule = this.stated();
    if (typeof rule === "string") {
      tell("r-meets", rule);
      return;
    }
    if (await this.change("rule", rule)) {
      for (const id of ["r-from", "r-to", "r-margin", "r-comment"]) byId(id).value = "";
      say("The rule is added.");
      tell("r-meets", "");
    }
  }

  state(state) {
    const closed = state.signOff !== null;
    for (const field of byId("rule").elements) field.disabled = closed;
    byId("rules").replaceChildren(
      ...state.rules.map((rule, index) => {
        const item = document.createElement("li");
        item.textContent = this.words(rule);
        const drop = document.createElement("button");
        drop.type = "button";
        drop.textContent = "Take it away";
        drop.setAttribute("aria-label", "Take rule " + (index + 1) + " away");
        drop.disabled = closed;
        drop.addEventListener("click", () => this.change("drop-rule", { index }));
        item.append(drop);
        return item;
      }),
    );
  }

  words(rule) {
    const rate = this.about.sampleRateHz;
    const parts = [];
    if (rule.stage) parts.push("of " + rule.stage);
    if (rule.channel !== null) parts.push(wall(rule.channel, this.about.channels));
    if (rule.fromFrame !== null) parts.push("from " + time(rule.fromFrame, rate));
    if (rule.toFrame !== null) parts.push("to " + time(rule.toFrame, rate));
    if (rule.belowMargin !== null) parts.push("margin below " + rule.belowMargin);
    const what = { undo: "Undo", keep: "Keep", ask: "Ask a person about" }[rule.verdict];
    return (
      what + " edits " + (parts.length ? parts.join(", ") : "of every kind") + ": " + count(rule.edits) + " met" +
      (rule.comment ? " (" + rule.comment + ")" : "")
    );
  }
}
